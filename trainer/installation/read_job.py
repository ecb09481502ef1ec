"""Reads a job whose every value is given, and refuses one that does not fit together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from trainer.errors import InputError
from trainer.installation.day import Forecast, Happening, Hour, Lunch, Weather
from trainer.installation.job import (
    Behind,
    Damp,
    Gas,
    Hand,
    Job,
    Loose,
    Opening,
    Paper,
    Roll,
    SheetKind,
    Wall,
)
from trainer.installation.job_fields import FIELDS, MINUTES
from trainer.installation.place import Spot
from trainer.roofing.contract import check_fields, no_rule

_DAY = 24 * 60


def read_job(plain: Mapping[str, Any]) -> Job:
    """The checked job. Raises InputError naming field, value and what is allowed."""
    given = check_fields(FIELDS, plain, no_rule)
    job = Job(
        **{name: given[name] for name in ("id", "version", "level", "title", "brief")},
        start=given["start"],
        leave_by=given["leave_by"],
        walls=tuple(map(_wall, given["walls"])),
        corners=tuple(given["corners"]),
        corner_leg_mm=given["corner_leg_mm"],
        openings=tuple(_thing(Opening, part) for part in given["openings"]),
        loose=tuple(_thing(Loose, part) for part in given["loose"]),
        sheet=SheetKind(**given["sheet"]),
        rolls=tuple(Roll(**part) for part in given["rolls"]),
        paper=Paper(**{**given["paper"], "slower": _pairs(given["paper"]["slower"])}),
        crew=tuple(Hand(**part) for part in given["crew"]),
        minutes=MINUTES | {k: v for k, v in given["minutes"].items() if v is not None},
        gas=Gas(given["gas"]["minutes"], _spot(given["gas"]), given["gas"]["spare"]),
        melter=_spot(given["melter"]),
        extinguishers=tuple((part["id"], _spot(part)) for part in given["extinguishers"]),
        weather=_weather(given["weather"]),
        happenings=tuple(Happening(**part) for part in given["happenings"]),
        by_eye_mm=given["by_eye_mm"],
        lunch=Lunch(**given["lunch"]) if given["lunch"] else None,
        plain=plain,
    )
    _check(job)
    return job


def _wall(part: Mapping[str, Any]) -> Wall:
    return Wall(
        **{
            **part,
            "field_laps": _pairs(part["field_laps"]),
            "sun": _pairs(part["sun"]),
            "behind": tuple(Behind(**inner) for inner in part["behind"]),
            "damp": tuple(Damp(**inner) for inner in part["damp"]),
        }
    )


def _thing(kind: Any, part: Mapping[str, Any]) -> Any:
    return kind(part["id"], _spot(part), part["what"])


def _spot(part: Mapping[str, Any]) -> Spot:
    return Spot(part["wall"], part["at_mm"], part["off_mm"])


def _pairs(bands: Iterable[Any]) -> tuple[tuple[int, int], ...]:
    return tuple((low, high) for low, high in bands)


def _weather(given: Mapping[str, Any]) -> Weather:
    said = given["forecast"]
    return Weather(
        path=tuple(Hour(**part) for part in given["path"]),
        rain=_pairs(given["rain"]),
        gusts=_pairs(given["gusts"]),
        forecast=Forecast(
            said["rain_from"],
            said["rain_to"],
            said["rain_pct"],
            _pairs(said["gusts"]),
            tuple(Hour(**part) for part in said["air"]),
        ),
        sun_gain_c=given["sun_gain_c"],
    )


def _check(job: Job) -> None:
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
    _check_walls(job)
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
