"""Somebody who does anything at all that nature allows: for finding what nobody thought of."""

from __future__ import annotations

import random
from typing import Any

from trainer.installation.actions import ACTIONS
from trainer.installation.acts_crew import ALL_CLEAR
from trainer.installation.draw_job import layout
from trainer.installation.job import Job, Wall
from trainer.installation.read_decision import read_decision
from trainer.installation.run import cannot
from trainer.installation.state import Decision, State
from trainer.roofing.contract import Field

_TRIES = 12
_WAITS = (5, 10, 30)


def at_random(job: Job, state: State, chance: random.Random) -> Decision:
    """A decision that nature allows in this state; now and then everybody just waits."""
    free = [p.id for p in state.people.values() if p.free]
    names = [
        act.name
        for act in ACTIONS.values()
        if act.name != ALL_CLEAR and (job.corners or act.place != "corner")
    ]
    for _ in range(_TRIES if free else 0):
        act = ACTIONS[chance.choice(names)]
        decision = {"do": act.name, "who": chance.choice(free)}
        for field in act.fields:
            decision[field.name] = _value(job, state, field, decision, chance)
        read = read_decision(job, decision)
        if not cannot(job, state, {**read, "by": 0}):
            return decision
    return {"do": "wait", "minutes": chance.choice(_WAITS)}


def _value(job: Job, state: State, field: Field, decision: Decision, chance: random.Random) -> Any:
    """A value for one field, of the kind that field holds."""
    wall: Wall = job.wall(decision["wall"]) if "wall" in decision else chance.choice(job.walls)
    long = wall.length_mm
    values: dict[str, Any] = {
        "wall": wall.id,
        "at": chance.randrange(0, long, 10),
        "off": chance.choice((0, 500, 1500, 4000, 8000)),
        "from": 0,
        "to": chance.randrange(1000, long + 1, 100),
        "distance": wall.cant_mm + chance.choice((60, 102, 150)),
        "laps": _some_laps(job, wall.id),
        "lap_mm": job.sheet.side_lap_mm,
        "strips": chance.randrange(1, 4),
        "roll": chance.choice([roll.id for roll in job.rolls]),
        "thing": chance.choice(_things(job, state)),
        "sheet": chance.randrange(0, 6),
        "lap": chance.randrange(0, 6),
        "half": chance.choice(("top", "top", "bottom")),
        "corner": chance.randrange(0, max(1, len(job.corners))),
        "number": chance.choice((1, 2)),
        "reach": chance.choice((60, 102, 150)),
        "tool": chance.choice(("torch", "melter")),
    }
    return values[field.name]


def _some_laps(job: Job, wall: str) -> list[int]:
    start = job.stretch(wall)[0]
    return [start + low for low, _ in getattr(layout(job, wall, 0), "laps", ())]


def _things(job: Job, state: State) -> list[str]:
    names = [opening.id for opening in job.openings] + [loose.id for loose in job.loose]
    behind = [part.id for wall in job.walls for part in wall.behind]
    return [*names, *behind, *state.extinguishers] or ["nothing"]
