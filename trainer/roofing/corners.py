"""A sheet folded once round a corner of the parapet: what doubles up, stays bare, covers it.

The flat sheet has its origin at the bottom edge on the fold, x along the sheet (to the right of
somebody who faces the wall from the roof), y up the sheet. From the bottom come the leg on the
field, the wall, the leg on the parapet top. No cant, no outer drop. At both ends of the fold the
sheet is slit along the fold line, so that each half can lie flat on its own plane. There the two
halves either run over each other or part and leave a kite-shaped gap.

The roof plan has its origin at the corner point. The first wall runs along +x with the roof on its
left (+y); the second wall is turned from it by the roof-side angle, anticlockwise.

Lengths are millimetres, areas square millimetres, angles degrees. The geometry follows from folding
alone (two strips along two lines that meet); it needs no source outside itself.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal, get_args

from trainer.errors import InputError
from trainer.roofing.contract import Calculator, Choice, Field, Flag, Number, length

CornerKind = Literal["inside", "outside"]
State = Literal["double", "bare"]
Point = tuple[float, float]
Segment = tuple[Point, Point]
Polygon = tuple[Point, ...]

_ANGLES = {
    "inside": "90 ≤ angle_deg < 180 at an inside corner",
    "outside": "180 < angle_deg ≤ 270 at an outside corner",
}


@dataclass(frozen=True)
class Corner:
    """One corner and the sheet folded round it.

    ``angle_deg`` is measured between the walls on the roof side: 90 to below 180 inside, above 180
    to 270 outside. ``overcut_mm`` is how far each slit runs past the end of the fold, at most half
    of ``height_mm``. ``trimmed`` says that doubled material is mitred away, which leaves a seam.
    """

    kind: CornerKind
    angle_deg: float
    field_lap_mm: float
    height_mm: float
    top_mm: float
    cover_mm: float
    trimmed: bool
    overcut_mm: float = 0.0

    def __post_init__(self) -> None:
        inside, outside = 90 <= self.angle_deg < 180, 180 < self.angle_deg <= 270
        if not (inside if self.kind == "inside" else outside):
            raise InputError("angle_deg", self.angle_deg, _ANGLES[self.kind])
        if 2 * self.overcut_mm > self.height_mm:
            raise InputError("overcut_mm", self.overcut_mm, "at most half of height_mm")

    @property
    def half_opening(self) -> float:
        """Half of ψ in radians, ψ the smaller angle between the walls: 45° up to below 90°."""
        opening = self.angle_deg if self.kind == "inside" else 360 - self.angle_deg
        return math.radians(opening / 2)

    @property
    def spread(self) -> float:
        """k = cot(ψ/2): how far along a leg the doubled or bare kite reaches, per width of leg.

        1 at a square corner, towards 0 as the walls come into line.
        """
        return 1 / math.tan(self.half_opening)


@dataclass(frozen=True)
class FoldEnd:
    """What one end of the fold shows, and the gusset that covers it.

    ``area_mm2`` is doubled or bare before any trimming. The gusset runs ``reach_mm`` along the
    surface from the corner point and ``up_mm`` along the wall: up from the base, down from the top.
    """

    state: State
    area_mm2: float
    reach_mm: float
    up_mm: float


def base(corner: Corner) -> FoldEnd:
    """The end at the foot of the wall: double inside, bare outside."""
    return _fold_end(corner, "double" if corner.kind == "inside" else "bare", corner.field_lap_mm)


def top(corner: Corner) -> FoldEnd:
    """The end at the parapet top: bare inside, double outside."""
    return _fold_end(corner, "bare" if corner.kind == "inside" else "double", corner.top_mm)


def _fold_end(corner: Corner, state: State, leg_mm: float) -> FoldEnd:
    seam = state == "bare" or corner.trimmed
    reach = leg_mm / math.sin(corner.half_opening) if seam else 0.0
    return FoldEnd(
        state=state,
        area_mm2=corner.spread * leg_mm * leg_mm,
        reach_mm=corner.cover_mm + reach,
        up_mm=corner.cover_mm + corner.overcut_mm,
    )


def fold(corner: Corner) -> Segment:
    """The fold on the flat sheet, upwards between the ends of the slits."""
    foot, head = _wall_ends(corner)
    return (0.0, foot + corner.overcut_mm), (0.0, head - corner.overcut_mm)


def slits(corner: Corner) -> tuple[Segment, Segment]:
    """The slits on the flat sheet, the bottom one first, each upwards, with the overcut."""
    (_, low), (_, high) = fold(corner)
    edge = corner.field_lap_mm + corner.height_mm + corner.top_mm
    return ((0.0, 0.0), (0.0, low)), ((0.0, high), (0.0, edge))


def mitres(corner: Corner) -> tuple[Segment, ...]:
    """The cuts on the flat sheet that take the doubled leg away, left and right; none untrimmed.

    Each runs from the end of the fold line proper to the edge of the leg; on the roof the two meet
    in one seam along the bisector of the corner.
    """
    if not corner.trimmed:
        return ()
    foot, head = _wall_ends(corner)
    at_foot = corner.kind == "inside"
    leg = corner.field_lap_mm if at_foot else corner.top_mm
    start, edge = (foot, 0.0) if at_foot else (head, head + leg)
    return tuple(((0.0, start), (side * corner.spread * leg, edge)) for side in (-1, 1))


def _wall_ends(corner: Corner) -> tuple[float, float]:
    return corner.field_lap_mm, corner.field_lap_mm + corner.height_mm


def _wall_frames(corner: Corner) -> tuple[Segment, Segment]:
    """Of each wall, the unit vector away from the corner and the one towards the roof."""
    turn = math.radians(corner.angle_deg)
    away = (math.cos(turn), math.sin(turn))
    return ((1.0, 0.0), (0.0, 1.0)), (away, (away[1], -away[0]))


def base_patch(corner: Corner) -> Polygon:
    """The doubled or bare kite on the field, on the roof plan; empty without a leg there."""
    return _kite(corner, corner.field_lap_mm)


def top_patch(corner: Corner) -> Polygon:
    """The doubled or bare kite on the parapet top, on the roof plan; empty without a leg there."""
    return _kite(corner, -corner.top_mm)


def base_legs(corner: Corner, run_mm: float) -> tuple[Polygon, Polygon]:
    """The legs on the field, on the roof plan, along the first wall and along the second.

    ``run_mm`` is how far the sheet runs from the fold, at least k times the leg. Mitred where a
    doubled leg is trimmed.
    """
    return _legs(corner, corner.field_lap_mm, base(corner), run_mm)


def top_legs(corner: Corner, run_mm: float) -> tuple[Polygon, Polygon]:
    """The legs on the parapet top, as ``base_legs``."""
    return _legs(corner, -corner.top_mm, top(corner), run_mm)


def _legs(
    corner: Corner, towards_roof: float, end: FoldEnd, run_mm: float
) -> tuple[Polygon, Polygon]:
    least = corner.spread * abs(towards_roof)
    if run_mm < least:
        raise InputError("run_mm", run_mm, f"at least {least:g} (mm), as far as the corner reaches")
    mitred = corner.trimmed and end.state == "double"
    first, second = (
        _leg(frame, towards_roof, run_mm, least if mitred else 0.0)
        for frame in _wall_frames(corner)
    )
    return first, second


def _leg(frame: Segment, towards_roof: float, run_mm: float, mitre_mm: float) -> Polygon:
    """One leg from the corner point along the wall and back along the edge of the sheet."""
    along, roof = frame

    def at(run: float, out: float) -> Point:
        return run * along[0] + out * roof[0], run * along[1] + out * roof[1]

    return at(0, 0), at(run_mm, 0), at(run_mm, towards_roof), at(mitre_mm, towards_roof)


def _kite(corner: Corner, towards_roof: float) -> Polygon:
    """The corner point, both square ends of the legs, and between them where their edges meet."""
    if not towards_roof:
        return ()
    (_, (ax, ay)), (_, (bx, by)) = _wall_frames(corner)
    meeting = towards_roof / (1 + ax * bx + ay * by)
    return (
        (0.0, 0.0),
        (towards_roof * ax, towards_roof * ay),
        (meeting * (ax + bx), meeting * (ay + by)),
        (towards_roof * bx, towards_roof * by),
    )


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    corner = Corner(**given)
    return {
        "base": vars(base(corner)),
        "top": vars(top(corner)),
        "fold": fold(corner),
        "slits": slits(corner),
    }


_END_RESULT = (
    "state (double or bare), area_mm2 (before trimming), reach_mm (gusset along the surface from "
    "the corner point), up_mm (gusset along the wall)"
)

_RESULTS: Mapping[str, str] = {
    "base": f"at the foot of the wall: {_END_RESULT}",
    "top": f"at the parapet top: {_END_RESULT}",
    "fold": "the fold on the flat sheet, between the slit ends, upwards: [[x, y], [x, y]]",
    "slits": "the two slits on the flat sheet, the bottom one first, each upwards",
}

CORNER = Calculator(
    name="corner",
    summary="a sheet folded once round a corner: doubled and bare areas, slits, gusset size",
    fields=(
        Field("kind", Choice(get_args(CornerKind)), "inside or outside corner"),
        Field(
            "angle_deg",
            Number("°", low=90, high=270),
            f"between the walls on the roof side: {_ANGLES['inside']}, {_ANGLES['outside']}",
        ),
        Field("field_lap_mm", length(), "leg on the field"),
        Field("height_mm", length(), "roof surface to parapet top"),
        Field("top_mm", length(), "leg on the parapet top"),
        Field("cover_mm", length(), "how far the gusset runs past what it covers"),
        Field("trimmed", Flag(), "doubled material is mitred away, which leaves a seam"),
        Field(
            "overcut_mm",
            length(),
            "how far each slit runs past the end of the fold; at most half of height_mm",
            default=0.0,
        ),
    ),
    results=_RESULTS,
    sources=(
        "geometry: two strips along two lines that meet overlap or gape by leg² · cot(ψ/2), "
        "ψ = angle inside, 360° − angle outside",
        "fold, slit both ends, trim so that nothing doubles up, gusset: common practice, no source",
    ),
    compute=_compute,
    rules=(
        "An inside corner doubles the field leg and leaves the top bare; an outside corner the "
        "reverse.",
        "reach = cover + leg / sin(ψ/2) where it is bare, or double and trimmed; cover where it "
        "is double and untrimmed. up = cover + overcut.",
    ),
)
