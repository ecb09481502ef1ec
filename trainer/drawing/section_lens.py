"""The enlarged detail of the parapet section: what the scale hides, in a circle under it."""

from __future__ import annotations

import re

from trainer.drawing.canvas import CUT, Canvas, Scale
from trainer.drawing.fields import Overlay
from trainer.drawing.labels import Label, write
from trainer.drawing.lens import ring
from trainer.drawing.lettering import SMALL
from trainer.drawing.markup import Point, distance
from trainer.drawing.overlays import draw_overlays
from trainer.drawing.palette import ACCENT, PAPER
from trainer.drawing.section_data import Section
from trainer.drawing.section_layers import draw_layers
from trainer.drawing.section_work_data import Detail

_LEAST, _USUAL, _MOST = 44.0, 66.0, 110.0
_NAMED = re.compile(r' data-shape="[^"]*"')


def draw_detail(canvas: Canvas, cut: Section, scale: Scale, detail: Detail) -> None:
    """One place enlarged in a circle, with the overlays that lie in it."""
    small = detail.radius_mm * scale.per_mm
    radius = min(max(small * (detail.times or _USUAL / small), _LEAST), _MOST)
    times = detail.times or radius / small
    at = _place(canvas, scale.x(detail.at[0]), radius)
    per_mm = scale.per_mm * times
    near = Scale(per_mm, at[0] - detail.at[0] * per_mm, at[1] + detail.at[1] * per_mm)
    _disc(canvas, cut, near, at, radius)
    ring(canvas, scale.at(detail.at), max(radius / times, 6.0), at, radius)
    _name(canvas, f"{canvas.request.say('detail')} ×{_number(times)}", at, radius)
    canvas.reach(at[1] - radius - 2, at[1] + radius + 2)
    draw_overlays(canvas, near.at, near.per_mm, [o for o in _overlays(canvas) if within(o, detail)])


def _number(times: float) -> str:
    return f"{times:.0f}" if times >= 3 else f"{times:.1f}"


def _place(canvas: Canvas, wanted: float, radius: float) -> Point:
    """The middle of the circle: under all that is drawn, as near to what it shows as can be."""
    x = min(max(wanted, canvas.left + radius + 8), canvas.right - radius - 2)
    return (x, canvas.bottom + radius + 14)


def _overlays(canvas: Canvas) -> list[Overlay]:
    return canvas.request.after or []


def within(overlay: Overlay, detail: Detail | None) -> bool:
    """Whether an overlay lies in the detail and is drawn there alone."""
    if detail is None or overlay.type in ("circle", "water", "fire"):
        return False
    points = [point for point in (overlay.start, overlay.end, overlay.at) if point]
    points += overlay.outline
    return all(distance(point, detail.at) <= detail.radius_mm for point in points)


def _disc(canvas: Canvas, cut: Section, near: Scale, at: Point, radius: float) -> None:
    clip = canvas.ident("lens")
    disc = f'cx="{at[0]:.1f}" cy="{at[1]:.1f}" r="{radius:.1f}"'
    canvas.shapes.append(
        f'<clipPath id="{clip}"><circle {disc}/></clipPath>'
        f'<circle {disc} fill="{PAPER}" stroke="none"/>'
        f'<g class="lens" clip-path="url(#{clip})">{_drawn(canvas, cut, near)}</g>'
        f'<circle {disc} stroke-width="{CUT}"/>'
    )


def _drawn(canvas: Canvas, cut: Section, near: Scale) -> str:
    """The section once more at the scale of the detail, without parts to press."""
    again = canvas.beside()
    draw_layers(again, cut, near)
    drawn = "".join(again.shapes + again.lines)
    if cut.chalk and (canvas.request.answered or not cut.chalk.movable):
        x, y = near.x(-cut.chalk.at_mm), near.y(0)
        drawn += f'<path d="M{x:.1f} {y - 4:.1f}v-40" stroke="{ACCENT}" stroke-width="2.4"/>'
    return _NAMED.sub("", drawn)


def _name(canvas: Canvas, text: str, at: Point, radius: float) -> None:
    """What the circle is, beside its foot on the wider side; under it where there is no room."""
    label = Label(text, size=SMALL, room=canvas.width)
    wide, high = label.extent()
    on_left = at[0] > canvas.width / 2
    left = at[0] - radius - 8 - wide if on_left else at[0] + radius + 8
    top = at[1] + radius - high
    if left < canvas.left or left + wide > canvas.right:
        left = min(max(at[0] - wide / 2, canvas.left), canvas.right - wide)
        top = at[1] + radius + 5
    write(canvas, label, (left, top, left + wide, top + high))
