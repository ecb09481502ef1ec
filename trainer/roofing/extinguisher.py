"""Is an extinguisher near enough on foot, and is that very one large enough?

Plan coordinates and ways are millimetres. Ratings are those on the label of the extinguisher:
2-A:20-B:C has class A 2 and class B 20.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from trainer.errors import InputError
from trainer.roofing.contract import Calculator, Each, Field, Number, Pair, Record, length
from trainer.roofing.walking import Plan, Point, Rectangle, Way

_MOST = 20  # of obstacles and of extinguishers: the lines between corners grow with their square


@dataclass(frozen=True)
class Extinguisher:
    """One extinguisher on the plan; ratings ≥ 0, 0 for a class it is not rated for."""

    at: Point
    class_a: float
    class_b: float


@dataclass(frozen=True)
class Asked:
    """What a rule asks for: the longest way on foot (≥ 0 mm) and the least ratings (≥ 0)."""

    limit_mm: float
    class_a: float
    class_b: float


@dataclass(frozen=True)
class Reach:
    """One extinguisher seen from the work; ``way`` is None where nobody can walk to it."""

    straight_mm: float
    way: Way | None
    in_reach: bool
    rating_ok: bool

    @property
    def ok(self) -> bool:
        return self.in_reach and self.rating_ok


def judge(
    work: Point,
    extinguishers: Sequence[Extinguisher],
    obstacles: Sequence[Rectangle],
    asked: Asked,
) -> list[Reach]:
    """Each extinguisher in turn; a way of exactly the limit is in reach.

    Raises InputError for a work place or an extinguisher inside the obstacles.
    """
    plan = Plan([work, *(each.at for each in extinguishers)], obstacles)
    _check_room(plan, work, extinguishers)
    ways = plan.ways(0)[1:]
    return [
        Reach(
            straight_mm=math.dist(work, each.at),
            way=way,
            in_reach=way is not None and way.length_mm <= asked.limit_mm,
            rating_ok=each.class_a >= asked.class_a and each.class_b >= asked.class_b,
        )
        for each, way in zip(extinguishers, ways, strict=True)
    ]


def nearest(found: Sequence[Reach]) -> int | None:
    """The index of the shortest way, the lowest on a tie; None when none can be walked to.

    Ways that differ by less than a millionth of a millimetre are a tie.
    """
    lengths = [(round(each.way.length_mm, 6), i) for i, each in enumerate(found) if each.way]
    return min(lengths)[1] if lengths else None


def _check_room(plan: Plan, work: Point, extinguishers: Sequence[Extinguisher]) -> None:
    names = ["work", *(f"extinguishers[{i}].at" for i in range(len(extinguishers)))]
    for i, at in enumerate([work, *(each.at for each in extinguishers)]):
        if plan.is_inside(i):
            raise InputError(names[i], list(at), "a point outside the obstacles, or on their edge")


def _check_obstacles(obstacles: Sequence[Rectangle]) -> None:
    for i, ((ax, ay), (bx, by)) in enumerate(obstacles):
        if ax == bx or ay == by:
            allowed = "two opposite corners of a rectangle wider and higher than 0"
            raise InputError(f"obstacles[{i}]", [[ax, ay], [bx, by]], allowed)


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    _check_obstacles(given["obstacles"])
    asked = Asked(given["limit_mm"], given["class_a"], given["class_b"])
    extinguishers = [Extinguisher(**each) for each in given["extinguishers"]]
    found = judge(given["work"], extinguishers, given["obstacles"], asked)
    return {
        "each": [_shown(each) for each in found],
        "nearest": nearest(found),
        "ok": any(each.ok for each in found),
    }


def _shown(reach: Reach) -> dict[str, Any]:
    return {
        "straight_mm": reach.straight_mm,
        "walking_mm": reach.way and reach.way.length_mm,
        "in_reach": reach.in_reach,
        "rating_ok": reach.rating_ok,
        "ok": reach.ok,
        "path": reach.way and list(reach.way.points),
    }


_POINT = Pair(Number("mm"), "a point [x, y]")
_EXTINGUISHER = Record(
    (
        Field("at", _POINT, "where it stands; not inside an obstacle"),
        Field("class_a", Number(low=0), "its class A rating, 0 for none"),
        Field("class_b", Number(low=0), "its class B rating, 0 for none"),
    )
)

_RESULTS: Mapping[str, str] = {
    "each": "per extinguisher straight_mm, walking_mm (null when nobody can walk there), in_reach, "
    "rating_ok, ok (both of them) and path, the points of the way from the work, or null",
    "nearest": "index of the shortest way on foot, the lowest on a tie, null when there is none",
    "ok": "whether one and the same extinguisher is in reach and rated well enough",
}

EXTINGUISHER = Calculator(
    name="extinguisher",
    summary="whether an extinguisher that is large enough is near enough on foot",
    fields=(
        Field("work", _POINT, "where the flame is; not inside an obstacle"),
        Field("extinguishers", Each(_EXTINGUISHER, most=_MOST), "every one there is, at most 20"),
        Field(
            "obstacles",
            Each(Pair(_POINT, "a rectangle [[x0, y0], [x1, y1]]"), most=_MOST),
            "what nobody walks through, square to the plan, at most 20; they may touch and overlap",
        ),
        Field("limit_mm", length(), "longest way on foot from the work to an extinguisher"),
        Field("class_a", Number(low=0), "least class A rating"),
        Field("class_b", Number(low=0), "least class B rating"),
    ),
    results=_RESULTS,
    sources=(
        "2-A:20-B:C within 30 ft (9144 mm) of the work: International Fire Code 2018, 3504.2.6",
        "shortest way between obstacles: geometry; it bends at their corners alone",
    ),
    compute=_compute,
    rules=(
        "A way of exactly limit_mm is in reach; a rating of exactly what is asked is enough.",
        "One may walk along an edge, but not between obstacles that touch.",
        "A near one too small and a large one too far do not add up.",
    ),
)
