"""What is drawn on top once the decision is answered: distances, limits, water, fire, notes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import islice, pairwise

from trainer.drawing.canvas import Canvas
from trainer.drawing.dimensions import dimension
from trainer.drawing.fields import Overlay
from trainer.drawing.labels import Label, label_near, write
from trainer.drawing.markup import Point, along, around, direction, distance, path
from trainer.drawing.palette import ACCENT, BAD, GOOD, PAPER
from trainer.drawing.placing import beside
from trainer.drawing.symbols import symbol, symbol_box

Place = Callable[[Point], Point]
"""From figure coordinates to user units."""


def draw_overlays(
    canvas: Canvas, place: Place, per_mm: float, overlays: Sequence[Overlay] | None = None
) -> None:
    """Overlays, every one of the figure's where none are named.

    Lines first, so that labels keep off all of them.
    """
    if overlays is None:
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


def _walk(canvas: Canvas, overlay: Overlay, place: Place, per_mm: float) -> None:
    points = [place(point) for point in overlay.path]
    ink = _label(overlay).tone
    head = arrow_head(points[-2], points[-1], ink)
    canvas.lines.append(f'<g class="way way-walk">{walked(points, ink)}{head}</g>')
    box = around(points)
    canvas.reach(box[1] - 5, box[3] + 5)
    for a, b in pairwise(points):
        canvas.placer.avoid_line(a, b, 5)
    label_along(canvas, _label(overlay), points)


def label_along(canvas: Canvas, label: Label, points: Sequence[Point]) -> None:
    """Write ``label`` beside a line: at its longest leg, or at another where that has no room."""
    if not label.text:
        return
    wide, high = label.extent()
    legs = sorted(pairwise(points), key=lambda leg: -distance(*leg))
    middles = [along(a, b, share) for share in (0.5, 0.3, 0.7) for a, b in legs]
    anchors = [(x - 5, y - 5, x + 5, y + 5) for x, y in middles]
    for lines_too in (True, False):
        for anchor in anchors:
            for x, y in islice(beside(anchor, wide, high), 8):
                box = (x, y, x + wide, y + high)
                if canvas.placer.free(box, lines_too):
                    write(canvas, label, box)
                    return
    label_near(canvas, label, anchors[0], middles[0], near=16)


_STEP = 17.0
"""How far foot ticks stand apart on a way that is walked, in user units."""


def walked(points: Sequence[Point], ink: str) -> str:
    """A dashed line with a foot tick, left and right by turns, at every step."""
    feet, side, rest = "", 1.0, _STEP / 2
    for a, b in pairwise(points):
        dx, dy = direction(a, b)
        far = distance(a, b)
        while rest < far:
            x, y = a[0] + dx * rest - dy * 4 * side, a[1] + dy * rest + dx * 4 * side
            feet += f"M{x - dx * 2:.1f} {y - dy * 2:.1f}L{x + dx * 2:.1f} {y + dy * 2:.1f}"
            rest, side = rest + _STEP, -side
        rest -= far
    line = path(points)
    return (
        f'<path d="{line}" stroke="{PAPER}" stroke-width="5" stroke-opacity=".7"/>'
        f'<path d="{line}" stroke="{ink}" stroke-width="1.6" stroke-dasharray="8 4"/>'
        f'<path d="{feet}" stroke="{ink}" stroke-width="2.8" stroke-linecap="round"/>'
    )


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
    "way": _walk,
    "ghost": _ghost,
    "note": _note,
}
_ORDER = {
    kind: i
    for i, kind in enumerate(("circle", "ghost", "water", "fire", "way", "dimension", "note"))
}
