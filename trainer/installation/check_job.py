"""Refuses a job whose values, each allowed by itself, do not fit together."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from trainer.errors import InputError
from trainer.installation.day import Hour
from trainer.installation.job import Job
from trainer.installation.place import Spot
from trainer.roofing.clock import hhmm


def check_job(job: Job) -> None:
    """Raise InputError, naming the field, where a job's values do not fit together."""
    if len(job.corners) != len(job.walls) - 1:
        raise InputError(
            "corners",
            len(job.corners),
            f"one for each place where walls meet: {len(job.walls) - 1}",
        )
    if job.leave_by <= job.start:
        raise InputError("leave_by", job.plain.get("leave_by"), "later than start")
    _check_once("walls", [wall.id for wall in job.walls])
    _check_once("crew", [hand.id for hand in job.crew])
    _check_once("rolls", [roll.id for roll in job.rolls])
    behind = [part.id for wall in job.walls for part in wall.behind]
    _check_once(
        "openings, loose things and what is behind",
        [*behind, *(o.id for o in job.openings), *(t.id for t in job.loose)],
    )
    _check_once("extinguishers", [name for name, _ in job.extinguishers])
    _check_walls(job)
    _check_bands(job)
    _check_day(job)
    for field, spot in _spots(job):
        _check_spot(job, field, spot)
    if not any(hand.torch for hand in job.crew) or not any(hand.watch for hand in job.crew):
        raise InputError("crew", len(job.crew), "somebody for the torch and somebody for the watch")


def _check_once(field: str, ids: list[str]) -> None:
    for name in ids:
        if ids.count(name) > 1:
            raise InputError(field, name, "each id once")


def _check_walls(job: Job) -> None:
    sheet = job.sheet
    if not 2 * sheet.side_lap_mm <= sheet.least_mm <= sheet.width_mm:
        raise InputError("sheet.least_mm", sheet.least_mm, "≥ 2 side laps and ≤ the sheet's width")
    if not sheet.side_lap_mm < job.corner_leg_mm <= sheet.width_mm:
        raise InputError(
            "corner_leg_mm", job.corner_leg_mm, "> the side lap and ≤ the sheet's width"
        )
    for i, wall in enumerate(job.walls):
        if wall.cant_mm > wall.height_mm:
            raise InputError(f"walls[{i}].cant_mm", wall.cant_mm, f"≤ height_mm ({wall.height_mm})")
        start, end = job.stretch(wall.id)
        if end - start < sheet.least_mm:
            raise InputError(
                f"walls[{i}].length_mm",
                wall.length_mm,
                "room for a sheet between its corner sheets",
            )


def _spots(job: Job) -> list[tuple[str, Spot]]:
    return [
        ("gas", job.gas.spot),
        ("melter", job.melter),
        *((f"extinguishers {name}", spot) for name, spot in job.extinguishers),
        *((f"openings {part.id}", part.spot) for part in job.openings),
        *((f"loose {part.id}", part.spot) for part in job.loose),
    ]


def _check_spot(job: Job, field: str, spot: Spot) -> None:
    known = [wall.id for wall in job.walls]
    if spot.wall not in known:
        raise InputError(f"{field}.wall", spot.wall, f"one of {', '.join(known)}")
    long = job.wall(spot.wall).length_mm
    if spot.at_mm > long:
        raise InputError(f"{field}.at_mm", spot.at_mm, f"on the wall, ≤ {long}")
    across = job.across(spot)
    if across is not None and spot.off_mm > across[1]:
        allowed = f"on the roof, ≤ {across[1]}: there stands wall {job.walls[across[0]].id}"
        raise InputError(f"{field}.off_mm", spot.off_mm, allowed)


def _check_bands(job: Job) -> None:
    """Every band along a wall has its left end first, and begins on the wall."""
    for field, band, long in _bands(job):
        if band[0] >= band[1]:
            raise InputError(field, list(band), "the left end first")
        if band[0] >= long:
            raise InputError(field, list(band), f"on the wall, < {long}")


def _bands(job: Job) -> Iterator[tuple[str, tuple[int, int], int]]:
    """A field, its band, and how long its wall is."""
    for i, wall in enumerate(job.walls):
        for name in ("behind", "damp"):
            for k, part in enumerate(getattr(wall, name)):
                yield f"walls[{i}].{name}[{k}]", (part.from_mm, part.to_mm), wall.length_mm
        for k, band in enumerate(wall.field_laps):
            yield f"walls[{i}].field_laps[{k}]", band, wall.length_mm
    known = {wall.id: wall.length_mm for wall in job.walls}
    for i, thing in enumerate(job.happenings):
        if thing.wall not in known:
            allowed = f"one of {', '.join(known)}"
            raise InputError(f"happenings[{i}].wall", thing.wall, allowed)
        if thing.kind != "smoke":
            yield f"happenings[{i}]", (thing.from_mm, thing.to_mm), known[thing.wall]


def _check_day(job: Job) -> None:
    """Times run forward."""
    weather = job.weather
    times = [(f"walls[{i}].sun", band) for i, w in enumerate(job.walls) for band in w.sun]
    times += [("weather.rain", band) for band in weather.rain]
    times += [("weather.gusts", band) for band in weather.gusts]
    times += [("weather.forecast.gusts", band) for band in weather.forecast.gusts]
    for field, (start, end) in times:
        if start >= end:
            raise InputError(field, f"{hhmm(start)} to {hhmm(end)}", "the earlier time first")
    _check_in_order("weather.path", weather.path)
    _check_in_order("weather.forecast.air", weather.forecast.air)
    if job.lunch is not None and job.lunch.by < job.lunch.from_at:
        raise InputError("lunch.by", hhmm(job.lunch.by), f"≥ {hhmm(job.lunch.from_at)}")


def _check_in_order(field: str, path: Iterable[Hour]) -> None:
    before = -1
    for i, hour in enumerate(path):
        if hour.at <= before:
            raise InputError(f"{field}[{i}].at", hhmm(hour.at), f"later than {hhmm(before)}")
        before = hour.at
