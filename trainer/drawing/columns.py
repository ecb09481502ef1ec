"""A column of labels with leader lines that cross neither letters nor each other."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate, pairwise
from typing import NamedTuple

from trainer.drawing.canvas import THIN, Canvas
from trainer.drawing.labels import Label, dot, write
from trainer.drawing.markup import Box, Point
from trainer.drawing.placing import spread

_GAP = 3.0


class Pointer(NamedTuple):
    """A label and the point it names; on a long layer that may ``slide`` so far to the right."""

    label: Label
    target: Point
    slide: float = 0.0


class _Slot(NamedTuple):
    """A pointer's place in the column."""

    pointer: Pointer
    box: Box


def column(
    canvas: Canvas, pointers: Sequence[Pointer], left: float, low: float, high: float
) -> None:
    """Labels one under the other from ``left``, leaders to the right that cross no letters.

    They stand between ``low`` and ``high`` (y down) and go on above ``low`` when there are many.
    """
    slots = _stacked(pointers, left, low, high)
    while not all(canvas.placer.free(slot.box, lines_too=False) for slot in slots):
        slots = [_moved(slot, -6.0) for slot in slots]
    slots = _slid(slots)
    for slot, (knee, target) in zip(slots, _uncrossed(slots), strict=True):
        write(canvas, slot.pointer.label, slot.box)
        canvas.line([(slot.box[2] + 3, knee[1]), knee, target], THIN)
        canvas.lines.append(dot(target))
        canvas.placer.avoid_line(knee, target)


def _stacked(pointers: Sequence[Pointer], left: float, low: float, high: float) -> list[_Slot]:
    ordered = sorted(pointers, key=lambda p: (p.target[1], -p.target[0]))
    sizes = [pointer.label.extent() for pointer in ordered]
    heights = [tall + _GAP for _, tall in sizes]
    low = min(low, high - sum(heights))
    tops = spread([pointer.target[1] for pointer in ordered], heights, low, high)
    return [
        _Slot(pointer, (left, top, left + wide, top + tall))
        for pointer, (wide, tall), top in zip(ordered, sizes, tops, strict=True)
    ]


def _slid(slots: Sequence[_Slot]) -> list[_Slot]:
    """Targets that may slide brought right of the letters, so that no leader runs back."""
    made = []
    after = sum([slot.pointer.slide > 0 for slot in slots])
    for slot, (knee, (x, y)) in zip(slots, _leaders(slots), strict=True):
        pointer = slot.pointer
        if pointer.slide:
            after -= 1
            wanted = max(x, knee[0] + 6 + 10 * after)
            pointer = Pointer(pointer.label, (min(wanted, x + pointer.slide), y), pointer.slide)
        made.append(_Slot(pointer, slot.box))
    return made


def _moved(slot: _Slot, down: float) -> _Slot:
    left, top, right, bottom = slot.box
    return _Slot(slot.pointer, (left, top + down, right, bottom + down))


def _leaders(slots: Sequence[_Slot]) -> list[tuple[Point, Point]]:
    """Each leader from its knee to its target.

    It turns past the letters of every label between its own and what it names.
    """
    rights = [slot.box[2] + 6 for slot in slots]
    above = list(accumulate(rights, max))
    below = list(accumulate(reversed(rights), max))[::-1]
    made = []
    for slot, up, down in zip(slots, above, below, strict=True):
        target, middle = slot.pointer.target, (slot.box[1] + slot.box[3]) / 2
        made.append(((down if target[1] > middle else up, middle), target))
    return made


def _uncrossed(slots: list[_Slot]) -> list[tuple[Point, Point]]:
    """Swap neighbours while their leaders cross; the leaders, from knee to target, in order."""
    leaders = _leaders(slots)
    for _ in range(len(slots) ** 2):  # as many swaps as an order can need
        pairs = enumerate(pairwise(leaders))
        i = next((i for i, (upper, lower) in pairs if _cross(*upper, *lower)), None)
        if i is None:
            break
        slots[i], slots[i + 1] = _swapped(slots[i], slots[i + 1])
        leaders = _leaders(slots)
    return leaders


def _swapped(upper: _Slot, lower: _Slot) -> tuple[_Slot, _Slot]:
    top = upper.box[1]
    first = _moved(lower, top - lower.box[1])
    return first, _moved(upper, first.box[3] + _GAP - top)


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    return _turn(a, b, c) * _turn(a, b, d) < 0 and _turn(c, d, a) * _turn(c, d, b) < 0


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
