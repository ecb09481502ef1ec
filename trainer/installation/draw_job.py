"""Draws a job: a specification with ranges and a seed make one job whose every value is given.

A specification is a job in which values may be drawn. ``draws`` names them:

- ``{between: [800, 1400], step: 50}`` a whole number, both ends included;
- ``{between: ["12:00", "13:30"], step: 5}`` a time of day;
- ``{one_of: [...]}`` any one of them.

Anywhere in the job stand then ``{of: name}``, ``{of: name, plus: 30}`` (minutes, where it is a
time), ``{if: name, then: …, else: …}`` for a drawn true or false, and, for laps of the field,
``{every: 1000, first: 250, width: 100, until: 6000}``.
"""

from __future__ import annotations

import random
from collections.abc import Mapping
from typing import Any

from trainer.errors import InputError
from trainer.installation.job import Job
from trainer.installation.job_fields import EVERY
from trainer.installation.read_job import read_job
from trainer.roofing.clock import hhmm
from trainer.roofing.sheets import Layout, Stuck, set_out
from trainer.roofing.sheets import Wall as WallToSetOut

MOST_TRIES = 60


def draw_job(spec: Mapping[str, Any], seed: int, clear_mm: int) -> Job:
    """The job of a seed (a whole number from 0): the same one every time.

    ``clear_mm`` is the distance that laps must keep from laps of the field. A draw whose laps no
    layout can keep clear is drawn again from the same seed. Raises InputError for a specification
    that cannot be read, and when no draw works.
    """
    if not isinstance(seed, int) or isinstance(seed, bool) or seed < 0:
        raise InputError("seed", seed, "a whole number from 0")
    stuck: InputError | None = None
    for attempt in range(MOST_TRIES):
        chance = random.Random(f"{spec.get('id')}/{spec.get('version')}/{seed}/{attempt}")
        job = read_job(drawn(spec, chance))
        stuck = why_stuck(job, clear_mm)
        if stuck is None:
            return job
    raise stuck or InputError("draws", len(spec), "a job that can be drawn")


def drawn(spec: Mapping[str, Any], chance: random.Random) -> dict[str, Any]:
    """The specification with every value in its place. Raises InputError."""
    names = {name: _value(name, how, chance) for name, how in (spec.get("draws") or {}).items()}
    return {key: _filled(key, part, names) for key, part in spec.items() if key != "draws"}


def layout(job: Job, wall_id: str, clear_mm: int) -> Layout | Stuck:
    """The best layout of a wall's sheets between its corner sheets, by the ``sheets`` calculator.

    Lap starts and bands count from where the sheets begin: ``job.stretch(wall_id)[0]``.
    """
    key = ("layout", wall_id, clear_mm)
    if key not in job.kept:
        job.kept[key] = _set_out(job, wall_id, clear_mm)
    found: Layout | Stuck = job.kept[key]
    return found


def _set_out(job: Job, wall_id: str, clear_mm: int) -> Layout | Stuck:
    start, end = job.stretch(wall_id)
    sheet = job.sheet
    return set_out(
        WallToSetOut(
            wall_mm=end - start,
            sheet_mm=sheet.width_mm,
            side_lap_mm=sheet.side_lap_mm,
            min_sheet_mm=sheet.least_mm,
            field_laps=[(a - start, b - start) for a, b in job.wall(wall_id).field_laps],
            clear_mm=clear_mm,
        )
    )


def why_stuck(job: Job, clear_mm: int) -> InputError | None:
    """The first wall whose laps no layout keeps clear of the field's, as an error; else None."""
    for i, wall in enumerate(job.walls):
        found = layout(job, wall.id, clear_mm)
        if isinstance(found, Stuck):
            return InputError(f"walls[{i}].field_laps", _bands(wall.field_laps), found.why)
        for at, corner in zip(job.stretch(wall.id), (i > 0, i < len(job.corners)), strict=True):
            lap = _corner_lap(job, at, start=at == job.stretch(wall.id)[0])
            near = corner and any(
                low - clear_mm < lap[1] and lap[0] < high + clear_mm
                for low, high in wall.field_laps
            )
            if near:
                allowed = (
                    f"{clear_mm} mm or more from the lap on the corner sheets, {lap[0]}–{lap[1]}"
                )
                return InputError(f"walls[{i}].field_laps", _bands(wall.field_laps), allowed)
    return None


def _corner_lap(job: Job, at: int, *, start: bool) -> tuple[int, int]:
    lap = job.sheet.side_lap_mm
    return (at, at + lap) if start else (at - lap, at)


def _bands(bands: Any) -> list[list[int]]:
    return [list(band) for band in bands]


def _value(name: str, how: Any, chance: random.Random) -> Any:
    if isinstance(how, Mapping) and "one_of" in how and how["one_of"]:
        return chance.choice(list(how["one_of"]))
    if isinstance(how, Mapping) and "between" in how:
        low, high = how["between"]
        step = int(how.get("step", 1))
        if isinstance(low, str):
            return hhmm(chance.randrange(_minutes(low), _minutes(high) + 1, step))
        return chance.randrange(low, high + 1, step)
    raise InputError(f"draws.{name}", how, "between with step, or one_of")


def _filled(field: str, part: Any, names: Mapping[str, Any]) -> Any:
    if isinstance(part, Mapping):
        if "of" in part:
            return _named(field, part["of"], names, part.get("plus", 0))
        if "if" in part:
            chosen = "then" if _named(field, part["if"], names, 0) else "else"
            return _filled(field, part.get(chosen), names)
        inner = {key: _filled(f"{field}.{key}", value, names) for key, value in part.items()}
        return _laps(EVERY.read(field, inner)) if "every" in inner else inner
    if isinstance(part, list | tuple):
        return [_filled(f"{field}[{i}]", value, names) for i, value in enumerate(part)]
    return part


def _named(field: str, name: Any, names: Mapping[str, Any], plus: int) -> Any:
    if name not in names:
        raise InputError(field, name, f"one of the draws: {', '.join(names) or 'there are none'}")
    value = names[name]
    if not plus:
        return value
    return hhmm(_minutes(value) + plus) if isinstance(value, str) else value + plus


def _laps(part: Mapping[str, Any]) -> list[list[int]]:
    starts = range(part["first"], part["until"], part["every"])
    return [[start, min(start + part["width"], part["until"])] for start in starts]


def _minutes(text: str) -> int:
    hours, minutes = text.split(":")
    return int(hours) * 60 + int(minutes)
