"""The fields of a job, each with its kind and meaning: the one place that says what may stand."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from trainer.roofing.contract import (
    Choice,
    Each,
    Field,
    Flag,
    Kind,
    Nullable,
    Number,
    Pair,
    Record,
    Text,
)

MINUTES = {
    "look": 4, "probe": 4, "measure": 3, "touch": 1, "check rolls": 2, "ask": 3, "last look": 5,
    "cover": 8, "clear": 4, "rail": 15, "dry": 10, "prime a metre": 2, "snap": 3, "set out": 5,
    "cut a strip": 2, "preheat a strip": 2, "lay": 8, "lay together": 5, "roll": 2, "trim": 3,
    "corner sheet": 9, "fill": 4, "light": 1, "put out": 3, "gusset": 6, "weld": 3, "strip": 6,
    "seal": 8, "move gas": 3, "change gas": 5, "move extinguisher": 2, "close cans": 1,
    "bag film": 2, "open permit": 5, "close permit": 4, "alarm": 10, "fetch warm rolls": 25,
    "heat the melter": 20,
}  # fmt: skip
"""Minutes of work for one person, where the job says nothing else: common practice, no source."""

_CLOCK = re.compile(r"([01]\d|2[0-3]):([0-5]\d)", re.ASCII)


@dataclass(frozen=True)
class Clock(Kind):
    """A time of day "HH:MM", read as minutes from midnight."""

    def describe(self) -> str:
        return '"HH:MM" from 00:00 to 23:59'

    def read(self, name: str, value: Any) -> int:
        match = _CLOCK.fullmatch(value) if isinstance(value, str) else None
        if match is None:
            raise self.refuse(name, value)
        return int(match[1]) * 60 + int(match[2])


@dataclass(frozen=True)
class Named(Kind):
    """A short name: letters, digits and dashes."""

    def describe(self) -> str:
        return "1 to 40 letters, digits and dashes"

    def read(self, name: str, value: Any) -> str:
        if not isinstance(value, str) or not re.fullmatch(r"[A-Za-z0-9-]{1,40}", value):
            raise self.refuse(name, value)
        return value


NAME = Named()
CLOCK = Clock()
MM = Number("mm", low=0, high=60_000, whole=True)
_LONG = Number("mm", low=600, high=40_000, whole=True)
_MINUTES = Number("min", low=0, high=600, whole=True)
_CELSIUS = Number("°C", low=-20, high=60, whole=True)
_PERCENT = Number("%", low=0, high=100, whole=True)
_BANDS = Each(Pair(MM, "a band [from, to]"))
_TIMES = Each(Pair(CLOCK, "times [from, to]"))
_SPOT = (
    Field("wall", NAME, "the wall it is at"),
    Field("at_mm", MM, "along that wall"),
    Field("off_mm", MM, "out from the wall's face", 0),
)
_ENDS = (Field("from_mm", MM, "left end"), Field("to_mm", MM, "right end"))
_THING = Record((Field("id", NAME, "its name"), *_SPOT, Field("what", Text(), "what it is")))
_HOUR = Record(
    (
        Field("at", CLOCK, "from when"),
        Field("air_c", _CELSIUS, "air"),
        Field("rh_pct", Number("%", above=0, high=100, whole=True), "relative humidity"),
        Field("wind_kmh", Number("km/h", low=0, high=120, whole=True), "wind", 5),
    )
)
COMBUSTIBLE = ("timber nailer", "wood fibre", "foam", "timber board")
HAPPENINGS = ("footprints", "dust", "smoke")

EVERY = Record(
    (
        Field(
            "every",
            Number("mm", low=100, high=60_000, whole=True),
            "from the beginning of one to that of the next",
        ),
        Field("first", MM, "where the first begins"),
        Field("width", Number("mm", low=1, high=1000, whole=True), "how wide each is"),
        Field("until", MM, "where they end: the last begins before it"),
    )
)
"""Laps of the field at even distances, as a specification may give them in place of their bands."""

WALL = Record(
    (
        Field("id", NAME, "its letter"),
        Field("length_mm", _LONG, "length"),
        Field("height_mm", Number("mm", low=100, high=1500, whole=True), "roof to top of parapet"),
        Field("top_mm", Number("mm", low=50, high=600, whole=True), "width of its top", 250),
        Field("cant_mm", Number("mm", low=0, high=200, whole=True), "leg of the cant", 0),
        Field("field_laps", _BANDS, "laps of the field that run up to it", ()),
        Field(
            "behind",
            Each(
                Record(
                    (
                        Field("id", NAME, "its name"),
                        *_ENDS,
                        Field("what", Choice(COMBUSTIBLE), "what burns"),
                    )
                )
            ),
            "what burns in or behind it",
            (),
        ),
        Field(
            "damp",
            Each(Record((*_ENDS, Field("dry_at", CLOCK, "dry by itself from")))),
            "damp stretches",
            (),
        ),
        Field("sun", _TIMES, "when the sun stands on its face", ()),
        Field("rail", Flag(), "edge protection stands", True),
        Field("drop_mm", MM, "down outside", 8000),
        Field("told", Text(), "what the papers say it is made of", "masonry"),
    )
)

FIELDS = (
    Field("id", NAME, "its name"),
    Field("version", Number(low=1, whole=True), "goes up with every change"),
    Field("level", Number(low=1, high=4, whole=True), "1 easiest to 4"),
    Field("title", Text(), "in a few words"),
    Field("brief", Text(), "what the crew is told in the morning"),
    Field("start", CLOCK, "when the crew is on the roof"),
    Field("leave_by", CLOCK, "when everybody must be off the roof"),
    Field("walls", Each(WALL, least=1, most=6), "walls in a row"),
    Field("corners", Each(Choice(("inside", "outside"))), "where walls meet", ()),
    Field("corner_leg_mm", MM, "corner sheets along each wall", 500),
    Field("openings", Each(_THING), "gaps and vents", ()),
    Field("loose", Each(_THING), "what burns and can be moved", ()),
    Field(
        "sheet",
        Record(
            (
                Field("width_mm", Number("mm", low=500, high=2000, whole=True), "width"),
                Field("side_lap_mm", Number("mm", low=20, high=200, whole=True), "printed lap"),
                Field("least_mm", Number("mm", low=100, high=2000, whole=True), "narrowest strip"),
                Field("roll_mm", Number("mm", low=2000, high=40_000, whole=True), "roll length"),
            )
        ),
        "the sheet",
    ),
    Field(
        "rolls",
        Each(
            Record((Field("id", NAME, "its name"), Field("cold", Flag(), "not kept warm", False))),
            least=1,
            most=30,
        ),
        "rolls on the roof",
    ),
    Field(
        "paper",
        Record(
            (
                Field("dry_min", _MINUTES, "least drying time of the primer"),
                Field("plan_min", _MINUTES, "plan to cover within", 120),
                Field("latest_min", _MINUTES, "never cover after", 180),
                Field("coldest_c", _CELSIUS, "coldest surface for the sheet", 5),
                Field(
                    "slower",
                    Each(
                        Pair(Number(low=-50, high=1000, whole=True), "[from °C, percent]"), least=1
                    ),
                    "drying by surface temperature, warmest first",
                ),
                Field("coverage_m2_per_l", Number("m²/L", low=1, high=20, whole=True), "cover", 3),
            )
        ),
        "what the data sheets ask",
    ),
    Field(
        "crew",
        Each(
            Record(
                (
                    Field("id", NAME, "short name"),
                    Field("name", Text(), "first name"),
                    Field("torch", Flag(), "trained on the torch", False),
                    Field("watch", Flag(), "trained for the fire watch", False),
                )
            ),
            least=2,
            most=6,
        ),
        "who is there",
    ),
    Field(
        "minutes",
        Record(tuple(Field(name, _MINUTES, "minutes", optional=True) for name in MINUTES)),
        "where work takes other times than usual",
        {},
    ),
    Field(
        "gas",
        Record(
            (
                Field("minutes", _MINUTES, "of flame in the cylinder"),
                *_SPOT,
                Field("spare", Number(low=0, high=5, whole=True), "spare cylinders", 1),
            )
        ),
        "the cylinder in use",
    ),
    Field("melter", Record(_SPOT), "where the melter stands"),
    Field(
        "extinguishers",
        Each(Record((Field("id", NAME, "its name"), *_SPOT)), most=4),
        "where they stand",
    ),
    Field(
        "weather",
        Record(
            (
                Field("path", Each(_HOUR, least=1, most=24), "the air, as it will be"),
                Field("rain", _TIMES, "showers, as they will be", ()),
                Field("gusts", _TIMES, "gusts, as they will be", ()),
                Field("sun_gain_c", Number("K", low=0, high=30, whole=True), "sun on a face", 8),
                Field(
                    "forecast",
                    Record(
                        (
                            Field("rain_from", Nullable(CLOCK), "a shower from", None),
                            Field("rain_to", Nullable(CLOCK), "a shower until", None),
                            Field("rain_pct", _PERCENT, "its chance", 0),
                            Field("gusts", _TIMES, "gusts", ()),
                            Field("air", Each(_HOUR, least=1, most=24), "the air as forecast"),
                        )
                    ),
                    "what was said this morning",
                ),
            )
        ),
        "the weather",
    ),
    Field(
        "happenings",
        Each(
            Record(
                (
                    Field("at", CLOCK, "when"),
                    Field("kind", Choice(HAPPENINGS), "what"),
                    Field("wall", NAME, "at which wall"),
                    Field("from_mm", MM, "left end", 0),
                    Field("to_mm", MM, "right end", 0),
                )
            )
        ),
        "what comes by itself",
        (),
    ),
    Field("by_eye_mm", Number("mm", low=0, high=99, whole=True), "lap without a line", 60),
    Field(
        "lunch",
        Nullable(
            Record(
                (
                    Field("from_at", CLOCK, "begun from"),
                    Field("by", CLOCK, "and not after"),
                    Field("minutes", _MINUTES, "each"),
                )
            )
        ),
        "when everybody eats",
        None,
    ),
)
