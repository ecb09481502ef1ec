"""The enlarged detail of the wall elevation: what the scale hides, in a circle."""

from __future__ import annotations

from trainer.drawing.canvas import CUT, EDGE, Canvas, Scale
from trainer.drawing.elevation_bands import lap_corners, lap_shapes
from trainer.drawing.elevation_data import Elevation
from trainer.drawing.labels import Label, write
from trainer.drawing.lens import ring
from trainer.drawing.lettering import SMALL
from trainer.drawing.markup import Point, num
from trainer.drawing.palette import PAPER

_TINY = 5.0
"""Laps narrower than this many units are shown enlarged."""

_RADIUS, _WANTED = 62.0, 34.0


def draw_detail(canvas: Canvas, wall: Elevation, scale: Scale) -> None:
    """A circle under the elevation with one place enlarged, if asked for or if laps are tiny."""
    look = looks_at(wall, scale)
    if look is None:
        return
    factor = _factor(wall, scale, look)
    small = _RADIUS / factor
    x, y = scale.x(look), 0.0
    at = (
        min(max(x, canvas.left + _RADIUS + 2), canvas.right - _RADIUS - 2),
        canvas.bottom + _RADIUS + 12,
    )
    near = Scale(scale.per_mm * factor, at[0] - look * scale.per_mm * factor, at[1])
    _draw(canvas, wall, near, at)
    ring(canvas, (x, y), max(small, 7.0), at, _RADIUS)
    text = f"{canvas.request.say('detail')} ×{factor:.0f}"
    label = Label(text, size=SMALL)
    wide, high = label.extent()
    left = at[0] + _RADIUS + 8 if at[0] < canvas.width / 2 else at[0] - _RADIUS - 8 - wide
    write(canvas, label, (left, at[1] - high / 2, left + wide, at[1] + high / 2))
    canvas.placer.take((at[0] - _RADIUS, at[1] - _RADIUS, at[0] + _RADIUS, at[1] + _RADIUS))
    canvas.reach(at[1] - _RADIUS - 2, at[1] + _RADIUS + 2)


def looks_at(wall: Elevation, scale: Scale) -> float | None:
    """Where along the wall the detail looks, in millimetres; None when none is wanted."""
    if wall.foot:
        return None
    if wall.detail_mm is not None:
        return wall.detail_mm
    still = [lap for i, lap in enumerate(wall.laps) if not (wall.movable and wall.movable.lap == i)]
    if not still or min(lap.to_mm - lap.from_mm for lap in still) * scale.per_mm >= _TINY:
        return None
    return (still[0].from_mm + still[0].to_mm) / 2


def _factor(wall: Elevation, scale: Scale, look: float) -> int:
    """Enlarged so that the lap nearest to where the detail looks can be read."""
    laps = (*wall.laps, *wall.field_laps)
    near = min(laps, key=lambda lap: abs(lap.from_mm + lap.to_mm - 2 * look), default=None)
    wide = near.to_mm - near.from_mm if near else 100.0
    return max(2, min(30, int(_WANTED / (wide * scale.per_mm) + 0.5)))


def _draw(canvas: Canvas, wall: Elevation, near: Scale, at: Point) -> None:
    clip = canvas.ident("lens")
    disc = f'cx="{at[0]:.1f}" cy="{at[1]:.1f}" r="{_RADIUS:g}"'
    left, right = num(at[0] - _RADIUS), num(at[0] + _RADIUS)
    shapes = [
        f'<clipPath id="{clip}"><circle {disc}/></clipPath>'
        f'<circle {disc} fill="{PAPER}" stroke="none"/>'
    ]
    shapes.append(f'<g class="lens" clip-path="url(#{clip})">')
    shapes.append(
        f'<path d="M{left} {near.y(0):.1f}H{right}V{at[1] + _RADIUS:.1f}H{left}Z" '
        f'fill="{canvas.hatch("field")}" stroke="none"/>'
    )
    shapes += _sheets(wall, near, at)
    shapes += _bands(canvas, wall, near, at)
    edges = f"M{left} {near.y(0):.1f}H{right}M{left} {near.y(wall.height_mm):.1f}H{right}"
    shapes.append(f'<path d="{edges}" stroke-width="{CUT}"/></g>')
    canvas.shapes.append("".join(shapes) + f'<circle {disc} stroke-width="{CUT}"/>')


def _inside(low: float, high: float, near: Scale, at: Point) -> bool:
    return near.x(high) > at[0] - _RADIUS and near.x(low) < at[0] + _RADIUS


def _sheets(wall: Elevation, near: Scale, at: Point) -> list[str]:
    top, bottom = num(near.y(wall.height_mm)), num(near.y(-wall.field_lap_mm))
    return [
        f'<path d="M{near.x(s.from_mm):.1f} {bottom}V{top}H{near.x(s.to_mm):.1f}V{bottom}Z" '
        f'fill="{PAPER}" stroke-width="{EDGE}"/>'
        for s in wall.sheet_ends()
        if _inside(s.from_mm, s.to_mm, near, at)
    ]


def _bands(canvas: Canvas, wall: Elevation, near: Scale, at: Point) -> list[str]:
    moving = wall.movable.lap if wall.movable and not canvas.request.answered else None
    runs = (
        (wall.field_laps, near.y(0), near.y(-wall.depth_mm), None),
        (wall.laps, near.y(wall.height_mm), near.y(-wall.field_lap_mm), moving),
    )
    return [
        lap_shapes(
            canvas,
            lap,
            lap_corners(lap, near, head, foot),
            (max(head, at[1] - _RADIUS) + min(foot, at[1] + _RADIUS)) / 2,
        )
        for laps, head, foot, out in runs
        for i, lap in enumerate(laps)
        if i != out
        and _inside(min(lap.from_mm, lap.foot[0]), max(lap.to_mm, lap.foot[1]), near, at)
    ]
