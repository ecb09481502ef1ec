"""Lap section: a cut across one lap, enlarged, with the bead of bitumen measured.

Figure coordinates: millimetres, x from the edge of the upper sheet into the lap (the bead is
negative), y up from the underside of the lower sheet; of several cuts each lies ``PITCH`` mm under
the one before. Parts: "top-sheet", "bottom-sheet", "third-sheet", "bead" (several cuts: "bead-0"…),
"void", "film", "channel", "roller", "marker". Fields, units and ranges: ``FIELDS``.
"""

from __future__ import annotations

from typing import Any

from trainer.drawing import lap_section_notes as notes
from trainer.drawing import lap_section_shapes as shapes
from trainer.drawing.canvas import Canvas
from trainer.drawing.lap_section_data import FIELDS, LapSection, Span
from trainer.drawing.lap_section_scale import Cut, lay
from trainer.drawing.overlays import draw_overlays
from trainer.errors import InputError


def draw(canvas: Canvas, checked: dict[str, Any]) -> None:
    """Draw the lap described by the checked fields. Raises InputError on bad geometry."""
    lap = LapSection(**checked)
    _check(lap)
    cut = lay(canvas, lap)
    for row in range(len(lap.rows)):
        shapes.draw_row(canvas, lap, cut.down(row), row)
    notes.draw_marker(canvas, lap, cut)
    for row in range(len(lap.rows)):
        notes.draw_row(canvas, lap, cut.down(row), row)
    draw_overlays(canvas, cut.at, cut.per_mm)
    notes.draw_key(canvas, lap, cut)


def _check(lap: LapSection) -> None:
    if lap.bead and lap.beads:
        raise InputError("beads", len(lap.beads), "either bead or beads")
    for name, span in (("void", lap.void), ("film", lap.film)):
        if span:
            _check_span(name, span, lap.lap_mm)
    if lap.third and not 10 <= lap.third.from_mm <= lap.lap_mm:
        allowed = f"in the lap, 10 to {lap.lap_mm:g}"
        raise InputError("third.from_mm", lap.third.from_mm, allowed)
    places = {"roller.at_mm": lap.roller, "marker.at_mm": lap.marker}
    for name, thing in places.items():
        if thing and not -40 <= thing.at_mm <= lap.lap_mm:
            raise InputError(name, thing.at_mm, f"at the lap, -40 to {lap.lap_mm:g}")
    _check_rows(lap)


def _check_span(name: str, span: Span, lap_mm: float) -> None:
    if span.from_mm >= span.to_mm:
        raise InputError(f"{name}.to_mm", span.to_mm, f"> from_mm ({span.from_mm:g})")
    for end, mm in (("from_mm", span.from_mm), ("to_mm", span.to_mm)):
        if not 0 <= mm <= lap_mm:
            raise InputError(f"{name}.{end}", mm, f"in the lap, 0 to {lap_mm:g}")


def _check_rows(lap: LapSection) -> None:
    """Of several cuts nothing but their beads may be told apart."""
    if len(lap.beads) < 2:
        return
    alone = {"void": lap.void, "film": lap.film, "third": lap.third}
    for name, given in (alone | {"roller": lap.roller, "marker": lap.marker}).items():
        if given:
            raise InputError(name, "given", "a single bead, not several beads")


__all__ = ["FIELDS", "Cut", "draw"]
