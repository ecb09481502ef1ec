"""What is drawn on top once the decision is answered: distances, limits, water, fire, notes."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from trainer.drawing.canvas import Canvas
from trainer.drawing.dimensions import dimension
from trainer.drawing.fields import Overlay
from trainer.drawing.labels import Label, label_near
from trainer.drawing.markup import Point, around, direction, path
from trainer.drawing.palette import ACCENT, BAD, GOOD, PAPER
from trainer.drawing.symbols import symbol, symbol_box

Place = Callable[[Point], Point]
"""From figure coordinates to user units."""


def draw_overlays(canvas: Canvas, place: Place, per_mm: float) -> None:
    """Every overlay of the figure, lines first, so that labels keep off all of them."""
    overlays = canvas.request.after or []
    for overlay in sorted(overlays, key=lambda o: _ORDER[o.type]):
        _DRAW[overlay.type](canvas, overlay, place, per_mm)


def _icon(overlay: Overlay) -> str:
    return "" if overlay.ok is None else "right" if overlay.ok else "wrong"


def _label(overlay: Overlay, room: float = 150.0) -> Label:
    return Label(
        overlay.text, _icon(overlay), ACCENT if overlay.ok is None else "", room=room, patch=True
    )


def _dimension(canvas: Canvas, overlay: Overlay, place: Place, per_mm: float) -> None:
    assert overlay.start is not None and overlay.end is not None
    a, b = place(overlay.start), place(overlay.end)
    canvas.line([a, b], 5, f' stroke="{PAPER}" stroke-opacity=".8"')
    dimension(canvas, a, b, _label(overlay), overlay.offset_mm * per_mm)


def _circle(canvas: Canvas, overlay: Overlay, place: Place, per_mm: float) -> None:
    assert overlay.at is not None
    x, y = place(overlay.at)
    radius = overlay.radius_mm * per_mm
    ink = _label(overlay).tone
    canvas.lines.append(
        f'<circle class="limit" cx="{x:.1f}" cy="{y:.1f}" r="{radius:.1f}" stroke="{ink}" '
        f'stroke-width="1.6" stroke-dasharray="6 4"/>'
    )
    canvas.reach(y - radius, y + radius)
    if overlay.text:
        label_near(canvas, _label(overlay, 120), (x - 1, y - radius - 1, x + 1, y - radius + 1))


def _way(canvas: Canvas, overlay: Overlay, place: Place, kind: str, ink: str) -> None:
    points = [place(point) for point in overlay.path]
    canvas.lines.append(
        f'<path class="way way-{kind}" d="{path(points)}" stroke="{ink}" stroke-width="2.2" '
        f'stroke-dasharray="7 4" stroke-linecap="round"/>{arrow_head(points[-2], points[-1], ink)}'
    )
    first = points[0]
    canvas.lines.append(symbol(kind, first))
    canvas.placer.take(symbol_box(first))
    box = around(points)
    canvas.reach(box[1] - 14, box[3] + 14)
    for a, b in pairwise(points):
        canvas.placer.avoid_line(a, b)
    if overlay.text:
        label_near(canvas, Label(overlay.text, ink=ink, patch=True), symbol_box(points[-1], 0.5))


def _water(canvas: Canvas, overlay: Overlay, place: Place, per_mm: float) -> None:
    _way(canvas, overlay, place, "drop", ACCENT)


def _fire(canvas: Canvas, overlay: Overlay, place: Place, per_mm: float) -> None:
    _way(canvas, overlay, place, "flame", BAD)


def _ghost(canvas: Canvas, overlay: Overlay, place: Place, per_mm: float) -> None:
    points = [place(point) for point in overlay.outline]
    style = f'stroke="{GOOD}" stroke-width="2" stroke-dasharray="5 3"'
    if points:
        data = path(points, closed=len(points) > 2)
        canvas.lines.append(f'<path class="ghost" d="{data}" {style}/>')
    else:
        assert overlay.at is not None
        points = [place(overlay.at)]
        x, y = points[0]
        canvas.lines.append(f'<circle class="ghost" cx="{x:.1f}" cy="{y:.1f}" r="9" {style}/>')
    box = around(points)
    canvas.reach(box[1] - 9, box[3] + 9)
    if overlay.text:
        label_near(canvas, Label(overlay.text, ink=GOOD, patch=True), box)


def _note(canvas: Canvas, overlay: Overlay, place: Place, per_mm: float) -> None:
    assert overlay.at is not None
    x, y = place(overlay.at)
    label_near(canvas, _label(overlay, 170), (x - 6, y - 6, x + 6, y + 6), (x, y))


def arrow_head(a: Point, b: Point, ink: str) -> str:
    """A filled arrow head at ``b`` on the way from ``a``."""
    dx, dy = direction(a, b)
    back, side = 9.0, 4.2
    root = (b[0] - dx * back, b[1] - dy * back)
    data = path(
        [b, (root[0] - dy * side, root[1] + dx * side), (root[0] + dy * side, root[1] - dx * side)],
        closed=True,
    )
    return f'<path d="{data}" fill="{ink}" stroke="{ink}" stroke-width="1"/>'


_DRAW = {
    "dimension": _dimension,
    "circle": _circle,
    "water": _water,
    "fire": _fire,
    "ghost": _ghost,
    "note": _note,
}
_ORDER = {
    kind: i for i, kind in enumerate(("circle", "ghost", "water", "fire", "dimension", "note"))
}
