"""Ways a person walks over the roof plan, and the wind."""

from __future__ import annotations

from itertools import pairwise
from math import sqrt

from trainer.drawing.canvas import Canvas, Scale
from trainer.drawing.interaction import part, part_name
from trainer.drawing.labels import Label, label_near
from trainer.drawing.lettering import SMALL
from trainer.drawing.markup import Box, Point, around, distance
from trainer.drawing.overlays import label_along, walked
from trainer.drawing.palette import BAD, GOOD, INK, SOFT
from trainer.drawing.plan_data import Plan
from trainer.drawing.plan_site_data import Way, Wind

_WIND = 40.0


def draw_ways(canvas: Canvas, plan: Plan, scale: Scale) -> None:
    """Dashed lines with foot ticks; each leg can be pressed."""
    for i, way in enumerate(plan.ways):
        points = scale.all(way.points)
        own = way.label or f"{canvas.request.say('way')} {i + 1}"
        ink = SOFT if way.ok is None else GOOD if way.ok else BAD
        shapes = f'<g class="walk">{walked(points, ink)}</g>'
        part(canvas, f"way-{i}", own, shapes, *pairwise(points), layer="lines")
        box = around(points)
        canvas.reach(box[1] - 5, box[3] + 5)
        for a, b in pairwise(points):
            canvas.placer.avoid_line(a, b, 5)


def name_ways(canvas: Canvas, plan: Plan, scale: Scale) -> None:
    """Beside each way its name and, when it is to be shown, its length."""
    for i, way in enumerate(plan.ways):
        name = part_name(canvas, f"way-{i}", way.label)
        length = canvas.request.length(way_mm(way)) if _measured(canvas, way) else ""
        text = ", ".join([word for word in (name, length) if word])
        icon = "" if way.ok is None else "right" if way.ok else "wrong"
        label = Label(text, icon, size=SMALL, room=130, patch=True)
        label_along(canvas, label, scale.all(way.points))


def _measured(canvas: Canvas, way: Way) -> bool:
    return way.measured == "before" or (way.measured == "after" and canvas.request.answered)


def way_mm(way: Way) -> float:
    """How long a way is, leg by leg."""
    return sum([distance(a, b) for a, b in pairwise(way.points)])


def draw_wind(canvas: Canvas, wind: Wind, scale: Scale) -> None:
    """An arrow with streaming lines, and the wind's name; where there is room."""
    box = _wind_box(canvas, wind, scale)
    x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    across, up = wind.towards
    far = sqrt(across * across + up * up)
    dx, dy = across / far, -up / far
    matrix = f"matrix({dx:.4f} {dy:.4f} {-dy:.4f} {dx:.4f} {x:.1f} {y:.1f})"
    canvas.lines.append(
        f'<g class="wind" transform="{matrix}" stroke="{INK}" stroke-linecap="round">'
        '<path d="M-19 0H12" stroke-width="2.6"/>'
        f'<path d="M19 0L9 -6V6Z" fill="{INK}" stroke-width="1"/>'
        '<path d="M-17 -8q5 -4 10 0t10 0M-17 8q5 -4 10 0t10 0" stroke-width="1.3"/></g>'
    )
    canvas.placer.take(box)
    canvas.reach(box[1], box[3])
    text = wind.label or canvas.request.say("wind")
    label_near(canvas, Label(text, size=SMALL, room=100), box, near=20)


def _wind_box(canvas: Canvas, wind: Wind, scale: Scale) -> Box:
    if wind.at is not None:
        x, y = scale.at(wind.at)
        return (x - _WIND / 2, y - _WIND / 2, x + _WIND / 2, y + _WIND / 2)
    left, right = canvas.left, canvas.right - _WIND
    rows = [canvas.top + 4 + 20 * row for row in range(8)]
    corners = [(x, y) for y in rows for x in (right, left, (left + right) / 2)]
    found = canvas.placer.spot(_WIND, _WIND, [c for c in corners if _clear(canvas, c)])
    return found or (left, canvas.top - _WIND - 4, left + _WIND, canvas.top - 4)


def _clear(canvas: Canvas, corner: Point) -> bool:
    return canvas.placer.free((*corner, corner[0] + _WIND, corner[1] + _WIND))
