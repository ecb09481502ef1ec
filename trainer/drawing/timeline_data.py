"""The timeline as data: its value types and the fields they are read from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from trainer.drawing.fields import (
    Choice,
    Field,
    Many,
    Number,
    Range,
    Text,
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
    "delivery",
    "roll",
    "sheet",
    "dark",
    "burn",
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
    "eat": "eat",
    "cold": "cold",
    "warm": "warm",
    "seal": "seal",
    "torch": "flames",
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
class Track:
    """What one person does, beside the others."""

    name: str
    bands: list[Band]


@dataclass(frozen=True)
class Cover:
    """What somebody must be doing all the time between two minutes."""

    kind: str
    from_min: float
    to_min: float


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
_BAND = Value(
    (
        Field("from_min", MINUTE, "begin"),
        Field("to_min", MINUTE, "end"),
        Field("kind", Choice(tuple(BANDS)), "hatch"),
        _LABEL,
    ),
    make=Band,
)
_COVER = Value(
    (
        Field("kind", Choice(tuple(BANDS)), "kind of band of which one must always run"),
        Field("from_min", MINUTE, "begin"),
        Field("to_min", MINUTE, "end"),
    ),
    make=Cover,
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
        Many(_BAND, most=12),
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
        "tracks",
        Many(
            Value(
                (
                    Field("name", Text(), "whose track it is"),
                    Field("bands", Many(_BAND, most=12), "what this person does", default=[]),
                ),
                make=Track,
            ),
            most=6,
        ),
        "people side by side, each with bands of their own",
        default=[],
    ),
    Field("cover", _COVER, "what the tracks must cover; gaps show once answered", optional=True),
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
    tracks: list[Track]
    cover: Cover | None
    clock: str


def uncovered(tracks: Sequence[Track], cover: Cover) -> list[tuple[float, float]]:
    """The stretches between two minutes in which no track has a band of the kind."""
    bands = sorted(
        (band.from_min, band.to_min)
        for track in tracks
        for band in track.bands
        if band.kind == cover.kind
    )
    found, at = [], cover.from_min
    for start, end in bands:
        if start > at:
            found.append((at, min(start, cover.to_min)))
        at = max(at, end)
        if at >= cover.to_min:
            return found
    return [*found, (at, cover.to_min)]
