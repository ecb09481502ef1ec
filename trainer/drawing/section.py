"""Parapet section: a vertical cut through the roof's edge and the parapet.

Figure coordinates: millimetres, x from the roof-side face of the wall outwards (the roof is
negative), y up from the roof surface, which is the top of the insulation. Fields, units and ranges:
``FIELDS``. Parts: "deck", "insulation", "field-sheet", "cant", "core", "nailer", "void", "vent",
"foam", "cladding", "layer-0"…, "added-0"…, "finish", "hollow", "guardrail", "face-wall"…,
"flashing", "chalk-line", "flame". Sheet thickness is not to scale; all else is.
"""

from __future__ import annotations

from typing import Any

from trainer.drawing import section_edge as edge
from trainer.drawing import section_layers as layers
from trainer.drawing import section_notes as notes
from trainer.drawing.canvas import MARGIN, Canvas, Scale
from trainer.drawing.overlays import draw_overlays
from trainer.drawing.section_checks import check
from trainer.drawing.section_data import Cant, Flashing, Layer, Section
from trainer.drawing.section_fields import FIELDS
from trainer.drawing.section_lens import draw_detail, within
from trainer.drawing.section_measures import right_gap


def draw(canvas: Canvas, checked: dict[str, Any]) -> None:
    """Draw the section described by the checked fields. Raises InputError on bad geometry."""
    cut = Section(**checked)
    check(cut)
    scale = _scale(canvas, cut)
    layers.draw_layers(canvas, cut, scale)
    if cut.guardrail:
        edge.draw_guardrail(canvas, cut, scale, cut.guardrail)
    notes.draw_notes(canvas, cut, scale)
    outside = [o for o in canvas.request.after or [] if not within(o, cut.detail)]
    draw_overlays(canvas, scale.at, scale.per_mm, outside)
    if cut.detail:
        draw_detail(canvas, cut, scale, cut.detail)
    notes.draw_foot(canvas, cut, scale)


_TALLEST = 340.0


def _scale(canvas: Canvas, cut: Section) -> Scale:
    left = max(cut.roof_mm or 450.0, _roof_needed(cut))
    gap = right_gap(canvas, cut)
    room = canvas.width - 2 * MARGIN - gap
    tall = cut.top_mm + cut.depth_mm
    per_mm = min(room / (left + cut.width_mm), _TALLEST / tall)
    return Scale(per_mm, canvas.width - MARGIN - gap - cut.width_mm * per_mm)


def _roof_needed(cut: Section) -> float:
    """Roof enough for the flashing sheet and for the whole way of the chalk line."""
    sheet = cut.flashing
    lap = cut.cant_mm + (sheet.field_lap_mm if sheet else 0.0)
    chalk = 0.0
    if cut.chalk:
        chalk = cut.chalk.movable.high if cut.chalk.movable else cut.chalk.at_mm
    return max(lap + 60.0, chalk + 40.0)


__all__ = ["FIELDS", "Cant", "Flashing", "Layer", "Section", "draw"]
