"""Sheets, bead, hollows and film of the cut across a lap."""

from __future__ import annotations

from itertools import pairwise

from trainer.drawing.canvas import CUT, EDGE, Canvas
from trainer.drawing.interaction import TARGET, part
from trainer.drawing.lap_section_data import Bead, LapSection
from trainer.drawing.lap_section_scale import Cut, lead_mm, tail_mm
from trainer.drawing.markup import Point, path
from trainer.drawing.palette import ACCENT, HATCH, INK, PAPER
from trainer.drawing.symbols import symbol

_SHEET = f'fill="{HATCH}" fill-opacity=".5"'
_UPPER = f'fill="{HATCH}" fill-opacity=".25"'
_DEEP = 9.0
"""How much of the ground under the sheets is shown, in user units."""

FILM = f'stroke="{ACCENT}" stroke-width="2.2" stroke-dasharray="3 2"'


def draw_row(canvas: Canvas, lap: LapSection, cut: Cut, row: int) -> None:
    """One cut: the ground, the sheets, what lies between them, the bead."""
    left, right = cut.x(-lead_mm(lap)), cut.x(lap.lap_mm + tail_mm(lap))
    _ground(canvas, lap, cut, left, right)
    _bottom(canvas, lap, cut, left, right)
    if lap.third:
        _third(canvas, lap, cut, right)
    _top(canvas, lap, cut, right)
    _seam(canvas, lap, cut)
    if lap.void:
        _void(canvas, lap, cut)
    if lap.film:
        _film(canvas, lap, cut)
    _bead(canvas, lap, cut, row, lap.rows[row])
    if cut.broken:
        _break(canvas, lap, cut)
    if lap.roller:
        _roller(canvas, lap, cut)


def _ground(canvas: Canvas, lap: LapSection, cut: Cut, left: float, right: float) -> None:
    y = cut.y(0)
    box = f"M{left:.1f} {y:.1f}H{right:.1f}V{y + _DEEP:.1f}H{left:.1f}Z"
    canvas.shapes.append(f'<path d="{box}" fill="{canvas.hatch("field")}" stroke="none"/>')
    canvas.lines.append(f'<path d="M{left:.1f} {y:.1f}H{right:.1f}" stroke-width="{EDGE}"/>')
    canvas.reach(cut.y(lap.high_mm) - 4, y + _DEEP)
    canvas.placer.avoid((left, cut.y(lap.bottom_mm + lap.top_mm) - 2, right, y + _DEEP))


def _sheet_part(
    canvas: Canvas, ident: str, word: str, ring: list[Point], middle: list[Point], fill: str
) -> None:
    """A sheet with its carrier as a dashed line in the middle."""
    if ident in canvas.part_ids:  # the same sheet, cut again further down
        ident, into = "", canvas.shapes
    else:
        into = canvas.shapes
    shapes = (
        f'<path d="{path(ring, closed=True)}" fill="{PAPER}" stroke="none"/>'
        f'<path d="{path(ring, closed=True)}" {fill} stroke-width="{CUT}"/>'
        f'<path d="{path(middle)}" stroke="{INK}" stroke-width="1" stroke-dasharray="5 2"/>'
    )
    if ident:
        part(canvas, ident, canvas.request.say(word), shapes, middle)
    else:
        into.append(shapes)


def _bottom(canvas: Canvas, lap: LapSection, cut: Cut, left: float, right: float) -> None:
    end = right if lap.third else cut.x(lap.lap_mm)
    low, high = cut.y(0), cut.y(lap.bottom_mm)
    ring = [(left, low), (left, high), (end, high), (end, low)]
    # pressed where it lies bare, and in the lap below the upper one
    middle = [(left + 2, (low + high) / 2), (end - 2, (low + high) / 2)]
    _sheet_part(canvas, "bottom-sheet", "lower sheet", ring, middle, _SHEET)


def _third(canvas: Canvas, lap: LapSection, cut: Cut, right: float) -> None:
    assert lap.third is not None
    start, t = cut.x(lap.third.from_mm), lap.bottom_mm
    low, high = cut.y(t), cut.y(t + lap.third.thickness_mm)
    ring = [(start, low), (start, high), (right, high), (right, low)]
    middle = [(start + 2, (low + high) / 2), (right - 2, (low + high) / 2)]
    _sheet_part(canvas, "third-sheet", "third sheet", ring, middle, f'fill="{PAPER}"')
    toe = cut.x(lap.third.from_mm - 2 * lap.third.thickness_mm)
    corner = [(toe, low), (start, low), (start, high)]
    fill = INK if lap.third.filled else PAPER
    shapes = f'<path d="{path(corner, closed=True)}" fill="{fill}" stroke-width="{EDGE}"/>'
    word = "step, filled" if lap.third.filled else "hollow at the step"
    part(canvas, "channel", canvas.request.say(word), shapes, corner)


def underside(lap: LapSection) -> list[Point]:
    """The underside of the upper sheet, from its edge to where it lies flat again."""
    t, far = lap.bottom_mm, lap.lap_mm + tail_mm(lap)
    if lap.third:
        up, at = lap.third.thickness_mm, lap.third.from_mm
        return [(0.0, t), (at - 2 * up, t), (at, t + up), (far, t + up)]
    return [(0.0, t), (lap.lap_mm, t), (lap.lap_mm + 2 * t, 0.0), (far, 0.0)]


def _top(canvas: Canvas, lap: LapSection, cut: Cut, right: float) -> None:
    low = underside(lap)
    high = [(x, y + lap.top_mm) for x, y in low]
    ring = [cut.at(point) for point in (*low, *reversed(high))]
    middle = [cut.at((x, y + lap.top_mm / 2)) for x, y in low]
    if not lap.third:
        end = [cut.at(p) for p in ((lap.lap_mm, 0), (lap.lap_mm, lap.bottom_mm), low[2])]
        canvas.shapes.append(
            f'<path d="{path(end, closed=True)}" fill="{INK}" stroke-width="{EDGE}"/>'
        )
    _sheet_part(canvas, "top-sheet", "upper sheet", ring, middle, _UPPER)


def _seam(canvas: Canvas, lap: LapSection, cut: Cut) -> None:
    """The bitumen that holds the sheets together, as a thick line."""
    line = [cut.at(point) for point in underside(lap)[:2]]
    canvas.shapes.append(f'<path class="seam" d="{path(line)}" stroke-width="3"/>')


def _void(canvas: Canvas, lap: LapSection, cut: Cut) -> None:
    """A hollow: a lens of paper between the sheets."""
    assert lap.void is not None
    a, b, y = cut.x(lap.void.from_mm), cut.x(lap.void.to_mm), cut.y(lap.bottom_mm)
    up = min(lap.top_mm, 3.0) * cut.per_mm
    data = (
        f"M{a:.1f} {y:.1f}Q{(a + b) / 2:.1f} {y - up:.1f} {b:.1f} {y:.1f}"
        f"Q{(a + b) / 2:.1f} {y + up * 0.6:.1f} {a:.1f} {y:.1f}Z"
    )
    shapes = f'<path d="{data}" fill="{PAPER}" stroke-width="1.6"/>'
    part(canvas, "void", canvas.request.say("void"), shapes, ((a, y - up / 2), (b, y + up / 2)))


def _film(canvas: Canvas, lap: LapSection, cut: Cut) -> None:
    assert lap.film is not None
    a, b, y = cut.x(lap.film.from_mm), cut.x(lap.film.to_mm), cut.y(lap.bottom_mm)
    shapes = (
        f'<path d="M{a:.1f} {y:.1f}H{b:.1f}" stroke="{PAPER}" stroke-width="6"/>'
        f'<path d="M{a:.1f} {y:.1f}H{b:.1f}" {FILM}/>'
        f'<path d="M{a:.1f} {y - 5:.1f}v10M{b:.1f} {y - 5:.1f}v10" stroke="{ACCENT}" '
        'stroke-width="1.4"/>'
    )
    part(canvas, "film", canvas.request.say(f"{lap.film.kind} film"), shapes, ((a, y), (b, y)))


def _bead(canvas: Canvas, lap: LapSection, cut: Cut, row: int, bead: Bead) -> None:
    """A rounded strip of bitumen at the edge; bubbles where burnt, smoke where it smokes."""
    x, y = cut.x(0), cut.y(lap.bottom_mm)
    out = cut.x(-bead.width_mm)
    high = min(lap.top_mm * 0.9, 1.0 + bead.width_mm * 0.35) * cut.per_mm
    shapes = ""
    if bead.width_mm:
        bend = min((x - out) * 0.5, high)
        data = (
            f"M{out:.1f} {y:.1f}Q{out:.1f} {y - high * 0.7:.1f} {out + bend:.1f} "
            f"{y - high * 0.8:.1f}L{x:.1f} {y - high:.1f}V{y:.1f}Z"
        )
        shapes = f'<path d="{data}" fill="{INK}" stroke-width="1"/>'
        if bead.burnt != "no":
            shapes += _bubbles(out, x, y, high)
    if bead.burnt == "smoking":
        top = y - high - 12
        shapes += symbol("smoke", ((out + x) / 2, top), size=0.75)
        canvas.reach(top - 10, top)
        canvas.placer.take(((out + x) / 2 - 6, top - 9, (out + x) / 2 + 6, top + 9))
    ident = f"bead-{row}" if lap.beads else "bead"
    half = TARGET / 2
    middle = ((out + x) / 2, y - high / 2)
    hit = ((min(out, middle[0] - half), y - half - 2), (max(x, middle[0] + half), y + half - 2))
    own = bead.label or canvas.request.say("bead of bitumen")
    part(canvas, ident, own, shapes, hit, layer="lines", crowded=True)


def _bubbles(out: float, x: float, y: float, high: float) -> str:
    """Blistered bitumen: rings of paper in it and over its edge."""
    data = ""
    for share, up, r in ((0.2, 0.35, 1.6), (0.45, 0.75, 2.2), (0.62, 0.3, 1.4), (0.82, 0.9, 1.8)):
        u, v = out + (x - out) * share, y - high * up
        data += f"M{u - r:.1f} {v:.1f}A{r} {r} 0 0 1 {u + r:.1f} {v:.1f}"
        data += f"A{r} {r} 0 0 1 {u - r:.1f} {v:.1f}Z"
    return f'<path d="{data}" fill="{PAPER}" stroke-width=".8"/>'


def _break(canvas: Canvas, lap: LapSection, cut: Cut) -> None:
    """A clean strip with a break line on either side: here a part of the lap is left out."""
    top, bottom = cut.y(lap.high_mm) - 6, cut.y(0) + _DEEP + 2
    a, b = cut.x(cut.skip_from), cut.x(cut.skip_to)
    middle = (top + bottom) / 2
    canvas.lines.append(
        f'<path d="M{a:.1f} {top:.1f}H{b:.1f}V{bottom:.1f}H{a:.1f}Z" fill="{PAPER}" stroke="none"/>'
    )
    for x in (a, b):
        data = (
            f"M{x:.1f} {top:.1f}V{middle - 4:.1f}L{x - 4:.1f} {middle - 1:.1f}"
            f"L{x + 4:.1f} {middle + 1:.1f}L{x:.1f} {middle + 4:.1f}V{bottom:.1f}"
        )
        canvas.lines.append(f'<path class="break" d="{data}" stroke-width=".9"/>')
    canvas.placer.avoid((a - 4, top, b + 4, bottom))


def _roller(canvas: Canvas, lap: LapSection, cut: Cut) -> None:
    """A roller of 40 mm with its fork and handle, standing on the upper sheet."""
    assert lap.roller is not None
    r = 20 * cut.per_mm
    x, y = cut.x(lap.roller.at_mm), cut.y(_surface(lap, lap.roller.at_mm)) - r
    shapes = (
        f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{r:.1f}" fill="{PAPER}" stroke-width="{CUT}"/>'
        f'<circle cx="{x:.1f}" cy="{y:.1f}" r="5" stroke-width="{EDGE}"/>'
        f'<path d="M{x:.1f} {y:.1f}L{x + r * 1.1:.1f} {y - r * 1.1:.1f}" stroke-width="5" '
        'stroke-linecap="round"/>'
    )
    part(canvas, "roller", canvas.request.say("roller"), shapes, ((x - r, y - r), (x + r, y + r)))
    canvas.reach(y - r * 1.15 - 3, y)
    canvas.placer.take((x - r, y - r, x + r, y + r))


def _surface(lap: LapSection, x: float) -> float:
    """The height of the upper sheet's surface at ``x``; the lower sheet's before its edge."""
    if x < 0:
        return lap.bottom_mm
    line = underside(lap)
    for (a, low), (b, high) in pairwise(line):
        if x <= b:
            return low + (high - low) * (x - a) / (b - a) + lap.top_mm
    return line[-1][1] + lap.top_mm
