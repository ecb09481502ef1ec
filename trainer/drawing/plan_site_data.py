"""What else lies or stands on the roof of a plan, as data: value types and their fields."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.drawing.fields import LINE, POINT, Choice, Field, Flag, Many, Number, Value, Words
from trainer.drawing.markup import Point
from trainer.drawing.spots import SPOTS

OBSTACLES = ("rooflight", "plant", "stack of insulation", "pallet of rolls", "stair head")
COMBUSTIBLES = ("timber", "paper", "foam", "screen")
MEASURED = ("before", "after", "never")


@dataclass(frozen=True)
class Rect:
    """A rectangle along the axes, by two opposite corners."""

    start: Point
    end: Point

    @property
    def low(self) -> Point:
        """The corner at the left, below."""
        return (min(self.start[0], self.end[0]), min(self.start[1], self.end[1]))

    @property
    def high(self) -> Point:
        """The corner at the right, above."""
        return (max(self.start[0], self.end[0]), max(self.start[1], self.end[1]))


@dataclass(frozen=True)
class Obstacle(Rect):
    """What one cannot walk or work through."""

    kind: str
    label: str


@dataclass(frozen=True)
class Laid(Rect):
    """A sheet that lies on the roof; later ones lie over earlier ones."""

    label: str
    ply: int | None


@dataclass(frozen=True)
class Way:
    """A way a person walks."""

    points: list[Point]
    label: str
    ok: bool | None
    measured: str


@dataclass(frozen=True)
class Hole:
    """An opening by its place, or by two corners or ends."""

    at: Point | None
    start: Point | None
    end: Point | None
    label: str
    covered: bool


@dataclass(frozen=True)
class Combustible:
    """Something that burns."""

    kind: str
    at: Point
    label: str


@dataclass(frozen=True)
class Wind:
    """Where the wind blows to, and where its sign stands."""

    towards: Point
    label: str
    at: Point | None


LABEL = Field("label", Words(), "written beside it, already worded", default="")
RENAMED = {"from": "start", "to": "end"}
_CORNERS = (Field("from", POINT, "one corner"), Field("to", POINT, "opposite corner"))
SITE_FIELDS = (
    Field(
        "obstacles",
        Many(
            Value(
                (*_CORNERS, Field("kind", Choice(OBSTACLES), "what it is"), LABEL),
                make=Obstacle,
                renamed=RENAMED,
            ),
            most=20,
        ),
        "what stands in the way, to scale",
        default=[],
    ),
    Field(
        "ways",
        Many(
            Value(
                (
                    Field("points", LINE, "where it goes"),
                    LABEL,
                    Field("ok", Flag(), "right or wrong; neither when absent", optional=True),
                    Field("measured", Choice(MEASURED), "when its length shows", default="before"),
                ),
                make=Way,
            ),
            most=8,
        ),
        "ways a person walks",
        default=[],
    ),
    Field(
        "laid",
        Many(
            Value(
                (
                    *_CORNERS,
                    LABEL,
                    Field(
                        "ply",
                        Number(low=1, high=3, whole=True),
                        "which ply of the roof",
                        optional=True,
                    ),
                ),
                make=Laid,
                renamed=RENAMED,
            ),
            most=24,
        ),
        "sheets that lie on the roof, later ones on top",
        default=[],
    ),
    SPOTS,
    Field(
        "openings",
        Many(
            Value(
                (
                    Field("at", POINT, "where it is, drawn as a symbol", optional=True),
                    Field("from", POINT, "one corner, or one end of a gap", optional=True),
                    Field("to", POINT, "opposite corner, or other end", optional=True),
                    LABEL,
                    Field("covered", Flag(), "whether it is covered", default=False),
                ),
                make=Hole,
                renamed=RENAMED,
            ),
            most=40,
        ),
        "openings into roof, wall or floor",
        default=[],
    ),
    Field(
        "combustibles",
        Many(
            Value(
                (
                    Field("kind", Choice(COMBUSTIBLES), "what it is"),
                    Field("at", POINT, "where it is"),
                    LABEL,
                ),
                make=Combustible,
            ),
            most=40,
        ),
        "what can burn",
        default=[],
    ),
    Field(
        "wind",
        Value(
            (
                Field("towards", POINT, "how far across and up it blows, such as [1, 0.5]"),
                LABEL,
                Field("at", POINT, "where its sign stands; where there is room", optional=True),
            ),
            make=Wind,
        ),
        "which way the wind blows",
        optional=True,
    ),
)
