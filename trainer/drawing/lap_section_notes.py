"""Scale, dimensions, letters, the movable line and the key of the cut across a lap."""

from __future__ import annotations

from collections.abc import Callable

from trainer.drawing.canvas import THIN, Canvas
from trainer.drawing.dimensions import dimension, in_inches
from trainer.drawing.interaction import Axis, Movable, movable, part, part_name
from trainer.drawing.labels import Label, label_near
from trainer.drawing.lap_section_data import LapSection
from trainer.drawing.lap_section_scale import Cut, lead_mm
from trainer.drawing.lap_section_shapes import FILM
from trainer.drawing.legend import Entry, legend
from trainer.drawing.lettering import SMALL
from trainer.drawing.palette import ACCENT, HATCH, INK, PAPER
from trainer.drawing.spots import LETTERS, RING, ring_letter, ring_shape
from trainer.drawing.symbols import symbol

_UNDER = 14.0
"""How far under the sheets the scale begins, in user units."""


def draw_row(canvas: Canvas, lap: LapSection, cut: Cut, row: int) -> None:
    """The scale under a bead, its letter and its label, and the dimensions that are given."""
    bead = lap.rows[row]
    if lap.beads:
        letter = bead.label or LETTERS[row]
        at = (canvas.left + RING + 2, cut.y(lap.bottom_mm) - RING - 4)
        canvas.lines.append(ring_shape(at))
        ring_letter(canvas, part_name(canvas, f"bead-{row}", letter), at)
        canvas.reach(at[1] - RING, at[1] + RING)
        canvas.placer.take((at[0] - RING, at[1] - RING, at[0] + RING, at[1] + RING))
    if lap.ruler:
        _ruler(canvas, lap, cut)
        _drop(canvas, cut, bead.width_mm, lap.bottom_mm)
    top = lap.bottom_mm + lap.top_mm
    if "lap" in lap.dimensions:
        _measure(canvas, cut, (0.0, top), (lap.lap_mm, top), lap.lap_mm)
    if "bead" in lap.dimensions and bead.width_mm:
        _measure(canvas, cut, (-bead.width_mm, top), (0.0, top), bead.width_mm)
    if not lap.beads and bead.label:
        x, y = cut.at((-bead.width_mm / 2, lap.bottom_mm))
        text = part_name(canvas, "bead", bead.label)
        label_near(canvas, Label(text, size=SMALL), (x - 4, y - 16, x + 4, y), (x, y - 3))


def _measure(
    canvas: Canvas, cut: Cut, a: tuple[float, float], b: tuple[float, float], mm: float
) -> None:
    text = canvas.request.length(mm)
    dimension(canvas, cut.at(a), cut.at(b), Label(text, size=SMALL, patch=True), 14)


def _ruler(canvas: Canvas, lap: LapSection, cut: Cut) -> None:
    """A scale from the edge of the upper sheet outwards, in the worker's unit."""
    step, marked = (25.4 / 16, 4) if in_inches(canvas.request.length) else (1.0, 5)
    count = int((lead_mm(lap) - 1) / step)
    count -= count % marked
    top = cut.y(0) + _UNDER
    ticks = "".join(
        [
            f"M{cut.x(-i * step):.1f} {top:.1f}v{9 if i % marked == 0 else 5}"
            for i in range(count + 1)
        ]
    )
    left, right = cut.x(-count * step), cut.x(0)
    canvas.lines.append(
        f'<path class="ruler" d="M{left:.1f} {top:.1f}H{right:.1f}" stroke-width="1.2"/>'
        f'<path d="{ticks}" stroke-width=".8"/>'
    )
    _numbers(canvas, cut, top + 9, step, (marked, count))
    canvas.placer.take((left - 6, top - 2, right + 40, top + 26))
    canvas.reach(top, top + 26)


def _drop(canvas: Canvas, cut: Cut, width_mm: float, bottom_mm: float) -> None:
    """Thin lines from both ends of the bead down to the scale."""
    top, foot = cut.y(bottom_mm), cut.y(0) + _UNDER
    data = "".join([f"M{cut.x(mm):.1f} {top:.1f}V{foot:.1f}" for mm in sorted({-width_mm, 0.0})])
    canvas.lines.append(f'<path d="{data}" stroke-width=".8" stroke-dasharray="2 2"/>')


def _numbers(canvas: Canvas, cut: Cut, top: float, step: float, marks: tuple[int, int]) -> None:
    """Numbers at the long strokes, as many as have room; the unit once, right of the nought."""
    length: Callable[[float], str] = canvas.request.length
    marked, count = marks
    every = marked
    while every * step * cut.per_mm < 26:
        every += marked
    for i in range(0, count + 1, every):
        text = length(i * step).rpartition("\u00a0")[0] if i else "0"
        canvas.text(cut.x(-i * step), top, (text,), SMALL, ' text-anchor="middle"')
    unit = length(step * marked).rpartition("\u00a0")[2]
    canvas.text(cut.x(0) + 8, top, (unit,), SMALL)


def draw_marker(canvas: Canvas, lap: LapSection, cut: Cut) -> None:
    """A plumb line through the lap; its grip above."""
    if not lap.marker:
        return
    marker, x = lap.marker, cut.x(lap.marker.at_mm)
    name = part_name(canvas, "marker", marker.label or canvas.request.say("mark"))
    head, foot = cut.y(lap.high_mm) - 8, cut.y(0) + 6
    drawn = f'<path d="M0 {head:.1f}V{foot:.1f}" stroke="{ACCENT}" stroke-width="2.4"/>'
    if not marker.movable:
        shapes = f'<g transform="translate({x:.1f} 0)">{drawn}</g>'
        part(canvas, "marker", name, shapes, ((x, head), (x, foot)), layer="lines")
        return
    zero = x - marker.at_mm * cut.per_mm
    axis = Axis("x", zero, 1 / cut.per_mm, marker.at_mm, marker.movable)
    grip = head - 18
    link = f'<path d="M0 {head:.1f}V{grip:.1f}" stroke="{ACCENT}" stroke-width="1.2"/>'
    movable(canvas, Movable("marker", name, (axis,), drawn, (0.0, grip), 0.0, link))
    low, high = zero + marker.movable.low * cut.per_mm, zero + marker.movable.high * cut.per_mm
    canvas.placer.take((low - 16, grip - 16, high + 16, grip + 16))


def draw_key(canvas: Canvas, lap: LapSection, cut: Cut) -> None:
    """The key: the sheets, what lies between them, the bead."""
    say = canvas.request.say
    sheet = '<path d="M-11 -6H11V6H-11Z" {} stroke-width="1.7"/>'
    upper = f'fill="{HATCH}" fill-opacity=".25"'
    entries = [
        Entry(say("upper sheet"), mark=sheet.format(upper)),
        Entry(say("lower sheet"), mark=sheet.format(f'fill="{HATCH}" fill-opacity=".5"')),
    ]
    if lap.third:
        entries.append(Entry(say("third sheet"), mark=sheet.format(f'fill="{PAPER}"')))
    if any(bead.width_mm for bead in lap.rows):
        entries.append(Entry(say("bead of bitumen"), mark=BEAD))
    if any(bead.burnt == "smoking" for bead in lap.rows):
        entries.append(Entry(say("smoke"), mark=symbol("smoke", (0, 0), size=0.6)))
    if lap.film:
        mark = f'<path d="M-11 0H11" {FILM}/>'
        entries.append(Entry(say(f"{lap.film.kind} film"), mark=mark))
    if cut.broken:
        entries.append(Entry(say("left out"), mark=BREAK))
    if lap.marker and lap.marker.label:
        mark = f'<path d="M-11 0H11" stroke="{ACCENT}" stroke-width="2.4"/>'
        entries.append(Entry(part_name(canvas, "marker", lap.marker.label), mark=mark))
    legend(canvas, entries)


BEAD = f'<path d="M-8 5Q-8 -3 -2 -4L8 -5V5Z" fill="{INK}" stroke-width="1"/>'
BREAK = f'<path d="M0 -8V-3L-4 -1L4 1L0 3V8" stroke-width="{THIN + 0.2}"/>'
