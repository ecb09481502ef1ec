"""Parapets, roof edges and guardrails of the roof plan."""

from __future__ import annotations

from itertools import pairwise

from trainer.drawing.canvas import CUT, EDGE, Canvas, Scale
from trainer.drawing.interaction import part, part_name
from trainer.drawing.labels import Label, label_near, write
from trainer.drawing.lettering import SMALL
from trainer.drawing.markup import Point, along, around, direction, distance, path
from trainer.drawing.palette import FAINT, PAPER
from trainer.drawing.plan_data import Plan, Wall

_HATCH = {"masonry": "masonry", "concrete": "concrete", "timber": "timber"}
EDGE_STYLE = ' stroke-dasharray="14 3 3 3"'
_POST = 34.0


def draw_walls(canvas: Canvas, plan: Plan, scale: Scale) -> None:
    """Grid, parapets, edges and guardrails."""
    if plan.grid_mm:
        _grid(canvas, plan, scale, plan.grid_mm)
    for i, wall in enumerate(plan.walls):
        _wall(canvas, scale, i, wall)
    for edge in plan.edges:
        points = scale.all(edge)
        canvas.line(points, 2.0, EDGE_STYLE)
        _keep_off(canvas, points)
    for rail in plan.guardrails:
        points = scale.all(rail)
        canvas.lines.append(guardrail(points))
        _keep_off(canvas, points)


def outer_face(wall: Wall) -> list[Point]:
    """The outer face of ``wall`` in millimetres: its faces moved by the thickness, mitred."""
    away = -1.0 if wall.roof_side == "left" else 1.0
    faces = wall.faces
    normals = []
    for a, b in pairwise(faces):
        dx, dy = direction(a, b)
        normals.append((-dy * away * wall.thickness_mm, dx * away * wall.thickness_mm))
    moved = []
    for i, (x, y) in enumerate(faces):
        before, after = normals[max(i - 1, 0)], normals[min(i, len(normals) - 1)]
        mx, my = before[0] + after[0], before[1] + after[1]
        share = 2 * wall.thickness_mm * wall.thickness_mm / max(mx * mx + my * my, 1e-6)
        moved.append((x + mx * share, y + my * share))
    return moved


def _wall(canvas: Canvas, scale: Scale, i: int, wall: Wall) -> None:
    inner, outer = scale.all(wall.faces), scale.all(outer_face(wall))
    ring = [*inner, *reversed(outer)]
    data = path(ring, closed=True)
    shapes = (
        f'<path d="{data}" fill="{PAPER}" stroke="none"/>'
        f'<path d="{data}" fill="{canvas.hatch(_HATCH[wall.material])}" stroke-width="{EDGE}"/>'
        f'<path class="face" d="{path(inner)}" stroke-width="{CUT + 0.4}"/>'
    )
    box = around(ring)
    legs = [(a, b, c, d) for (a, b), (c, d) in zip(pairwise(inner), pairwise(outer), strict=True)]
    if wall.legs:
        canvas.shapes.append(shapes)
        _legs(canvas, i, wall, legs)
    else:
        own = wall.label or f"{canvas.request.say('parapet')} {i + 1}"
        part(canvas, f"wall-{i}", own, shapes, *legs)
    canvas.reach(box[1], box[3])
    for a, b, c, d in legs:
        canvas.placer.avoid_line(along(a, c, 0.5), along(b, d, 0.5), max(4.0, distance(a, c) / 2))
    if wall.label:
        _name(canvas, wall.label, along(inner[0], inner[1], 0.5), along(outer[0], outer[1], 0.5))


_Leg = tuple[Point, Point, Point, Point]


def _legs(canvas: Canvas, i: int, wall: Wall, legs: list[_Leg]) -> None:
    """Each straight piece a part of its own, with its name outside it."""
    before = canvas.request.say("parapet")
    for j, (leg, name) in enumerate(zip(legs, wall.legs, strict=True)):
        ident = f"leg-{i}-{j}"
        part(canvas, ident, name or f"{before} {j + 1}", "", leg)
        for a, c, b, d in [(leg[0], leg[2], leg[1], leg[3])]:
            canvas.placer.avoid_line(
                along(a, c, 0.5), along(b, d, 0.5), max(4.0, distance(a, c) / 2)
            )
    for j, (a, b, c, d) in enumerate(legs):
        if text := part_name(canvas, f"leg-{i}-{j}", wall.legs[j]):
            _name(canvas, text, along(a, b, 0.5), along(c, d, 0.5))


def _name(canvas: Canvas, text: str, inner: Point, outer: Point) -> None:
    """A parapet's name outside it, where nobody works; beside it where that side has no room."""
    label = Label(text, size=SMALL)
    wide, high = label.extent()
    dx, dy = direction(inner, outer)
    x, y = outer[0] + dx * (wide / 2 + 5) - wide / 2, outer[1] + dy * (high / 2 + 5) - high / 2
    if canvas.placer.free((x, y, x + wide, y + high)):
        write(canvas, label, (x, y, x + wide, y + high))
    else:
        middle = along(inner, outer, 0.5)
        label_near(canvas, label, (middle[0] - 8, middle[1] - 8, middle[0] + 8, middle[1] + 8))


def _keep_off(canvas: Canvas, points: list[Point]) -> None:
    box = around(points)
    canvas.reach(box[1] - 3, box[3] + 3)
    for a, b in pairwise(points):
        canvas.placer.avoid_line(a, b, 3)


def guardrail(points: list[Point]) -> str:
    """A double line with posts."""
    posts = []
    for a, b in pairwise(points):
        count = max(1, int(distance(a, b) / _POST))
        posts += [along(a, b, i / count) for i in range(count + 1)]
    dots = "".join([f"M{x:.1f} {y:.1f}h.1" for x, y in posts])
    line = path(points)
    return (
        f'<path d="{line}" stroke-width="4"/><path d="{line}" stroke="{PAPER}" stroke-width="1.6"/>'
        f'<path d="{dots}" stroke-width="7" stroke-linecap="round"/>'
    )


def _grid(canvas: Canvas, plan: Plan, scale: Scale, step: float) -> None:
    """Faint lines at whole multiples of ``step`` over everything drawn."""
    left, right = canvas.left, canvas.right
    points = [point for wall in plan.walls for point in (*wall.faces, *outer_face(wall))]
    points += [point for line in (*plan.edges, *plan.guardrails) for point in line]
    points += plan.extent or ()
    if not points:
        return
    _, top, _, bottom = around(scale.all(points))
    first, last = (
        (left - scale.zero_x) / scale.per_mm / step,
        (right - scale.zero_x) / scale.per_mm / step,
    )
    xs = [scale.x(i * step) for i in range(int(first) - 1, int(last) + 2)]
    low, high = (
        (scale.zero_y - bottom) / scale.per_mm / step,
        (scale.zero_y - top) / scale.per_mm / step,
    )
    ys = [scale.y(i * step) for i in range(int(low) - 1, int(high) + 2)]
    data = "".join([f"M{x:.1f} {top:.1f}V{bottom:.1f}" for x in xs if left <= x <= right])
    data += "".join([f"M{left:.1f} {y:.1f}H{right:.1f}" for y in ys if top <= y <= bottom])
    canvas.shapes.append(f'<path class="grid" d="{data}" stroke="{FAINT}" stroke-width=".8"/>')
