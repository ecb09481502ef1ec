"""Which lap starts legal sheets can reach, kept as unions of intervals and never place by place.

Places are whole millimetres along the wall. A sheet takes the lap start at its near end to the one
at its far end: a *full* sheet by exactly ``Steps.full``, a trimmed one by less, at least
``Steps.least``. Layer k holds the places that k sheets reach and fewer do not, sorted by the fewest
trimmed sheets on the way; so every place stands in one layer at most, and a pass over all layers
takes time in proportion to the wall.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

Interval = tuple[int, int]
"""First and last place."""

Piece = tuple[int, int, int]
"""First place, last place, and the index of the gap between field laps they lie in."""

Layer = dict[int, list[Piece]]
"""Pieces in ascending order, by the number of trimmed sheets on the way."""


class Steps(NamedTuple):
    """How far one sheet takes the lap start: 1 ≤ least ≤ full, in millimetres."""

    least: int
    full: int


def layers_from_start(gaps: Sequence[Interval], steps: Steps, end: int) -> list[Layer]:
    """Layers from place 0 until one holds ``end``; without it in the last when none can.

    ``gaps`` are disjoint, ascending, and hold every place a sheet may reach, ``end`` included.
    """
    layers: list[Layer] = [{0: [(0, 0, -1)]}]
    unseen = _Unseen(gaps)
    while not holds(layers[-1], end):
        layer = unseen.take(layers[-1], steps)
        if not layer:
            break
        layers.append(layer)
    return layers


def holds(layer: Layer, place: int) -> bool:
    """Whether the last place of the layer is ``place``."""
    return furthest(layer) == place


def furthest(layer: Layer) -> int:
    """The last place of a layer that is not empty."""
    return max(pieces[-1][1] for pieces in layer.values())


class _Unseen:
    """The places no sheet has reached yet."""

    def __init__(self, gaps: Sequence[Interval]) -> None:
        self._gaps = gaps
        self._next = 0
        self._near: list[Piece] = []

    def take(self, layer: Layer, steps: Steps) -> Layer:
        """The layer one sheet further. What lies behind it is dropped: sheets only go on."""
        nearest = min(pieces[0][0] for pieces in layer.values()) + steps.least
        self._look_ahead(nearest, furthest(layer) + steps.full)
        taken: Layer = {}
        for trimmed in range(min(layer), max(layer) + 2):
            onward = _onward(layer, trimmed, steps)
            found = _common(onward, self._near)
            if found:
                taken[trimmed] = found
                self._near = _without(self._near, found)
        return taken

    def _look_ahead(self, nearest: int, last: int) -> None:
        near = [piece for piece in self._near if piece[1] >= nearest]
        while self._next < len(self._gaps) and self._gaps[self._next][0] <= last:
            near.append((*self._gaps[self._next], self._next))
            self._next += 1
        self._near = near


def best_ways(layers: Sequence[Layer], steps: Steps, end: int) -> list[Layer]:
    """``layers`` less every place from which ``end`` takes another sheet, or another trim."""
    trims = next(trimmed for trimmed in sorted(layers[-1]) if layers[-1][trimmed][-1][1] == end)
    kept = [{trims: layers[-1][trims][-1:]}]
    for layer in reversed(layers[:-1]):
        kept.append(_kept(layer, kept[-1], steps))
    kept.reverse()
    return kept


def _kept(layer: Layer, following: Layer, steps: Steps) -> Layer:
    back = {trimmed: _back(following, trimmed, steps) for trimmed in layer}
    found = {trimmed: _common(back[trimmed], pieces) for trimmed, pieces in layer.items()}
    return {trimmed: pieces for trimmed, pieces in found.items() if pieces}


def narrowed(
    layers: Sequence[Layer], allowed: Sequence[Interval], end: Layer, steps: Steps
) -> list[Layer] | None:
    """``layers`` with each gap narrowed to its ``allowed`` places and to what 0 still reaches.

    None when they no longer lead to the layer ``end``, which is put behind them. The trims on the
    way to a place stay as they were counted.
    """
    kept = [layers[0]]
    for layer in layers[1:]:
        kept.append(_reached(kept[-1], _clipped(layer, allowed), steps))
        if not kept[-1]:
            return None
    kept.append(_reached(kept[-1], end, steps))
    return kept if kept[-1] else None


def _reached(before: Layer, layer: Layer, steps: Steps) -> Layer:
    reached: Layer = {}
    for trimmed, pieces in layer.items():
        found = _common(_onward(before, trimmed, steps), pieces)
        if found:
            reached[trimmed] = found
    return reached


def _clipped(layer: Layer, allowed: Sequence[Interval]) -> Layer:
    clipped: Layer = {}
    for trimmed, pieces in layer.items():
        clipped[trimmed] = left = []
        for low, high, gap in pieces:
            first, last = allowed[gap]
            if first < low:
                first = low
            if last > high:
                last = high
            if first <= last:
                left.append((first, last, gap))
    return clipped


def sources(layer: Layer, place: int, trimmed: int, steps: Steps) -> Iterator[tuple[Piece, int]]:
    """The places of ``layer`` one sheet before ``place``, and how many trims they have behind them.

    ``trimmed`` counts the trims behind ``place``; trimmed sheets come first.
    """
    ways = (
        (trimmed - 1, (place - steps.full, place - steps.least)),
        (trimmed, (place - steps.full, place - steps.full)),
    )
    for before, interval in ways:
        for piece in _common([interval], layer.get(before, [])):
            yield piece, before


def _onward(layer: Layer, trimmed: int, steps: Steps) -> list[Interval]:
    """Where one more sheet leads with ``trimmed`` trims behind it."""
    full = _moved(layer.get(trimmed), steps.full, steps.full)
    return _union(full, _moved(layer.get(trimmed - 1), steps.least, steps.full))


def _back(layer: Layer, trimmed: int, steps: Steps) -> list[Interval]:
    """Whence one sheet leads into ``layer``, with ``trimmed`` trims behind that sheet."""
    full = _moved(layer.get(trimmed), -steps.full, -steps.full)
    return _union(full, _moved(layer.get(trimmed + 1), -steps.full, -steps.least))


def _moved(pieces: list[Piece] | None, nearest: int, furthest: int) -> list[Interval]:
    return [(low + nearest, high + furthest) for low, high, _ in pieces] if pieces else []


def _union(some: list[Interval], others: list[Interval]) -> list[Interval]:
    """All places of both, in ascending intervals that do not touch."""
    waiting = some + others
    if len(waiting) < 2:
        return waiting
    waiting.sort()
    merged = []
    first, last = waiting[0]
    for low, high in waiting:
        if low > last + 1:
            merged.append((first, last))
            first, last = low, high
        elif high > last:
            last = high
    merged.append((first, last))
    return merged


def _common(intervals: Sequence[Interval], pieces: Sequence[Piece]) -> list[Piece]:
    """The places of ``pieces`` that lie in ``intervals``; both ascending and disjoint."""
    found: list[Piece] = []
    start, count = 0, len(intervals)
    for low, high, gap in pieces:
        while start < count and intervals[start][1] < low:
            start += 1
        for i in range(start, count):
            first, last = intervals[i]
            if first > high:
                break
            found.append((first if first > low else low, last if last < high else high, gap))
    return found


def _without(pieces: Sequence[Piece], taken: Sequence[Piece]) -> list[Piece]:
    """``pieces`` less ``taken``, each of which lies within one of them; both ascending."""
    left: list[Piece] = []
    i = 0
    for low, high, gap in pieces:
        while i < len(taken) and taken[i][0] <= high:
            if taken[i][0] > low:
                left.append((low, taken[i][0] - 1, gap))
            low = taken[i][1] + 1
            i += 1
        if low <= high:
            left.append((low, high, gap))
    return left
