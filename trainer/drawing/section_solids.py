"""What is cut: outline, hatch and further lines of one piece of the parapet section."""

from __future__ import annotations

from trainer.drawing.canvas import CUT, EDGE, THIN, Canvas, Scale
from trainer.drawing.interaction import part, part_name
from trainer.drawing.markup import Box, Point, num, path, rect_path
from trainer.drawing.palette import HATCH, PAPER
from trainer.drawing.section_data import Section

_COURSE = 200.0
STUB = 16.0
"""How far the wall is shown below the deck, in user units."""

GROUND = 42.0
"""How far the ground outside is shown below that, where it is shown."""

HATCHES = {
    "concrete": "concrete",
    "masonry": "masonry",
    "steel": "steel-cut",
    "mineral wool": "mineral-wool",
    "mineral board": "mineral-board",
    "timber": "timber",
    "wood fibre": "wood-fibre",
    "foam": "foam",
    "bitumen felt": "felt",
    "timber framing": "",
    "cavity": "",
}
"""The hatch of every material; framing and cavity are drawn by their lines."""


def below(cut: Section) -> float:
    """How far what is drawn reaches below the deck, in user units: the wall, or the ground."""
    return STUB + (GROUND if cut.drop_mm else 0.0)


def worded(canvas: Canvas, words: str) -> str:
    """``words`` translated one by one."""
    return ", ".join([canvas.request.say(word) for word in words.split(", ")])


def spoken(canvas: Canvas, ident: str, words: str) -> str:
    """What is written beside a part: its name in the figure, else its own words."""
    return part_name(canvas, ident, worded(canvas, words))


def called(canvas: Canvas, ident: str, label: str, words: str) -> str:
    """What is written beside a part: its name in the figure, its label, else its own words."""
    return part_name(canvas, ident, label) if label else spoken(canvas, ident, words)


def solid(
    canvas: Canvas,
    ident: str,
    corners: list[Point],
    hatch: str,
    words: str,
    extra: str = "",
    label: str = "",
) -> None:
    """A cut layer: outline, hatch, further lines; pressed anywhere on it, at least 44 units.

    ``words`` are the drawing's own, a ``label`` is already worded.
    """
    fill = canvas.hatch(hatch) if hatch else PAPER
    data = path(corners, closed=True)
    ground = f'<path d="{data}" fill="{PAPER}" stroke="none"/>' if hatch else ""
    shapes = f'{ground}<path d="{data}" fill="{fill}" stroke-width="{CUT}"/>{extra}'
    own = label or (worded(canvas, words) if canvas.live else "")
    part(canvas, ident, own, shapes, corners)


def rect(box: Box) -> list[Point]:
    left, top, right, bottom = box
    return [(left, top), (right, top), (right, bottom), (left, bottom)]


def wool(box: Box) -> str:
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


def crossed(box: Box) -> str:
    left, top, right, bottom = (num(value) for value in box)
    cross = f"M{left} {top}L{right} {bottom}M{right} {top}L{left} {bottom}"
    return f'<path d="{cross}" stroke-width="{THIN}"/>'


def courses(scale: Scale, core: Box) -> str:
    """Bed joints every 200 mm from the roof surface up and down."""
    step = _COURSE * scale.per_mm
    first = -int((scale.zero_y - core[1]) / step)
    last = int((core[3] - scale.zero_y) / step)
    ys = [scale.zero_y + i * step for i in range(first, last + 1)]
    span = f"H{core[2]:.1f}"
    lines = "".join([f"M{core[0]:.1f} {y:.1f}{span}" for y in ys if core[1] < y < core[3]])
    gap = f'<path d="{lines}" stroke="{PAPER}" stroke-width="3"/>'
    return f'{gap}<path d="{lines}" stroke-width="{THIN}"/>'


def frame(canvas: Canvas, scale: Scale, core: Box) -> str:
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
            f'<path d="{rect_path(box)}" fill="{fill}" stroke-width="{EDGE}"/>{crossed(box)}'
            for box in boxes
        ]
    )
    stud = f"M{left + board:.1f} {top:.1f}V{bottom:.1f}M{right - board:.1f} {top:.1f}V{bottom:.1f}"
    return f'<path d="{stud}" stroke-width="{EDGE}"/>{plates}'


def zigzag(canvas: Canvas, a: Point, b: Point) -> None:
    """A long thin break line with one kink in the middle."""
    x, y = (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
    kink = [(x, y - 8), (x + 6, y - 3), (x - 6, y + 3), (x, y + 8)]
    if a[1] == b[1]:
        kink = [(x - 8, y), (x - 3, y + 6), (x + 3, y - 6), (x + 8, y)]
    points = path([a, *kink, b])
    canvas.shapes.append(f'<path d="{points}" stroke="{PAPER}" stroke-width="3"/>')
    canvas.shapes.append(f'<path d="{points}" stroke-width="{THIN}"/>')
