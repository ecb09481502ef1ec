"""The parapet of a section built up of layers: each hatched by its material, each pressed alone."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate, pairwise

from trainer.drawing.canvas import CUT, EDGE, THIN, Canvas, Scale
from trainer.drawing.interaction import TARGET, part
from trainer.drawing.markup import Box, path, rect_path
from trainer.drawing.palette import PAPER
from trainer.drawing.section_data import Section
from trainer.drawing.section_solids import HATCHES, courses, frame, wool
from trainer.drawing.section_work_data import WallLayer

_LEAST = 16.0
"""How much of a thick layer its thin neighbour leaves it to be pressed on, in user units."""


def layer_boxes(cut: Section, scale: Scale, foot: float) -> list[Box]:
    """The box of each layer; ``foot`` is where the wall begins, in user units."""
    ends = [0.0, *accumulate([layer.thickness_mm for layer in cut.layers])]
    return [
        (
            scale.x(left),
            scale.y(cut.core_top_mm if layer.to_mm is None else layer.to_mm),
            scale.x(right),
            foot if layer.from_mm is None else scale.y(layer.from_mm),
        )
        for layer, (left, right) in zip(cut.layers, pairwise(ends), strict=True)
    ]


def draw_wall_layers(canvas: Canvas, cut: Section, scale: Scale, foot: float) -> None:
    """The layers from the roof outwards."""
    boxes = layer_boxes(cut, scale, foot)
    for i, (layer, box, hit) in enumerate(zip(cut.layers, boxes, _pressed(boxes), strict=True)):
        own = layer.label or canvas.request.say(layer.material)
        shapes = _layer(canvas, scale, layer, box)
        part(canvas, f"layer-{i}", own, shapes, (hit[:2], hit[2:]), crowded=True)


def _layer(canvas: Canvas, scale: Scale, layer: WallLayer, box: Box) -> str:
    data, hatch = rect_path(box), HATCHES[layer.material]
    ground = f'<path d="{data}" fill="{PAPER}" stroke="none"/>'
    if layer.material == "cavity":
        return ground + _cavity(layer, box)
    if layer.material == "mineral wool" and box[2] - box[0] > 12:
        return f'{ground}<path d="{data}" stroke-width="{CUT}"/>{_upright_wool(box)}'
    fill = canvas.hatch(hatch) if hatch else PAPER
    drawn = f'{ground}<path d="{data}" fill="{fill}" stroke-width="{CUT}"/>'
    if layer.material == "masonry":
        return drawn + courses(scale, box)
    return drawn + (frame(canvas, scale, box) if layer.material == "timber framing" else "")


def _upright_wool(box: Box) -> str:
    """The loops of a batt that stands: those of a lying one with across and down exchanged."""
    left, top, right, bottom = box
    return f'<g transform="matrix(0 1 1 0 0 0)">{wool((top, left, bottom, right))}</g>'


def _cavity(layer: WallLayer, box: Box) -> str:
    """Air between two layers: closed by a line at its top, or open with an arrow into it."""
    left, top, right, bottom = box
    sides = f'<path d="M{left:.1f} {top:.1f}V{bottom:.1f}M{right:.1f} {top:.1f}V{bottom:.1f}" '
    sides += f'stroke-width="{EDGE}"/>'
    if not layer.open:
        return f'{sides}<path d="M{left:.1f} {top:.1f}H{right:.1f}" stroke-width="{CUT}"/>'
    x = (left + right) / 2
    arrow = f"M{x:.1f} {top - 15:.1f}V{top + 13:.1f}M{x - 3:.1f} {top + 8:.1f}"
    arrow += f"L{x:.1f} {top + 14:.1f}L{x + 3:.1f} {top + 8:.1f}"
    gap = f'<path d="{path([(left, top), (right, top)])}" stroke="{PAPER}" stroke-width="3"/>'
    return f'{gap}{sides}<path d="{arrow}" stroke-width="{THIN + 0.4}"/>'


def _pressed(boxes: Sequence[Box]) -> list[Box]:
    """What is pressed of each layer: thin ones take from thicker neighbours, none overlap."""
    wide = [box[2] - box[0] for box in boxes]
    want = [max(0.0, (TARGET - each) / 2) for each in wide]
    edges = [boxes[0][0] - want[0]]
    for i, box in enumerate(boxes[:-1]):
        spare = max(0.0, (wide[i + 1 if want[i] > want[i + 1] else i] - _LEAST) / 2)
        edges.append(box[2] + max(-spare, min(spare, want[i] - want[i + 1])))
    edges.append(boxes[-1][2] + want[-1])
    made = []
    for (left, right), box in zip(pairwise(edges), boxes, strict=True):
        short = max(0.0, (TARGET - box[3] + box[1]) / 2)
        made.append((left, box[1] - short, right, box[3] + short))
    return made
