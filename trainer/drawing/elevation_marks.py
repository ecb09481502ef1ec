"""Faults in the sheets of the wall elevation, slits and patches over them."""

from __future__ import annotations

from itertools import islice

from trainer.drawing.canvas import Canvas, Scale
from trainer.drawing.elevation_data import Elevation
from trainer.drawing.elevation_signs import blister, fishmouth, hollow, placed, wrinkle
from trainer.drawing.elevation_site_data import Blemish, Cut, Patch
from trainer.drawing.interaction import part, part_name
from trainer.drawing.labels import Label, label_near, write
from trainer.drawing.lettering import SMALL
from trainer.drawing.markup import Box, around, path
from trainer.drawing.palette import PAPER
from trainer.drawing.placing import beside

_LEAST = 3.0
"""Half the least size anything is drawn, so that a thin wrinkle can be seen."""


def draw_marks(canvas: Canvas, wall: Elevation, scale: Scale) -> None:
    """Patches lie under the faults they are too small for, and over nothing else; then labels."""
    waiting = [_blemish(canvas, scale, i, each) for i, each in enumerate(wall.blemishes)]
    waiting += [_patch(canvas, scale, i, each) for i, each in enumerate(wall.patches)]
    waiting += [_cut(canvas, scale, i, each) for i, each in enumerate(wall.cuts)]
    for box, _ in waiting:
        canvas.placer.take(box)
        canvas.reach(box[1], box[3])
    for box, text in waiting:
        _label(canvas, text, box)


def _label(canvas: Canvas, text: str, box: Box) -> None:
    """Right beside what it names, on clear paper; else near, with a leader."""
    if not text:
        return
    label = Label(text, size=SMALL, room=110, patch=True)
    wide, high = label.extent()
    found = canvas.placer.spot(wide, high, islice(beside(box, wide, high), 8))
    if found:
        write(canvas, label, found)
    else:
        label_near(canvas, label, box)


def _blemish(canvas: Canvas, scale: Scale, i: int, blemish: Blemish) -> tuple[Box, str]:
    x, y = scale.at(blemish.at)
    a = max(_LEAST, blemish.width_mm * scale.per_mm / 2)
    b = max(_LEAST, blemish.height_mm * scale.per_mm / 2)
    shapes = placed(blemish_shapes(canvas, blemish.kind, a, b, blemish.opens), (x, y))
    ident, box = f"blemish-{i}", (x - a, y - b, x + a, y + b)
    word = canvas.request.say(blemish.kind)
    own = ", ".join([text for text in (blemish.label, word) if text])
    part(canvas, ident, own, shapes, (box[:2], box[2:]), layer="lines")
    return box, part_name(canvas, ident, blemish.label)


def blemish_shapes(canvas: Canvas, kind: str, a: float, b: float, opens: str = "left") -> str:
    """A fault of ``kind``, ``a`` and ``b`` half its width and height in user units."""
    if kind == "blister":
        return blister(a, b)
    if kind == "wrinkle":
        return wrinkle(a, b)
    if kind == "void":
        return hollow(a, b, canvas.hatch("hollow"))
    upright = opens in ("up", "down")
    return fishmouth(b if upright else a, a if upright else b, opens)


def _patch(canvas: Canvas, scale: Scale, i: int, patch: Patch) -> tuple[Box, str]:
    box = around(scale.all([patch.start, patch.end]))
    left, top, right, bottom = box
    r = min(4.0, (right - left) / 3, (bottom - top) / 3)
    ring = (
        f"M{left + r:.1f} {top:.1f}H{right - r:.1f}A{r:.1f} {r:.1f} 0 0 1 {right:.1f} {top + r:.1f}"
        f"V{bottom - r:.1f}A{r:.1f} {r:.1f} 0 0 1 {right - r:.1f} {bottom:.1f}H{left + r:.1f}"
        f"A{r:.1f} {r:.1f} 0 0 1 {left:.1f} {bottom - r:.1f}V{top + r:.1f}"
        f"A{r:.1f} {r:.1f} 0 0 1 {left + r:.1f} {top:.1f}Z"
    )
    shapes = f'<path d="{ring}" fill="{PAPER}" fill-opacity=".6" stroke-width="1.8"/>'
    ident = f"patch-{i}"
    own = patch.label or f"{canvas.request.say('patch')} {i + 1}"
    part(canvas, ident, own, shapes, (box[:2], box[2:]), layer="lines")
    return box, part_name(canvas, ident, patch.label)


def _cut(canvas: Canvas, scale: Scale, i: int, cut: Cut) -> tuple[Box, str]:
    points = scale.all([cut.start, cut.end])
    data = path(points)
    shapes = (
        f'<path d="{data}" stroke="{PAPER}" stroke-width="6"/>'
        f'<path class="slit" d="{data}" stroke-width="3"/>'
    )
    ident = f"cut-{i}"
    own = cut.label or f"{canvas.request.say('slit')} {i + 1}"
    part(canvas, ident, own, shapes, points, layer="lines")
    return around(points), part_name(canvas, ident, cut.label)
