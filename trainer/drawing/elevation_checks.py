"""What cannot stand on a wall elevation: refused in words that name the field."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from trainer.drawing.elevation_data import Elevation
from trainer.drawing.elevation_site_data import Cut, Face, OpenEdge, Patch
from trainer.drawing.markup import Point
from trainer.errors import InputError


def check_site(wall: Elevation) -> None:
    """Everything found on the wall lies on it. Raises InputError."""
    if wall.foot:
        _check_foot(wall, wall.foot)
    _check_stretches("faces", wall.faces, wall.wall_mm)
    _check_stretches("open_edge", wall.open_edge, wall.wall_mm)
    for i, mm in enumerate(wall.heights_at):
        _check_along(f"heights_at[{i}]", mm, wall.wall_mm)
    for i, film in enumerate(wall.films):
        last = len(wall.sheet_ends()) - 1
        if film.sheet > last:
            allowed = f"an index of the sheets, 0 to {last}" if last >= 0 else "sheets on the wall"
            raise InputError(f"films[{i}].sheet", film.sheet, allowed)
    _check_points(wall)


def _check_foot(wall: Elevation, foot: Sequence[Point]) -> None:
    for i, (_, y) in enumerate(foot):
        if y >= wall.height_mm:
            raise InputError(f"foot[{i}][1]", y, f"< height_mm ({wall.height_mm:g})")
    for i, ((a, _), (b, _)) in enumerate(pairwise(foot)):
        if b <= a:
            raise InputError(f"foot[{i + 1}][0]", b, f"> the x before ({a:g})")
    if foot[0][0] > 0:
        raise InputError("foot[0][0]", foot[0][0], "≤ 0, the left end of the wall")
    if foot[-1][0] < wall.wall_mm:
        allowed = f"≥ wall_mm ({wall.wall_mm:g})"
        raise InputError(f"foot[{len(foot) - 1}][0]", foot[-1][0], allowed)


def _check_stretches(name: str, bands: Sequence[Face | OpenEdge], wall_mm: float) -> None:
    for i, band in enumerate(bands):
        if band.from_mm >= band.to_mm:
            raise InputError(f"{name}[{i}].to_mm", band.to_mm, f"> from_mm ({band.from_mm:g})")
        _check_along(f"{name}[{i}].from_mm", band.from_mm, wall_mm)
        _check_along(f"{name}[{i}].to_mm", band.to_mm, wall_mm)


def _check_along(name: str, mm: float, wall_mm: float) -> None:
    if not 0 <= mm <= wall_mm:
        raise InputError(name, mm, f"on the wall, 0 to {wall_mm:g}")


def _check_points(wall: Elevation) -> None:
    places = [(f"blemishes[{i}].at", each.at) for i, each in enumerate(wall.blemishes)]
    places += [(f"spots[{i}].at", each.at) for i, each in enumerate(wall.spots)]
    marked: list[tuple[str, Sequence[Cut | Patch]]]
    marked = [("cuts", wall.cuts), ("patches", wall.patches)]
    for name, given in marked:
        for i, mark in enumerate(given):
            places += [(f"{name}[{i}].from", mark.start), (f"{name}[{i}].to", mark.end)]
    if wall.marker:
        places.append(("marker.at", wall.marker.at))
    for name, (x, y) in places:
        if not (0 <= x <= wall.wall_mm and wall.bottom_mm <= y <= wall.height_mm):
            allowed = (
                f"on what is drawn, x 0 to {wall.wall_mm:g}, "
                f"y {wall.bottom_mm:g} to {wall.height_mm:g}"
            )
            raise InputError(name, [x, y], allowed)
    for i, patch in enumerate(wall.patches):
        if patch.start[0] == patch.end[0] or patch.start[1] == patch.end[1]:
            raise InputError(f"patches[{i}].to", list(patch.end), "a corner that spans an area")
    for i, cut in enumerate(wall.cuts):
        if cut.start == cut.end:
            raise InputError(f"cuts[{i}].to", list(cut.end), "another point than from")
