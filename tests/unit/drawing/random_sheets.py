"""Flat patterns and lap sections at random, within what docs/drawings.md allows."""

from __future__ import annotations

from random import Random

from tests.unit.drawing.random_parts import Figure, maybe


def flat(chance: Random) -> Figure:
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
        **maybe(chance, 0.5, films=_films(wide, high)),
        **maybe(chance, 0.5, areas=_areas(fold, leg, leg + up, high)),
        **maybe(chance, 0.4, cuts=[[[wide - 100, high], [wide, high - 100]]]),
        **maybe(chance, 0.3, gusset=[[fold - 80, -20], [fold + 80, -20], [fold, leg + 60]]),
        **maybe(chance, 0.4, marker=_marker(chance, fold, leg)),
        **maybe(chance, 0.3, corner_cuts=_corners(chance, wide, high)),
        **maybe(chance, 0.2, gussets=_gussets(fold)),
        **maybe(chance, 0.2, spots=[{"at": [0, high]}, {"at": [fold, leg], "label": "S"}]),
        **maybe(chance, 0.5, dimensions=[{"from": [0, high], "to": [wide, high]}]),
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


def lap_section(chance: Random) -> Figure:
    lap = chance.choice([60, 80, 100, 120])
    figure: Figure = {
        "lap_mm": lap,
        "top_mm": chance.choice([3, 4, 5]),
        "dimensions": chance.choice([[], ["lap"], ["lap", "bead"]]),
    }
    if chance.random() < 0.3:
        return figure | {"beads": [_bead(chance) for _ in range(chance.choice([2, 3, 5]))]}
    figure["bead"] = _bead(chance) | maybe(chance, 0.3, label="the bead")
    span = {"min": 0, "max": lap, "step": 1}
    return figure | {
        **maybe(chance, 0.3, void={"from_mm": 12, "to_mm": 30}),
        **maybe(chance, 0.3, film={"from_mm": 32, "to_mm": 44, "kind": "weldable"}),
        **maybe(chance, 0.3, third={"from_mm": 55, "filled": chance.random() < 0.5}),
        **maybe(chance, 0.3, roller={"at_mm": 40}),
        **maybe(chance, 0.4, marker={"at_mm": 20, "label": "first bond", "movable": span}),
    }


def _bead(chance: Random) -> Figure:
    burnt = chance.choice(["no", "no", "burnt", "smoking"])
    return {"width_mm": chance.choice([0, 2, 6, 9, 15, 24]), "burnt": burnt}


def after_lap(figure: Figure) -> Figure:
    out = figure["bead"]["width_mm"] if "bead" in figure else 0
    size = {"type": "dimension", "from": [-out, 4], "to": [0, 4], "text": f"{out} mm", "ok": False}
    after: list[Figure] = [{"type": "note", "at": [8, 2], "text": "it holds here", "ok": True}]
    states = {"top-sheet": "right"} | ({"bead": "wrong"} if "bead" in figure else {})
    return {"states": states, "after": after + ([size] if out > 4 else [])}


def _corners(chance: Random, wide: float, high: float) -> list[Figure]:
    span = {"min": 0, "max": 200, "step": 5}
    moving = {"at": [wide, high], "corner": "top right", "leg_mm": 80, "movable": span}
    return [{"at": [0, 0], "corner": "bottom left", "leg_mm": 60, "label": "cut here"}, moving][
        : chance.choice([1, 2])
    ]


def _gussets(fold: float) -> list[Figure]:
    return [
        {"outline": [[fold - w, -20], [fold + w, -20], [fold, 40 + w]]}
        for w in (60.0, 100.0, 160.0)
    ]


def _marker(chance: Random, fold: float, leg: float) -> Figure:
    made: Figure = {"at": [fold, leg * 0.7], "label": "end of the slit"}
    return made | maybe(chance, 0.7, movable_y={"min": 0, "max": 600, "step": 5})


def after_flat(figure: Figure) -> Figure:
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
