"""The flat pattern as data: its value types and the fields they are read from."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.drawing.fields import (
    COORD,
    LINE,
    POINT,
    RANGE,
    REACH,
    SHAPE,
    Choice,
    Field,
    Many,
    Range,
    Value,
    Words,
)
from trainer.drawing.markup import Point


@dataclass(frozen=True)
class Segment:
    """A fold, a slit or a dimension; a slit may run ``overcut_mm`` past its end."""

    start: Point
    end: Point
    label: str
    overcut_mm: float = 0.0


@dataclass(frozen=True)
class Leg:
    """A stretch of the sheet's height: what lies on the field, the wall, the top."""

    from_mm: float
    to_mm: float
    label: str


@dataclass(frozen=True)
class Region:
    """A film half, or a stretch that comes to lie double or bare."""

    outline: list[Point]
    look: str
    label: str


@dataclass(frozen=True)
class Marker:
    """A point that may be moved, such as the end of a slit."""

    at: Point
    label: str
    movable_x: Range | None
    movable_y: Range | None


_LABEL = Field("label", Words(), "written beside it, already worded", default="")
_RENAMED = {"from": "start", "to": "end"}
_SEGMENT = (Field("from", POINT, "one end"), Field("to", POINT, "other end"), _LABEL)
_OUTLINE = Field("outline", SHAPE, "its corners")
FIELDS = (
    Field("outline", SHAPE, "corners of the sheet"),
    Field(
        "folds",
        Many(Value(_SEGMENT, make=Segment, renamed=_RENAMED), most=12),
        "fold lines",
        default=[],
    ),
    Field(
        "slits",
        Many(
            Value(
                (*_SEGMENT, Field("overcut_mm", REACH, "run on past its second end", default=0.0)),
                make=Segment,
                renamed=_RENAMED,
            ),
            most=12,
        ),
        "slits, from the edge inwards",
        default=[],
    ),
    Field("cuts", Many(LINE, most=12), "cuts across, such as angled corners", default=[]),
    Field(
        "legs",
        Many(
            Value(
                (Field("from_mm", COORD, "foot"), Field("to_mm", COORD, "head"), _LABEL), make=Leg
            ),
            most=8,
        ),
        "stretches of its height, measured at the left",
        default=[],
    ),
    Field(
        "legs_measured",
        Choice(("before", "after", "never")),
        "when the legs' lengths show",
        default="before",
    ),
    Field(
        "films",
        Many(
            Value(
                (
                    Field("film", Choice(("upper", "lower", "side-lap")), "which film"),
                    _OUTLINE,
                    _LABEL,
                ),
                make=Region,
                renamed={"film": "look"},
            ),
            most=8,
        ),
        "release film halves and side-lap film",
        default=[],
    ),
    Field(
        "areas",
        Many(
            Value(
                (
                    Field(
                        "state",
                        Choice(("double", "bare", "plain")),
                        "what it comes to",
                        default="plain",
                    ),
                    _OUTLINE,
                    _LABEL,
                ),
                make=Region,
                renamed={"state": "look"},
            ),
            most=12,
        ),
        "stretches to judge",
        default=[],
    ),
    Field("gusset", SHAPE, "outline of the gusset that is laid over it", optional=True),
    Field(
        "marker",
        Value(
            (
                Field("at", POINT, "where it stands"),
                _LABEL,
                Field("movable_x", RANGE, "range along x", optional=True),
                Field("movable_y", RANGE, "range along y", optional=True),
            ),
            make=Marker,
        ),
        "a point that may be moved",
        optional=True,
    ),
    Field(
        "dimensions",
        Many(Value(_SEGMENT, make=Segment, renamed=_RENAMED), most=12),
        "dimensions given from the start; measured where the label is empty",
        default=[],
    ),
)


@dataclass(frozen=True)
class Flat:
    """The checked figure."""

    outline: list[Point]
    folds: list[Segment]
    slits: list[Segment]
    cuts: list[list[Point]]
    legs: list[Leg]
    legs_measured: str
    films: list[Region]
    areas: list[Region]
    gusset: list[Point] | None
    marker: Marker | None
    dimensions: list[Segment]
