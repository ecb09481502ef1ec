"""The wall at work: a wall unfolded as it is known at this minute, the roof field folded down.

Figure coordinates: millimetres, x along the wall from its left end, y up from the base line. A wall
too long for one row goes on below. Parts bear the ids that the figure gives them. Fields, units and
ranges: ``FIELDS``. How dry primer is cannot be seen and is never drawn.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from trainer.drawing.canvas import Canvas
from trainer.drawing.dimensions import scale_bar
from trainer.drawing.interaction import TARGET, part, part_name
from trainer.drawing.lettering import SIZE, text_height, text_width
from trainer.drawing.markup import path
from trainer.drawing.overlays import draw_overlays
from trainer.drawing.palette import ACCENT
from trainer.drawing.symbols import symbol
from trainer.drawing.work_bands import draw_bands
from trainer.drawing.work_data import FIELDS, Work
from trainer.drawing.work_finds import draw_finds
from trainer.drawing.work_key import draw_key
from trainer.drawing.work_rows import Row, draw_ground, draw_open_edge, lay_rows
from trainer.errors import InputError


def draw(canvas: Canvas, checked: dict[str, Any]) -> None:
    """Draw the wall described by the checked fields. Raises InputError on bad geometry."""
    work = Work(**checked)
    _check(work)
    rows = lay_rows(canvas, work)
    draw_ground(canvas, work, rows)
    _caption(canvas, work, rows[0])
    draw_bands(canvas, work, rows)
    _chalk(canvas, work, rows)
    draw_open_edge(canvas, work, rows)
    draw_finds(canvas, work, rows)
    draw_overlays(canvas, rows[0].scale.at, rows[0].scale.per_mm)
    draw_key(canvas, work)
    scale_bar(canvas, rows[0].scale.per_mm, canvas.request.length)


def _check(work: Work) -> None:
    groups: tuple[tuple[str, Sequence[Any]], ...] = (
        ("stretches", work.stretches),
        ("damp", work.damp),
        ("primer", work.primer),
        ("spoilt", work.spoilt),
        ("marks", work.marks),
        ("sheets", work.sheets),
        ("behind", work.behind),
        ("field_laps", work.field_laps),
    )
    for name, bands in groups:
        for i, band in enumerate(bands):
            _check_band(f"{name}[{i}]", band.from_mm, band.to_mm, work.wall_mm)
    places = [(f"openings[{i}].at_mm", each.at_mm) for i, each in enumerate(work.openings)]
    places += [(f"things[{i}].at_mm", each.at_mm) for i, each in enumerate(work.things)]
    for name, at in places:
        if not 0 <= at <= work.wall_mm:
            raise InputError(name, at, f"on the wall, 0 to {work.wall_mm:g}")
    if work.chalk_mm is not None and work.chalk_mm > work.field_mm:
        raise InputError("chalk_mm", work.chalk_mm, f"≤ field_mm ({work.field_mm:g})")


def _check_band(name: str, low: float, high: float, wall_mm: float) -> None:
    if low >= high:
        raise InputError(f"{name}.to_mm", high, f"> from_mm ({low:g})")
    if low >= wall_mm or high <= 0:
        raise InputError(f"{name}.from_mm", low, f"on the wall, 0 to {wall_mm:g}")


def _caption(canvas: Canvas, work: Work, row: Row) -> None:
    """The wall's name over the first row, a sun or a shaded disc before it; pressed as the wall."""
    if not work.caption:
        return
    ident = work.caption["id"]
    text = part_name(canvas, ident, work.caption["label"]) if ident else work.caption["label"]
    high = text_height(1, SIZE)
    bottom = row.top - 7
    top, left = bottom - max(high, 18.0), canvas.left
    if work.light:
        name = "sun" if work.light == "sun" else "shade"
        canvas.lines.append(symbol(name, (left + 9, (top + bottom) / 2), size=0.62))
        left += 24
    canvas.text(left, (top + bottom - high) / 2, (text,), SIZE, ' font-weight="bold"')
    right = left + text_width(text, SIZE) * 1.1
    canvas.placer.take((canvas.left, top, right, bottom))
    canvas.reach(top, bottom)
    if ident:
        middle = (top + bottom) / 2
        over = middle + TARGET / 2 - 4  # the wall below is pressed as well
        hit = ((canvas.left, over - TARGET), (max(right, 100.0), over))
        part(canvas, ident, text, "", hit, layer="lines", crowded=True)


def _chalk(canvas: Canvas, work: Work, rows: Sequence[Row]) -> None:
    if work.chalk_mm is None:
        return
    for row in rows:
        y = row.scale.y(-work.chalk_mm)
        line = path([(row.scale.x(row.start), y), (row.scale.x(row.end), y)])
        canvas.lines.append(
            f'<path class="chalk" d="{line}" stroke="{ACCENT}" stroke-width="1.6"/>'
        )


__all__ = ["FIELDS", "draw"]
