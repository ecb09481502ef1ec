"""Figures of every kind at random, within what docs/drawings.md allows; same seed, same figure."""

from __future__ import annotations

from collections.abc import Callable
from random import Random
from typing import Any

Figure = dict[str, Any]


def some_figure(kind: str, seed: int) -> Figure:
    """A figure of ``kind``; every third one is answered, with overlays and states."""
    chance = Random(f"{kind} {seed}")
    figure = {
        "kind": kind,
        "id": f"{kind}-{seed}",
        "title": f"{kind} {seed}",
        "desc": "What is to be seen on the roof.",
        "parts_live": chance.random() < 0.5,
        **_MAKERS[kind](chance),
    }
    if seed % 3 == 2:
        figure |= _AFTER[kind](figure)
    return figure


def in_inches(mm: float) -> str:
    """A length as a worker reads it who measures in inches, to the sixteenth."""
    whole, part = divmod(round(mm / 25.4 * 16), 16)
    if not part:
        return f"{whole} in"
    bottom = 16
    while part % 2 == 0:
        part, bottom = part // 2, bottom // 2
    return f"{whole} {part}/{bottom} in" if whole else f"{part}/{bottom} in"


def long_winded(word: str) -> str:
    """A language with long words and letters beyond ASCII."""
    return f"{word} für Dächer"


def _maybe(chance: Random, share: float, **fields: Any) -> Figure:
    return fields if chance.random() < share else {}


def _section(chance: Random) -> Figure:
    height = chance.choice([90, 150, 200, 300, 400, 600, 1100])
    cant = chance.choice([0, 0, 50, 80])
    deck = chance.choice(["concrete", "steel", "timber"])
    thick = chance.choice([100, 160, 200]) if deck == "concrete" else chance.choice([25, 50, 90])
    return {
        "height_mm": height,
        "width_mm": chance.choice([180, 240, 300, 365]),
        "deck": {"material": deck, "thickness_mm": thick},
        "core": chance.choice(["masonry", "concrete", "timber framing"]),
        "field_sheets": chance.choice([0, 1, 2]),
        "dimensions": [
            name
            for name in ("height", "width", "cant", "field_lap", "outer_drop", "chalk")
            if chance.random() < 0.4
        ],
        **({"cant": {"leg_mm": cant, "material": chance.choice(CANTS)}} if cant else {}),
        **_maybe(chance, 0.8, insulation=_insulation(chance)),
        **_maybe(chance, 0.4, nailer_mm=chance.choice([20, 38])),
        **_maybe(chance, 0.3, void={"from_mm": height * 0.3, "to_mm": height * 0.5}),
        **_maybe(chance, 0.3, vent={"from_mm": height * 0.2, "to_mm": height * 0.28}),
        **_maybe(chance, 0.3, foam=_foam(chance)),
        **_maybe(chance, 0.4, cladding={"thickness_mm": 25, "material": chance.choice(CLADS)}),
        **_maybe(chance, 0.7, flashing=_flashing(chance)),
        **_maybe(chance, 0.5, chalk=_chalk(chance)),
        **_maybe(chance, 0.2, flame={"at": [-250, 120], "towards": [0, 60]}),
        **_maybe(chance, 0.2, finish_mm=chance.choice([40, 60])),
    }


CANTS = ("mineral", "wood fibre", "timber", "foam")
CLADS = ("metal", "timber", "masonry")


def _insulation(chance: Random) -> Figure:
    return {
        "material": chance.choice(["foam", "mineral wool"]),
        "thickness_mm": chance.choice([30, 60, 100, 200]),
    }


def _foam(chance: Random) -> Figure:
    return {
        "thickness_mm": chance.choice([30, 50]),
        "side": chance.choice(["inside", "outside"]),
    }


def _flashing(chance: Random) -> Figure:
    return {
        "field_lap_mm": chance.choice([60, 100, 150]),
        "outer_drop_mm": chance.choice([0, 40, 60]),
    }


def _chalk(chance: Random) -> Figure:
    made: Figure = {"at_mm": chance.choice([100, 150, 200])}
    return made | _maybe(chance, 0.6, movable={"min": 0, "max": 400, "step": 5})


def _after_section(figure: Figure) -> Figure:
    return {
        "states": {"deck": "right", "core": "wrong"},
        "after": [
            {
                "type": "dimension",
                "from": [-180, 30],
                "to": [0, 30],
                "text": "80 + 100 = 180 mm",
                "ok": False,
            },
            {
                "type": "water",
                "path": [[-150, 60], [-60, 40], [-20, -20]],
                "text": "water runs in behind the sheet",
            },
            {"type": "ghost", "outline": [[-200, 0], [-200, 40]], "text": "the line belongs here"},
            {"type": "note", "at": [60, 40], "text": "wet insulation", "ok": False},
        ],
    }


def _elevation(chance: Random) -> Figure:
    wall = chance.choice([1500, 3000, 4500, 6000, 9000, 14000])
    states = chance.random() < 0.5
    laps = _laps(chance, 900 - chance.randrange(0, 200, 10), 900, wall, states)
    field = _laps(chance, chance.randrange(100, 900, 10), 920, wall, states)
    figure: Figure = {
        "wall_mm": wall,
        "height_mm": chance.choice([150, 300, 450, 800]),
        "field_lap_mm": chance.choice([100, 150]),
        "field_laps": field,
        **_maybe(chance, 0.3, chalk_mm=150),
    }
    if chance.random() < 0.3:
        return figure | {"bare": ["sheets"], "primer": _primer(wall)}
    if laps and chance.random() < 0.5:
        start = laps[0]["from_mm"]
        reach = {"min": start - 400, "max": start + 400, "step": 10}
        figure["movable"] = {"lap": 0, "range": reach}
    return figure | {"laps": laps}


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


def _after_elevation(figure: Figure) -> Figure:
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


def _plan(chance: Random) -> Figure:
    wide, deep = chance.choice([3000, 5000, 7000]), chance.choice([2500, 4000, 5000])
    faces = chance.choice(
        [[[0, 0], [wide, 0], [wide, deep]], [[0, deep * 0.4], [wide, deep * 0.4]]]
    )
    foot = faces[0][1]
    lap_end = [wide * 0.25, foot + 500]
    return {
        "walls": [{"faces": faces, "thickness_mm": 240, "roof_side": "left", **_named(chance)}],
        "items": [
            {"at": faces[1], "state": chance.choice(["open", "closed"]), "label": "corner"},
            {"from": [wide * 0.25, foot], "to": lap_end, "state": "closed", "label": "lap 3"},
            {"at": [wide * 0.4, foot], "state": "welded"},
        ],
        "things": [_torch(chance, wide, deep), *_stuff(chance, wide, deep)],
        **_maybe(chance, 0.4, primer=_strip(chance, wide, foot)),
        **_maybe(chance, 0.3, edges=[[[0, deep * 1.05], [wide, deep * 1.05]]]),
        **_maybe(chance, 0.3, guardrails=[[[-250, deep * 0.1], [-250, deep]]]),
        **_maybe(chance, 0.3, grid_mm=1000),
    }


def _named(chance: Random) -> Figure:
    return _maybe(chance, 0.3, label="parapet to the street")


def _torch(chance: Random, wide: float, deep: float) -> Figure:
    at = [wide * 0.6, deep * 0.55]
    made: Figure = {"kind": "torch", "at": at, "towards": [wide * 0.9, 0], "label": "torch"}
    if chance.random() < 0.5:
        made["movable_x"] = {"min": 0, "max": wide, "step": 50}
        made["movable_y"] = {"min": 0, "max": deep, "step": 50}
    return made


def _stuff(chance: Random, wide: float, deep: float) -> list[Figure]:
    kinds = ["cylinder", "person", "extinguisher", "can", "melter", "roll", "vent", "bucket"]
    return [
        {"kind": kind, "at": [wide * chance.uniform(0.1, 0.9), deep * chance.uniform(0.5, 0.95)]}
        for kind in chance.sample(kinds, 4)
    ]


def _strip(chance: Random, wide: float, foot: float) -> list[Figure]:
    line = {"from": [wide * 0.5, foot + 90], "to": [wide * 0.9, foot + 90]}
    return [{**line, "age": chance.choice(["wet", "dry", "dead"]), "label": "primed 09:10"}]


def _after_plan(figure: Figure) -> Figure:
    tip, corner = figure["things"][0]["at"], figure["items"][0]["at"]
    half = [(tip[0] + corner[0]) / 2, tip[1] + 300]
    return {
        "states": {"item-0": "missed", "torch-0": "chosen"} if not _moves(figure) else {},
        "after": [
            {"type": "circle", "at": corner, "radius_mm": 1000, "text": "1000 mm"},
            {
                "type": "dimension",
                "from": tip,
                "to": corner,
                "text": "840 mm, too near",
                "ok": False,
            },
            {"type": "fire", "path": [tip, half, corner], "text": "behind the open sheet"},
            {"type": "ghost", "at": [tip[0] / 2, tip[1]], "text": "stand here"},
        ],
    }


def _moves(figure: Figure) -> bool:
    return "movable_x" in figure["things"][0]


def _flat(chance: Random) -> Figure:
    wide, leg = chance.choice([900, 1000, 1200]), chance.choice([100, 150])
    up, top = chance.choice([200, 300, 500]), chance.choice([150, 240])
    high, fold = leg + up + top, wide * chance.choice([0.3, 0.5])
    return {
        "outline": [[0, 0], [wide, 0], [wide, high], [0, high]],
        "folds": [
            {"from": [0, leg], "to": [wide, leg]},
            {"from": [fold, leg], "to": [fold, leg + up], "label": "corner"},
        ],
        "slits": [
            {"from": [fold, 0], "to": [fold, leg], "overcut_mm": chance.choice([0, 15])},
            {"from": [fold, high], "to": [fold, leg + up]},
        ],
        "legs": [
            {"from_mm": 0, "to_mm": leg, "label": "field"},
            {"from_mm": leg, "to_mm": leg + up, "label": "wall"},
            {"from_mm": leg + up, "to_mm": high, "label": "top"},
        ],
        **_maybe(chance, 0.5, films=_films(wide, high)),
        **_maybe(chance, 0.5, areas=_areas(fold, leg, leg + up, high)),
        **_maybe(chance, 0.4, cuts=[[[wide - 100, high], [wide, high - 100]]]),
        **_maybe(chance, 0.3, gusset=[[fold - 80, -20], [fold + 80, -20], [fold, leg + 60]]),
        **_maybe(chance, 0.4, marker=_marker(chance, fold, leg)),
        **_maybe(chance, 0.5, dimensions=[{"from": [0, high], "to": [wide, high]}]),
    }


def _films(wide: float, high: float) -> list[Figure]:
    side, half = wide - 90, high / 2
    return [
        {
            "film": "upper",
            "outline": [[0, half], [side, half], [side, high], [0, high]],
            "label": "upper half",
        },
        {
            "film": "lower",
            "outline": [[0, 0], [side, 0], [side, half], [0, half]],
            "label": "lower half",
        },
        {"film": "side-lap", "outline": [[side, 0], [wide, 0], [wide, high], [side, high]]},
    ]


def _areas(fold: float, leg: float, shoulder: float, high: float) -> list[Figure]:
    reach = high - shoulder
    return [
        {"state": "bare", "outline": [[fold, 0], [fold + leg, 0], [fold, leg]]},
        {
            "state": "double",
            "outline": [[fold, shoulder], [fold + reach, high], [fold, high]],
            "label": "doubled",
        },
        {"outline": [[fold - leg, 0], [fold, 0], [fold, leg]]},
    ]


def _marker(chance: Random, fold: float, leg: float) -> Figure:
    made: Figure = {"at": [fold, leg * 0.7], "label": "end of the slit"}
    return made | _maybe(chance, 0.7, movable_y={"min": 0, "max": 600, "step": 5})


def _after_flat(figure: Figure) -> Figure:
    fold = figure["folds"][1]["from"]
    return {
        "states": {"slit-0": "right", "fold-1": "wrong"},
        "after": [
            {
                "type": "dimension",
                "from": fold,
                "to": [fold[0] + 140, fold[1]],
                "text": "reach 140 mm",
                "ok": True,
            },
            {
                "type": "note",
                "at": [fold[0] + 30, 30],
                "text": "bare: the gusset must cover it",
                "ok": False,
            },
        ],
    }


def _timeline(chance: Random) -> Figure:
    start = chance.choice([420, 445, 700])
    now = start + chance.choice([60, 150, 200])
    kinds = ["rain", "dew", "frost", "dust", "footprints", "break", "flame", "flame-out", "smoke"]
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
        **_maybe(chance, 0.6, bands=_stretches(start)),
    }
    moving = {"at_min": start + 90, "label": "last to lay", "movable": _span(start)}
    still = {"at_min": start + 180, "label": "last minute"}
    return figure | _maybe(chance, 0.5, markers=[chance.choice([moving, still])])


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


def _after_timeline(figure: Figure) -> Figure:
    first, last = figure["events"][0]["at_min"], figure["events"][2]["at_min"]
    text = f"{last - first} min"
    return {
        "states": {"event-0": "right", "event-1": "wrong"},
        "after": [
            {"type": "dimension", "from": [first, 0], "to": [last, 0], "text": text, "ok": True}
        ],
    }


_MAKERS: dict[str, Callable[[Random], Figure]] = {
    "parapet-section": _section,
    "wall-elevation": _elevation,
    "roof-plan": _plan,
    "flat-pattern": _flat,
    "timeline": _timeline,
}
_AFTER: dict[str, Callable[[Figure], Figure]] = {
    "parapet-section": _after_section,
    "wall-elevation": _after_elevation,
    "roof-plan": _after_plan,
    "flat-pattern": _after_flat,
    "timeline": _after_timeline,
}
KINDS = tuple(_MAKERS)
