"""Timelines at random, within what docs/drawings.md allows."""

from __future__ import annotations

from random import Random

from tests.unit.drawing.random_parts import Figure, maybe


def timeline(chance: Random) -> Figure:
    start = chance.choice([420, 445, 700, 1290])
    now = start + chance.choice([60, 150, 200])
    kinds = ["rain", "dew", "frost", "dust", "footprints", "break", "flame", "flame-out", "smoke"]
    kinds += ["delivery", "roll", "dark", "burn"]
    events = [
        {"at_min": start, "kind": "applied", "label": "primer applied to the north wall"},
        {"at_min": start + 40, "kind": "touch", "label": "touch test: dry"},
        {"at_min": now, "kind": "now"},
    ]
    events += [
        {"at_min": start + chance.randrange(0, 200), "kind": kind}
        for kind in chance.sample(kinds, chance.randrange(0, 6))
    ]
    figure: Figure = {
        "from_min": start - 20,
        "to_min": start + chance.choice([240, 300, 600]),
        "events": events,
    }
    if chance.random() < 0.3:
        figure |= _tracks(chance, start)
    else:
        figure |= maybe(chance, 0.6, bands=_stretches(start))
    moving = {"at_min": start + 90, "label": "last to lay", "movable": _span(start)}
    still = {"at_min": start + 180, "label": "last minute"}
    return figure | maybe(chance, 0.5, markers=[chance.choice([moving, still])])


def _tracks(chance: Random, start: float) -> Figure:
    """Two people's turns, and who must always watch."""
    names = chance.choice([["Ana", "Bram"], ["Teo", "Cormac of the crew"]])
    turns = [
        [("watch", 0, 60), ("eat", 60, 100), ("watch", 100, 200)],
        [("torch", 0, 70), ("watch", 70, 95), ("seal", 110, 180)],
    ]
    tracks = [
        {
            "name": name,
            "bands": [
                {"from_min": start + a, "to_min": start + b, "kind": kind} for kind, a, b in each
            ],
        }
        for name, each in zip(names, turns, strict=True)
    ]
    cover = {"kind": "watch", "from_min": start, "to_min": start + 200}
    return {"tracks": tracks, **maybe(chance, 0.7, cover=cover)}


def _span(start: float) -> Figure:
    return {"min": start, "max": start + 220, "step": 5}


def _stretches(start: float) -> list[Figure]:
    ends = [0, 40, 120, 180, 230]
    looks = [("drying", "drying"), ("plan", "plan to lay"), ("late", ""), ("dead", "prime again")]
    bands = [
        {"from_min": start + ends[i], "to_min": start + ends[i + 1], "kind": kind, "label": label}
        for i, (kind, label) in enumerate(looks)
    ]
    return [*bands, {"from_min": start + 60, "to_min": start + 75, "kind": "break"}]


def after_timeline(figure: Figure) -> Figure:
    first, last = figure["events"][0]["at_min"], figure["events"][2]["at_min"]
    text = f"{last - first} min"
    return {
        "states": {"event-0": "right", "event-1": "wrong"},
        "after": [
            {"type": "dimension", "from": [first, 0], "to": [last, 0], "text": text, "ok": True}
        ],
    }
