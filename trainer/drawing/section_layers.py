"""The layers of the parapet section, drawn to scale and hatched."""

from __future__ import annotations

from trainer.drawing.canvas import EDGE, MARGIN, THIN, Canvas, Scale
from trainer.drawing.interaction import part
from trainer.drawing.markup import Box, Point, num, path
from trainer.drawing.palette import PAPER
from trainer.drawing.section_added import draw_added, draw_beyond, draw_finish
from trainer.drawing.section_data import Layer, Section
from trainer.drawing.section_sheets import draw_sheets
from trainer.drawing.section_solids import (
    HATCHES,
    STUB,
    courses,
    crossed,
    frame,
    rect,
    solid,
    wool,
    worded,
    zigzag,
)
from trainer.drawing.section_wall import draw_wall_layers

_STEEL_PITCH, _BOARD = 200.0, 140.0
_CORE_HATCH = {"masonry": "masonry", "concrete": "concrete", "timber framing": ""}
_CANT_HATCH = {
    "mineral": "mineral",
    "wood fibre": "wood-fibre",
    "timber": "end-grain",
    "foam": "foam",
}
_CLADDING_HATCH = {"metal": "metal", "timber": "timber", "masonry": "masonry"}


def draw_layers(canvas: Canvas, cut: Section, scale: Scale) -> None:
    """Every layer of the cut, from the deck outwards, sheets last."""
    _deck(canvas, cut, scale)
    if cut.insulation:
        _insulation(canvas, cut, scale, cut.insulation)
    draw_added(canvas, cut, scale)
    if cut.beyond_mm is not None:
        draw_beyond(canvas, cut, scale, cut.beyond_mm)
    _wall(canvas, cut, scale)
    if cut.cant:
        leg, foot = cut.cant.leg_mm, cut.foot_mm
        corners = scale.all([(-leg, foot), (0, foot + leg), (0, foot)])
        solid(canvas, "cant", corners, _CANT_HATCH[cut.cant.material], f"cant, {cut.cant.material}")
    draw_finish(canvas, cut, scale)
    draw_sheets(canvas, cut, scale)
    _break_line(canvas, cut, scale)
    canvas.reach(scale.y(cut.height_mm) - 8, scale.y(-cut.depth_mm) + STUB)


def deck_end_mm(cut: Section) -> float:
    """A slab runs under the parapet; a steel or timber deck ends at its face."""
    return cut.core_to_mm if cut.deck.material == "concrete" else cut.core_from_mm


def _deck(canvas: Canvas, cut: Section, scale: Scale) -> None:
    top, bottom = scale.y(cut.deck_top_mm), scale.y(-cut.depth_mm)
    box = (MARGIN, top, scale.x(deck_end_mm(cut)), bottom)
    words = f"deck, {cut.deck.material}"
    if cut.deck.material == "steel":
        shapes = _steel(box, scale.per_mm)
        part(canvas, "deck", worded(canvas, words), shapes, rect(box))
        return
    joints = ""
    if cut.deck.material == "timber":
        step = _BOARD * scale.per_mm
        count = int((box[2] - box[0]) / step)
        lines = "".join(
            [f"M{box[2] - i * step:.1f} {top:.1f}V{bottom:.1f}" for i in range(1, count + 1)]
        )
        joints = f'<path d="{lines}" stroke-width="{EDGE}"/>'
    solid(canvas, "deck", rect(box), cut.deck.material, words, joints)


def _steel(box: Box, per_mm: float) -> str:
    """A trapezoidal profile, ribs every 200 mm."""
    left, top, right, bottom = box
    pitch = _STEEL_PITCH * per_mm
    points: list[Point] = []
    x = right
    while x > left - pitch:
        points += [
            (x, top + 1),
            (x - pitch * 0.45, top + 1),
            (x - pitch * 0.55, bottom),
            (x - pitch * 0.9, bottom),
        ]
        x -= pitch
    kept = [point for point in points if point[0] >= left]
    return (
        f'<path d="{path(kept)}" stroke-width="5"/>'
        f'<path d="{path(kept)}" stroke="{PAPER}" stroke-width="1.6"/>'
    )


def _insulation(canvas: Canvas, cut: Section, scale: Scale, layer: Layer) -> None:
    box = (MARGIN, scale.y(-cut.added_mm), scale.x(0), scale.y(cut.deck_top_mm))
    words = f"insulation, {layer.material}"
    if layer.material == "mineral wool":
        solid(canvas, "insulation", rect(box), "", words, wool(box))
    else:
        solid(canvas, "insulation", rect(box), HATCHES[layer.material], words)


def _wall(canvas: Canvas, cut: Section, scale: Scale) -> None:
    bottom = scale.y(-cut.depth_mm) + STUB
    on_slab = cut.deck.material == "concrete"
    foot = scale.y(cut.deck_top_mm) if on_slab else bottom
    top = scale.y(cut.core_top_mm)
    core = (scale.x(cut.core_from_mm), top, scale.x(cut.core_to_mm), foot)
    if cut.layers:
        draw_wall_layers(canvas, cut, scale, foot)
    else:
        _core(canvas, cut, scale, core)
    _openings(canvas, cut, scale, core)
    if cut.foam:
        inside = cut.foam.side == "inside"
        left = 0.0 if inside else cut.core_to_mm
        low = scale.y(cut.deck_top_mm) if inside else bottom
        box = (scale.x(left), top, scale.x(left + cut.foam.thickness_mm), low)
        solid(canvas, "foam", rect(box), "foam", "foam")
    if cut.cladding:
        right = scale.x(cut.width_mm)
        box = (right - cut.cladding.thickness_mm * scale.per_mm, top, right, bottom)
        hatch = _CLADDING_HATCH[cut.cladding.material]
        solid(canvas, "cladding", rect(box), hatch, f"cladding, {cut.cladding.material}")
    if cut.nailer_mm:
        box = (scale.x(0), scale.y(cut.height_mm), scale.x(cut.width_mm), top)
        solid(canvas, "nailer", rect(box), "end-grain", "nailer, timber", crossed(box))
    if not on_slab or cut.cladding or cut.foam:
        _stub_end(canvas, cut, scale, bottom)


def _core(canvas: Canvas, cut: Section, scale: Scale, core: Box) -> None:
    extra = ""
    if cut.core == "masonry":
        extra = courses(scale, core)
    elif cut.core == "timber framing":
        extra = frame(canvas, scale, core)
    solid(canvas, "core", rect(core), _CORE_HATCH[cut.core or ""], f"parapet, {cut.core}", extra)


def _openings(canvas: Canvas, cut: Section, scale: Scale, core: Box) -> None:
    for ident, opening, left, right in (
        ("void", cut.void, cut.core_from_mm, cut.core_to_mm),
        ("vent", cut.vent, 0.0, cut.width_mm),
    ):
        if opening:
            inset = (core[2] - core[0]) * 0.24 if ident == "void" else 0.0
            box = (
                scale.x(left) + inset,
                scale.y(opening.to_mm),
                scale.x(right) - inset,
                scale.y(opening.from_mm),
            )
            lines = _louvre(box) if ident == "vent" else crossed(box)
            solid(canvas, ident, rect(box), "", ident, lines)


def _louvre(box: Box) -> str:
    left, top, right, bottom = box
    slats = "".join(
        [
            f"M{right - 8:.1f} {top + i * (bottom - top) / 3:.1f}l8 {(bottom - top) / 3:.1f}"
            for i in range(3)
        ]
    )
    arrow = f"M{left + 6:.1f} {(top + bottom) / 2:.1f}H{right - 14:.1f}"
    through = f'<path d="{arrow}" stroke-width="{THIN}" stroke-dasharray="5 3"/>'
    return f'<path d="{slats}" stroke-width="{EDGE}"/>{through}'


def _stub_end(canvas: Canvas, cut: Section, scale: Scale, bottom: float) -> None:
    on_slab = cut.deck.material == "concrete"
    left = scale.x(cut.core_to_mm if on_slab else cut.core_from_mm) - 3
    right = scale.x(cut.width_mm) + 3
    if right - left > 40:
        zigzag(canvas, (left, bottom), (right, bottom))


def _break_line(canvas: Canvas, cut: Section, scale: Scale) -> None:
    """The roof goes on to the left: a break line, and paper over the cut edge."""
    top, bottom = scale.y(0) - 8, scale.y(-cut.depth_mm) + 5
    x = num(MARGIN)
    canvas.shapes.append(
        f'<path d="M{x} {top:.1f}V{bottom:.1f}" stroke="{PAPER}" stroke-width="4"/>'
    )
    zigzag(canvas, (MARGIN + 1, top), (MARGIN + 1, bottom))
