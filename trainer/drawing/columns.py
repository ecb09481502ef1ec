"""A column of labels with leader lines that cross neither letters nor each other."""

from __future__ import annotations

from collections.abc import Sequence
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

    @property
    def middle(self) -> float:
        return (self.box[1] + self.box[3]) / 2


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
    _uncross(slots)
    for i, slot in enumerate(slots):
        write(canvas, slot.pointer.label, slot.box)
        knee, target = _knee(slots, i), slot.pointer.target
        canvas.line([(slot.box[2] + 3, slot.middle), (knee, slot.middle), target], THIN)
        canvas.lines.append(dot(target))
        canvas.placer.avoid_line((knee, slot.middle), target)


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
    after = sum(1 for slot in slots if slot.pointer.slide)
    for i, slot in enumerate(slots):
        pointer = slot.pointer
        if pointer.slide:
            after -= 1
            x, y = pointer.target
            wanted = max(x, _knee(slots, i) + 6 + 10 * after)
            pointer = Pointer(pointer.label, (min(wanted, x + pointer.slide), y), pointer.slide)
        made.append(_Slot(pointer, slot.box))
    return made


def _moved(slot: _Slot, down: float) -> _Slot:
    left, top, right, bottom = slot.box
    return _Slot(slot.pointer, (left, top + down, right, bottom + down))


def _knee(slots: Sequence[_Slot], i: int) -> float:
    """Where a leader turns: past the letters of every label between it and what it names."""
    slot = slots[i]
    down = slot.pointer.target[1] > slot.middle
    passed = slots[i:] if down else slots[: i + 1]
    return max([other.box[2] for other in passed]) + 6


def _uncross(slots: list[_Slot]) -> None:
    """Swap neighbours while their leaders cross; each swap shortens them, so it ends."""
    for _ in slots:
        swapped = False
        for i in range(len(slots) - 1):
            if _cross(*_leader(slots, i), *_leader(slots, i + 1)):
                slots[i], slots[i + 1] = _swapped(slots[i], slots[i + 1])
                swapped = True
        if not swapped:
            return


def _swapped(upper: _Slot, lower: _Slot) -> tuple[_Slot, _Slot]:
    top = upper.box[1]
    first = _moved(lower, top - lower.box[1])
    return first, _moved(upper, first.box[3] + _GAP - top)


def _leader(slots: Sequence[_Slot], i: int) -> tuple[Point, Point]:
    return (_knee(slots, i), slots[i].middle), slots[i].pointer.target


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    return _turn(a, b, c) * _turn(a, b, d) < 0 and _turn(c, d, a) * _turn(c, d, b) < 0


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
