"""What is measured on the parapet section from the start."""

from __future__ import annotations

from itertools import pairwise

from trainer.drawing.canvas import Canvas, Scale
from trainer.drawing.dimensions import chain, dimension
from trainer.drawing.labels import Label
from trainer.drawing.lettering import SMALL, text_width
from trainer.drawing.palette import PAPER
from trainer.drawing.section_data import Section
from trainer.drawing.section_solids import below

DROP_AT = 20.0
"""How far right of the wall the drop is measured, in user units."""

INSIDE = 16.0
"""How far inside the wall the flashing's height is measured, in user units."""

_LETTERS = 8.0
"""From a dimension line to the end of its letters, but for the letters themselves."""


def right_gap(canvas: Canvas, cut: Section) -> float:
    """The room that upright dimensions take right of the wall, in user units."""
    columns, outer = _columns(canvas, cut), "outer_drop" in cut.dimensions
    ends = [out + _LETTERS + _wide(canvas, high - low) for out, low, high in columns]
    if cut.drop_mm:
        ends.append(DROP_AT + 14 + _wide(canvas, cut.drop_mm))
    if columns or outer:
        ends.append(62.0 + (16.0 if columns and outer else 0.0))
    return max([14.0, *ends])


def _wide(canvas: Canvas, mm: float) -> float:
    return text_width(canvas.request.length(mm), SMALL)


def _columns(canvas: Canvas, cut: Section) -> list[tuple[float, float, float]]:
    """How far right of the wall each upright dimension stands, its foot and its head."""
    out, columns = 34.0 if _shows_drop(cut) else 20.0, []
    for low, high in _uprights(cut):
        columns.append((out, low, high))
        out += _LETTERS + _wide(canvas, high - low) + 4
    return columns


def _uprights(cut: Section) -> list[tuple[float, float]]:
    """Foot and head of each upright dimension right of the wall, nearest first."""
    rail = cut.guardrail.height_mm if cut.guardrail else 0.0
    spans = {
        "height": (0.0, cut.height_mm),
        "height_new": (cut.finished_mm, cut.height_mm),
        "height_old": (-cut.added_mm, cut.height_mm),
        "guardrail": (cut.finished_mm, rail),
    }
    return [span for name, span in spans.items() if name in cut.dimensions]


def upright_dimensions(canvas: Canvas, cut: Section, scale: Scale) -> None:
    """Heights and the outer drop right of the wall, the flashing's height on it."""
    x, length = scale.x(cut.width_mm), canvas.request.length
    for out, low, high in _columns(canvas, cut):
        label = Label(length(high - low), size=SMALL)
        dimension(canvas, (x, scale.y(low)), (x, scale.y(high)), label, -out)
    drop = cut.flashing.outer_drop_mm if cut.flashing else 0.0
    if _shows_drop(cut):
        head, foot = (x, scale.y(cut.height_mm)), (x, scale.y(cut.height_mm - drop))
        dimension(canvas, foot, head, Label(length(drop), size=SMALL), -12)
    if "flashing_height" in cut.dimensions:
        _flashing_height(canvas, cut, scale)


def _flashing_height(canvas: Canvas, cut: Section, scale: Scale) -> None:
    """How far the flashing stands over the finished surface, measured on the wall."""
    foot, head = (scale.x(0), scale.y(cut.finished_mm)), (scale.x(0), scale.y(cut.up_mm))
    x = foot[0] + INSIDE
    canvas.line([(x, foot[1]), (x, head[1])], 6, f' stroke="{PAPER}" stroke-opacity=".84"')
    label = Label(canvas.request.length(cut.up_mm - cut.finished_mm), size=SMALL, patch=True)
    dimension(canvas, foot, head, label, -INSIDE)


def _shows_drop(cut: Section) -> bool:
    return (
        "outer_drop" in cut.dimensions
        and cut.flashing is not None
        and cut.flashing.outer_drop_mm > 0
    )


def level_dimensions(canvas: Canvas, cut: Section, scale: Scale) -> None:
    """A chain under the deck: chalk line or lap, cant, width; its lines reach to the surface."""
    stops = {0.0}
    if "width" in cut.dimensions:
        stops.add(cut.width_mm)
    if "cant" in cut.dimensions and cut.cant:
        stops.add(-cut.cant_mm)
    if "field_lap" in cut.dimensions and cut.flashing:
        stops |= {-cut.cant_mm, -cut.cant_mm - cut.flashing.field_lap_mm}
    if "chalk" in cut.dimensions and cut.chalk:
        stops.add(-cut.chalk.at_mm)
    if len(stops) < 2:
        return
    ordered = sorted(stops)
    texts = [canvas.request.length(b - a) for a, b in pairwise(ordered)]
    y = scale.y(-cut.depth_mm) + below(cut) + 14
    chain(canvas, [scale.x(mm) for mm in ordered], texts, y, y - 12)
    ups = "".join([f"M{scale.x(mm):.1f} {y - 9:.1f}V{scale.y(0):.1f}" for mm in ordered])
    canvas.lines.append(f'<path d="{ups}" stroke-width=".5"/>')
