"""The wall at work as data: its value types and the fields they are read from."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.drawing.fields import (
    AMOUNT,
    COORD,
    REACH,
    SIZE,
    STATE,
    Choice,
    Field,
    Flag,
    Many,
    Number,
    Value,
    Words,
)
from trainer.drawing.kinds import Ident


@dataclass(frozen=True)
class Band:
    """A stretch of the wall; without an id it is no part."""

    from_mm: float
    to_mm: float
    id: str
    label: str


@dataclass(frozen=True)
class Primed(Band):
    """A primed stretch; ``short`` is written where its label is wider than it."""

    short: str


@dataclass(frozen=True)
class Sheet(Band):
    """A sheet on the wall; later ones lie on top."""

    rolled: bool
    field_lap_mm: float


@dataclass(frozen=True)
class Lap(Band):
    """A lap of two sheets, and how far it is."""

    state: str
    left_on_top: bool


@dataclass(frozen=True)
class Corner:
    """What stands at an end of the wall."""

    id: str
    end: str
    leg_mm: float
    slit: str
    label: str


@dataclass(frozen=True)
class Place:
    """Something at a point along the wall."""

    at_mm: float
    id: str
    label: str
    covered: bool


@dataclass(frozen=True)
class Fuel(Band):
    """Something that burns in or behind the parapet."""

    covered: bool


@dataclass(frozen=True)
class Mark:
    """A touch of a finger, or a flame, at a point along the wall."""

    at_mm: float
    kind: str
    label: str


_ENDS = (Field("from_mm", COORD, "left end"), Field("to_mm", COORD, "right end"))
_ID = Field("id", Ident(), "the id of its part; it is none when absent", default="")
_LABEL = Field("label", Words(), "written on it or beside it, already worded", default="")
_COVERED = Field("covered", Flag(), "whether it is covered", default=False)
_BAND = Value((*_ENDS, _ID, _LABEL), make=Band)
_PRIMED = Value(
    (*_ENDS, _ID, _LABEL, Field("short", Words(), "written where there is less room", default="")),
    make=Primed,
)
_SHEET = Value(
    (
        *_ENDS,
        _ID,
        _LABEL,
        Field("rolled", Flag(), "pressed down with the roller", default=True),
        Field("field_lap_mm", REACH, "how far it reaches onto the field", default=100.0),
    ),
    make=Sheet,
)
_LAP = Value(
    (
        *_ENDS,
        _ID,
        _LABEL,
        Field("state", STATE, "how far it is", default="open"),
        Field("left_on_top", Flag(), "the left sheet lies over the right one", default=False),
    ),
    make=Lap,
)
_CORNER = Value(
    (
        Field("end", Choice(("left", "right")), "which end of the wall"),
        Field("leg_mm", SIZE, "corner sheets along this wall"),
        Field(
            "slit",
            Choice(("none", "open", "filled", "gusset")),
            "the slit of its first sheet",
            default="none",
        ),
        _ID,
        _LABEL,
    ),
    make=Corner,
)
_MARK = Value(
    (
        Field("at_mm", COORD, "along the wall"),
        Field("kind", Choice(("touch", "torch", "melter", "person")), "what it is"),
        _LABEL,
    ),
    make=Mark,
)
FIELDS = (
    Field("wall_mm", Number("mm", low=300, high=60_000), "length of the wall"),
    Field("height_mm", Number("mm", low=20, high=3000), "roof surface to top of wall"),
    Field("field_mm", Number("mm", low=50, high=5000), "depth of field drawn", default=300.0),
    Field(
        "row_mm", SIZE, "longest row at a width of 358; longer walls go on below", default=4000.0
    ),
    Field("caption", Value((_ID, _LABEL), make=dict), "the wall's own name", optional=True),
    Field("light", Choice(("sun", "shade")), "what lies on its face now", optional=True),
    Field("rail", Flag(), "edge protection stands", default=True),
    Field("field_laps", Many(_BAND, most=200), "lap bands of the field", default=[]),
    Field("chalk_mm", SIZE, "chalk line, distance from the base line", optional=True),
    Field("stretches", Many(_BAND, most=100), "stretches to press, where nothing lies", default=[]),
    Field("damp", Many(_BAND, most=60), "damp stretches that were found", default=[]),
    Field("primer", Many(_PRIMED, most=200), "primed stretches; how dry is not seen", default=[]),
    Field("spoilt", Many(_BAND, most=100), "primer found spoilt", default=[]),
    Field("marks", Many(_BAND, most=100), "sheets marked out but not laid", default=[]),
    Field(
        "sheets", Many(_SHEET, most=100), "sheets, in the order in which they were laid", default=[]
    ),
    Field("laps", Many(_LAP, most=100), "laps of the sheets", default=[]),
    Field("sealed", Flag(), "the open edges are sealed for the night", default=False),
    Field("corners", Many(_CORNER, most=2), "corners at its ends", default=[]),
    Field(
        "behind",
        Many(Value((*_ENDS, _ID, _LABEL, _COVERED), make=Fuel), most=60),
        "what burns in or behind the parapet, as far as it was found",
        default=[],
    ),
    Field(
        "openings",
        Many(
            Value((Field("at_mm", AMOUNT, "along the wall"), _ID, _LABEL, _COVERED), make=Place),
            most=60,
        ),
        "openings that were found",
        default=[],
    ),
    Field("things", Many(_MARK, most=100), "touches, flames and people at the wall", default=[]),
)


@dataclass(frozen=True)
class Work:
    """The checked figure."""

    wall_mm: float
    height_mm: float
    field_mm: float
    row_mm: float
    caption: dict[str, str] | None
    light: str | None
    rail: bool
    field_laps: list[Band]
    chalk_mm: float | None
    stretches: list[Band]
    damp: list[Band]
    primer: list[Primed]
    spoilt: list[Band]
    marks: list[Band]
    sheets: list[Sheet]
    laps: list[Lap]
    sealed: bool
    corners: list[Corner]
    behind: list[Fuel]
    openings: list[Place]
    things: list[Mark]
