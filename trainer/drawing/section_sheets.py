"""The membrane sheets of the parapet section: thick black lines, thickness not to scale."""

from __future__ import annotations

from itertools import pairwise
from math import sqrt

from trainer.drawing.canvas import MARGIN, Canvas, Scale
from trainer.drawing.interaction import part
from trainer.drawing.markup import Point, path
from trainer.drawing.palette import INK, PAPER
from trainer.drawing.section_data import Flashing, Section

SHEET = 3.0
"""Line weight of a membrane sheet: thickness not to scale."""

SNUG = 2.4
"""How far the middle of a sheet lies off the surface it is bonded to, in user units."""


def draw_sheets(canvas: Canvas, cut: Section, scale: Scale) -> None:
    """The plies of the field, then the flashing sheet over them."""
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
    points = flashing_line(cut, scale, sheet)
    data = path(points)
    shapes = (
        f'<path d="{data}" stroke="{PAPER}" stroke-width="{SHEET + 3}"/>'
        f'<path class="sheet" d="{data}" stroke="{INK}" stroke-width="{SHEET + 0.4}"/>'
    )
    wall = ((scale.x(0) - 36, points[-1][1] - 8), (scale.x(0) + 8, scale.y(cut.cant_mm)))
    lap = (points[0], (points[1][0], points[0][1]))
    part(canvas, "flashing", canvas.request.say("flashing sheet"), shapes, wall, lap)
    for a, b in pairwise(points):
        canvas.placer.avoid_line(a, b, 3)


def sheet_off(cut: Section) -> float:
    """How far the flashing's middle lies off the field, so that the plies show one by one."""
    return SNUG + (SHEET + 1.2) * cut.field_sheets


def flashing_line(cut: Section, scale: Scale, sheet: Flashing) -> list[Point]:
    """The line of the flashing sheet in user units, from the field to its outer end."""
    up = cut.height_mm if sheet.up_mm is None else sheet.up_mm
    points = sheet_line(cut, scale, sheet_off(cut), sheet.field_lap_mm, up, sheet.bridging_mm)
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
    cut: Section, scale: Scale, off: float, lap: float | None, up: float, bridge: float
) -> list[Point]:
    """A sheet from the field into the angle and ``up`` the wall.

    ``off`` is its distance from the roof surface in user units; on cant and wall it lies snug.
    """
    toe, x, y = cut.cant_mm * scale.per_mm, scale.x(0), scale.y(0)
    start = MARGIN if lap is None else scale.x(-cut.cant_mm - lap)
    if bridge:
        gap = bridge * scale.per_mm
        begin = min(start, x - gap)
        return [(begin, y - off), (x - gap, y - off), (x - SNUG, y - gap), (x - SNUG, scale.y(up))]
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
    return points if up <= cut.cant_mm else [*points, (x - SNUG, scale.y(up))]
