"""How many sheets lie on top of each other: at points that are asked for, and at the most.

Laid sheets are rectangles square to the plan or to the wall. Everything is counted in whole numbers
of equal parts of a millimetre, so that a point on an edge is on it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate, pairwise
from typing import Any

from trainer.errors import InputError
from trainer.roofing.bands import whole_parts
from trainer.roofing.contract import Calculator, Each, Field, Number, Pair, count

Point = tuple[float, float]
Sheet = tuple[Point, Point]
"""Two opposite corners in any order, in millimetres; wider and higher than nothing."""

_MOST = 200

_At = tuple[int, int]
_Box = tuple[int, int, int, int]
"""Least x and y, greatest x and y, in parts of a millimetre."""


@dataclass(frozen=True)
class Thickest:
    """The most sheets on one place that is wider and higher than nothing, and its middle.

    ``at`` is None where no sheet lies. Of several such places the lowest counts, of these the
    leftmost.
    """

    plies: int
    at: tuple[Fraction, Fraction] | None


class Laid:
    """Sheets as they lie, and points among them. Lengths are millimetres."""

    def __init__(self, sheets: Sequence[Sheet], points: Sequence[Point] = ()) -> None:
        """Raises InputError on "sheets[i]" for a sheet that has no area."""
        corners = [corner for sheet in sheets for corner in sheet]
        parts, self._per_mm = whole_parts([c for at in (*points, *corners) for c in at])
        places = list(zip(parts[::2], parts[1::2], strict=True))
        self._points, ends = places[: len(points)], places[len(points) :]
        self._boxes = [_box(*pair) for pair in zip(ends[::2], ends[1::2], strict=True)]
        for i, (x0, y0, x1, y1) in enumerate(self._boxes):
            if x0 == x1 or y0 == y1:
                allowed = "opposite corners of a rectangle wider and higher than nothing"
                raise InputError(f"sheets[{i}]", sheets[i], allowed)

    def plies(self) -> list[int]:
        """How many sheets cover each point; on the edge of a sheet is covered by it."""
        return [
            sum(x0 <= x <= x1 and y0 <= y <= y1 for x0, y0, x1, y1 in self._boxes)
            for x, y in self._points
        ]

    def thickest(self) -> Thickest:
        """Where the most sheets share an area: edges that only touch do not count."""
        if not self._boxes:
            return Thickest(0, None)
        across = sorted({x for x0, _, x1, _ in self._boxes for x in (x0, x1)})
        upward = sorted({y for _, y0, _, y1 in self._boxes for y in (y0, y1)})
        counts = _counts(self._boxes, across, upward)
        most = max(map(max, counts))
        row = next(i for i, along in enumerate(counts) if most in along)
        at = counts[row].index(most)
        return Thickest(most, (self._middle(across, at), self._middle(upward, row)))

    def _middle(self, edges: Sequence[int], cell: int) -> Fraction:
        return Fraction(edges[cell] + edges[cell + 1], 2 * self._per_mm)


def _box(one: _At, other: _At) -> _Box:
    (ax, ay), (bx, by) = one, other
    return min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)


def _counts(boxes: Sequence[_Box], across: Sequence[int], upward: Sequence[int]) -> list[list[int]]:
    """Sheets on every cell between neighbouring edges, row by row from below.

    Each sheet is added at its left edge and taken away at its right one, in every row it covers.
    """
    column = {x: i for i, x in enumerate(across)}
    counts = []
    for low, high in pairwise(upward):
        steps = [0] * len(across)
        for x0, y0, x1, y1 in boxes:
            if y0 <= low and high <= y1:
                steps[column[x0]] += 1
                steps[column[x1]] -= 1
        counts.append(list(accumulate(steps[:-1])))
    return counts


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    laid = Laid(given["sheets"], given["points"])
    plies, thickest, at_most = laid.plies(), laid.thickest(), given["at_most"]
    return {
        "plies": plies,
        "most": thickest.plies,
        "most_at": thickest.at,
        "over": None if at_most is None else [i for i, n in enumerate(plies) if n > at_most],
    }


_POINT = Pair(Number("mm"), "a point [x, y]")

PLIES = Calculator(
    name="plies",
    summary="how many sheets lie on top of each other where laps cross",
    fields=(
        Field(
            "sheets",
            Each(Pair(_POINT, "a rectangle [[x0, y0], [x1, y1]]"), most=_MOST),
            "laid sheets by two opposite corners, square to each other, at most 200",
        ),
        Field("points", Each(_POINT, most=_MOST), "where to count, at most 200"),
        Field("at_most", count(), "most sheets that may lie on one point", optional=True),
    ),
    results={
        "plies": "how many sheets cover each point",
        "most": "the most sheets that share an area anywhere, 0 without sheets",
        "most_at": "[x, y] in the middle of such an area, the lowest, then the leftmost; or null",
        "over": "indexes of the points with more than at_most, null where that is left out",
    },
    sources=("counting",),
    compute=_compute,
    rules=(
        "A point on the edge of a sheet is covered by it.",
        "Sheets that only touch share no area; a sheet without area is refused.",
    ),
)
