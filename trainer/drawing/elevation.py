"""Wall elevation: a straight wall unfolded, the wall face above, the roof field folded down below.

Figure coordinates: millimetres, x along the wall from its left end, y up from the base line (the
field is negative). Parts: "lap-0"… (flashing laps), "field-lap-0"…, "sheet-0"…, "primer-0"…,
"chalk-line", "edge", "face-0"…, "open-edge-0"…, "film-0"…, "blemish-0"…, "cut-0"…, "patch-0"…,
"height-0"…, "spot-0"…, "marker". Fields, units and ranges: ``FIELDS``.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Any

from trainer.drawing import elevation_bands as bands
from trainer.drawing import elevation_lens as lens
from trainer.drawing import elevation_marks as marks
from trainer.drawing import elevation_site as site
from trainer.drawing.canvas import CUT, EDGE, MARGIN, THIN, Canvas, Scale
from trainer.drawing.dimensions import chain, scale_bar
from trainer.drawing.elevation_checks import check_site
from trainer.drawing.elevation_data import FIELDS, Elevation, Lap, Moved, Stretch
from trainer.drawing.interaction import part
from trainer.drawing.labels import plain_text
from trainer.drawing.lettering import SMALL, text_height, text_width
from trainer.drawing.markers import draw_marker
from trainer.drawing.markup import path
from trainer.drawing.overlays import draw_overlays
from trainer.drawing.palette import ACCENT, PAPER
from trainer.drawing.spots import draw_spots
from trainer.errors import InputError


def draw(canvas: Canvas, checked: dict[str, Any]) -> None:
    """Draw the elevation described by the checked fields. Raises InputError on bad geometry."""
    wall = Elevation(**checked)
    _check(wall)
    check_site(wall)
    wall = _clipped(wall)
    scale = _scale(canvas, wall)
    _ground(canvas, wall, scale)
    site.draw_faces(canvas, wall, scale)
    bands.draw_bands(canvas, wall, scale)
    site.draw_open_edges(canvas, wall, scale)
    marks.draw_marks(canvas, wall, scale)
    if wall.marker:
        foot = scale.y(wall.foot_at(wall.marker.at[0]) - wall.field_lap_mm)
        draw_marker(canvas, scale, wall.marker, (scale.y(wall.height_mm), foot))
    site.draw_heights(canvas, wall, scale)
    draw_spots(canvas, wall.spots, scale.at)
    _chains(canvas, wall, scale)
    draw_overlays(canvas, scale.at, scale.per_mm)
    lens.draw_detail(canvas, wall, scale)
    bands.draw_key(canvas, wall)
    scale_bar(canvas, scale.per_mm, canvas.request.length)


_TALLEST = 420.0


def _scale(canvas: Canvas, wall: Elevation) -> Scale:
    room = canvas.width - 2 * MARGIN
    per_mm = min(room / wall.wall_mm, _TALLEST / (wall.height_mm - wall.bottom_mm))
    return Scale(per_mm, MARGIN + (room - wall.wall_mm * per_mm) / 2)


def _clipped(wall: Elevation) -> Elevation:
    """The same wall with laps that run past its ends cut there."""
    laps = [lap for lap in (*wall.laps, *wall.field_laps) if not _inside(lap, wall.wall_mm)]
    if not laps:
        return wall
    return replace(
        wall,
        laps=[lap.within(wall.wall_mm) for lap in wall.laps],
        field_laps=[lap.within(wall.wall_mm) for lap in wall.field_laps],
    )


def _inside(lap: Lap, wall_mm: float) -> bool:
    low, high = lap.foot
    return min(lap.from_mm, low) >= 0 and max(lap.to_mm, high) <= wall_mm


def _check(wall: Elevation) -> None:
    for name, laps in (("laps", wall.laps), ("field_laps", wall.field_laps)):
        _check_ends(name, laps, wall.wall_mm)
        for i, lap in enumerate(laps):
            low, high = lap.foot
            if low > high:
                allowed = f"≥ bottom_from_mm ({low:g})"
                raise InputError(f"{name}[{i}].bottom_to_mm", high, allowed)
    _check_ends("sheets", wall.sheets or (), wall.wall_mm)
    _check_ends("primer", wall.primer, wall.wall_mm)
    allowed = f"≤ the field drawn ({wall.depth_mm:g})"
    if wall.field_lap_mm > wall.depth_mm:
        raise InputError("field_lap_mm", wall.field_lap_mm, allowed)
    if wall.chalk_mm is not None and wall.chalk_mm > wall.depth_mm:
        raise InputError("chalk_mm", wall.chalk_mm, allowed)
    if wall.movable:
        _check_movable(wall, wall.movable)


def _check_ends(name: str, bands: Sequence[Lap | Stretch], wall_mm: float) -> None:
    for i, band in enumerate(bands):
        low, high = band.from_mm, band.to_mm
        if low >= high:
            raise InputError(f"{name}[{i}].to_mm", high, f"> from_mm ({low:g})")
        if low >= wall_mm or high <= 0:
            raise InputError(f"{name}[{i}].from_mm", low, f"on the wall, 0 to {wall_mm:g}")


def _check_movable(wall: Elevation, moved: Moved) -> None:
    if (moved.lap is None) == (moved.edge_mm is None):
        raise InputError("movable", "lap and edge_mm", "either lap or edge_mm")
    if moved.lap is not None and moved.lap >= len(wall.laps):
        allowed = f"an index of laps, 0 to {len(wall.laps) - 1}"
        raise InputError("movable.lap", moved.lap, allowed)


def _ground(canvas: Canvas, wall: Elevation, scale: Scale) -> None:
    """Wall face, roof field and the base line between."""
    left, right = scale.x(0), scale.x(wall.wall_mm)
    head, foot = scale.y(wall.height_mm), scale.y(wall.bottom_mm)
    base = scale.all(wall.base(0.0, wall.wall_mm))
    across, back = path(base), f"H{left:.1f}Z"
    field = f'<path d="{across}V{foot:.1f}{back}" fill="{canvas.hatch("field")}" stroke="none"/>'
    face = f'<path d="{across}V{head:.1f}{back}" fill="{PAPER}" stroke-width="{EDGE}"/>'
    (_, first), (_, last) = base[0], base[-1]
    ends = f"M{left:.1f} {first:.1f}V{foot:.1f}M{right:.1f} {last:.1f}V{foot:.1f}"
    sides = f'<path d="{ends}" stroke-width="{THIN}" stroke-dasharray="8 4"/>'
    canvas.shapes.append(f"{'' if 'field' in wall.bare else field}{face}{sides}")
    edge = f'<path d="{across}" stroke-width="{CUT}"/>'
    top = f'<path d="M{left:.1f} {head:.1f}H{right:.1f}" stroke-width="{CUT}"/>'
    canvas.lines.append(edge + top)
    if wall.chalk_mm is not None:
        drop = wall.chalk_mm * scale.per_mm
        line = [(x, y + drop) for x, y in base]
        shape = f'<path class="chalk" d="{path(line)}" stroke="{ACCENT}" stroke-width="1.6"/>'
        own = canvas.request.say("chalk line")
        part(canvas, "chalk-line", own, shape, line, layer="lines")
    canvas.reach(head - 4, foot + 4)
    canvas.placer.avoid((left, head - 11, right, foot + 11))


def _chains(canvas: Canvas, wall: Elevation, scale: Scale) -> None:
    """Dimension chains of the flashing above and of the field laps below; and the two names."""
    length = canvas.request.length
    head, foot = scale.y(wall.height_mm), scale.y(wall.bottom_mm)
    shown = wall.chain == "before" or (wall.chain == "after" and canvas.request.answered)
    top, bottom = min(head, canvas.top + 4, -24.0) - 22, max(foot, canvas.bottom - 4, 24.0) + 20
    if shown and wall.laps:
        _chain(canvas, wall, scale, wall.laps, top, head, length)
    if shown and wall.field_laps:
        _chain(canvas, wall, scale, wall.field_laps, bottom, foot, length)
    _names(canvas, wall, scale)


def _names(canvas: Canvas, wall: Elevation, scale: Scale) -> None:
    """Which strip is the wall and which the field, clear of the line to the enlarged detail."""
    high = text_height(1, SMALL)
    plain_text(canvas, canvas.request.say("wall face"), MARGIN, canvas.top - high - 4, SMALL)
    look, under = lens.looks_at(wall, scale), canvas.request.say("roof field")
    wide = text_width(under, SMALL)
    crossed = look is not None and scale.x(look) - 16 < MARGIN + wide + 10
    plain_text(canvas, under, canvas.right - wide if crossed else MARGIN, canvas.bottom + 4, SMALL)


def _chain(
    canvas: Canvas,
    wall: Elevation,
    scale: Scale,
    laps: list[Lap],
    y: float,
    foot: float,
    length: Any,
) -> None:
    edges = {0.0, wall.wall_mm}
    for lap in laps:
        edges |= {min(max(edge, 0.0), wall.wall_mm) for edge in (lap.from_mm, lap.to_mm)}
    ordered = sorted(edges)
    texts = [length(b - a) for a, b in pairwise(ordered)]
    chain(canvas, [scale.x(edge) for edge in ordered], texts, y, foot)


__all__ = ["FIELDS", "draw"]
