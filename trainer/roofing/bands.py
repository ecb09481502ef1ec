"""Lap bands along one wall: where two sheets overlap, and how far two such bands keep clear."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import lcm
from typing import TypeVar

from trainer.roofing.contract import Number, Pair, exact

Band = tuple[float, float]
"""From and to along the wall, in millimetres, from ≤ to."""

Length = TypeVar("Length", int, float, Fraction)

BAND = Pair(Number("mm"), "a band [from, to]", ordered=True)


def clear_distance(one: tuple[Length, Length], other: tuple[Length, Length]) -> Length:
    """The gap between the nearest edges of two bands, negative when they overlap.

    >>> clear_distance((0, 100), (250, 350)), clear_distance((0, 100), (60, 160))
    (150, -40)
    """
    return max(other[0] - one[1], one[0] - other[1])


def whole_parts(lengths: Sequence[float]) -> tuple[list[int], int]:
    """``lengths`` as whole numbers of equal parts of a millimetre, and how many parts make one.

    Each length counts as the decimal it was written as, so sums and comparisons are exact.

    >>> whole_parts([0.1, 12, 2.25])
    ([2, 240, 45], 20)
    """
    ratios = [exact(value).as_integer_ratio() for value in lengths]
    per_mm = lcm(*{below for _, below in ratios})
    return [above * (per_mm // below) for above, below in ratios], per_mm


def in_mm(parts: int, per_mm: int) -> float | Fraction:
    """A whole number of parts back in millimetres, exactly."""
    return parts // per_mm if parts % per_mm == 0 else Fraction(parts, per_mm)
