"""May a flame stand here? Distances on the roof plan, and the grounds against it.

A place is a point or a straight segment on the plan: an unfilled corner, a lap not yet rolled, a
strip of wet primer. Coordinates and distances are millimetres. Every verdict is reached in exact
arithmetic on the numbers as they were written, so a limit met exactly is met and ties are ties.

A distance is no fire clearance: where anything combustible is in or behind the parapet no flame may
come, however far the nearest open lap is.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Literal

from trainer.errors import MissingField
from trainer.roofing.contract import (
    Calculator,
    Each,
    Either,
    Field,
    Flag,
    Number,
    Pair,
    exact,
    length,
)

Point = tuple[float, float]
Segment = tuple[Point, Point]
Place = Point | Segment
Ground = Literal["combustible", "unclosed", "wet primer", "cylinder"]
_Exact = tuple[Fraction, Fraction]


@dataclass(frozen=True)
class Plan:
    """What stands round one flame on the roof plan.

    ``unclosed`` holds laps not rolled and slits and corners not filled. A flame must be at least
    ``limit_mm`` from each, ``wet_primer_mm`` from wet primer, ``cylinder_limit_mm`` from cylinders.
    """

    flame: Point
    unclosed: Sequence[Place]
    limit_mm: float
    combustible: bool
    wet_primer: Sequence[Place] = ()
    wet_primer_mm: float = 0
    cylinders: Sequence[Point] = ()
    cylinder_limit_mm: float = 0


@dataclass(frozen=True)
class CylinderDistance:
    """How far one cylinder stands from the flame, and whether that is enough."""

    distance_mm: float
    ok: bool


@dataclass(frozen=True)
class Clearance:
    """The verdict on one flame: ``grounds`` against it, none when it may burn here.

    ``nearest`` is the index of the nearest unclosed place (the lowest on a tie), ``nearest_mm`` its
    distance; both None when everything is closed.
    """

    nearest_mm: float | None
    nearest: int | None
    grounds: tuple[Ground, ...]
    cylinders: tuple[CylinderDistance, ...]

    @property
    def ok(self) -> bool:
        return not self.grounds


def judge(plan: Plan) -> Clearance:
    """The grounds against a flame on this plan, in the order a crew would be told them."""
    nearest = nearest_place(plan.flame, plan.unclosed)
    cylinders = tuple(_cylinder(plan, cylinder) for cylinder in plan.cylinders)
    against: dict[Ground, bool] = {
        "combustible": plan.combustible,
        "unclosed": not _all_clear(plan.flame, plan.unclosed, plan.limit_mm),
        "wet primer": not _all_clear(plan.flame, plan.wet_primer, plan.wet_primer_mm),
        "cylinder": not all(cylinder.ok for cylinder in cylinders),
    }
    return Clearance(
        nearest_mm=None if nearest is None else distance_mm(plan.flame, plan.unclosed[nearest]),
        nearest=nearest,
        grounds=tuple(ground for ground, holds in against.items() if holds),
        cylinders=cylinders,
    )


def nearest_place(flame: Point, places: Sequence[Place]) -> int | None:
    """The index of the place nearest to the flame, the lowest on a tie; None without places."""
    return min(range(len(places)), key=lambda i: _squared_distance(flame, places[i]), default=None)


def distance_mm(flame: Point, place: Place) -> float:
    """Straight distance from the flame to the nearest point of a place, in millimetres."""
    return math.sqrt(_squared_distance(flame, place))


def nearest_point(flame: Point, place: Place) -> Point:
    """The point of a place that is nearest to the flame: where a dimension line ends."""
    x, y = _foot(_exact_point(flame), place)
    return float(x), float(y)


def _all_clear(flame: Point, places: Sequence[Place], limit_mm: float) -> bool:
    least = exact(limit_mm) ** 2
    return all(_squared_distance(flame, place) >= least for place in places)


def _cylinder(plan: Plan, cylinder: Point) -> CylinderDistance:
    return CylinderDistance(
        distance_mm=distance_mm(plan.flame, cylinder),
        ok=_all_clear(plan.flame, [cylinder], plan.cylinder_limit_mm),
    )


def _squared_distance(flame: Point, place: Place) -> Fraction:
    fx, fy = _exact_point(flame)
    x, y = _foot((fx, fy), place)
    return (fx - x) ** 2 + (fy - y) ** 2


def _foot(flame: _Exact, place: Place) -> _Exact:
    """Foot of the perpendicular from the flame, kept within the segment."""
    (ax, ay), (bx, by) = (_exact_point(end) for end in _ends(place))
    along_x, along_y = bx - ax, by - ay
    squared_length = along_x**2 + along_y**2
    if not squared_length:
        return ax, ay
    share = ((flame[0] - ax) * along_x + (flame[1] - ay) * along_y) / squared_length
    share = min(Fraction(1), max(Fraction(0), share))
    return ax + share * along_x, ay + share * along_y


def _ends(place: Place) -> Segment:
    """The ends of a segment; a point is a segment without length."""
    if isinstance(place[0], int | float):
        return place, place
    return place


def _exact_point(point: Point) -> _Exact:
    return exact(point[0]), exact(point[1])


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    verdict = judge(Plan(**_pairs_given(given)))
    return {
        "nearest_mm": verdict.nearest_mm,
        "nearest": verdict.nearest,
        "ok": verdict.ok,
        "grounds": list(verdict.grounds),
        "cylinders": [vars(cylinder) for cylinder in verdict.cylinders],
    }


def _pairs_given(given: dict[str, Any]) -> dict[str, Any]:
    """The fields without pairs that were left out. Raises InputError for half a pair."""
    for places, limit in (("wet_primer", "wet_primer_mm"), ("cylinders", "cylinder_limit_mm")):
        for half, other in ((places, limit), (limit, places)):
            if given[half] is None and given[other] is not None:
                raise MissingField(half, f"given together with {other}, or neither of them")
    return {name: value for name, value in given.items() if value is not None}


_POINT = Pair(Number("mm"), "a point [x, y]")
_SEGMENT = Pair(_POINT, "a segment [[x, y], [x, y]]")

_RESULTS: Mapping[str, str] = {
    "nearest_mm": "distance to the nearest unclosed place, null when nothing is unclosed",
    "nearest": "its index in unclosed, the lowest on a tie, null when nothing is unclosed",
    "ok": "whether a flame may burn here",
    "grounds": "why not: combustible, unclosed, wet primer, cylinder, in this order",
    "cylinders": "of each cylinder distance_mm and ok",
}

CLEARANCE = Calculator(
    name="clearance",
    summary="flame against open laps and corners, wet primer, cylinders and what can burn",
    fields=(
        Field("flame", _POINT, "the flame tip, or any lit melter, on the roof plan"),
        Field(
            "unclosed",
            Each(Either((_POINT, _SEGMENT))),
            "laps not rolled, slits and corners not filled; not laps closed but not yet welded",
        ),
        Field("limit_mm", length(), "least distance from anything unclosed"),
        Field("combustible", Flag(), "anything combustible in or behind the parapet here"),
        Field("wet_primer", Each(_SEGMENT), "edges of wet primer", optional=True),
        Field("wet_primer_mm", length(), "least distance from wet primer", optional=True),
        Field("cylinders", Each(_POINT), "where gas cylinders stand", optional=True),
        Field("cylinder_limit_mm", length(), "least distance from a cylinder", optional=True),
    ),
    results=_RESULTS,
    sources=(
        "straight-line distance on the plan (Euclid)",
        "no torching to a combustible surface: RCABC Roofing Practices Manual, SBS standard, "
        "Part 10, 1.2.2",
        "no flame near a lap or corner that is not closed: common practice, no source",
    ),
    compute=_compute,
    rules=(
        "A flame at exactly the limit is far enough.",
        "Anything combustible in or behind the parapet forbids the flame at any distance.",
        "wet_primer and wet_primer_mm, cylinders and cylinder_limit_mm come together; the lists "
        "may be empty.",
    ),
)
