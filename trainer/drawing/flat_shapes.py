"""Films, folds, slits, cuts, legs and regions of the flat sheet."""

from __future__ import annotations

from trainer.drawing.canvas import CUT, EDGE, Canvas, Scale
from trainer.drawing.flat_corners import CUT_STYLE, draw_corners
from trainer.drawing.flat_data import Flat, Region, Segment
from trainer.drawing.interaction import part
from trainer.drawing.markup import Point, around, direction, path
from trainer.drawing.palette import ACCENT, BAD, PAPER

FILMS = {
    "upper": ("film", "release film, upper half"),
    "lower": ("film-lower", "release film, lower half"),
    "side-lap": ("film-side", "side-lap film"),
}
"""Kinds of film: hatch and word."""

STYLES = {
    "fold": f'stroke-width="{EDGE}" stroke-dasharray="12 3 3 3"',
    "slit": 'stroke-width="3"',
    "over-cut": f'stroke="{BAD}" stroke-width="3"',
    "cut": CUT_STYLE,
    "gusset": f'stroke="{ACCENT}" stroke-width="1.8" stroke-dasharray="9 4"',
}
"""How each kind of line looks."""


def draw_sheet(canvas: Canvas, flat: Flat, scale: Scale) -> None:
    """The sheet, its films and regions, its folds, slits and cuts."""
    ring, say = scale.all(flat.outline), canvas.request.say
    data, box = path(ring, closed=True), around(ring)
    canvas.shapes.append(f'<path class="sheet" d="{data}" fill="{PAPER}" stroke="none"/>')
    canvas.reach(box[1] - 4, box[3] + 4)
    for i, film in enumerate(flat.films):
        hatch, word = FILMS[film.look]
        _region(canvas, scale, f"film-{i}", film, hatch, say(word))
    for i, area in enumerate(flat.areas):
        hatch = "" if area.look == "plain" else area.look
        _region(canvas, scale, f"area-{i}", area, hatch, f"{say('area')} {i + 1}")
    canvas.lines.append(f'<path d="{data}" stroke-width="{CUT}"/>')
    for i, fold in enumerate(flat.folds):
        _line_part(canvas, scale, "fold", i, fold)
    for i, slit in enumerate(flat.slits):
        _slit(canvas, scale, i, slit)
    for i, cut in enumerate(flat.cuts):
        _polyline(canvas, "cut", f"cut-{i}", f"{say('cut')} {i + 1}", scale.all(cut))
    draw_corners(canvas, flat, scale)
    if flat.gusset:
        around_it = scale.all([*flat.gusset, flat.gusset[0]])
        _polyline(canvas, "gusset", "gusset", say("gusset"), around_it)


def _polyline(canvas: Canvas, kind: str, ident: str, own: str, points: list[Point]) -> None:
    shapes = f'<path d="{path(points)}" {STYLES[kind]}/>'
    part(canvas, ident, own, shapes, points, layer="lines")
    box = around(points)
    canvas.reach(box[1] - 4, box[3] + 4)


def _region(canvas: Canvas, scale: Scale, ident: str, region: Region, hatch: str, own: str) -> None:
    ring = scale.all(region.outline)
    fill = canvas.hatch(hatch) if hatch else PAPER
    dash = "" if hatch else ' stroke-dasharray="5 3"'
    drawn = f'<path d="{path(ring, closed=True)}" fill="{fill}" stroke-width="{EDGE}"{dash}/>'
    part(canvas, ident, region.label or own, drawn, ring)


def _line_part(canvas: Canvas, scale: Scale, word: str, i: int, segment: Segment) -> None:
    points = scale.all((segment.start, segment.end))
    own = segment.label or f"{canvas.request.say(word)} {i + 1}"
    shapes = f'<path d="{path(points)}" {STYLES[word]}/>'
    part(canvas, f"{word}-{i}", own, shapes, points, layer="lines")
    canvas.placer.avoid_line(points[0], points[1])


def _slit(canvas: Canvas, scale: Scale, i: int, slit: Segment) -> None:
    """A slit: a full line, its over-cut in a second weight, a ring at the fold's end."""
    _line_part(canvas, scale, "slit", i, slit)
    if not slit.overcut_mm:
        return
    dx, dy = direction(slit.start, slit.end)
    beyond = (slit.end[0] + dx * slit.overcut_mm, slit.end[1] + dy * slit.overcut_mm)
    x, y = scale.at(slit.end)
    canvas.lines.append(
        f'<path class="overcut" d="{path([(x, y), scale.at(beyond)])}" {STYLES["over-cut"]}/>'
        f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3.5" fill="{PAPER}" stroke-width="1.4"/>'
    )
