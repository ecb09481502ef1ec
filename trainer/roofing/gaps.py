"""The gaps between field laps that a flashing lap fits into, and the clearest way through them.

Lap starts are whole millimetres; distances are whole parts of a millimetre, fine enough for every
given value (``bands.whole_parts``), so that a clear distance met exactly is met.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

from trainer.roofing.bands import Band, whole_parts
from trainer.roofing.reach import Interval, Layer, Steps, narrowed, sources


@dataclass(frozen=True)
class Gaps:
    """Ascending gaps, each with one lap start that keeps clear of all field laps at least.

    A lap that starts at s mm in gap i is clear by s × per_mm − before[i] parts of the field laps
    before it, and by after[i] − s × per_mm of those after it. ``starts`` are the first and last lap
    start of each gap.
    """

    per_mm: int
    before: list[int]
    after: list[int]
    starts: list[Interval]

    @classmethod
    def between(
        cls, field_laps: Sequence[Band], clear_mm: float, lap_mm: int, within: Interval
    ) -> Gaps:
        """The gaps for laps ``lap_mm`` wide that start ``within`` and keep ``clear_mm`` clear."""
        edges = [edge for band in field_laps for edge in band]
        (clear, *parts), per_mm = whole_parts([clear_mm, *edges])
        bands = sorted(zip(parts[::2], parts[1::2], strict=True))
        furthest = max(map(abs, parts), default=0)
        beyond = 2 * (clear + (within[1] + lap_mm) * per_mm + furthest)  # no edge, no limit
        gaps = cls(per_mm, [], [], [])
        before = -beyond
        for start, stop in (*bands, (beyond, beyond)):
            gaps._add(before, start - lap_mm * per_mm, clear, within)
            before = max(before, stop)
        return gaps

    def _add(self, before: int, after: int, clear: int, within: Interval) -> None:
        first, last = self._keeping(clear, before, after)
        first, last = max(first, within[0]), min(last, within[1])
        if first <= last:
            self.before.append(before)
            self.after.append(after)
            self.starts.append((first, last))

    def _keeping(self, clear: int, before: int, after: int) -> Interval:
        """First and last lap start that keep ``clear``; the last before the first when none do."""
        return -((-before - clear) // self.per_mm), (after - clear) // self.per_mm

    def keeping(self, clear: int) -> list[Interval]:
        """Of every gap the first and last lap start that keep ``clear``, as if nothing else did."""
        pairs = zip(self.before, self.after, strict=True)
        return [self._keeping(clear, before, after) for before, after in pairs]

    def clearest(self, first: int, last: int, gap: int) -> tuple[int, int]:
        """How clear the clearest lap start from ``first`` to ``last`` in a gap is, and which."""
        before, after = self.before[gap], self.after[gap]
        middle = (before + after + self.per_mm) // (2 * self.per_mm)
        start = min(max(middle, first), last)
        return min(start * self.per_mm - before, after - start * self.per_mm), start


def clearest_way(gaps: Gaps, layers: list[Layer], steps: Steps) -> tuple[list[int], int]:
    """The lap starts with the largest smallest clear distance, and that distance in parts.

    ``layers`` are the best ways of ``reach`` with one lap at least; the last one holds the wall's
    end alone. Halving between a way that is known and a bound no way can pass.
    """
    starts, clear = any_way(gaps, layers, steps)
    end = layers[-1]
    distances = _Distances(gaps)
    low, high = distances.rank(clear), distances.rank(_bound(gaps, layers))
    while low < high:
        middle = (low + high + 1) // 2
        allowed = gaps.keeping(distances.at(middle))
        left = narrowed(layers[:-1], allowed, end, steps)
        if left is None:
            high = middle - 1
        else:
            layers = left
            starts, clear = any_way(gaps, layers, steps)
            low = distances.rank(clear)
    return starts, clear


def any_way(gaps: Gaps, layers: Sequence[Layer], steps: Steps) -> tuple[list[int], int]:
    """Lap starts from the end back, each as clear as the one after it lets it be, and how clear."""
    ((trimmed, ((place, _, _),)),) = layers[-1].items()
    starts: list[int] = []
    clears: list[int] = []
    for layer in reversed(layers[1:-1]):
        clear, place, trimmed = max(
            (
                (*gaps.clearest(*piece), before)
                for piece, before in sources(layer, place, trimmed, steps)
            ),
            key=lambda source: source[0],
        )
        starts.append(place)
        clears.append(clear)
    return starts[::-1], min(clears)


def _bound(gaps: Gaps, layers: Sequence[Layer]) -> int:
    """No way is clearer than the clearest lap start of the layer where that is least clear."""
    return min(
        max(gaps.clearest(*piece)[0] for pieces in layer.values() for piece in pieces)
        for layer in layers[1:-1]
    )


class _Distances:
    """Every clear distance that a lap start on a whole millimetre can have, numbered upwards."""

    def __init__(self, gaps: Gaps) -> None:
        self._per_mm = gaps.per_mm
        edges = (*(-edge for edge in gaps.before), *gaps.after)
        self._over = sorted({edge % gaps.per_mm for edge in edges})

    def rank(self, distance: int) -> int:
        """The number of the largest that is no larger than ``distance``."""
        whole, part = divmod(distance, self._per_mm)
        return whole * len(self._over) + bisect_right(self._over, part) - 1

    def at(self, rank: int) -> int:
        """The distance of that number, in parts."""
        whole, i = divmod(rank, len(self._over))
        return whole * self._per_mm + self._over[i]
