"""What was found at the wall at work: corners, what burns, openings, touches, flames."""

from __future__ import annotations

from collections.abc import Sequence

from trainer.drawing.canvas import EDGE, Canvas
from trainer.drawing.elevation_signs import STATE_SIGNS
from trainer.drawing.interaction import TARGET
from trainer.drawing.labels import Label, dot, label_near, write
from trainer.drawing.lettering import SMALL
from trainer.drawing.markup import Box, rect_path
from trainer.drawing.palette import BAD, INK, PAPER
from trainer.drawing.symbols import symbol
from trainer.drawing.work_bands import SIGN, drawn_part
from trainer.drawing.work_data import Corner, Fuel, Mark, Place, Work
from trainer.drawing.work_rows import FUEL, Row

SLIT_STATES = {"open": "open", "filled": "closed", "gusset": "welded"}
"""The round sign that a corner's slit bears, as laps do."""


def draw_finds(canvas: Canvas, work: Work, rows: Sequence[Row]) -> None:
    """Everything found, the smaller over the larger, so that each can be pressed."""
    if work.sealed:
        _sealed(canvas, work, rows)
    for fuel in work.behind:
        _fuel(canvas, rows, fuel)
    for corner in work.corners:
        _corner(canvas, rows, corner)
    waiting = [_opening(canvas, rows, hole) for hole in work.openings]
    waiting += [_thing(canvas, rows, mark) for mark in work.things]
    for text, box, near in waiting:
        label_near(canvas, Label(text, size=SMALL, room=120, patch=True), box, near=near)


Waiting = tuple[str, Box, float]


def _sealed(canvas: Canvas, work: Work, rows: Sequence[Row]) -> None:
    """A heavy line along every edge of the sheets: water gets in nowhere tonight."""
    for row in rows:
        for sheet in work.sheets:
            span = row.span(sheet.from_mm, sheet.to_mm)
            if span:
                foot = row.base + sheet.field_lap_mm * row.scale.per_mm
                data = f"M{span[0]:.1f} {foot:.1f}H{span[1]:.1f}"
                canvas.lines.append(f'<path class="sealed" d="{data}" stroke-width="3.4"/>')


def _fuel(canvas: Canvas, rows: Sequence[Row], fuel: Fuel) -> None:
    """What burns along a stretch, as a strip over the wall; covered, it bears a plate."""
    spans = [(row, span) for row in rows if (span := row.span(fuel.from_mm, fuel.to_mm))]
    hatch = canvas.hatch("plate" if fuel.covered else "timber")
    boxes = [(a, row.head - FUEL + 1, b, row.head - 2) for row, (a, b) in spans]
    tone = INK if fuel.covered else BAD
    shapes = "".join(
        [
            f'<path d="{rect_path(box)}" fill="{PAPER}" stroke="none"/>'
            f'<path class="fuel" d="{rect_path(box)}" fill="{hatch}" stroke="{tone}" '
            'stroke-width="1.6"/>'
            for box in boxes
        ]
    )
    hits = [((a, row.top - 8), (b, row.head + 4)) for row, (a, b) in spans]
    drawn_part(canvas, fuel.id, fuel.label, shapes, *hits)
    box = max(boxes, key=lambda box: box[2] - box[0])
    for each in boxes:
        canvas.reach(each[1], each[3])
    if fuel.label:
        _name_over(canvas, Label(fuel.label, size=SMALL, room=220), box)


def _name_over(canvas: Canvas, label: Label, strip: Box) -> None:
    """A name over its strip, as near to its middle as what stands there lets it; else near."""
    wide, high = label.extent()
    middle, low = (strip[0] + strip[2] - wide) / 2, strip[1] - high - 1
    for lift in (0.0, 10.0, 24.0):
        for aside in _ASIDE:
            left = min(max(middle + aside, canvas.left), canvas.right - wide)
            box = (left, low - lift, left + wide, low - lift + high)
            if canvas.placer.free(box, lines_too=False):
                write(canvas, label, box)
                return
    label_near(canvas, label, strip, near=8)


_ASIDE = (0.0, 20.0, -20.0, 40.0, -40.0, 60.0, -60.0, 80.0, -80.0)


def _corner(canvas: Canvas, rows: Sequence[Row], corner: Corner) -> None:
    """An end of the wall: the slit, the bitumen in it, or the gusset over it."""
    left = corner.end == "left"
    row = rows[0] if left else rows[-1]
    x = row.scale.x(row.start if left else row.end)
    way = 1.0 if left else -1.0
    leg = max(TARGET, corner.leg_mm * row.scale.per_mm)
    ends = sorted((x, x + way * leg))
    sign = (x + way * 8, row.signs)
    shapes = _slit(canvas, corner, row, x, way)
    if state := SLIT_STATES.get(corner.slit):
        shapes += (
            f'<g class="state" transform="translate({sign[0]:.1f} {sign[1]:.1f}) scale({SIGN})">'
            f"{STATE_SIGNS[state]}</g>"
        )
        canvas.placer.take((sign[0] - 7, sign[1] - 7, sign[0] + 7, sign[1] + 7))
    hit = ((ends[0], row.top), (ends[1], row.low))
    drawn_part(canvas, corner.id, corner.label, shapes, hit)
    canvas.reach(row.top, row.foot)


def _slit(canvas: Canvas, corner: Corner, row: Row, x: float, way: float) -> str:
    """The corner itself as a heavy line, and below it on the field what was done there."""
    line = f'<path d="M{x:.1f} {row.head:.1f}V{row.base:.1f}" stroke-width="3"/>'
    drop = min(row.foot - row.base, 30.0)
    run = f"M{x:.1f} {row.base:.1f}l{way * drop * 0.5:.1f} {drop:.1f}"
    if corner.slit == "open":
        gap = (
            f'<path d="{run}" stroke-width="6"/><path d="{run}" stroke="{PAPER}" stroke-width="3"/>'
        )
        return line + gap
    if corner.slit == "filled":
        return f'{line}<path d="{run}" stroke-width="6"/>'
    if corner.slit == "gusset":
        wide, high = way * drop * 0.9, drop * 0.8
        ring = f"M{x:.1f} {row.base - high:.1f}L{x + wide:.1f} {row.base:.1f}L{x + wide * 0.6:.1f} "
        ring += f"{row.base + high:.1f}H{x:.1f}Z"
        fill = canvas.hatch("plate")
        return (
            f'{line}<path d="{ring}" fill="{PAPER}" stroke="none"/>'
            f'<path class="gusset" d="{ring}" fill="{fill}" stroke-width="{EDGE}"/>'
        )
    return line


def _at(rows: Sequence[Row], at: float) -> tuple[Row, float]:
    row = next((row for row in rows if row.holds(at)), rows[-1])
    return row, row.scale.x(at)


def _opening(canvas: Canvas, rows: Sequence[Row], hole: Place) -> Waiting:
    row, x = _at(rows, hole.at_mm)
    y = (row.head + row.base) / 2
    kind = "opening, covered" if hole.covered else "opening, open"
    half = TARGET / 2
    hit = ((x - half, y - half), (x + half, y + half))
    size = 0.8
    shapes = symbol(kind, (x, y), size=size)
    drawn_part(canvas, hole.id, hole.label, shapes, hit)
    box = (x - 8, y - 8, x + 8, y + 8)
    canvas.placer.take(box)
    return hole.label, box, 10.0


_SIZES = {"touch": 0.6, "torch": 0.8, "melter": 0.8, "person": 0.8}


def _thing(canvas: Canvas, rows: Sequence[Row], mark: Mark) -> Waiting:
    """A touch at its point on the wall; a flame and a person on the field before it."""
    row, x = _at(rows, mark.at_mm)
    if mark.kind == "touch":
        y = row.base - 7
        canvas.lines.append(dot((x, y)))
        box = (x - 4, y - 4, x + 4, y + 4)
    else:
        y = min(row.foot - 6, row.base + 16)
        x = min(max(x, canvas.left + 10), canvas.right - 10)
        name = "flame" if mark.kind == "torch" else mark.kind
        canvas.lines.append(symbol(name, (x, y), size=_SIZES[mark.kind]))
        box = (x - 10, y - 11, x + 10, y + 11)
    canvas.placer.take(box)
    canvas.reach(box[1], box[3])
    return mark.label, box, 6.0
