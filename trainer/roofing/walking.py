"""The shortest way on foot round obstacles on a roof plan.

Obstacles are rectangles square to the plan; one may walk along their edges, but not between two
that touch, not even where only their corners meet. Which ways are open is decided in whole numbers
of equal parts of a millimetre, so nobody squeezes through a gap that is none; lengths are floats.

The shortest way bends at corners of obstacles alone (T. Lozano-Pérez and M. A. Wesley, 1979), so it
is sought among the straight lines between corners that see each other, by Dijkstra's method (1959).
Both from memory.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence
from dataclasses import dataclass

from trainer.roofing.bands import whole_parts

Point = tuple[float, float]
Rectangle = tuple[Point, Point]
"""Two opposite corners, in millimetres; wider and higher than nothing."""

_At = tuple[int, int]
_Box = tuple[int, int, int, int]
"""Least x and y, greatest x and y, in parts of a millimetre."""
_Reached = dict[_At, tuple[float, _At]]
"""How far a point is from the start, and the point before it on the way there."""


@dataclass(frozen=True)
class Way:
    """The shortest way: its length and the points it runs through, from the start to the goal."""

    length_mm: float
    points: tuple[Point, ...]


class Plan:
    """Points and the obstacles between them, all in millimetres; points go by their index."""

    def __init__(self, points: Sequence[Point], obstacles: Sequence[Rectangle]) -> None:
        corners = [corner for pair in obstacles for corner in pair]
        parts, self._per_mm = whole_parts([c for point in (*points, *corners) for c in point])
        places = list(zip(parts[::2], parts[1::2], strict=True))
        self._points, ends = places[: len(points)], places[len(points) :]
        self._boxes = [_box(*pair) for pair in zip(ends[::2], ends[1::2], strict=True)]
        every = {(x, y) for x0, y0, x1, y1 in self._boxes for x in (x0, x1) for y in (y0, y1)}
        self._bends = sorted(at for at in every if _blocked_quarters(at, self._boxes) == 1)

    def is_inside(self, point: int) -> bool:
        """Whether that point has an obstacle on every side."""
        return _blocked_quarters(self._points[point], self._boxes) == 4

    def ways(self, start: int) -> list[Way | None]:
        """The shortest way from that point to each, itself included; None where there is none.

        No point may be inside the obstacles.
        """
        reached = self._reached(self._points[start])
        return [self._way_to(goal, reached) for goal in self._points]

    def _reached(self, start: _At) -> _Reached:
        """The start and every bend there is a way to."""
        reached: _Reached = {}
        waiting = [(0.0, start, start)]
        while waiting:
            length, at, before = heapq.heappop(waiting)
            if at in reached:
                continue
            reached[at] = length, before
            for bend in self._bends:
                if bend not in reached and _is_open(at, bend, self._boxes):
                    heapq.heappush(waiting, (length + math.dist(at, bend), bend, at))
        return reached

    def _way_to(self, goal: _At, reached: _Reached) -> Way | None:
        ways = [
            (length + math.dist(at, goal), at)
            for at, (length, _) in reached.items()
            if _is_open(at, goal, self._boxes)
        ]
        if not ways:
            return None
        length, at = min(ways)
        back = [goal, at]
        while reached[at][1] != at:
            at = reached[at][1]
            back.append(at)
        return Way(length / self._per_mm, tuple(self._in_mm(at) for at in reversed(back)))

    def _in_mm(self, at: _At) -> Point:
        return at[0] / self._per_mm, at[1] / self._per_mm


def _box(one: _At, other: _At) -> _Box:
    (ax, ay), (bx, by) = one, other
    return min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)


def _blocked_quarters(at: _At, boxes: Sequence[_Box]) -> int:
    """How many of the four quarters round a point the obstacles fill.

    One: a corner that sticks out, where a way may bend. Four: no room to stand.
    """
    x, y = at
    blocked: set[tuple[bool, bool]] = set()
    for x0, y0, x1, y1 in boxes:
        across = [right for right, fills in ((False, x0 < x <= x1), (True, x0 <= x < x1)) if fills]
        upward = [above for above, fills in ((False, y0 < y <= y1), (True, y0 <= y < y1)) if fills]
        blocked |= {(right, above) for right in across for above in upward}
    return len(blocked)


def _is_open(one: _At, other: _At, boxes: Sequence[_Box]) -> bool:
    """Whether one may walk straight from one point to the other.

    No obstacle may be crossed, and nowhere on the way may one obstacle be touched on the left and
    another on the right: there is no way between them.
    """
    if one == other:
        return True
    reach = _box(one, other)
    left: list[tuple[int, int]] = []
    right: list[tuple[int, int]] = []
    for box in boxes:
        if not _overlap(reach, box, touching=True):
            continue
        corners = [(x, y) for x in (box[0], box[2]) for y in (box[1], box[3])]
        sides = [_side(one, other, corner) for corner in corners]
        if min(sides) < 0 < max(sides):
            if _overlap(reach, box, touching=False):
                return False
            continue
        touched = [
            _along(one, other, corner)
            for corner, side in zip(corners, sides, strict=True)
            if not side
        ]
        if touched:
            (left if max(sides) > 0 else right).append((min(touched), max(touched)))
    end = _along(one, other, other)
    return not any(_meet(a, b, end) for a in left for b in right)


def _overlap(one: _Box, other: _Box, *, touching: bool) -> bool:
    ends = ((one[2], other[0]), (other[2], one[0]), (one[3], other[1]), (other[3], one[1]))
    return all(high > low or (touching and high == low) for high, low in ends)


def _side(one: _At, other: _At, at: _At) -> int:
    """Positive to the left of the line from one point to the other, negative to its right."""
    return (other[0] - one[0]) * (at[1] - one[1]) - (other[1] - one[1]) * (at[0] - one[0])


def _along(one: _At, other: _At, at: _At) -> int:
    """How far along that line a point lies, in its own measure: 0 at its start."""
    return (other[0] - one[0]) * (at[0] - one[0]) + (other[1] - one[1]) * (at[1] - one[1])


def _meet(one: tuple[int, int], other: tuple[int, int], end: int) -> bool:
    """Whether two stretches of a line share anything between its start and its end."""
    first, last = max(one[0], other[0]), min(one[1], other[1])
    return first <= last and first < end and last > 0
