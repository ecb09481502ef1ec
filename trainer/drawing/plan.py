"""Roof plan: parapets, what is still open, what stands about, where the flame is.

Figure coordinates: millimetres, x to the right, y up the page. Parts: "wall-0"…, "item-0"…,
"primer-0"…, "laid-0"…, "obstacle-0"…, "way-0"…, "spot-0"…, "opening-0"…, "combustible-0"…, and
things by kind: "cylinder-0", "person-0", "torch-0"… Fields, units and ranges: ``FIELDS``. Sizes of
symbols are not to scale; their places are.
"""

from __future__ import annotations

from typing import Any

from trainer.drawing import plan_objects as objects
from trainer.drawing import plan_sheets as sheets
from trainer.drawing import plan_things as things
from trainer.drawing import plan_walls as walls
from trainer.drawing import plan_ways as ways
from trainer.drawing.canvas import MARGIN, Canvas, Scale
from trainer.drawing.dimensions import scale_bar
from trainer.drawing.markup import Point, around
from trainer.drawing.overlays import draw_overlays
from trainer.drawing.plan_checks import check, places
from trainer.drawing.plan_data import FIELDS, Plan, Thing


def draw(canvas: Canvas, checked: dict[str, Any]) -> None:
    """Draw the plan described by the checked fields. Raises InputError on bad geometry."""
    plan = Plan(**checked)
    check(plan)
    scale = _scale(canvas, plan)
    sheets.draw_laid(canvas, plan, scale)
    objects.draw_obstacles(canvas, plan, scale)
    ways.draw_ways(canvas, plan, scale)
    walls.draw_walls(canvas, plan, scale)
    things.draw_things(canvas, plan, scale)
    objects.name_obstacles(canvas, plan, scale)
    sheets.name_laid(canvas, plan, scale)
    ways.name_ways(canvas, plan, scale)
    if plan.wind:
        ways.draw_wind(canvas, plan.wind, scale)
    draw_overlays(canvas, scale.at, scale.per_mm)
    things.draw_key(canvas, plan)
    scale_bar(canvas, scale.per_mm, canvas.request.length)


_TALLEST = 440.0


def _scale(canvas: Canvas, plan: Plan) -> Scale:
    left, bottom, right, top = _extent(plan)
    room = canvas.width - 2 * MARGIN
    per_mm = min(room / max(right - left, 1.0), _TALLEST / max(top - bottom, 1.0))
    spare = (room - (right - left) * per_mm) / 2
    return Scale(per_mm, MARGIN + spare - left * per_mm, top * per_mm)


def _extent(plan: Plan) -> tuple[float, float, float, float]:
    """Left, bottom, right, top of what is shown, in millimetres."""
    if plan.extent:
        (left, bottom), (right, top) = plan.extent
        return left, bottom, right, top
    points = [point for wall in plan.walls for point in (*wall.faces, *walls.outer_face(wall))]
    for item in plan.items:
        points += [point for point in (item.at, item.start, item.end) if point]
    for strip in plan.primer:
        points += [strip.start, strip.end]
    for line in (*plan.edges, *plan.guardrails):
        points += line
    for thing in plan.things:
        points += _reached(thing)
    for _, place in places(plan):
        points.append(place)
    left, bottom, right, top = around(points)
    pad = 0.04 * max(right - left, top - bottom, 500.0)
    return left - pad, bottom - pad, right + pad, top + pad


def _reached(thing: Thing) -> list[Point]:
    x, y = thing.at
    xs = (thing.movable_x.low, thing.movable_x.high) if thing.movable_x else (x, x)
    ys = (thing.movable_y.low, thing.movable_y.high) if thing.movable_y else (y, y)
    return [(xs[0], ys[0]), (xs[1], ys[1])]


__all__ = ["FIELDS", "draw"]
