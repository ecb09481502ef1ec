"""Roof plans at random, within what docs/drawings.md allows."""

from __future__ import annotations

from random import Random

from tests.unit.drawing.random_parts import Figure, maybe


def plan(chance: Random) -> Figure:
    wide, deep = chance.choice([3000, 5000, 7000]), chance.choice([2500, 4000, 5000])
    faces = chance.choice(
        [[[0, 0], [wide, 0], [wide, deep]], [[0, deep * 0.4], [wide, deep * 0.4]]]
    )
    foot = faces[0][1]
    lap_end = [wide * 0.25, foot + 500]
    figure = {
        "walls": [{"faces": faces, "thickness_mm": 240, "roof_side": "left", **_named(chance)}],
        "items": [
            {"at": faces[1], "state": chance.choice(["open", "closed"]), "label": "corner"},
            {"from": [wide * 0.25, foot], "to": lap_end, "state": "closed", "label": "lap 3"},
            {"at": [wide * 0.4, foot], "state": "welded"},
        ],
        "things": [_torch(chance, wide, deep), *_stuff(chance, wide, deep)],
        **maybe(chance, 0.4, primer=_strip(chance, wide, foot)),
        **maybe(chance, 0.3, edges=[[[0, deep * 1.05], [wide, deep * 1.05]]]),
        **maybe(chance, 0.3, guardrails=[[[-250, deep * 0.1], [-250, deep]]]),
        **maybe(chance, 0.3, grid_mm=1000),
        **_site(chance, wide, deep, foot),
    }
    return figure | ({"spots": _spots(figure["laid"])} if "laid" in figure else {})


def _site(chance: Random, wide: float, deep: float, foot: float) -> Figure:
    """What else lies or stands on the roof of a plan."""
    return {
        **maybe(chance, 0.3, obstacles=_obstacles(chance, wide, deep)),
        **maybe(chance, 0.3, ways=_ways(chance, wide, deep)),
        **maybe(chance, 0.3, laid=_laid(chance, foot)),
        **maybe(chance, 0.3, openings=_openings(chance, wide, deep, foot)),
        **maybe(chance, 0.2, combustibles=_combustibles(chance, wide, deep)),
        **maybe(chance, 0.2, wind={"towards": [chance.choice([-1, 1]), chance.uniform(-1, 1)]}),
    }


def _obstacles(chance: Random, wide: float, deep: float) -> list[Figure]:
    kinds = chance.sample(
        ["rooflight", "plant", "stack of insulation", "pallet of rolls", "stair head"], 2
    )
    x, y = wide * 0.1, deep * 0.6
    return [
        {"kind": kinds[0], "from": [x, y], "to": [x + wide * 0.2, y + deep * 0.2]},
        {"kind": kinds[1], "from": [wide * 0.7, y], "to": [wide * 0.8, y + 900], "label": "no. 2"},
    ]


def _ways(chance: Random, wide: float, deep: float) -> list[Figure]:
    points = [[wide * 0.1, deep * 0.5], [wide * 0.5, deep * 0.5], [wide * 0.5, deep * 0.9]]
    made: Figure = {"points": points, "measured": chance.choice(["before", "after", "never"])}
    return [made | maybe(chance, 0.5, label="way A") | maybe(chance, 0.4, ok=False)]


def _laid(chance: Random, foot: float) -> list[Figure]:
    lap, plies = chance.choice([80, 100, 150]), chance.choice([[1, 1, 1], [1, 1, 2], [1, 2, 3]])
    low = [100.0, foot + 200]
    sheets = [
        {
            "from": [low[0] + i * (1000 - lap), low[1]],
            "to": [low[0] + i * (1000 - lap) + 1000, 2500],
        }
        for i in range(2)
    ]
    over = {"from": [low[0], 2500 - lap], "to": [2400, 3300]}
    made = [{**each, "ply": ply} for each, ply in zip([*sheets, over], plies, strict=True)]
    return [{**each, "label": str(i + 1)} if i % 2 else each for i, each in enumerate(made)]


def _openings(chance: Random, wide: float, deep: float, foot: float) -> list[Figure]:
    covered = chance.random() < 0.5
    return [
        {"at": [wide * 0.7, foot + 60], "label": "vent", "covered": covered},
        {"from": [wide * 0.1, foot], "to": [wide * 0.2, foot], "covered": not covered},
        {"from": [wide * 0.3, deep * 0.8], "to": [wide * 0.4, deep * 0.9], "label": "shaft"},
    ]


def _combustibles(chance: Random, wide: float, deep: float) -> list[Figure]:
    kinds = chance.sample(["timber", "paper", "foam", "screen"], 2)
    return [
        {"kind": kind, "at": [wide * chance.uniform(0.1, 0.9), deep * chance.uniform(0.3, 0.9)]}
        for kind in kinds
    ]


def _spots(laid: list[Figure]) -> list[Figure]:
    """Points at the crossing of laid sheets and on one of them."""
    (x, y), (right, top) = laid[1]["from"], laid[0]["to"]
    return [{"at": [(x + right) / 2, top - 40]}, {"at": [x + 400, y + 300], "label": "X"}]


def _named(chance: Random) -> Figure:
    return maybe(chance, 0.3, label="parapet to the street")


def _torch(chance: Random, wide: float, deep: float) -> Figure:
    at = [wide * 0.6, deep * 0.55]
    made: Figure = {"kind": "torch", "at": at, "towards": [wide * 0.9, 0], "label": "torch"}
    if chance.random() < 0.3:
        made["bent_to"] = [at[0] + 250, at[1] - 100]
    if chance.random() < 0.5:
        made["movable_x"] = {"min": 0, "max": wide, "step": 50}
        made["movable_y"] = {"min": 0, "max": deep, "step": 50}
    return made


def _stuff(chance: Random, wide: float, deep: float) -> list[Figure]:
    kinds = ["cylinder", "person", "extinguisher", "can", "melter", "roll", "vent", "bucket"]
    stuff = [
        {"kind": kind, "at": [wide * chance.uniform(0.1, 0.9), deep * chance.uniform(0.5, 0.95)]}
        for kind in chance.sample(kinds, 4)
    ]
    hands = ["torch", "extinguisher", "sheet", "watch", "nothing"]
    for thing in stuff:
        if thing["kind"] == "person":
            thing |= maybe(chance, 0.7, holds=chance.choice(hands))
    return stuff


def _strip(chance: Random, wide: float, foot: float) -> list[Figure]:
    line = {"from": [wide * 0.5, foot + 90], "to": [wide * 0.9, foot + 90]}
    return [{**line, "age": chance.choice(["wet", "dry", "dead"]), "label": "primed 09:10"}]


def after_plan(figure: Figure) -> Figure:
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
