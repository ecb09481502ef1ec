"""Where things are: along a wall and out from it, and the same on the roof plan.

The walls form a chain. The first runs along x with the roof on its right, so that a person who
faces it from the roof has its left end first. At an inside corner the chain turns towards the
roof, at an outside corner away from it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

Point = tuple[int, int]


@dataclass(frozen=True)
class Spot:
    """A place on the roof: ``at_mm`` along a wall, ``off_mm`` out from its face."""

    wall: str
    at_mm: int
    off_mm: int = 0


@dataclass(frozen=True)
class Laid:
    """How one wall lies on the plan: its left end, the way along it, the way out onto the roof."""

    origin: Point
    along: Point
    out: Point

    def point(self, at_mm: int, off_mm: int = 0) -> Point:
        (x, y), (ax, ay), (ox, oy) = self.origin, self.along, self.out
        return x + ax * at_mm + ox * off_mm, y + ay * at_mm + oy * off_mm


def lay_out(lengths: Sequence[int], corners: Sequence[str]) -> tuple[Laid, ...]:
    """The walls on the plan. ``corners`` are "inside" or "outside", one fewer than walls."""
    laid, origin, along = [], (0, 0), (1, 0)
    for i, length in enumerate(lengths):
        wall = Laid(origin, along, (along[1], -along[0]))
        laid.append(wall)
        origin = wall.point(length)
        if i < len(corners):
            back = (-wall.out[0], -wall.out[1])
            along = wall.out if corners[i] == "inside" else back
    return tuple(laid)


def facing(
    laid: Sequence[Laid], lengths: Sequence[int], own: int, at_mm: int
) -> tuple[int, int] | None:
    """The nearest wall across the roof from a point of wall ``own``: its number, how far out.

    None where no wall faces that point. Beyond such a wall the roof has ended.
    """
    start, out = laid[own].point(at_mm), laid[own].out
    found = []
    for i, (wall, length) in enumerate(zip(laid, lengths, strict=True)):
        (ax, ay), (bx, by) = wall.origin, wall.point(length)
        far, other = (_along(x - start[0], y - start[1], out) for x, y in ((ax, ay), (bx, by)))
        side, opposite = (
            _along(x - start[0], y - start[1], laid[own].along) for x, y in ((ax, ay), (bx, by))
        )
        if far == other and far > 0 and side * opposite < 0:
            found.append((far, i))
    return min(found)[::-1] if found else None


def _along(x: int, y: int, way: Point) -> int:
    return x * way[0] + y * way[1]


def squared(a: Point, b: Point) -> int:
    """The square of the distance of two points, exact."""
    return (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2


def squared_to_segment(point: Point, start: Point, end: Point) -> int:
    """The square of the distance from a point to a segment along an axis, exact."""
    x = min(max(point[0], min(start[0], end[0])), max(start[0], end[0]))
    y = min(max(point[1], min(start[1], end[1])), max(start[1], end[1]))
    return squared(point, (x, y))
