"""The rows of the wall at work: a long wall goes on below, like lines of writing."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from trainer.drawing.canvas import CUT, EDGE, MARGIN, Canvas, Scale
from trainer.drawing.interaction import TARGET
from trainer.drawing.labels import Label, write
from trainer.drawing.lettering import SMALL, text_height, text_width
from trainer.drawing.markup import Box, rect_path
from trainer.drawing.palette import BAD, PAPER, SOFT
from trainer.drawing.work_data import Work

_ROOM = 342.0
"""Between the margins of a drawing as wide as a phone; ``row_mm`` is what goes into it."""

MOST_ROWS = 6
SIGNS = 22.0
"""Height kept above the wall for the signs of its laps."""

FUEL = 13.0
"""Height of the strip over the wall that shows what burns in it."""

_UNDER = 19.0


class Row(NamedTuple):
    """One row: what stretch of the wall it shows, and where it lies in user units."""

    start: float
    end: float
    scale: Scale
    head: float
    foot: float
    signs: float
    """Where the round signs of the laps stand, over the wall."""

    @property
    def base(self) -> float:
        """The line where the wall meets the roof."""
        return self.scale.zero_y

    @property
    def low(self) -> float:
        """The lower end of what is pressed in this row: a thumb's height from its head."""
        return max(self.foot, self.head + TARGET - 2)

    @property
    def top(self) -> float:
        """The upper end of what is pressed in this row."""
        return self.signs - 11

    def span(self, low: float, high: float) -> tuple[float, float] | None:
        """Left and right of a stretch in user units, where the row shows any of it."""
        low, high = max(low, self.start), min(high, self.end)
        return (self.scale.x(low), self.scale.x(high)) if low < high else None

    def holds(self, at: float) -> bool:
        """Whether a point along the wall is in this row; the wall's right end in the last."""
        return self.start <= at < self.end


def lay_rows(canvas: Canvas, work: Work) -> list[Row]:
    """The rows from above, equally long, so that a place stays where it is from state to state."""
    room = canvas.width - 2 * MARGIN
    each = max(work.row_mm * room / _ROOM, work.wall_mm / MOST_ROWS)
    count = max(1, -int(-work.wall_mm // each))
    step = work.wall_mm / count
    per_mm = room / step
    signs = SIGNS if work.laps or any(corner.slit != "none" for corner in work.corners) else 8.0
    over = signs + (FUEL if work.behind else 0.0)
    high = work.height_mm * per_mm
    deep = work.field_mm * per_mm
    rows, y = [], 0.0
    for i in range(count):
        start, end = i * step, (i + 1) * step if i + 1 < count else work.wall_mm
        base = y + over + high
        scale = Scale(per_mm, MARGIN - start * per_mm, base)
        rows.append(Row(start, end, scale, base - high, base + deep, y + signs / 2))
        y = base + deep + _UNDER + 10
    return rows


def draw_ground(canvas: Canvas, work: Work, rows: Sequence[Row]) -> None:
    """Wall face, roof field, the laps of the field and the base line of every row."""
    for row in rows:
        left, right = row.scale.x(row.start), row.scale.x(row.end)
        field = rect_path((left, row.base, right, row.foot))
        face = rect_path((left, row.head, right, row.base))
        hatch = canvas.hatch("field")
        canvas.shapes.append(
            f'<path d="{field}" fill="{hatch}" stroke="none"/>'
            f'<path d="{face}" fill="{PAPER}" stroke="none"/>{_field_laps(canvas, work, row)}'
        )
        edges = f"M{left:.1f} {row.base:.1f}H{right:.1f}M{left:.1f} {row.head:.1f}H{right:.1f}"
        canvas.lines.append(f'<path d="{edges}" stroke-width="{CUT}"/>{_ends(work, row)}')
        canvas.reach(row.head - 4, row.foot + 4)
        canvas.placer.avoid((left, row.head, right, row.foot))
        for fuel in work.behind:
            if span := row.span(fuel.from_mm, fuel.to_mm):
                canvas.placer.take((span[0], row.head - FUEL + 1, span[1], row.head - 2))
        _positions(canvas, work, row)


def _field_laps(canvas: Canvas, work: Work, row: Row) -> str:
    drawn = ""
    for lap in work.field_laps:
        span = row.span(lap.from_mm, lap.to_mm)
        if span is None:
            continue
        a, b = span
        box = rect_path((a, row.base, b, row.foot))
        edges = f"M{a:.1f} {row.base:.1f}V{row.foot:.1f}M{b:.1f} {row.base:.1f}V{row.foot:.1f}"
        fill = canvas.hatch("lap")
        drawn += (
            f'<path class="field-lap" d="{box}" fill="{PAPER}" stroke="none"/>'
            f'<path d="{box}" fill="{fill}" stroke="none"/><path d="{edges}" stroke-width="1.2"/>'
        )
    return drawn


def _ends(work: Work, row: Row) -> str:
    """The wall's own ends as full lines, a cut as a wavy one."""
    drawn = ""
    for at, own in ((row.start, row.start == 0), (row.end, row.end == work.wall_mm)):
        x = row.scale.x(at)
        if own:
            drawn += f'<path d="M{x:.1f} {row.head:.1f}V{row.foot:.1f}" stroke-width="{EDGE}"/>'
        else:
            drawn += f'<path d="{_wave(x, row.head, row.foot)}" stroke-width="{EDGE}"/>'
    return drawn


def _wave(x: float, top: float, bottom: float) -> str:
    step = (bottom - top) / 4
    return (
        f"M{x:.1f} {top:.1f}q-3 {step / 2:.1f} 0 {step:.1f}t0 {step:.1f}t0 {step:.1f}t0 {step:.1f}"
    )


def _positions(canvas: Canvas, work: Work, row: Row) -> None:
    """Under the row: how far along the wall it begins and ends, and the corner there."""
    length, top = canvas.request.length, row.foot + 3
    left = _under(canvas, row, length(row.start), top, end=False)
    right = _under(canvas, row, length(row.end), top, end=True)
    for corner in work.corners:
        at_end = corner.end == "right"
        if (row.end == work.wall_mm) if at_end else not row.start:
            label = Label(corner.label, size=SMALL, room=canvas.right - canvas.left)
            wide, high = label.extent()
            x = right - 8 - wide if at_end else left + 8
            write(canvas, label, _lower(canvas, (x, top, x + wide, top + high)))


def _lower(canvas: Canvas, box: Box) -> Box:
    """The box, or where it has no room the first one below that has."""
    left, top, right, bottom = box
    while not canvas.placer.free((left, top, right, bottom), lines_too=False):
        back = max(0.0, canvas.left - left) - max(0.0, right - canvas.right)
        left, right = left + back, right + back
        top, bottom = top + 3, bottom + 3
    return (left, top, right, bottom)


def _under(canvas: Canvas, row: Row, text: str, top: float, *, end: bool) -> float:
    """A position in quiet letters under an end of the row; how far it reaches inwards."""
    wide, high = text_width(text, SMALL), text_height(1, SMALL)
    x = row.scale.x(row.end) - wide if end else row.scale.x(row.start)
    write(canvas, Label(text, ink=SOFT, size=SMALL), (x, top, x + wide, top + high))
    return x if end else x + wide


def draw_open_edge(canvas: Canvas, work: Work, rows: Sequence[Row]) -> None:
    """Where no edge protection stands: the top of the wall as an open roof edge."""
    if work.rail:
        return
    for row in rows:
        left, right = row.scale.x(row.start), row.scale.x(row.end)
        canvas.placer.take((left, row.head - 4, right, row.head))
        canvas.lines.append(
            f'<path class="no-rail" d="M{left:.1f} {row.head - 3:.1f}H{right:.1f}" '
            f'stroke="{BAD}" stroke-width="2.4" stroke-dasharray="14 3 3 3"/>'
        )


__all__ = ["FUEL", "MOST_ROWS", "SIGNS", "Row", "draw_ground", "draw_open_edge", "lay_rows"]
