"""Reads a job whose every value is given, and refuses one that does not fit together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from trainer.installation.check_job import check_job
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
    check_job(job)
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
