"""The membrane sheets of the parapet section: thick black lines, thickness not to scale."""

from __future__ import annotations

from itertools import pairwise
from math import sqrt

from trainer.drawing.canvas import MARGIN, Canvas, Scale
from trainer.drawing.interaction import part
from trainer.drawing.markup import Point, path
from trainer.drawing.palette import BAD, INK, PAPER
from trainer.drawing.section_data import Flashing, Section
from trainer.drawing.section_work_data import Bridge

SHEET = 3.0
"""Line weight of a membrane sheet: thickness not to scale."""

SNUG = 2.4
"""How far the middle of a sheet lies off the surface it is bonded to, in user units."""


def draw_sheets(canvas: Canvas, cut: Section, scale: Scale) -> None:
    """The plies of the field, then the flashing sheet over them."""
    if cut.bridge and not pressed_home(canvas, cut):
        _hollow(canvas, cut, scale, cut.bridge)
    _field_sheets(canvas, cut, scale)
    if cut.flashing:
        _flashing(canvas, cut, scale, cut.flashing)


def _field_sheets(canvas: Canvas, cut: Section, scale: Scale) -> None:
    if not cut.field_sheets:
        return
    drawn = ""
    for ply in range(cut.field_sheets):
        off = 1.5 + ply * (SHEET + 1.2)
        points = sheet_line(cut, scale, off, None, cut.field_upturn_mm, 0.0)
        drawn += f'<path d="{path(points)}" stroke-width="{SHEET}" stroke="{INK}"/>'
    top = scale.y(0)
    hit = ((MARGIN, top - 36), (scale.x(-cut.cant_mm), top + 8))
    part(canvas, "field-sheet", canvas.request.say("field sheet"), drawn, hit)


def _flashing(canvas: Canvas, cut: Section, scale: Scale, sheet: Flashing) -> None:
    pressed = pressed_home(canvas, cut)
    points = flashing_line(cut, scale, sheet, pressed)
    data = path(points)
    shapes = (
        f'<path d="{data}" stroke="{PAPER}" stroke-width="{SHEET + 3}"/>'
        f'<path class="sheet" d="{data}" stroke="{INK}" stroke-width="{SHEET + 0.4}"/>'
    )
    wall = (
        (scale.x(0) - 36, points[-1][1] - 8),
        (scale.x(0) + 8, scale.y(cut.foot_mm + cut.cant_mm)),
    )
    lap = (points[0], (points[1][0], points[0][1]))
    part(canvas, "flashing", canvas.request.say("flashing sheet"), shapes, wall, lap)
    if cut.bridge and pressed:
        _drawn_back(canvas, cut, scale, sheet)
    for a, b in pairwise(points):
        canvas.placer.avoid_line(a, b, 3)


def sheet_off(cut: Section) -> float:
    """How far the flashing's middle lies off the field, so that the plies show one by one."""
    plies = 0 if cut.foot_mm else cut.field_sheets
    return SNUG + (SHEET + 1.2) * plies


def pressed_home(canvas: Canvas, cut: Section) -> bool:
    """Whether a sheet that stands off the angle is shown pressed home."""
    if cut.bridge is None or cut.bridge.pressed == "never":
        return False
    return cut.bridge.pressed == "before" or canvas.request.answered


def lost_mm(cut: Section) -> float:
    """How far the sheet's edge is drawn back when it is pressed home: 2 faces less 1 chord."""
    return cut.bridge.gap_mm * (2 - sqrt(2.0)) if cut.bridge else 0.0


def _hollow(canvas: Canvas, cut: Section, scale: Scale, bridge: Bridge) -> None:
    """The air behind a sheet that stands off the angle."""
    cant, off, foot = cut.cant_mm, cut.cant_mm + bridge.gap_mm, cut.foot_mm
    corners = [(-off, foot), (-cant, foot), (0.0, foot + cant), (0.0, foot + off)]
    data, air = path(scale.all(corners), closed=True), canvas.hatch("air")
    shapes = f'<path d="{data}" fill="{PAPER}" stroke="none"/>'
    shapes += f'<path d="{data}" fill="{air}" stroke="none"/>'
    part(canvas, "hollow", canvas.request.say("hollow"), shapes, scale.all(corners))


def _drawn_back(canvas: Canvas, cut: Section, scale: Scale, sheet: Flashing) -> None:
    """The sheet as it stood before it was pressed home, dashed, and where its edge was."""
    points = flashing_line(cut, scale, sheet, pressed=False)
    x, y = points[0]
    data = path(points[:3]) + f"M{x:.1f} {y - 9:.1f}V{y + 5:.1f}"
    canvas.lines.append(
        f'<path class="drawn-back" d="{data}" stroke="{BAD}" stroke-width="1.6" '
        'stroke-dasharray="5 3"/>'
    )


def flashing_line(
    cut: Section, scale: Scale, sheet: Flashing, pressed: bool = False
) -> list[Point]:
    """The line of the flashing sheet in user units, from the field to its outer end.

    A sheet that bridges the angle stands off it, or lies in it with its edge drawn back.
    """
    up = cut.up_mm
    gap = cut.bridge.gap_mm if cut.bridge and not pressed else 0.0
    lap = sheet.field_lap_mm - (lost_mm(cut) if pressed else 0.0)
    points = sheet_line(cut, scale, sheet_off(cut), lap, up, gap, cut.foot_mm)
    if up < cut.height_mm:
        return points
    top = cut.width_mm if sheet.top_mm is None else sheet.top_mm
    points[-1] = (points[-1][0], scale.y(cut.height_mm) - SNUG)
    end = scale.x(top) + (SNUG if sheet.outer_drop_mm else 0.0)
    points.append((end, scale.y(cut.height_mm) - SNUG))
    if sheet.outer_drop_mm:
        points.append((end, scale.y(cut.height_mm - sheet.outer_drop_mm)))
    return points


def sheet_line(
    cut: Section,
    scale: Scale,
    off: float,
    lap: float | None,
    up: float,
    bridge: float,
    foot: float = 0.0,
) -> list[Point]:
    """A sheet from the field at the height ``foot`` into the angle and ``up`` the wall.

    ``off`` is its distance from the roof surface in user units; on cant and wall it lies snug.
    """
    cant = max(0.0, cut.cant_mm + cut.foot_mm - foot)
    toe, x, y = cant * scale.per_mm, scale.x(0), scale.y(foot)
    start = MARGIN if lap is None else scale.x(-cant - lap)
    if bridge:
        gap = toe + bridge * scale.per_mm
        begin, top = min(start, x - gap), scale.y(up)
        head = max(y - off - gap + SNUG, top)
        return [(begin, y - off), (x - gap, y - off), (x - SNUG, head), (x - SNUG, top)]
    if not up:
        return [(start, y - off), (x - toe, y - off)]
    if not toe:
        return [(start, y - off), (x - SNUG, y - off), (x - SNUG, scale.y(up))]
    bend = SNUG * (sqrt(2.0) - 1)
    points = [
        (start, y - off),
        (x - toe - SNUG * sqrt(2.0) + off, y - off),
        (x - SNUG, y - toe - bend),
    ]
    return points if up <= foot + cant else [*points, (x - SNUG, scale.y(up))]
