"""The roof plan as data: its value types and the fields they are read from."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.drawing.fields import (
    AGE,
    LINE,
    POINT,
    RANGE,
    SIZE,
    STATE,
    THICKNESS,
    Choice,
    Field,
    Many,
    Pair,
    Range,
    Value,
    Words,
)
from trainer.drawing.markup import Point
from trainer.drawing.plan_site_data import (
    LABEL,
    RENAMED,
    SITE_FIELDS,
    Combustible,
    Hole,
    Laid,
    Obstacle,
    Way,
    Wind,
)
from trainer.drawing.spots import Spot

THINGS = (
    "torch",
    "person",
    "cylinder",
    "can",
    "melter",
    "extinguisher",
    "roll",
    "vent",
    "bucket",
)
HOLDS = ("torch", "extinguisher", "sheet", "watch", "nothing")


@dataclass(frozen=True)
class Wall:
    """A parapet: the line of its roof-side faces, its thickness, the side the roof lies on."""

    faces: list[Point]
    thickness_mm: float
    roof_side: str
    material: str
    label: str
    legs: list[str]


@dataclass(frozen=True)
class Item:
    """A lap, slit or corner: a point or a segment, and how far it is."""

    at: Point | None
    start: Point | None
    end: Point | None
    state: str
    label: str


@dataclass(frozen=True)
class Primed:
    """A primed strip along a segment."""

    start: Point
    end: Point
    age: str
    width_mm: float
    label: str


@dataclass(frozen=True)
class Thing:
    """Something that stands on the roof, or a torch by its flame tip."""

    kind: str
    at: Point
    label: str
    towards: Point | None
    bent_to: Point | None
    holds: str | None
    movable_x: Range | None
    movable_y: Range | None


_SEGMENT = (Field("from", POINT, "one end"), Field("to", POINT, "other end"))
FIELDS = (
    Field(
        "walls",
        Many(
            Value(
                (
                    Field("faces", LINE, "points of the roof-side face"),
                    Field("thickness_mm", THICKNESS, "away from the roof"),
                    Field("roof_side", Choice(("left", "right")), "of the way along the faces"),
                    Field(
                        "material",
                        Choice(("masonry", "concrete", "timber")),
                        "made of",
                        default="masonry",
                    ),
                    LABEL,
                    Field(
                        "legs",
                        Many(Words(), most=59),
                        "names of its straight pieces, each then a part of its own",
                        default=[],
                    ),
                ),
                make=Wall,
            ),
            most=12,
        ),
        "parapets",
        default=[],
    ),
    Field(
        "items",
        Many(
            Value(
                (
                    Field("at", POINT, "a corner or the end of a slit", optional=True),
                    Field("from", POINT, "one end of a lap or a slit", optional=True),
                    Field("to", POINT, "other end", optional=True),
                    Field("state", STATE, "how far it is", default="open"),
                    LABEL,
                ),
                make=Item,
                renamed=RENAMED,
            ),
            most=40,
        ),
        "laps, slits and corners",
        default=[],
    ),
    Field(
        "primer",
        Many(
            Value(
                (
                    *_SEGMENT,
                    Field("age", AGE, "how it looks"),
                    Field("width_mm", THICKNESS, "width of the strip", default=150.0),
                    LABEL,
                ),
                make=Primed,
                renamed=RENAMED,
            ),
            most=20,
        ),
        "primed strips",
        default=[],
    ),
    Field(
        "things",
        Many(
            Value(
                (
                    Field("kind", Choice(THINGS), "what it is"),
                    Field("at", POINT, "where it stands; of a torch the flame tip"),
                    LABEL,
                    Field("towards", POINT, "torch: what it burns towards", optional=True),
                    Field(
                        "bent_to", POINT, "torch: where wind bends the flame tip to", optional=True
                    ),
                    Field("holds", Choice(HOLDS), "person: has in hand, or does", optional=True),
                    Field("movable_x", RANGE, "range along x", optional=True),
                    Field("movable_y", RANGE, "range along y", optional=True),
                ),
                make=Thing,
            ),
            most=30,
        ),
        "what stands on the roof",
        default=[],
    ),
    Field("edges", Many(LINE, most=12), "roof edges without parapet", default=[]),
    Field("guardrails", Many(LINE, most=12), "guardrails", default=[]),
    Field("grid_mm", SIZE, "spacing of a faint grid", optional=True),
    *SITE_FIELDS,
    Field(
        "extent", Pair(POINT, what="[[left, bottom], [right, top]]"), "what is shown", optional=True
    ),
)


@dataclass(frozen=True)
class Plan:
    """The checked figure."""

    walls: list[Wall]
    items: list[Item]
    primer: list[Primed]
    things: list[Thing]
    edges: list[list[Point]]
    guardrails: list[list[Point]]
    grid_mm: float | None
    obstacles: list[Obstacle]
    ways: list[Way]
    laid: list[Laid]
    spots: list[Spot]
    openings: list[Hole]
    combustibles: list[Combustible]
    wind: Wind | None
    extent: tuple[Point, Point] | None
