"""What an enlarged detail has in every kind of figure: a ring round the place, tied to the lens."""

from __future__ import annotations

from trainer.drawing.canvas import EDGE, THIN, Canvas
from trainer.drawing.markup import Point, direction


def ring(canvas: Canvas, at: Point, small: float, lens: Point, radius: float) -> None:
    """A circle of radius ``small`` round the place, and a line from it to the lens's own circle."""
    dx, dy = direction(at, lens)
    start = (at[0] + dx * small, at[1] + dy * small)
    end = (lens[0] - dx * radius, lens[1] - dy * radius)
    canvas.lines.append(
        f'<circle cx="{at[0]:.1f}" cy="{at[1]:.1f}" r="{small:.1f}" stroke-width="{EDGE}"/>'
    )
    canvas.line([start, end], THIN)
