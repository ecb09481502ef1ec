"""The timeline as data: its value types and the fields they are read from."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.drawing.fields import (
    Choice,
    Field,
    Many,
    Number,
    Range,
    Value,
    Words,
)

MINUTE = Number("min", low=0, high=14_400)
EVENTS = (
    "applied",
    "touch",
    "rain",
    "dew",
    "frost",
    "dust",
    "footprints",
    "now",
    "flame",
    "flame-out",
    "break",
    "roll-press",
    "smoke",
    "person",
    "point",
)


BANDS = {
    "drying": "wet",
    "ready": "dry",
    "plan": "dry",
    "late": "metal",
    "dead": "dead",
    "watch": "double",
    "monitoring": "lap",
    "work": "timber",
    "break": "field",
}
"""Kinds of band and the hatch each is drawn with."""


@dataclass(frozen=True)
class Event:
    """Something that happens at a minute."""

    at_min: float
    kind: str
    label: str


@dataclass(frozen=True)
class Band:
    """Something that lasts."""

    from_min: float
    to_min: float
    kind: str
    label: str


@dataclass(frozen=True)
class Marker:
    """A mark on the axis that may be moved along it."""

    at_min: float
    label: str
    movable: Range | None


_LABEL = Field("label", Words(), "already worded", default="")
RANGE_MIN = Value(
    (
        Field("min", MINUTE, "earliest"),
        Field("max", MINUTE, "latest"),
        Field("step", Number("min", above=0, high=1440), "one press of a key", default=5),
    ),
    make=Range,
    renamed={"min": "low", "max": "high"},
)
FIELDS = (
    Field("from_min", MINUTE, "first minute drawn, counted from midnight"),
    Field("to_min", MINUTE, "last minute drawn"),
    Field(
        "events",
        Many(
            Value(
                (Field("at_min", MINUTE, "when"), Field("kind", Choice(EVENTS), "symbol"), _LABEL),
                make=Event,
            ),
            most=16,
        ),
        "what happens at a minute",
        default=[],
    ),
    Field(
        "bands",
        Many(
            Value(
                (
                    Field("from_min", MINUTE, "begin"),
                    Field("to_min", MINUTE, "end"),
                    Field("kind", Choice(tuple(BANDS)), "hatch"),
                    _LABEL,
                ),
                make=Band,
            ),
            most=12,
        ),
        "what lasts",
        default=[],
    ),
    Field(
        "markers",
        Many(
            Value(
                (
                    Field("at_min", MINUTE, "when"),
                    _LABEL,
                    Field("movable", RANGE_MIN, "how far it may be moved", optional=True),
                ),
                make=Marker,
            ),
            most=6,
        ),
        "marks to press or to move",
        default=[],
    ),
    Field(
        "clock",
        Choice(("with", "without")),
        "whether events are written with their time",
        default="with",
    ),
)


@dataclass(frozen=True)
class Timeline:
    """The checked figure."""

    from_min: float
    to_min: float
    events: list[Event]
    bands: list[Band]
    markers: list[Marker]
    clock: str
