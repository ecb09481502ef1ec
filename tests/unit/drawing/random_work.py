"""Walls at work and days at random, within what docs/drawings.md allows."""

from __future__ import annotations

from random import Random

from tests.unit.drawing.random_parts import Figure, maybe

_STATES = ("open", "closed", "welded")


def work(chance: Random) -> Figure:
    """A wall of any length, from bare to dressed."""
    wall = chance.choice([1200, 3600, 5200, 9000, 14000, 30000])
    width = chance.choice([700, 900, 1000])
    edges = list(range(0, wall - 300, width))
    done = chance.randrange(0, len(edges) + 1)
    figure: Figure = {
        "wall_mm": wall,
        "height_mm": chance.choice([150, 300, 450]),
        "field_laps": [{"from_mm": x, "to_mm": x + 100} for x in range(400, wall - 100, 1000)],
        "caption": {"id": "wall", "label": "Wall A, in the sun"},
        **maybe(chance, 0.5, light=chance.choice(["sun", "shade"])),
        **maybe(chance, 0.4, rail=False),
        **maybe(chance, 0.5, chalk_mm=100),
        **maybe(chance, 0.2, sealed=True),
        "things": _things(chance, wall),
    }
    if chance.random() < 0.3:
        return figure | {"stretches": _pieces(edges, wall, 0, len(edges), "stretch")}
    return (
        figure
        | _found(chance, wall)
        | {
            "primer": _primer(chance, wall),
            "marks": _pieces(edges, wall, done, len(edges), "sheet"),
            "sheets": _sheets(chance, edges, wall, done),
            "laps": _laps(chance, edges[1:done]),
            "corners": _corners(chance),
        }
    )


def _pieces(edges: list[int], wall: int, low: int, high: int, word: str) -> list[Figure]:
    ends = [*edges[1:], wall]
    return [
        {
            "from_mm": edges[i],
            "to_mm": min(ends[i] + 100, wall),
            "id": f"{word}-{i}",
            "label": str(i + 1),
        }
        for i in range(low, high)
    ]


def _sheets(chance: Random, edges: list[int], wall: int, done: int) -> list[Figure]:
    made = _pieces(edges, wall, 0, done, "sheet")
    return [sheet | {"rolled": chance.random() < 0.5, "field_lap_mm": 100} for sheet in made]


def _laps(chance: Random, starts: list[int]) -> list[Figure]:
    return [
        {
            "from_mm": start,
            "to_mm": start + chance.choice([60, 100]),
            "id": f"lap-{i + 1}",
            "state": chance.choice(_STATES),
            **maybe(chance, 0.2, left_on_top=True),
            **maybe(chance, 0.2, label="60 mm"),
        }
        for i, start in enumerate(starts)
    ]


def _primer(chance: Random, wall: int) -> list[Figure]:
    middle = wall // 2
    found = [{"from_mm": 0, "to_mm": middle, "label": "primed 09:12–09:20", "short": "09:12"}]
    later = {"from_mm": middle, "to_mm": middle + 300, "label": "primed 10:00", "short": "10:00"}
    return found + ([later] if chance.random() < 0.5 else [])


def _found(chance: Random, wall: int) -> Figure:
    third = wall // 3
    fuel = {"from_mm": third, "to_mm": 2 * third, "id": "behind-0", "label": "timber nailer"}
    hole = {"at_mm": third, "id": "opening-0", "label": "scupper"}
    return {
        **maybe(chance, 0.4, behind=[fuel | {"covered": chance.random() < 0.5}]),
        **maybe(chance, 0.4, openings=[hole | {"covered": chance.random() < 0.5}]),
        **maybe(
            chance, 0.3, damp=[{"from_mm": third, "to_mm": third + 200, "label": "damp 07:40"}]
        ),
        **maybe(chance, 0.2, spoilt=[{"from_mm": 0, "to_mm": third, "label": "footprints"}]),
    }


def _corners(chance: Random) -> list[Figure]:
    slits = ("none", "open", "filled", "gusset")
    return [
        {
            "end": end,
            "leg_mm": 500,
            "id": f"corner-{i}",
            "slit": chance.choice(slits),
            "label": f"inside corner {i + 1}",
        }
        for i, end in enumerate(("left", "right"))
        if chance.random() < 0.5
    ]


def _things(chance: Random, wall: int) -> list[Figure]:
    touch = {"at_mm": wall // 4, "kind": "touch", "label": "dry 09:42"}
    torch = {"at_mm": wall, "kind": chance.choice(["torch", "melter", "person"])}
    return [thing for thing in (touch, torch) if chance.random() < 0.4]


def after_work(figure: Figure) -> Figure:
    """Answered: a note on the wall, and its name right."""
    note = {"type": "note", "at": [300, 60], "text": "begun here", "ok": True}
    return {"states": {"wall": "right"}, "after": [note]}


def days(chance: Random) -> Figure:
    """One to three days of the same crew."""
    names = ["Dana", "Ivo", "Noor of the long name"][: chance.randrange(1, 4)]
    made = [_day(chance, name, names) for name in ("Your day", "The best day", "Another")]
    made[0]["findings"] = _findings(chance)
    return {"from_min": 420, "to_min": 960, "days": made[: chance.randrange(1, 4)]}


def _day(chance: Random, name: str, names: list[str]) -> Figure:
    marks = [{"at_min": 700, "kind": "flame-out"}, {"at_min": 900, "kind": "end", "label": "15:00"}]
    return {
        "name": name,
        "tracks": [{"name": who, "blocks": _blocks(chance)} for who in names],
        **maybe(chance, 0.5, rain=[{"from_min": 600, "to_min": 630}]),
        **maybe(chance, 0.7, marks=marks),
    }


def _blocks(chance: Random) -> list[Figure]:
    kinds = ["look", "prepare", "prime", "lay", "flame", "watch", "lunch", "errand"]
    at, made = 425, []
    for _ in range(chance.randrange(1, 20)):
        lasts = chance.choice([2, 5, 8, 20])
        made.append({"from_min": at, "to_min": at + lasts, "kind": chance.choice(kinds)})
        at += lasts + chance.choice([0, 0, 4])
    return made


def _findings(chance: Random) -> list[Figure]:
    times = sorted(chance.randrange(420, 960) for _ in range(chance.randrange(0, 12)))
    return [
        {"at_min": at, "label": str(i + 1), "grave": chance.random() < 0.5}
        for i, at in enumerate(times)
    ]


def after_days(figure: Figure) -> Figure:
    """Answered: nothing more to press."""
    return {"after": []}
