"""The wall elevation as data: its value types and the fields they are read from."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from trainer.drawing.elevation_site_data import (
    SITE_FIELDS,
    Blemish,
    Cut,
    Face,
    FilmLeft,
    OpenEdge,
    Patch,
)
from trainer.drawing.fields import (
    AGE,
    COORD,
    RANGE,
    REACH,
    SIZE,
    STATE,
    Choice,
    Field,
    Many,
    Number,
    Range,
    Value,
    Words,
)
from trainer.drawing.markers import MARKER, Marker
from trainer.drawing.markup import Point
from trainer.drawing.spots import SPOTS, Spot


class Lap(NamedTuple):
    """A lap band; of one that tapers ``from_mm`` and ``to_mm`` are the top, the others the foot."""

    from_mm: float
    to_mm: float
    state: str
    bottom_from_mm: float | None
    bottom_to_mm: float | None
    label: str

    @property
    def foot(self) -> tuple[float, float]:
        """The band at its bottom edge."""
        low = self.from_mm if self.bottom_from_mm is None else self.bottom_from_mm
        return low, self.to_mm if self.bottom_to_mm is None else self.bottom_to_mm

    def within(self, wall_mm: float) -> Lap:
        """The part of the lap that lies on the wall."""
        (low, high), left, right = self.foot, max(self.from_mm, 0.0), min(self.to_mm, wall_mm)
        return self._replace(
            from_mm=left,
            to_mm=right,
            bottom_from_mm=min(max(low, 0.0), wall_mm),
            bottom_to_mm=min(max(high, 0.0), wall_mm),
        )


@dataclass(frozen=True)
class Stretch:
    """A stretch of the wall: a sheet, or primer of some age."""

    from_mm: float
    to_mm: float
    label: str
    age: str = ""


@dataclass(frozen=True)
class Moved:
    """Which thing moves along the wall: a flashing lap by its index, or a single sheet edge."""

    lap: int | None
    edge_mm: float | None
    range: Range


_ENDS = (Field("from_mm", COORD, "left end"), Field("to_mm", COORD, "right end"))
_LABEL = Field("label", Words(), "written on it, already worded", default="")
LAP = Value(
    (
        *_ENDS,
        Field("state", STATE, "open, closed or welded; plain hatching when absent", default=""),
        Field(
            "bottom_from_mm", COORD, "left end at the bottom, of a lap that tapers", optional=True
        ),
        Field(
            "bottom_to_mm", COORD, "right end at the bottom, of a lap that tapers", optional=True
        ),
        _LABEL,
    ),
    make=Lap,
)
FIELDS = (
    Field("wall_mm", Number("mm", low=300, high=60_000), "length of wall drawn"),
    Field("height_mm", Number("mm", low=20, high=3000), "roof surface to top of wall"),
    Field(
        "field_mm",
        Number("mm", low=50, high=5000),
        "depth of field drawn; 2 laps + 200 when absent",
        optional=True,
    ),
    Field("field_lap_mm", REACH, "flashing sheet onto the field", default=100.0),
    Field("laps", Many(LAP, most=60), "lap bands of the flashing sheets", default=[]),
    Field(
        "field_laps",
        Many(LAP, most=60),
        "lap bands of the field, running up to the wall",
        default=[],
    ),
    Field(
        "sheets",
        Many(Value((*_ENDS, _LABEL), make=Stretch), most=60),
        "flashing sheets; from lap to lap when absent",
        optional=True,
    ),
    Field("bare", Many(Choice(("sheets", "field"))), "what is not there yet", default=[]),
    Field(
        "primer",
        Many(Value((*_ENDS, Field("age", AGE, "how it looks"), _LABEL), make=Stretch), most=30),
        "primed stretches",
        default=[],
    ),
    Field("chalk_mm", SIZE, "chalk line on the field, distance from the base line", optional=True),
    Field(
        "movable",
        Value(
            (
                Field(
                    "lap",
                    Number(low=0, high=59, whole=True),
                    "index of the lap that moves",
                    optional=True,
                ),
                Field("edge_mm", COORD, "where the edge that moves stands", optional=True),
                Field("range", RANGE, "of the lap's or the edge's left end"),
            ),
            make=Moved,
        ),
        "one lap or one edge that moves along the wall",
        optional=True,
    ),
    Field(
        "detail_mm",
        COORD,
        "where the enlarged detail looks; the first lap when laps are tiny",
        optional=True,
    ),
    Field(
        "chain",
        Choice(("before", "after", "never")),
        "when the dimension chains show",
        default="after",
    ),
    *SITE_FIELDS,
    MARKER,
    SPOTS,
)


@dataclass(frozen=True)
class Elevation:
    """The checked figure."""

    wall_mm: float
    height_mm: float
    field_mm: float | None
    field_lap_mm: float
    laps: list[Lap]
    field_laps: list[Lap]
    sheets: list[Stretch] | None
    bare: list[str]
    primer: list[Stretch]
    chalk_mm: float | None
    movable: Moved | None
    detail_mm: float | None
    chain: str
    blemishes: list[Blemish]
    cuts: list[Cut]
    patches: list[Patch]
    faces: list[Face]
    open_edge: list[OpenEdge]
    foot: list[Point] | None
    heights_at: list[float]
    heights_measured: str
    films: list[FilmLeft]
    marker: Marker | None
    spots: list[Spot]

    @property
    def depth_mm(self) -> float:
        """How much of the field is drawn."""
        return self.field_mm or 2 * max(self.field_lap_mm, self.chalk_mm or 0.0) + 200

    @property
    def bottom_mm(self) -> float:
        """The lowest height drawn: the far edge of the field, folded down."""
        return min(y for _, y in self.base(0.0, self.wall_mm)) - self.depth_mm

    def foot_at(self, x: float) -> float:
        """The height of the roof surface at ``x``; 0 where no foot line is given."""
        if not self.foot:
            return 0.0
        for (a, low), (b, high) in pairwise(self.foot):
            if x <= b:
                return low + (high - low) * (x - a) / (b - a)
        return self.foot[-1][1]

    def base(self, start: float, end: float) -> list[Point]:
        """The roof surface from ``start`` to ``end`` along the wall, with every bend between."""
        bends = [(x, y) for x, y in self.foot or () if start < x < end]
        return [(start, self.foot_at(start)), *bends, (end, self.foot_at(end))]

    def sheet_ends(self) -> list[Stretch]:
        """The sheets: those given, else from the left of one lap to the right of the next."""
        if self.sheets is not None:
            return self.sheets
        if not self.laps or "sheets" in self.bare:
            return []
        ordered = sorted(self.laps, key=lambda lap: lap.from_mm)
        starts = [0.0, *[lap.from_mm for lap in ordered]]
        ends = [*[lap.to_mm for lap in ordered], self.wall_mm]
        return [Stretch(a, b, "") for a, b in zip(starts, ends, strict=True)]
