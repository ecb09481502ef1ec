"""What is added to, put on or seen round the parapet of a section, as data."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.drawing.fields import (
    COORD,
    POINT,
    REACH,
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
from trainer.roofing.substrate import BURNS

MATERIALS = tuple(BURNS)
"""What a layer may be made of: whatever the substrate gate can judge."""

IN_WALL = (*MATERIALS, "timber framing", "cavity")
PRESSED = ("before", "after", "never")


@dataclass(frozen=True)
class Added:
    """A layer put on the old surface."""

    material: str
    thickness_mm: float
    label: str


@dataclass(frozen=True)
class WallLayer:
    """One layer of the parapet; ``open`` says that a cavity is not covered at its top."""

    material: str
    thickness_mm: float
    label: str
    from_mm: float | None
    to_mm: float | None
    open: bool


@dataclass(frozen=True)
class Finish:
    """What lies loose on the field."""

    material: str
    thickness_mm: float


@dataclass(frozen=True)
class Bridge:
    """A flashing sheet that stands off the angle, and when it is shown pressed home."""

    gap_mm: float
    pressed: str


@dataclass(frozen=True)
class Guardrail:
    """A guardrail: the height of its top rail above the roof surface, its place."""

    height_mm: float
    at_mm: float | None


@dataclass(frozen=True)
class Face:
    """What a face is like: in the sun or not, a temperature already worded."""

    face: str
    label: str
    sun: bool | None


@dataclass(frozen=True)
class Detail:
    """A place shown so many times larger."""

    at: Point
    radius_mm: float
    times: float | None


_THICK = Field("thickness_mm", THICKNESS, "how thick")
_NAME = Field("label", Words(), "its name, already worded; its material when empty", default="")
WALL_LAYERS = Field(
    "layers",
    Many(
        Value(
            (
                Field("material", Choice(IN_WALL), "made of"),
                _THICK,
                _NAME,
                Field("from_mm", COORD, "foot, by height; the deck when absent", optional=True),
                Field("to_mm", COORD, "head, by height; the top when absent", optional=True),
                Field("open", Flag(), "cavity: not covered at its top", default=False),
            ),
            make=WallLayer,
        ),
        most=12,
    ),
    "what the parapet is made of from the roof outwards, in place of core, foam and cladding",
    default=[],
)
WORK_FIELDS = (
    Field(
        "added",
        Many(
            Value((Field("material", Choice(MATERIALS), "made of"), _THICK, _NAME), make=Added),
            most=10,
        ),
        "layers put on the old surface, from below; the last one's top is the roof surface",
        default=[],
    ),
    Field(
        "finish",
        Value((Field("material", Choice(("ballast", "pavers")), "made of"), _THICK), make=Finish),
        "what lies loose on the field; its top is the finished surface",
        optional=True,
    ),
    Field(
        "beyond_mm",
        COORD,
        "height of the roof surface further along, where it rises or falls; seen beyond",
        optional=True,
    ),
    Field(
        "bridge",
        Value(
            (
                Field("gap_mm", SIZE, "how far up each face, past a cant"),
                Field("pressed", Choice(PRESSED), "when it is shown pressed home", default="after"),
            ),
            make=Bridge,
        ),
        "the flashing sheet stands off the angle",
        optional=True,
    ),
    Field(
        "guardrail",
        Value(
            (
                Field("height_mm", REACH, "top rail above the roof surface"),
                Field("at_mm", COORD, "its place; on the outer edge when absent", optional=True),
            ),
            make=Guardrail,
        ),
        "a guardrail",
        optional=True,
    ),
    Field("drop_mm", SIZE, "from the roof surface down to the ground outside", optional=True),
    Field(
        "faces",
        Many(
            Value(
                (
                    Field("face", Choice(("wall", "top", "field")), "which face"),
                    Field("label", Words(), "written beside it, already worded", default=""),
                    Field("sun", Flag(), "in the sun or in the shade", optional=True),
                ),
                make=Face,
            ),
            most=6,
        ),
        "what the faces are like",
        default=[],
    ),
    Field(
        "detail",
        Value(
            (
                Field("at", POINT, "where it looks"),
                Field("radius_mm", SIZE, "how far round"),
                Field(
                    "times",
                    Number("times", low=1.5, high=40),
                    "how many times larger; as the circle has room when absent",
                    optional=True,
                ),
            ),
            make=Detail,
        ),
        "a place shown enlarged in a circle",
        optional=True,
    ),
)
