"""Corners of the flat sheet cut off at 45°, their leg to be moved where asked."""

from __future__ import annotations

from trainer.drawing.canvas import Canvas, Scale
from trainer.drawing.flat_data import CornerCut, Flat
from trainer.drawing.interaction import Axis, Movable, movable, part, part_name
from trainer.drawing.labels import Label, label_near
from trainer.drawing.lettering import SMALL
from trainer.drawing.markup import along, path
from trainer.drawing.palette import ACCENT, FAINT

CUT_STYLE = 'stroke-width="2.4" stroke-dasharray="7 3"'
_GRIP, _STUB = 34.0, 14.0


def draw_corners(canvas: Canvas, flat: Flat, scale: Scale) -> None:
    """What is cut off and the line of the cut, a part; the leg that moves has a grip."""
    for i, cut in enumerate(flat.corner_cuts):
        if cut.movable and not canvas.request.answered:
            _moving(canvas, scale, i, cut)
        else:
            _still(canvas, scale, i, cut)


def _name(canvas: Canvas, i: int, cut: CornerCut) -> str:
    return cut.label or f"{canvas.request.say('cut')} {i + 1}"


def _still(canvas: Canvas, scale: Scale, i: int, cut: CornerCut) -> None:
    corner, ends = scale.at(cut.at), scale.all(cut.ends())
    off = path([corner, *ends], closed=True)
    shapes = (
        f'<path d="{off}" fill="{FAINT}" fill-opacity=".6" stroke="none"/>'
        f'<path d="{path(ends)}" {CUT_STYLE}/>'
    )
    hit = (corner, *ends)
    part(canvas, f"corner-cut-{i}", _name(canvas, i, cut), shapes, hit, layer="lines")


def _moving(canvas: Canvas, scale: Scale, i: int, cut: CornerCut) -> None:
    """The foot of the cut on the edge, which counts the leg, and the way it goes from there."""
    assert cut.movable is not None
    foot = scale.at(cut.ends()[0])
    side, down = -cut.towards[0] * _STUB, -cut.towards[1] * _STUB
    drawn = (
        f'<path d="M0 0l{side:.1f} {down:.1f}" stroke="{ACCENT}" '
        'stroke-width="2.6"/>'
        f'<path d="M0 -6V6" stroke="{ACCENT}" stroke-width="2"/>'
    )
    grip = (0.0, -_GRIP if down > 0 else _GRIP)
    link = f'<path d="M0 0V{grip[1]:.1f}" stroke="{ACCENT}" stroke-width="1.2"/>'
    zero, per_px = scale.x(cut.at[0]), cut.towards[0] / scale.per_mm
    axis = Axis("x", zero, per_px, cut.leg_mm, cut.movable)
    ident = f"corner-cut-{i}"
    name = part_name(canvas, ident, _name(canvas, i, cut))
    movable(canvas, Movable(ident, name, (axis,), drawn, grip, foot[1], link))
    x, y = foot[0] + grip[0], foot[1] + grip[1]
    canvas.placer.take((x - 16, y - 16, x + 16, y + 16))


def name_corner(canvas: Canvas, scale: Scale, i: int, cut: CornerCut) -> None:
    """The label of a cut beside the middle of it."""
    text = part_name(canvas, f"corner-cut-{i}", cut.label)
    x, y = scale.at(along(*cut.ends(), 0.5))
    label = Label(text, size=SMALL, patch=True)
    label_near(canvas, label, (x - 4, y - 4, x + 4, y + 4), (x, y))
