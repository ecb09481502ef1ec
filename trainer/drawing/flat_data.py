"""The flat pattern as data: its value types and the fields they are read from."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.drawing.fields import (
    AMOUNT,
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
from trainer.drawing.markers import MARKER, Marker
from trainer.drawing.markup import Point
from trainer.drawing.spots import SPOTS, Spot


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
class Gusset:
    """A gusset that might be laid over it."""

    outline: list[Point]
    label: str


@dataclass(frozen=True)
class CornerCut:
    """A corner cut off at 45°; how long its legs are may be moved."""

    at: Point
    leg_mm: float
    towards: tuple[int, int]
    label: str
    movable: Range | None

    def ends(self) -> tuple[Point, Point]:
        """Where the cut meets the two edges, along x and along y."""
        x, y = self.at
        return (x + self.towards[0] * self.leg_mm, y), (x, y + self.towards[1] * self.leg_mm)


_WAYS = {
    "bottom left": (1, 1),
    "bottom right": (-1, 1),
    "top left": (1, -1),
    "top right": (-1, -1),
}


def corner_cut(
    at: Point, leg_mm: float, corner: str, label: str, movable: Range | None
) -> CornerCut:
    """A cut by the name of the corner it takes off."""
    return CornerCut(at, leg_mm, _WAYS[corner], label, movable)


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
        "corner_cuts",
        Many(
            Value(
                (
                    Field("at", POINT, "the corner"),
                    Field("leg_mm", AMOUNT, "how much of each edge is cut off"),
                    Field("corner", Choice(tuple(_WAYS)), "which corner of a sheet it is"),
                    _LABEL,
                    Field("movable", RANGE, "range of the leg", optional=True),
                ),
                make=corner_cut,
            ),
            most=8,
        ),
        "corners cut off at 45°",
        default=[],
    ),
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
        "gussets",
        Many(Value((_OUTLINE, _LABEL), make=Gusset), most=6),
        "gussets of which one is to be chosen",
        default=[],
    ),
    MARKER,
    SPOTS,
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
    corner_cuts: list[CornerCut]
    gusset: list[Point] | None
    gussets: list[Gusset]
    marker: Marker | None
    spots: list[Spot]
    dimensions: list[Segment]
