"""Flat pattern: a sheet as it lies on the bench, before it is folded.

Figure coordinates: millimetres, x along the sheet, y up; the origin is the family's choice (the
corner calculator puts it at the bottom edge on the fold). Parts: "film-0"…, "area-0"…, "slit-0"…,
"cut-0"…, "corner-cut-0"…, "fold-0"…, "gusset", "gusset-0"…, "spot-0"…, "marker". Fields, units
and ranges: ``FIELDS``.
"""

from __future__ import annotations

from typing import Any

from trainer.drawing import flat_notes as notes
from trainer.drawing import flat_shapes as shapes
from trainer.drawing.canvas import MARGIN, Canvas, Scale
from trainer.drawing.dimensions import scale_bar
from trainer.drawing.flat_data import FIELDS, Flat
from trainer.drawing.markup import Point, around
from trainer.drawing.overlays import draw_overlays
from trainer.errors import InputError


def draw(canvas: Canvas, checked: dict[str, Any]) -> None:
    """Draw the flat sheet described by the checked fields. Raises InputError on bad geometry."""
    flat = Flat(**checked)
    for i, leg in enumerate(flat.legs):
        if leg.from_mm >= leg.to_mm:
            raise InputError(f"legs[{i}].to_mm", leg.to_mm, f"> from_mm ({leg.from_mm:g})")
    _check_corners(flat)
    scale = _scale(canvas, flat)
    shapes.draw_sheet(canvas, flat, scale)
    notes.draw_notes(canvas, flat, scale)
    draw_overlays(canvas, scale.at, scale.per_mm)
    notes.draw_key(canvas, flat)
    scale_bar(canvas, scale.per_mm, canvas.request.length)


def _check_corners(flat: Flat) -> None:
    for i, cut in enumerate(flat.corner_cuts):
        if cut.at not in [tuple(point) for point in flat.outline]:
            raise InputError(f"corner_cuts[{i}].at", list(cut.at), "a corner of the outline")


def _extent(flat: Flat) -> list[Point]:
    """Every point that must be seen."""
    extent = [*flat.outline, *(flat.gusset or [])]
    for gusset in flat.gussets:
        extent += gusset.outline
    return [*extent, *[spot.at for spot in flat.spots]]


_TALLEST, _LEGS = 400.0, 92.0


def _scale(canvas: Canvas, flat: Flat) -> Scale:
    """The sheet beside its legs' names; measured dimensions stand right of it."""
    left, bottom, right, top = around(_extent(flat))
    if right <= left or top <= bottom:
        raise InputError("outline", [left, bottom, right, top], "an outline with an area")
    aside = _LEGS if flat.legs else 12.0
    room = canvas.width - 2 * MARGIN - aside - 12
    per_mm = min(room / (right - left), _TALLEST / (top - bottom))
    spare = (room - (right - left) * per_mm) / 2
    return Scale(per_mm, MARGIN + aside + spare - left * per_mm, top * per_mm)


__all__ = ["FIELDS", "draw"]
