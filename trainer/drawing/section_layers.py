"""The layers of the parapet section, drawn to scale and hatched."""

from __future__ import annotations

from trainer.drawing.canvas import CUT, EDGE, MARGIN, THIN, Canvas, Scale
from trainer.drawing.interaction import part, part_name
from trainer.drawing.markup import Box, Point, num, path, rect_path
from trainer.drawing.palette import HATCH, PAPER
from trainer.drawing.section_data import Layer, Section
from trainer.drawing.section_sheets import draw_sheets

_STEEL_PITCH, _BOARD, _COURSE = 200.0, 140.0, 200.0
_CORE_HATCH = {"masonry": "masonry", "concrete": "concrete", "timber framing": ""}
_CANT_HATCH = {
    "mineral": "mineral",
    "wood fibre": "wood-fibre",
    "timber": "end-grain",
    "foam": "foam",
}
_CLADDING_HATCH = {"metal": "metal", "timber": "timber", "masonry": "masonry"}
STUB = 16.0
"""How far the wall is shown below the deck, in user units."""


def draw_layers(canvas: Canvas, cut: Section, scale: Scale) -> None:
    """Every layer of the cut, from the deck outwards, sheets last."""
    _deck(canvas, cut, scale)
    if cut.insulation:
        _insulation(canvas, cut, scale, cut.insulation)
    _wall(canvas, cut, scale)
    if cut.cant:
        leg = cut.cant.leg_mm
        corners = scale.all([(-leg, 0), (0, leg), (0, 0)])
        _solid(
            canvas, "cant", corners, _CANT_HATCH[cut.cant.material], f"cant, {cut.cant.material}"
        )
    draw_sheets(canvas, cut, scale)
    _break_line(canvas, cut, scale)
    canvas.reach(scale.y(cut.height_mm) - 8, scale.y(-cut.depth_mm) + STUB)


def worded(canvas: Canvas, words: str) -> str:
    """``words`` translated one by one."""
    return ", ".join([canvas.request.say(word) for word in words.split(", ")])


def spoken(canvas: Canvas, ident: str, words: str) -> str:
    """What is written beside a part: its name in the figure, else its own words."""
    return part_name(canvas, ident, worded(canvas, words))


def _solid(
    canvas: Canvas, ident: str, corners: list[Point], hatch: str, words: str, extra: str = ""
) -> None:
    """A cut layer: outline, hatch, further lines; pressed anywhere on it, at least 44 units."""
    fill = canvas.hatch(hatch) if hatch else PAPER
    data = path(corners, closed=True)
    ground = f'<path d="{data}" fill="{PAPER}" stroke="none"/>' if hatch else ""
    shapes = f'{ground}<path d="{data}" fill="{fill}" stroke-width="{CUT}"/>{extra}'
    own = worded(canvas, words) if canvas.live else ""
    part(canvas, ident, own, shapes, corners)


def _rect(box: Box) -> list[Point]:
    left, top, right, bottom = box
    return [(left, top), (right, top), (right, bottom), (left, bottom)]


def deck_end_mm(cut: Section) -> float:
    """A slab runs under the parapet; a steel or timber deck ends at its face."""
    return cut.core_to_mm if cut.deck.material == "concrete" else cut.core_from_mm


def _deck(canvas: Canvas, cut: Section, scale: Scale) -> None:
    top, bottom = scale.y(-cut.insulation_mm), scale.y(-cut.depth_mm)
    box = (MARGIN, top, scale.x(deck_end_mm(cut)), bottom)
    words = f"deck, {cut.deck.material}"
    if cut.deck.material == "steel":
        shapes = _steel(box, scale.per_mm)
        part(canvas, "deck", worded(canvas, words), shapes, _rect(box))
        return
    joints = ""
    if cut.deck.material == "timber":
        step = _BOARD * scale.per_mm
        count = int((box[2] - box[0]) / step)
        lines = "".join(
            [f"M{box[2] - i * step:.1f} {top:.1f}V{bottom:.1f}" for i in range(1, count + 1)]
        )
        joints = f'<path d="{lines}" stroke-width="{EDGE}"/>'
    _solid(canvas, "deck", _rect(box), cut.deck.material, words, joints)


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
    box = (MARGIN, scale.y(0), scale.x(0), scale.y(-layer.thickness_mm))
    words = f"insulation, {layer.material}"
    if layer.material == "foam":
        _solid(canvas, "insulation", _rect(box), "foam", words)
    else:
        _solid(canvas, "insulation", _rect(box), "", words, _wool(box))


def _wool(box: Box) -> str:
    """The loops of a mineral wool batt, as high as the layer."""
    left, top, right, bottom = box
    high = bottom - top - 5
    radius = max(2.6, min(6.0, high * 0.16))
    straight = high - 3.2 * radius
    lean, turn = round(radius * 0.45, 1), round(radius * 0.8, 1)  # as written: no drift
    step = 2 * (lean + turn)
    count = max(1, int((right - left - 4 - radius) / step))
    loop = (
        f"l{lean:.1f} {-straight:.1f}a{radius:.1f} {radius:.1f} 0 1 1 {turn:.1f} 0"
        f"l{lean:.1f} {straight:.1f}a{radius:.1f} {radius:.1f} 0 1 0 {turn:.1f} 0"
    )
    first = (left + right - count * step) / 2
    start = f"M{first:.1f} {bottom - 2.5 - radius * 1.6:.1f}"
    return f'<path d="{start}{loop * count}" stroke="{HATCH}" stroke-width=".9"/>'


def _wall(canvas: Canvas, cut: Section, scale: Scale) -> None:
    bottom = scale.y(-cut.depth_mm) + STUB
    on_slab = cut.deck.material == "concrete"
    foot = scale.y(-cut.insulation_mm) if on_slab else bottom
    top = scale.y(cut.core_top_mm)
    core = (scale.x(cut.core_from_mm), top, scale.x(cut.core_to_mm), foot)
    _core(canvas, cut, scale, core)
    if cut.foam:
        inside = cut.foam.side == "inside"
        left = 0.0 if inside else cut.core_to_mm
        low = scale.y(-cut.insulation_mm) if inside else bottom
        box = (scale.x(left), top, scale.x(left + cut.foam.thickness_mm), low)
        _solid(canvas, "foam", _rect(box), "foam", "foam")
    if cut.cladding:
        right = scale.x(cut.width_mm)
        box = (right - cut.cladding.thickness_mm * scale.per_mm, top, right, bottom)
        hatch = _CLADDING_HATCH[cut.cladding.material]
        _solid(canvas, "cladding", _rect(box), hatch, f"cladding, {cut.cladding.material}")
    if cut.nailer_mm:
        box = (scale.x(0), scale.y(cut.height_mm), scale.x(cut.width_mm), top)
        _solid(canvas, "nailer", _rect(box), "end-grain", "nailer, timber", _crossed(box))
    if not on_slab or cut.cladding or cut.foam:
        _stub_end(canvas, cut, scale, bottom)


def _crossed(box: Box) -> str:
    left, top, right, bottom = (num(value) for value in box)
    cross = f"M{left} {top}L{right} {bottom}M{right} {top}L{left} {bottom}"
    return f'<path d="{cross}" stroke-width="{THIN}"/>'


def _core(canvas: Canvas, cut: Section, scale: Scale, core: Box) -> None:
    extra = ""
    if cut.core == "masonry":
        extra = _courses(scale, core)
    elif cut.core == "timber framing":
        extra = _frame(canvas, scale, core)
    _solid(canvas, "core", _rect(core), _CORE_HATCH[cut.core], f"parapet, {cut.core}", extra)
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
            lines = _louvre(box) if ident == "vent" else _crossed(box)
            _solid(canvas, ident, _rect(box), "", ident, lines)


def _courses(scale: Scale, core: Box) -> str:
    """Bed joints every 200 mm from the roof surface up and down."""
    step = _COURSE * scale.per_mm
    first = -int((scale.zero_y - core[1]) / step)
    last = int((core[3] - scale.zero_y) / step)
    ys = [scale.zero_y + i * step for i in range(first, last + 1)]
    span = f"H{core[2]:.1f}"
    lines = "".join([f"M{core[0]:.1f} {y:.1f}{span}" for y in ys if core[1] < y < core[3]])
    gap = f'<path d="{lines}" stroke="{PAPER}" stroke-width="3"/>'
    return f'{gap}<path d="{lines}" stroke-width="{THIN}"/>'


def _frame(canvas: Canvas, scale: Scale, core: Box) -> str:
    """Plates in section, boards on both faces, the stud behind."""
    left, top, right, bottom = core
    plate = min(38 * scale.per_mm, (bottom - top) / 4)
    board = max(2.0, 12 * scale.per_mm)
    boxes = [
        (left + board, top, right - board, top + plate),
        (left + board, bottom - plate, right - board, bottom),
    ]
    fill = canvas.hatch("end-grain")
    plates = "".join(
        [
            f'<path d="{rect_path(box)}" fill="{fill}" stroke-width="{EDGE}"/>{_crossed(box)}'
            for box in boxes
        ]
    )
    stud = f"M{left + board:.1f} {top:.1f}V{bottom:.1f}M{right - board:.1f} {top:.1f}V{bottom:.1f}"
    return f'<path d="{stud}" stroke-width="{EDGE}"/>{plates}'


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
        _zigzag(canvas, (left, bottom), (right, bottom))


def _break_line(canvas: Canvas, cut: Section, scale: Scale) -> None:
    """The roof goes on to the left: a break line, and paper over the cut edge."""
    top, bottom = scale.y(0) - 8, scale.y(-cut.depth_mm) + 5
    x = num(MARGIN)
    canvas.shapes.append(
        f'<path d="M{x} {top:.1f}V{bottom:.1f}" stroke="{PAPER}" stroke-width="4"/>'
    )
    _zigzag(canvas, (MARGIN + 1, top), (MARGIN + 1, bottom))


def _zigzag(canvas: Canvas, a: Point, b: Point) -> None:
    """A long thin break line with one kink in the middle."""
    x, y = (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
    kink = [(x, y - 8), (x + 6, y - 3), (x - 6, y + 3), (x, y + 8)]
    if a[1] == b[1]:
        kink = [(x - 8, y), (x - 3, y + 6), (x + 3, y - 6), (x + 8, y)]
    points = path([a, *kink, b])
    canvas.shapes.append(f'<path d="{points}" stroke="{PAPER}" stroke-width="3"/>')
    canvas.shapes.append(f'<path d="{points}" stroke-width="{THIN}"/>')
