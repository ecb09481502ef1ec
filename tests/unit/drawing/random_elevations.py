"""Wall elevations at random, within what docs/drawings.md allows."""

from __future__ import annotations

from random import Random

from tests.unit.drawing.random_parts import Figure, maybe


def elevation(chance: Random) -> Figure:
    wall = chance.choice([1500, 3000, 4500, 6000, 9000, 14000])
    states = chance.random() < 0.5
    laps = _laps(chance, 900 - chance.randrange(0, 200, 10), 900, wall, states)
    field = _laps(chance, chance.randrange(100, 900, 10), 920, wall, states)
    figure: Figure = {
        "wall_mm": wall,
        "height_mm": chance.choice([150, 300, 450, 800]),
        "field_lap_mm": chance.choice([100, 150]),
        "field_laps": field,
        **maybe(chance, 0.3, chalk_mm=150),
    }
    if chance.random() < 0.3:
        return figure | {"bare": ["sheets"], **_bare_wall(chance, wall)}
    figure |= _found(chance, wall, figure["height_mm"])
    if laps and chance.random() < 0.5:
        start = laps[0]["from_mm"]
        reach = {"min": start - 400, "max": start + 400, "step": 10}
        figure["movable"] = {"lap": 0, "range": reach}
    return figure | {"laps": laps}


def _bare_wall(chance: Random, wall: float) -> Figure:
    """A wall without sheets: primer on it, or its faces in sun and shade."""
    if chance.random() < 0.5:
        return {"primer": _primer(wall)}
    faces = [
        {"from_mm": 0, "to_mm": wall * 0.4, "sun": True, "label": "12 °C"},
        {"from_mm": wall * 0.4, "to_mm": wall, "label": chance.choice(["", "4 °C at the wall"])},
    ]
    span = {"min": 0, "max": wall, "step": 10}
    plumb = {"at": [wall * 0.5, 60], "line": "plumb", "movable_x": span, "label": "from here"}
    return {"faces": faces, **maybe(chance, 0.5, marker=plumb)}


def _found(chance: Random, wall: float, height: float) -> Figure:
    """What is found on the sheets of a wall."""
    foot = [[0, 0], [wall * 0.3, height * 0.3], [wall * 0.6, -20], [wall, height * 0.2]]
    ends = {"from_mm": wall * 0.1, "to_mm": wall * 0.4}
    return {
        **maybe(chance, 0.3, blemishes=_blemishes(chance, wall, height)),
        **maybe(chance, 0.2, cuts=[{"from": [wall * 0.5, 20], "to": [wall * 0.5, height * 0.8]}]),
        **maybe(chance, 0.2, patches=[_patch(wall, height)]),
        **maybe(chance, 0.2, open_edge=[{**ends, "edge": chance.choice(["foot", "top"])}]),
        **maybe(chance, 0.3, foot=foot, heights_at=[wall * 0.1, wall * 0.3, wall * 0.6]),
        **maybe(chance, 0.2, films=[{"sheet": 0, "half": chance.choice(["upper", "side-lap"])}]),
        **maybe(chance, 0.2, spots=[{"at": [wall * 0.2, height / 2]}, {"at": [wall * 0.8, 30]}]),
    }


def _blemishes(chance: Random, wall: float, height: float) -> list[Figure]:
    size = {"width_mm": 180, "height_mm": min(90, height * 0.4)}
    return [
        {
            "at": [wall * share, height * 0.5],
            "kind": kind,
            **size,
            **maybe(chance, 0.5, label=kind),
        }
        for share, kind in zip((0.15, 0.4, 0.65, 0.9), _FAULTS, strict=True)
    ]


_FAULTS = ("blister", "fishmouth", "wrinkle", "void")


def _patch(wall: float, height: float) -> Figure:
    return {"from": [wall * 0.7, 10], "to": [wall * 0.8, height * 0.9], "label": "patch"}


def _laps(chance: Random, start: float, pitch: float, wall: float, states: bool) -> list[Figure]:
    made = []
    while start + 110 < wall and len(made) < 16:
        wide = chance.choice([40, 80, 100, 100])
        lap: Figure = {"from_mm": start, "to_mm": start + wide}
        if states:
            lap["state"] = chance.choice(["open", "closed", "welded"])
        if chance.random() < 0.2:
            lap |= {"bottom_from_mm": start + 20, "bottom_to_mm": start + wide - 10}
        if chance.random() < 0.2:
            lap["label"] = str(len(made) + 1)
        made.append(lap)
        start += pitch
    return made


def _primer(wall: float) -> list[Figure]:
    ends = [0, wall * 0.3, wall * 0.7, wall]
    looks = [("dead", "primed 07:40"), ("dry", "09:30"), ("wet", "10:50")]
    return [
        {"from_mm": ends[i], "to_mm": ends[i + 1], "age": age, "label": label}
        for i, (age, label) in enumerate(looks)
    ]


def after_elevation(figure: Figure) -> Figure:
    wall, height = figure["wall_mm"], figure["height_mm"]
    after = [
        {
            "type": "water",
            "path": [[wall * 0.4, height], [wall * 0.42, -80]],
            "text": "into the open lap",
        },
        {"type": "note", "at": [wall * 0.7, height / 2], "text": "laps pile up here", "ok": False},
    ]
    laps, field = figure.get("laps"), figure["field_laps"]
    if not laps or not field:
        return {"after": after}
    ends = ([laps[0]["to_mm"], -60], [field[0]["from_mm"], -60])
    gap = {"type": "dimension", "from": ends[0], "to": ends[1], "text": "80 mm", "ok": False}
    return {
        "states": {"lap-0": "wrong", "field-lap-0": "right"},
        "after": [*after, gap],
    }
