"""Reads a decision: every field of its kind, and what is left out filled in."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from trainer.errors import InputError
from trainer.installation.act import Act
from trainer.installation.actions import ACTIONS, FOR_ALL
from trainer.installation.job import Job
from trainer.installation.state import Decision
from trainer.roofing.contract import Choice, Field, Flag, Number, check_fields, no_rule

_WAIT = (
    Field("minutes", Number("min", low=0, high=720, whole=True), "how long, 0: until something", 0),
)
_THROUGH = {"lay": "sheet", "roll": "sheet", "weld": "lap"}
"""Actions that can go on over the next ones, up to the one named ``through``."""


def read_decision(job: Job, decision: Mapping[str, Any]) -> Decision:
    """A decision with every field checked and filled in. Raises InputError."""
    if not isinstance(decision, Mapping):
        raise InputError("decision", decision, "a block of fields: do, and what belongs to it")
    do = decision.get("do")
    if do in FOR_ALL:
        fields = _WAIT if do == "wait" else ()
        rest = {k: v for k, v in decision.items() if k != "do"}
        return {"do": do, **check_fields(fields, rest, no_rule)}
    act = ACTIONS.get(do) if isinstance(do, str) else None
    if act is None:
        told = [name for name, act in ACTIONS.items() if act.place]
        raise InputError("do", do, f"one of {', '.join((*told, *FOR_ALL))}")
    rest = {k: v for k, v in decision.items() if k != "do"}
    read = {"do": do, **check_fields((*act.fields, *_people(job, act)), rest, no_rule)}
    if read.get("with") is None:
        read.pop("with", None)
    walls = [wall.id for wall in job.walls]
    if "wall" in read and read["wall"] not in walls:
        raise InputError("wall", read["wall"], f"one of {', '.join(walls)}")
    if "corner" in read and read["corner"] >= len(job.corners):
        raise InputError("corner", read["corner"], f"a corner of this job, of {len(job.corners)}")
    if "through" in read and read["through"] is None:
        del read["through"]
    return read


def _people(job: Job, act: Act) -> tuple[Field, ...]:
    names = Choice(tuple(hand.id for hand in job.crew))
    fields = [Field("who", names, "who does it")]
    if act.two:
        fields.append(Field("with", names, "who lends a hand", optional=True))
    if act.name in _THROUGH:
        number = Number(low=0, high=99, whole=True)
        fields.append(Field("through", number, "the last of a row of them", optional=True))
        if act.name == "lay":
            fields.append(Field("rolling", Flag(), "each rolled at once", False))
    return tuple(fields)


def row_of(read: Decision) -> list[Decision]:
    """A decision over a row of sheets or laps as single tasks, one after the other."""
    counted = _THROUGH.get(read["do"])
    base = {k: v for k, v in read.items() if k not in ("through", "rolling")}
    if counted is None:
        return [base]
    first: int = read[counted]
    last: int = read.get("through", first)
    step = 1 if last >= first else -1
    tasks = []
    for number in range(first, last + step, step):
        tasks.append({**base, counted: number})
        if read.get("rolling"):
            roll = {k: base[k] for k in ("who", "wall")}
            tasks.append({**roll, "do": "roll", "sheet": number})
    return tasks
