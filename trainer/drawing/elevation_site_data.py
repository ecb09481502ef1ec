"""What is found on a wall that is dressed: blemishes, cuts, patches, sun and shade, open edges."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.drawing.fields import (
    COORD,
    POINT,
    SIZE,
    THICKNESS,
    Choice,
    Field,
    Flag,
    Many,
    Number,
    Value,
    Words,
)
from trainer.drawing.markup import Point

BLEMISHES = ("blister", "fishmouth", "wrinkle", "void")


@dataclass(frozen=True)
class Blemish:
    """A fault in a sheet, to scale; a fishmouth opens to one side."""

    at: Point
    width_mm: float
    height_mm: float
    kind: str
    opens: str
    label: str


@dataclass(frozen=True)
class Cut:
    """A slit in a sheet."""

    start: Point
    end: Point
    label: str


@dataclass(frozen=True)
class Patch:
    """A patch over a fault, by two opposite corners."""

    start: Point
    end: Point
    label: str


@dataclass(frozen=True)
class Face:
    """A stretch of the wall's own surface, in the sun or in the shade."""

    from_mm: float
    to_mm: float
    sun: bool
    label: str


@dataclass(frozen=True)
class OpenEdge:
    """A stretch of an edge that is not sealed."""

    from_mm: float
    to_mm: float
    edge: str
    label: str


@dataclass(frozen=True)
class FilmLeft:
    """Release film that is still on a sheet."""

    sheet: int
    half: str
    width_mm: float


_LABEL = Field("label", Words(), "written beside it, already worded", default="")
_RENAMED = {"from": "start", "to": "end"}
_ENDS = (Field("from_mm", COORD, "left end"), Field("to_mm", COORD, "right end"))
_SIDES = ("left", "right", "up", "down")
SITE_FIELDS = (
    Field(
        "blemishes",
        Many(
            Value(
                (
                    Field("at", POINT, "its middle"),
                    Field("width_mm", THICKNESS, "how wide"),
                    Field("height_mm", THICKNESS, "how high"),
                    Field("kind", Choice(BLEMISHES), "what it is"),
                    Field("opens", Choice(_SIDES), "fishmouth: where it gapes", default="left"),
                    _LABEL,
                ),
                make=Blemish,
            ),
            most=12,
        ),
        "faults in the sheets, to scale",
        default=[],
    ),
    Field(
        "cuts",
        Many(
            Value(
                (Field("from", POINT, "one end"), Field("to", POINT, "other end"), _LABEL),
                make=Cut,
                renamed=_RENAMED,
            ),
            most=12,
        ),
        "slits in the sheets",
        default=[],
    ),
    Field(
        "patches",
        Many(
            Value(
                (
                    Field("from", POINT, "one corner"),
                    Field("to", POINT, "opposite corner"),
                    _LABEL,
                ),
                make=Patch,
                renamed=_RENAMED,
            ),
            most=12,
        ),
        "patches over faults",
        default=[],
    ),
    Field(
        "faces",
        Many(
            Value(
                (
                    *_ENDS,
                    Field("sun", Flag(), "in the sun, else in the shade", default=False),
                    _LABEL,
                ),
                make=Face,
            ),
            most=8,
        ),
        "stretches of wall in sun or shade, with their temperature as label",
        default=[],
    ),
    Field(
        "open_edge",
        Many(
            Value(
                (
                    *_ENDS,
                    Field("edge", Choice(("foot", "top")), "of the sheets", default="foot"),
                    _LABEL,
                ),
                make=OpenEdge,
            ),
            most=12,
        ),
        "stretches of edge that are not sealed yet",
        default=[],
    ),
    Field(
        "foot",
        Many(POINT, least=2, most=60),
        "roof surface along the wall, left to right, where it rises or falls",
        optional=True,
    ),
    Field(
        "heights_at",
        Many(COORD, most=8),
        "places along the wall where its height is measured",
        default=[],
    ),
    Field(
        "heights_measured",
        Choice(("before", "after", "never")),
        "when these heights show",
        default="after",
    ),
    Field(
        "films",
        Many(
            Value(
                (
                    Field("sheet", Number(low=0, high=59, whole=True), "index of the sheet"),
                    Field(
                        "half",
                        Choice(("upper", "lower", "side-lap")),
                        "which film",
                        default="upper",
                    ),
                    Field("width_mm", SIZE, "side-lap: how wide, at the right edge", default=100.0),
                ),
                make=FilmLeft,
            ),
            most=12,
        ),
        "release film that is still on a sheet",
        default=[],
    ),
)
