"""Roof plan: parapets, what is still open, what stands about, where the flame is.

Figure coordinates: millimetres, x to the right, y up the page. Parts: "wall-0"…, "item-0"…,
"primer-0"…, and things by kind: "cylinder-0", "person-0", "torch-0"… Fields, units and ranges:
``FIELDS``. Sizes of symbols are not to scale; their places are.
"""

from __future__ import annotations

from typing import Any

from trainer.drawing import plan_things as things
from trainer.drawing import plan_walls as walls
from trainer.drawing.canvas import MARGIN, Canvas, Scale
from trainer.drawing.dimensions import scale_bar
from trainer.drawing.markup import Point, around
from trainer.drawing.overlays import draw_overlays
from trainer.drawing.plan_data import FIELDS, Plan, Thing
from trainer.errors import InputError


def draw(canvas: Canvas, checked: dict[str, Any]) -> None:
    """Draw the plan described by the checked fields. Raises InputError on bad geometry."""
    plan = Plan(**checked)
    _check(plan)
    scale = _scale(canvas, plan)
    walls.draw_walls(canvas, plan, scale)
    things.draw_things(canvas, plan, scale)
    draw_overlays(canvas, scale.at, scale.per_mm)
    things.draw_key(canvas, plan)
    scale_bar(canvas, scale.per_mm, canvas.request.length)


def _check(plan: Plan) -> None:
    for i, item in enumerate(plan.items):
        ends = (item.start is None) + (item.end is None)
        if ends != (0 if item.at is None else 2):
            raise InputError(f"items[{i}]", "at, from, to", "either at, or from and to")
    if plan.extent:
        (left, bottom), (right, top) = plan.extent
        if left >= right or bottom >= top:
            raise InputError("extent", plan.extent, "left < right and bottom < top")
    drawn = (plan.walls, plan.items, plan.primer, plan.things, plan.edges, plan.guardrails)
    if not any(drawn):
        raise InputError("walls", [], "at least one wall, item, thing or edge to draw")


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
    left, bottom, right, top = around(points)
    pad = 0.04 * max(right - left, top - bottom, 500.0)
    return left - pad, bottom - pad, right + pad, top + pad


def _reached(thing: Thing) -> list[Point]:
    x, y = thing.at
    xs = (thing.movable_x.low, thing.movable_x.high) if thing.movable_x else (x, x)
    ys = (thing.movable_y.low, thing.movable_y.high) if thing.movable_y else (y, y)
    return [(xs[0], ys[0]), (xs[1], ys[1])]


__all__ = ["FIELDS", "draw"]
