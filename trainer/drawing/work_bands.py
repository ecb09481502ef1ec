"""What lies on the wall at work: damp, primer, marks, sheets and their laps."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from trainer.drawing.canvas import EDGE, THIN, Canvas
from trainer.drawing.elevation_signs import STATE_SIGNS
from trainer.drawing.interaction import TARGET, part, part_name, shared_out
from trainer.drawing.labels import Label, label_in, label_near, patch, write
from trainer.drawing.lettering import SMALL, text_width
from trainer.drawing.markup import Point, rect_path
from trainer.drawing.palette import FAINT, HATCH, INK, PAPER, SOFT
from trainer.drawing.work_data import Band, Lap, Primed, Sheet, Work
from trainer.drawing.work_rows import Row

SIGN = 1.25
"""Signs over the wall are read at arm's length: so much larger than in other drawings."""

Hit = tuple[Point, Point]
Shape = Callable[[Row, float, float], str]


def draw_bands(canvas: Canvas, work: Work, rows: Sequence[Row]) -> None:
    """From the wall's face outwards; letters last, so that nothing covers them."""
    for band in work.stretches:
        _banded(canvas, rows, band, lambda row, a, b: "", "")
    words = [
        *_hatched(canvas, rows, work.damp, "damp"),
        *_hatched(canvas, rows, work.primer, "primed"),
        *_hatched(canvas, rows, work.spoilt, "dead"),
    ]
    for mark in work.marks:
        _banded(canvas, rows, mark, _mark, "sheet")
    for sheet in work.sheets:
        _sheet(canvas, rows, sheet)
    _laps(canvas, work, rows)
    for band in [*work.marks, *work.sheets]:
        _name(canvas, rows, band)
    for label, row, span in words:
        _say(canvas, label, row, span)


Span = tuple[float, float]


def _say(canvas: Canvas, label: Label, row: Row, span: Span) -> None:
    """In a stretch under its number, else over the wall, under the row, on the field, or near."""
    a, b = span
    if label_in(canvas, label, (a, row.head + 15, b, row.base)):
        return
    label = label._replace(room=150.0)
    wide, high = label.extent()
    left = min(max((a + b - wide) / 2, canvas.left), canvas.right - wide)
    for top in (row.head - high - 2, row.foot + 3, row.base + 3):
        box = (left, top, left + wide, top + high)
        if canvas.placer.free(box, lines_too=False):
            write(canvas, label, box)
            return
    label_near(canvas, label, (a, row.head, b, row.base), near=8)


def _hatched(
    canvas: Canvas, rows: Sequence[Row], bands: Sequence[Band], hatch: str
) -> list[tuple[Label, Row, Span]]:
    """Bands on the wall's face; what is to be written on the larger piece of each."""
    waiting = []

    def shape(row: Row, a: float, b: float) -> str:
        data = rect_path((a, row.head, b, row.base))
        fill = canvas.hatch(hatch)
        return (
            f'<path d="{data}" fill="{PAPER}" stroke="none"/>'
            f'<path d="{data}" fill="{fill}" stroke-width="{THIN}"/>'
        )

    for band in bands:
        _banded(canvas, rows, band, shape, hatch)
        row, (a, b) = _widest(rows, band)
        if band.label:
            text, room = band.label, max(44.0, b - a - 8)
            if isinstance(band, Primed) and band.short and text_width(text, SMALL) > room:
                text = band.short
            label = Label(text, size=SMALL, room=room, patch=True)
            waiting.append((label, row, (a, b)))
    return waiting


def _banded(canvas: Canvas, rows: Sequence[Row], band: Band, shape: Shape, word: str) -> None:
    """One stretch, over as many rows as it runs through; one part however many."""
    spans = _spans(rows, band)
    shapes = "".join([shape(row, a, b) for row, (a, b) in spans])
    hits = [((a, row.head - 2), (b, row.low)) for row, (a, b) in spans]
    own = band.label or canvas.request.say(word or "wall")
    drawn_part(canvas, band.id, own, shapes, *hits)


def drawn_part(canvas: Canvas, ident: str, own: str, shapes: str, *hits: Hit) -> None:
    """``shapes`` as a part pressed on ``hits``; without an id they are only drawn."""
    if ident:
        part(canvas, ident, own, shapes, *hits, crowded=True)
    else:
        canvas.shapes.append(shapes)


def _spans(rows: Sequence[Row], band: Band) -> list[tuple[Row, tuple[float, float]]]:
    found = [(row, row.span(band.from_mm, band.to_mm)) for row in rows]
    return [(row, span) for row, span in found if span]


def _widest(rows: Sequence[Row], band: Band) -> tuple[Row, tuple[float, float]]:
    return max(_spans(rows, band), key=lambda item: item[1][1] - item[1][0])


def _mark(row: Row, a: float, b: float) -> str:
    """A sheet marked out: thin dashes, its own width shown by a line at the foot."""
    data = f"M{a:.1f} {row.head:.1f}V{row.foot - 6:.1f}M{b:.1f} {row.head:.1f}V{row.foot - 6:.1f}"
    return (
        f'<path class="mark" d="{data}" stroke="{SOFT}" stroke-width="1" stroke-dasharray="4 3"/>'
    )


def _sheet(canvas: Canvas, rows: Sequence[Row], sheet: Sheet) -> None:
    """A sheet from the field up to the top; one that is not rolled bears lifted places."""

    def shape(row: Row, a: float, b: float) -> str:
        foot = row.base + sheet.field_lap_mm * row.scale.per_mm
        data = rect_path((a, row.head, b, foot))
        ground = FAINT if sheet.rolled else PAPER
        drawn = f'<path class="sheet" d="{data}" fill="{ground}" stroke-width="{EDGE}"/>'
        if not sheet.rolled:
            loose = canvas.hatch("loose")
            drawn += f'<path class="loose" d="{data}" fill="{loose}" stroke="none"/>'
        return drawn

    _banded(canvas, rows, sheet, shape, "sheet")


def _name(canvas: Canvas, rows: Sequence[Row], band: Band) -> None:
    text = part_name(canvas, band.id, band.label) if band.id else band.label
    if not text:
        return
    row, (a, b) = _widest(rows, band)
    ink = "" if isinstance(band, Sheet) else SOFT
    label = Label(text, ink=ink, size=SMALL, room=max(30.0, b - a - 24))
    wide, high = label.extent()
    left, top = (a + b - wide) / 2, row.head + 1
    canvas.lines.append(patch((left - 2, top + 1, left + wide + 2, top + high - 1)))
    write(canvas, label, (left, top, left + wide, top + high))


def _laps(canvas: Canvas, work: Work, rows: Sequence[Row]) -> None:
    """Laps and how far they are; each pressed round its sign, over the sheets."""
    for row in rows:
        for lap in work.laps:
            if span := row.span(lap.from_mm, lap.to_mm):
                canvas.shapes.append(_lap(canvas, work, row, lap, span))
        here = [lap for lap in work.laps if row.holds((lap.from_mm + lap.to_mm) / 2)]
        here.sort(key=lambda lap: lap.from_mm)
        middles = [row.scale.x((lap.from_mm + lap.to_mm) / 2) for lap in here]
        for lap, x, (low, high) in zip(here, middles, shared_out(middles), strict=True):
            hit = ((low, row.top), (high, max(row.top + TARGET, row.head + 6)))
            own = lap.label or canvas.request.say("lap")
            shapes = _sign(lap.state, x, row.signs)
            drawn_part(canvas, lap.id, own, shapes, hit)
            canvas.placer.take((x - 7, row.signs - 7, x + 7, row.signs + 7))
            canvas.reach(row.signs - 7, row.signs + 7)
            _width(canvas, lap, row, x)


def _lap(canvas: Canvas, work: Work, row: Row, lap: Lap, span: tuple[float, float]) -> str:
    a, b = span
    laid = [sheet.field_lap_mm for sheet in work.sheets]
    foot = row.base + max(laid, default=100.0) * row.scale.per_mm
    data = rect_path((a, row.head, b, foot))
    over, under = (b, a) if lap.left_on_top else (a, b)
    fill = PAPER if lap.state == "open" else canvas.hatch("lap")
    return (
        f'<path class="lap" d="{data}" fill="{PAPER}" stroke="none"/>'
        f'<path d="{data}" fill="{fill}" stroke="none"/>'
        f'<path d="M{over:.1f} {row.head:.1f}V{foot:.1f}" stroke-width="1.8"/>'
        f'<path d="M{under:.1f} {row.head:.1f}V{foot:.1f}" stroke="{HATCH}" stroke-width="1.1" '
        'stroke-dasharray="3 2"/>'
    )


def _sign(state: str, x: float, y: float) -> str:
    stem = f'<path d="M{x:.1f} {y + 6:.1f}v5" stroke="{INK}" stroke-width="{THIN}"/>'
    place = f'transform="translate({x:.1f} {y:.1f}) scale({SIGN})"'
    return f'{stem}<g class="state" {place}>{STATE_SIGNS[state]}</g>'


def _width(canvas: Canvas, lap: Lap, row: Row, x: float) -> None:
    """What a lap measured, beside its sign."""
    if lap.label:
        box = (x - 6, row.signs - 6, x + 6, row.signs + 6)
        label_near(canvas, Label(lap.label, size=SMALL), box, near=20)
