"""Parapet section: a vertical cut through the roof's edge and the parapet.

Figure coordinates: millimetres, x from the roof-side face of the wall outwards (the roof is
negative), y up from the roof surface, which is the top of the insulation. Fields, units and ranges:
``FIELDS``. Parts: "deck", "insulation", "field-sheet", "cant", "core", "nailer", "void", "vent",
"foam", "cladding", "flashing", "chalk-line", "flame". Sheet thickness is not to scale; all else is.
"""

from __future__ import annotations

from typing import Any

from trainer.drawing import section_layers as layers
from trainer.drawing import section_notes as notes
from trainer.drawing.canvas import MARGIN, Canvas, Scale
from trainer.drawing.overlays import draw_overlays
from trainer.drawing.section_data import FIELDS, Cant, Flashing, Layer, Opening, Section
from trainer.errors import InputError


def draw(canvas: Canvas, checked: dict[str, Any]) -> None:
    """Draw the section described by the checked fields. Raises InputError on bad geometry."""
    cut = Section(**checked)
    _check(cut)
    scale = _scale(canvas, cut)
    layers.draw_layers(canvas, cut, scale)
    notes.draw_notes(canvas, cut, scale)
    draw_overlays(canvas, scale.at, scale.per_mm)
    notes.draw_foot(canvas, cut, scale)


def _check(cut: Section) -> None:
    if cut.core_to_mm - cut.core_from_mm < 30:
        raise InputError("width_mm", cut.width_mm, "foam and cladding and a core ≥ 30 mm")
    if cut.cant_mm > cut.height_mm:
        raise InputError("cant.leg_mm", cut.cant_mm, "≤ height_mm")
    if cut.core_top_mm <= 0:
        raise InputError("nailer_mm", cut.nailer_mm, f"< height_mm ({cut.height_mm:g})")
    for name, opening in (("void", cut.void), ("vent", cut.vent)):
        if opening:
            _check_opening(cut, name, opening)
    if cut.flashing:
        _check_flashing(cut, cut.flashing)


def _check_opening(cut: Section, name: str, opening: Opening) -> None:
    if not -cut.depth_mm <= opening.from_mm < opening.to_mm <= cut.core_top_mm:
        allowed = f"from_mm above it and no higher than the core ({cut.core_top_mm:g})"
        raise InputError(f"{name}.to_mm", opening.to_mm, allowed)


def _check_flashing(cut: Section, sheet: Flashing) -> None:
    up = cut.height_mm if sheet.up_mm is None else sheet.up_mm
    top = cut.width_mm if sheet.top_mm is None else sheet.top_mm
    if not cut.cant_mm <= up <= cut.height_mm:
        allowed = f"cant ≤ up_mm ≤ height_mm ({cut.cant_mm:g} to {cut.height_mm:g})"
        raise InputError("flashing.up_mm", up, allowed)
    if top > cut.width_mm:
        raise InputError("flashing.top_mm", top, f"≤ width_mm ({cut.width_mm:g})")
    if sheet.outer_drop_mm and (up < cut.height_mm or top < cut.width_mm):
        allowed = "0 unless the sheet covers the whole top"
        raise InputError("flashing.outer_drop_mm", sheet.outer_drop_mm, allowed)
    if sheet.bridging_mm and (cut.cant or sheet.bridging_mm > up):
        allowed = "no cant, and no more than the sheet runs up"
        raise InputError("flashing.bridging_mm", sheet.bridging_mm, allowed)


_TALLEST = 340.0


def _scale(canvas: Canvas, cut: Section) -> Scale:
    left = max(cut.roof_mm or 450.0, _roof_needed(cut))
    right_gap = 62.0 if {"height", "outer_drop"} & set(cut.dimensions) else 14.0
    right_gap += 16.0 if {"height", "outer_drop"} <= set(cut.dimensions) else 0.0
    room = canvas.width - 2 * MARGIN - right_gap
    tall = cut.height_mm + cut.depth_mm
    per_mm = min(room / (left + cut.width_mm), _TALLEST / tall)
    return Scale(per_mm, canvas.width - MARGIN - right_gap - cut.width_mm * per_mm)


def _roof_needed(cut: Section) -> float:
    """Roof enough for the flashing sheet and for the whole way of the chalk line."""
    sheet = cut.flashing
    lap = cut.cant_mm + (max(sheet.field_lap_mm, sheet.bridging_mm) if sheet else 0.0)
    chalk = 0.0
    if cut.chalk:
        chalk = cut.chalk.movable.high if cut.chalk.movable else cut.chalk.at_mm
    return max(lap + 60.0, chalk + 40.0)


__all__ = ["FIELDS", "Cant", "Flashing", "Layer", "Section", "draw"]
