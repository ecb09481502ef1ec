"""May a flame stand here? Distances on the roof plan, and the grounds against it.

A place is a point or a straight segment on the plan: an unfilled corner, a lap not yet rolled, a
strip of wet primer. Coordinates and distances are millimetres. Every verdict is reached in whole
numbers of equal parts of a millimetre, fine enough to hold every number as it was written, so a
limit met exactly is met and ties are ties.

A distance is no fire clearance: where anything combustible is in or behind the parapet no flame may
come, however far the nearest open lap is.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from trainer.errors import InputError, MissingField
from trainer.roofing.bands import whole_parts
from trainer.roofing.contract import Calculator, Each, Either, Field, Flag, Number, Pair, length

Point = tuple[float, float]
Segment = tuple[Point, Point]
Place = Point | Segment
Ground = Literal["combustible", "unclosed", "wet primer", "cylinder"]
_Whole = tuple[int, int]
_Squared = tuple[int, int]
"""A squared distance as numerator and denominator, in squares of parts of a millimetre."""

_EXACT = 2**53
"""Below it a float with no fraction is the very number it was written as."""


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
    lists = (plan.unclosed, plan.wet_primer, plan.cylinders)
    limits = (plan.limit_mm, plan.wet_primer_mm, plan.cylinder_limit_mm)
    (unclosed, wet, cylinders), least, per_mm = _squares(plan.flame, lists, limits)
    nearest = _smallest(unclosed)
    bottles = tuple(
        CylinderDistance(_root(square, per_mm), _clear(square, least[2])) for square in cylinders
    )
    against: dict[Ground, bool] = {
        "combustible": plan.combustible,
        "unclosed": not all(_clear(square, least[0]) for square in unclosed),
        "wet primer": not all(_clear(square, least[1]) for square in wet),
        "cylinder": not all(bottle.ok for bottle in bottles),
    }
    return Clearance(
        nearest_mm=None if nearest is None else _root(unclosed[nearest], per_mm),
        nearest=nearest,
        grounds=tuple(ground for ground, holds in against.items() if holds),
        cylinders=bottles,
    )


def nearest_place(flame: Point, places: Sequence[Place]) -> int | None:
    """The index of the place nearest to the flame, the lowest on a tie; None without places."""
    (squares,), _, _ = _squares(flame, (places,), ())
    return _smallest(squares)


def distance_mm(flame: Point, place: Place) -> float:
    """Straight distance from the flame to the nearest point of a place, in millimetres."""
    ((square,),), _, per_mm = _squares(flame, ((place,),), ())
    return _root(square, per_mm)


def nearest_point(flame: Point, place: Place) -> Point:
    """The point of a place that is nearest to the flame: where a dimension line ends."""
    (fx, fy, *ends), per_mm = whole_parts([*flame, *_coordinates(place)])
    ax, ay, bx, by = ends if len(ends) == 4 else (*ends, *ends)
    squared_length = (bx - ax) ** 2 + (by - ay) ** 2
    share = (fx - ax) * (bx - ax) + (fy - ay) * (by - ay)
    share = min(squared_length, max(0, share))
    below = squared_length or 1
    x, y = ax * below + share * (bx - ax), ay * below + share * (by - ay)
    return x / (below * per_mm), y / (below * per_mm)


def _squares(
    flame: Point, lists: Sequence[Sequence[Place]], limits: Sequence[float]
) -> tuple[list[list[_Squared]], list[int], int]:
    """Squared distances to every place of every list, the limits, and the parts in a millimetre."""
    numbers = [*flame, *limits, *(c for places in lists for p in places for c in _coordinates(p))]
    parts, per_mm = _parts(numbers)
    taken = iter(parts)
    at = next(taken), next(taken)
    least = [next(taken) for _ in limits]
    squares = [[_squared(at, _points(place, taken)) for place in places] for places in lists]
    return squares, least, per_mm


def _parts(numbers: Sequence[float]) -> tuple[list[int], int]:
    """Whole parts of a millimetre; just millimetres where all are whole, as on most plans."""
    if all(-_EXACT < number < _EXACT and number == number // 1 for number in numbers):
        return [int(number) for number in numbers], 1
    return whole_parts(numbers)


def _coordinates(place: Any) -> Sequence[float]:
    return place if _is_point(place) else (*place[0], *place[1])


def _is_point(place: Any) -> bool:
    return isinstance(place[0], (int, float))


def _points(place: Place, taken: Iterator[int]) -> tuple[_Whole, ...]:
    """The ends of a place, or the one point, in parts."""
    return tuple((next(taken), next(taken)) for _ in range(1 if _is_point(place) else 2))


def _squared(flame: _Whole, ends: tuple[_Whole, ...]) -> _Squared:
    """From the flame square to a segment, or to its nearer end; straight to a point."""
    (ax, ay), (bx, by) = ends[0], ends[-1]
    across, up = flame[0] - ax, flame[1] - ay
    along_x, along_y = bx - ax, by - ay
    share = across * along_x + up * along_y
    squared_length = along_x * along_x + along_y * along_y
    if share <= 0:
        return across * across + up * up, 1
    if share >= squared_length:
        return (flame[0] - bx) ** 2 + (flame[1] - by) ** 2, 1
    return (across * along_y - up * along_x) ** 2, squared_length


def _smallest(squares: Sequence[_Squared]) -> int | None:
    nearest: int | None = None
    for i, (above, below) in enumerate(squares):
        if nearest is None or above * squares[nearest][1] < squares[nearest][0] * below:
            nearest = i
    return nearest


def _clear(square: _Squared, least: int) -> bool:
    return square[0] >= least * least * square[1]


def _root(square: _Squared, per_mm: int) -> float:
    return math.sqrt(square[0] / (square[1] * per_mm * per_mm))


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


@dataclass(frozen=True)
class _PointOrSegment(Either):
    """Tells from the first entry which of the two is meant, and tries both only when it is off."""

    def read(self, name: str, value: Any) -> Any:
        meant = isinstance(value, (list, tuple)) and value and isinstance(value[0], (list, tuple))
        try:
            return self.kinds[bool(meant)].read(name, value)
        except InputError:
            return super().read(name, value)


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
            Each(_PointOrSegment((_POINT, _SEGMENT))),
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
