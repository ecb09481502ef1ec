"""Plays made at random: most decisions are such as a crew could take, many of them wrong."""

from __future__ import annotations

import random

from tests.unit.installation.small_jobs import corner_job, small_job
from trainer.errors import InputError
from trainer.installation.run import Impossible, decide
from trainer.installation.state import begin

_HAPPENS = {
    "weather": {"rain": [["10:10", "10:30"]], "gusts": [["08:30", "08:50"]]},
    "happenings": [
        {"at": "08:40", "kind": "footprints", "wall": "A", "from_mm": 300, "to_mm": 900},
        {"at": "11:00", "kind": "smoke", "wall": "A"},
    ],
    "openings": [{"id": "vent", "wall": "A", "at_mm": 700, "off_mm": 900, "what": "vent"}],
    "loose": [{"id": "bags", "wall": "A", "at_mm": 700, "off_mm": 2900, "what": "bags"}],
    "lunch": {"from_at": "11:00", "by": "12:30", "minutes": 30},
    "gas": {"minutes": 40, "wall": "A", "at_mm": 1400, "off_mm": 9400, "spare": 1},
}


def busy_corner_job(kind="inside"):
    """A corner with a shower, gusts, footprints, smoke, lunch and little gas."""
    return corner_job(kind, **_HAPPENS)


def busy_wall_job():
    """A wall with a nailer, a damp stretch, no rail, cold rolls and all that can happen."""
    wall = {
        "behind": [{"id": "nail", "from_mm": 2000, "to_mm": 2800, "what": "timber nailer"}],
        "damp": [{"from_mm": 200, "to_mm": 700, "dry_at": "09:00"}],
        "rail": False,
    }
    rolls = [{"id": "r1", "cold": True}, {"id": "r2"}]
    return small_job(wall=wall, rolls=rolls, **_HAPPENS)


def _some(job, chance):
    """One decision of every kind, at a place and by a person drawn by chance."""
    wall = chance.choice([wall.id for wall in job.walls])
    long = job.wall(wall).length_mm
    start, end = job.stretch(wall)
    who = chance.choice([hand.id for hand in job.crew])
    spot = {
        "wall": wall,
        "at": chance.randrange(0, long, 50),
        "off": chance.choice([0, 1200, 7700]),
    }
    sheet = chance.randrange(0, 1 + (end - start) // 800)
    stretch = sorted(chance.sample(range(0, long + 1, 100), 2))
    made = [
        {"do": "look", "wall": wall},
        {"do": "probe", "wall": wall},
        {"do": "measure", "wall": wall},
        {"do": "touch", "wall": wall, "at": chance.randrange(0, long, 50)},
        {"do": "dry", "wall": wall, "from": 0, "to": long},
        {"do": "prime", "wall": wall, "from": 0, "to": long},
        {"do": "prime", "wall": wall, "from": stretch[0], "to": stretch[1]},
        {"do": "snap", "wall": wall, "distance": chance.choice([110, 160])},
        set_out(chance, wall, start, end),
        {"do": "cut", "strips": chance.randint(1, 6), "roll": chance.choice(job.rolls).id},
        {"do": "lay", "wall": wall, "sheet": 0, "through": sheet, "rolling": True},
        _laid(job, chance, wall, sheet, who),
        {"do": "roll", "wall": wall, "sheet": sheet},
        {"do": "strip", "wall": wall, "sheet": sheet},
        {"do": "light", "tool": "torch", **spot},
        {"do": "preheat", "strips": chance.randint(1, 4)},
        {"do": "weld", "wall": wall, "lap": chance.randrange(0, 3), "through": 3},
        {"do": "weld", "wall": wall, "lap": sheet},
        {"do": "put out"},
        {"do": chance.choice(["open permit", "close permit", "bag film", "close cans"])},
        {"do": chance.choice(["watch", "end watch", "last look", "lunch", "change gas"])},
        {"do": chance.choice(["check rolls", "fetch warm rolls", "bag film"])},
        {"do": "seal", "wall": wall},
        {"do": "rail", "wall": wall},
        {"do": "move gas", **spot},
        {"do": "move extinguisher", "thing": "ext1", **spot},
        {"do": "cover", "thing": _thing(job, chance)},
        {"do": "clear", "thing": _thing(job, chance)},
    ]
    made += _at_corners(job, chance, spot)
    return [{"who": who, **made_one} for made_one in made]


def set_out(chance, wall, start, end):
    """Laps at even steps between the ends of what wall sheets cover."""
    step = chance.choice([700, 850, 900])
    laps = list(range(start + step, end - 150, step))
    return {"do": "set out", "wall": wall, "laps": laps, "lap_mm": chance.choice([60, 100])}


def _laid(job, chance, wall, sheet, who):
    lay = {"do": "lay", "wall": wall, "sheet": sheet, "half": chance.choice(["top", "bottom"])}
    if chance.random() < 0.4:
        lay["with"] = chance.choice([hand.id for hand in job.crew if hand.id != who])
    return lay


def _thing(job, chance):
    behind = [part.id for wall in job.walls for part in wall.behind]
    loose = [part.id for part in (*job.openings, *job.loose)]
    return chance.choice([*behind, *loose, "ext1"])


def _at_corners(job, chance, spot):
    if not job.corners:
        return []
    corner = {"corner": chance.randrange(len(job.corners))}
    number = {"number": chance.choice([1, 2])}
    return [
        {"do": "lay corner", **corner, **number},
        {"do": "lay corner", **corner, "number": 1},
        {"do": "lay corner", **corner, "number": 2},
        {"do": "roll corner", **corner, **number},
        {"do": "roll corner", **corner, **number},
        {"do": "trim", **corner},
        {"do": "fill", **corner},
        {"do": "fill", **corner},
        {"do": "light", "tool": "melter", **spot},
        {"do": "put out", "tool": "melter"},
        {"do": "gusset", **corner, "reach": chance.choice([80, 150])},
        {"do": "strip corner", **corner, **number},
    ]


_FORWARD = ("lay", "roll", "weld", "lay corner", "roll corner", "fill", "gusset", "preheat", "cut")


def _next(job, limits, state, chance):
    """A decision that nature allows, mostly one that brings the work on, and what comes of it."""
    luck = chance.random()
    busy = sum(not person.free for person in state.people.values())
    if luck < 0.05 + 0.25 * busy:
        given = [{"do": "wait", "minutes": chance.choice([0, 0, 0, 1, 7, 20, 45])}]
    elif luck > 0.99:
        given = [chance.choice([{"do": "stop"}, {"do": "alarm"}])]
    else:
        given = _some(job, chance)
        chance.shuffle(given)
        given.sort(key=lambda d: d["do"] not in _FORWARD or chance.random() < 0.4)
    for decision in given:
        try:
            return decision, decide(job, limits, state, decision)
        except (Impossible, InputError):
            continue
    return None


def play(job, limits, seed, count=60):
    """Yield (state before, decision, state after) for up to ``count`` decisions nature allowed."""
    chance, state = random.Random(seed), begin(job)
    for _ in range(count):
        taken = _next(job, limits, state, chance)
        if taken is None:
            continue
        yield state, *taken
        state = taken[1]
        if state.ended is not None:
            return
