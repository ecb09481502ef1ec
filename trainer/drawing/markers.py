"""A point or a line that may be moved over a figure, as the flat pattern and the elevation have."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.drawing.canvas import Canvas, Scale
from trainer.drawing.fields import POINT, RANGE, Choice, Field, Range, Value, Words
from trainer.drawing.interaction import Movable, axes_over, movable, part, part_name
from trainer.drawing.markup import Point
from trainer.drawing.palette import ACCENT


@dataclass(frozen=True)
class Marker:
    """A point that may be moved; ``line`` draws it as a level or a plumb line."""

    at: Point
    label: str
    line: str
    movable_x: Range | None
    movable_y: Range | None


MARKER = Field(
    "marker",
    Value(
        (
            Field("at", POINT, "where it stands"),
            Field("label", Words(), "what it is called, already worded", default=""),
            Field(
                "line",
                Choice(("point", "level", "plumb")),
                "a cross, a level line or a plumb line",
                default="point",
            ),
            Field("movable_x", RANGE, "range along x", optional=True),
            Field("movable_y", RANGE, "range along y", optional=True),
        ),
        make=Marker,
    ),
    "a point or a line that may be moved",
    optional=True,
)
_GRIP = 34.0


def draw_marker(canvas: Canvas, scale: Scale, marker: Marker, reach: tuple[float, float]) -> None:
    """The marker with its grip; a plumb line runs from ``reach[0]`` down to ``reach[1]``."""
    x, y = scale.at(marker.at)
    name = part_name(canvas, "marker", marker.label or canvas.request.say("mark"))
    drawn = _looks(marker, y, reach)
    axes = axes_over(scale, marker.at, marker.movable_x, marker.movable_y)
    canvas.placer.take((x - 8, y - 8, x + 8, y + 8))
    if not axes:
        shapes = f'<g transform="translate({x:.1f} {y:.1f})">{drawn}</g>'
        part(canvas, "marker", name, shapes, ((x, y),), layer="lines")
        return
    upright = len(axes) == 1 and axes[0].letter == "y"
    grip = _grip(canvas, x, y, upright, marker.line, reach)
    link = f'<path d="M0 0L{grip[0]:.1f} {grip[1]:.1f}" stroke="{ACCENT}" stroke-width="1.2"/>'
    movable(canvas, Movable("marker", name, axes, drawn, grip, x if upright else y, link))
    canvas.placer.take((x + grip[0] - 16, y + grip[1] - 16, x + grip[0] + 16, y + grip[1] + 16))


def _looks(marker: Marker, y: float, reach: tuple[float, float]) -> str:
    data = {
        "point": "M-7 0H7M0 -7V7",
        "level": "M-24 0H24M0 -5V5",
        "plumb": f"M0 {reach[0] - y:.1f}V{reach[1] - y:.1f}M-5 0H5",
    }[marker.line]
    return f'<path d="{data}" stroke="{ACCENT}" stroke-width="2.4"/>'


def _grip(
    canvas: Canvas, x: float, y: float, upright: bool, line: str, reach: tuple[float, float]
) -> Point:
    """Where the grip lies: aside of what moves up and down, under what moves along."""
    if upright:
        far = _GRIP + (8.0 if line == "level" else 0.0)
        return (far if x + far + 22 < canvas.right else -far, 0.0)
    return (0.0, reach[1] - y + 20 if line == "plumb" else _GRIP)
