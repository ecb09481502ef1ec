"""Release film that is still on a sheet of the wall elevation."""

from __future__ import annotations

from trainer.drawing.canvas import EDGE, Canvas, Scale
from trainer.drawing.elevation_data import Elevation
from trainer.drawing.elevation_site_data import FilmLeft
from trainer.drawing.flat_shapes import FILMS
from trainer.drawing.interaction import part
from trainer.drawing.markup import Point, around, path
from trainer.drawing.palette import PAPER


def draw_halves(canvas: Canvas, wall: Elevation, scale: Scale) -> None:
    """Film on the upper or the lower half of a sheet, under the laps."""
    for i, film in enumerate(wall.films):
        if film.half != "side-lap":
            _draw(canvas, i, film, _half(wall, scale, film))


def draw_side_laps(canvas: Canvas, wall: Elevation, scale: Scale) -> None:
    """Film on the side lap of a sheet, along its right edge."""
    for i, film in enumerate(wall.films):
        if film.half == "side-lap":
            sheet = wall.sheet_ends()[film.sheet]
            left = max(sheet.from_mm, sheet.to_mm - film.width_mm)
            _draw(canvas, i, film, _ring(wall, scale, left, sheet.to_mm, 0.0, 1.0))


def _half(wall: Elevation, scale: Scale, film: FilmLeft) -> list[Point]:
    sheet = wall.sheet_ends()[film.sheet]
    low, high = (0.5, 1.0) if film.half == "upper" else (0.0, 0.5)
    return _ring(wall, scale, sheet.from_mm, sheet.to_mm, low, high)


def _ring(
    wall: Elevation, scale: Scale, start: float, end: float, low: float, high: float
) -> list[Point]:
    """The outline between two shares of a sheet's height, counted from its foot."""

    def share(x: float, foot: float, part_of: float) -> Point:
        bottom = foot - wall.field_lap_mm
        return scale.at((x, bottom + (wall.height_mm - bottom) * part_of))

    base = wall.base(start, end)
    return [share(x, y, high) for x, y in base] + [share(x, y, low) for x, y in reversed(base)]


def _draw(canvas: Canvas, i: int, film: FilmLeft, ring: list[Point]) -> None:
    hatch, word = FILMS[film.half]
    data = path(ring, closed=True)
    shapes = (
        f'<path d="{data}" fill="{PAPER}" stroke="none"/>'
        f'<path d="{data}" fill="{canvas.hatch(hatch)}" stroke-width="{EDGE}" '
        'stroke-dasharray="6 2"/>'
    )
    left, top, right, bottom = around(ring)
    part(canvas, f"film-{i}", canvas.request.say(word), shapes, ((left, top), (right, bottom)))
