"""Films, folds, slits, cuts, legs and regions of the flat sheet."""

from __future__ import annotations

from trainer.drawing.canvas import CUT, EDGE, THIN, Canvas, Scale
from trainer.drawing.dimensions import dimension, tick
from trainer.drawing.flat_data import Flat, Marker, Region, Segment
from trainer.drawing.interaction import Axis, Movable, movable, part, part_name
from trainer.drawing.labels import Label, label_near, leader, patch, write
from trainer.drawing.legend import Entry, legend
from trainer.drawing.lettering import SMALL
from trainer.drawing.markup import Box, Point, around, centre, direction, distance, path
from trainer.drawing.palette import ACCENT, BAD, INK, PAPER
from trainer.drawing.placing import spread

_FILM = {"upper": "film", "lower": "film-lower", "side-lap": "film-side"}
_FILM_WORDS = {
    "upper": "release film, upper half",
    "lower": "release film, lower half",
    "side-lap": "side-lap film",
}
_GUSSET = f'stroke="{ACCENT}" stroke-width="1.8" stroke-dasharray="9 4"'
FOLD = ' stroke-dasharray="12 3 3 3"'


def draw_sheet(canvas: Canvas, flat: Flat, scale: Scale) -> None:
    """The sheet, its films and regions, its folds, slits and cuts."""
    ring = scale.all(flat.outline)
    data = path(ring, closed=True)
    canvas.shapes.append(f'<path class="sheet" d="{data}" fill="{PAPER}" stroke-width="{CUT}"/>')
    box = around(ring)
    canvas.reach(box[1] - 4, box[3] + 4)
    for i, film in enumerate(flat.films):
        _region(
            canvas,
            scale,
            f"film-{i}",
            film,
            _FILM[film.look],
            canvas.request.say(_FILM_WORDS[film.look]),
        )
    for i, area in enumerate(flat.areas):
        hatch = "" if area.look == "plain" else area.look
        _region(canvas, scale, f"area-{i}", area, hatch, f"{canvas.request.say('area')} {i + 1}")
    canvas.lines.append(f'<path d="{data}" stroke-width="{CUT}"/>')
    for i, fold in enumerate(flat.folds):
        _line_part(canvas, scale, f"fold-{i}", "fold", fold, f'stroke-width="{EDGE}"{FOLD}')
    for i, slit in enumerate(flat.slits):
        _slit(canvas, scale, i, slit)
    for i, cut in enumerate(flat.cuts):
        points = scale.all(cut)
        own = f"{canvas.request.say('cut')} {i + 1}"
        drawn = f'<path d="{path(points)}" stroke-width="2.4" stroke-dasharray="7 3"/>'
        part(canvas, f"cut-{i}", own, drawn, points, "lines")
    if flat.gusset:
        _gusset(canvas, scale, flat.gusset)


def _region(canvas: Canvas, scale: Scale, ident: str, region: Region, hatch: str, own: str) -> None:
    ring = scale.all(region.outline)
    fill = canvas.hatch(hatch) if hatch else PAPER
    dash = "" if hatch else ' stroke-dasharray="5 3"'
    drawn = f'<path d="{path(ring, closed=True)}" fill="{fill}" stroke-width="{EDGE}"{dash}/>'
    part(canvas, ident, region.label or own, drawn, ring)


def _line_part(
    canvas: Canvas, scale: Scale, ident: str, word: str, segment: Segment, style: str
) -> None:
    points = scale.all([segment.start, segment.end])
    number = int(ident.rpartition("-")[2]) + 1
    own = segment.label or f"{canvas.request.say(word)} {number}"
    part(canvas, ident, own, f'<path d="{path(points)}" {style}/>', points, "lines")
    canvas.placer.avoid_line(points[0], points[1])


def _slit(canvas: Canvas, scale: Scale, i: int, slit: Segment) -> None:
    """A slit: a full line, its over-cut in a second weight, a ring at the fold's end."""
    _line_part(canvas, scale, f"slit-{i}", "slit", slit, f'stroke-width="3" stroke="{INK}"')
    if not slit.overcut_mm:
        return
    dx, dy = direction(slit.start, slit.end)
    beyond = (slit.end[0] + dx * slit.overcut_mm, slit.end[1] + dy * slit.overcut_mm)
    a, b = scale.at(slit.end), scale.at(beyond)
    canvas.lines.append(
        f'<path class="overcut" d="{path([a, b])}" stroke="{BAD}" stroke-width="3"/>'
        f'<circle cx="{a[0]:.1f}" cy="{a[1]:.1f}" r="3.5" fill="{PAPER}" stroke-width="1.4"/>'
    )


def _gusset(canvas: Canvas, scale: Scale, outline: list[Point]) -> None:
    ring = scale.all(outline)
    drawn = f'<path d="{path(ring, closed=True)}" {_GUSSET}/>'
    box = around(ring)
    part(canvas, "gusset", canvas.request.say("gusset"), drawn, ring, "lines")
    canvas.reach(box[1] - 4, box[3] + 4)


def draw_notes(canvas: Canvas, flat: Flat, scale: Scale) -> None:
    """Names of the legs, labels, dimensions, and the point that moves."""
    ring = scale.all(flat.outline)
    for a, b in zip(ring, [*ring[1:], ring[0]], strict=True):
        canvas.placer.avoid_line(a, b)
    _legs(canvas, flat, scale)
    if flat.marker:
        _marker(canvas, scale, flat.marker)
    for line in (*flat.folds, *flat.slits):
        if line.label:
            box = around(scale.all([line.start, line.end]))
            x, y = centre(box)
            label_near(
                canvas,
                Label(line.label, size=SMALL, patch=True),
                (x - 3, y - 3, x + 3, y + 3),
                (x, y),
            )
    for measured in flat.dimensions:
        text = measured.label or canvas.request.length(distance(measured.start, measured.end))
        a, b = scale.all([measured.start, measured.end])
        dimension(canvas, a, b, Label(text, size=SMALL, patch=True), 14)
    for region in (*flat.areas, *flat.films):
        if region.label:
            _name_region(canvas, scale, region)


def _name_region(canvas: Canvas, scale: Scale, region: Region) -> None:
    """A name in the middle of its region, on clear paper, or beside it with a leader."""
    box = around(scale.all(region.outline))
    label = Label(region.label, size=SMALL, room=max(60.0, box[2] - box[0] - 12))
    wide, high = label.extent()
    place = _inside(canvas, box, wide, high)
    if place:
        canvas.lines.append(patch((place[0] - 3, place[1], place[2] + 3, place[3])))
        write(canvas, label, place)
    else:
        label_near(canvas, Label(region.label, size=SMALL, patch=True), box, centre(box))


def _inside(canvas: Canvas, box: Box, wide: float, high: float) -> Box | None:
    """A free place for a name well inside ``box``."""
    across, down = box[2] - box[0] - wide - 8, box[3] - box[1] - high - 6
    if across < 0 or down < 0:
        return None
    for v in (0.5, 0.25, 0.75, 0.0, 1.0):
        for u in (0.5, 0.2, 0.8, 0.05, 0.95):
            left, top = box[0] + 4 + across * u, box[1] + 3 + down * v
            place = (left, top, left + wide, top + high)
            if canvas.placer.free(place):
                return place
    return None


def _legs(canvas: Canvas, flat: Flat, scale: Scale) -> None:
    """A ladder left of the sheet: each leg's name and length."""
    if not flat.legs:
        return
    shown = flat.legs_measured == "before" or (
        flat.legs_measured == "after" and canvas.request.answered
    )
    legs = sorted(flat.legs, key=lambda leg: -leg.to_mm)
    x = around(scale.all(flat.outline))[0] - 12
    stops = sorted({scale.y(mm) for leg in legs for mm in (leg.from_mm, leg.to_mm)})
    canvas.line([(x, stops[0] - 4), (x, stops[-1] + 4)], THIN)
    marks = "".join([tick((x, y)) for y in stops])
    feet = "".join([f"M{x + 3:.1f} {y:.1f}h6" for y in stops])
    canvas.lines.append(
        f'<path d="{marks}" stroke-width="1.4"/><path d="{feet}" stroke-width=".5"/>'
    )
    canvas.placer.take((x - 4, stops[0] - 4, x + 4, stops[-1] + 4))
    texts = [
        " ".join(
            [
                p
                for p in (
                    leg.label,
                    canvas.request.length(leg.to_mm - leg.from_mm) if shown else "",
                )
                if p
            ]
        )
        for leg in legs
    ]
    labels = [Label(text, size=SMALL, room=x - canvas.left - 12) for text in texts]
    extents = [label.extent() for label in labels]
    middles = [scale.y((leg.from_mm + leg.to_mm) / 2) for leg in legs]
    tops = spread(middles, [high + 3 for _, high in extents], stops[0] - 6, stops[-1] + 6)
    for label, (wide, high), top, middle in zip(labels, extents, tops, middles, strict=True):
        box = (x - 10 - wide, top, x - 10, top + high)
        write(canvas, label, box, end=True)
        if abs(top + high / 2 - middle) > 4:
            leader(canvas, (box[0], box[1], x - 10, box[3]), (x, middle), ends=False)


def _marker(canvas: Canvas, scale: Scale, marker: Marker) -> None:
    x, y = scale.at(marker.at)
    name = part_name(canvas, "marker", marker.label or canvas.request.say("end of the slit"))
    drawn = f'<path d="M-7 0H7M0 -7V7" stroke="{ACCENT}" stroke-width="2.4"/>'
    axes = []
    if marker.movable_x:
        axes.append(Axis("x", scale.zero_x, 1 / scale.per_mm, marker.at[0], marker.movable_x))
    if marker.movable_y:
        axes.append(Axis("y", scale.zero_y, -1 / scale.per_mm, marker.at[1], marker.movable_y))
    canvas.placer.take((x - 8, y - 8, x + 8, y + 8))
    if axes:
        upright = axes[0].letter == "y" and len(axes) == 1
        grip = (34.0, 0.0) if upright else (0.0, 34.0)
        link = f'<path d="M0 0L{grip[0]:.1f} {grip[1]:.1f}" stroke="{ACCENT}" stroke-width="1.2"/>'
        movable(canvas, Movable("marker", name, axes, drawn, grip, x if upright else y, link))
        canvas.placer.take((x + grip[0] - 16, y + grip[1] - 16, x + grip[0] + 16, y + grip[1] + 16))
    else:
        canvas.part_ids.append("marker")
        canvas.lines.append(
            f'<g data-part="marker" transform="translate({x:.1f} {y:.1f})">{drawn}</g>'
        )


def draw_key(canvas: Canvas, flat: Flat) -> None:
    """The key: lines, films and regions that occur."""
    say = canvas.request.say
    entries = []
    if flat.folds:
        entries.append(
            Entry(say("fold"), mark=f'<path d="M-11 0H11" stroke-width="{EDGE}"{FOLD}/>')
        )
    if flat.slits:
        entries.append(Entry(say("slit"), mark='<path d="M-11 0H11" stroke-width="3"/>'))
    if any(slit.overcut_mm for slit in flat.slits):
        entries.append(
            Entry(say("over-cut"), mark=f'<path d="M-11 0H11" stroke="{BAD}" stroke-width="3"/>')
        )
    if flat.cuts:
        entries.append(
            Entry(
                say("cut"), mark='<path d="M-11 0H11" stroke-width="2.4" stroke-dasharray="7 3"/>'
            )
        )
    films = {film.look for film in flat.films}
    entries += [
        Entry(say(_FILM_WORDS[look]), hatch=hatch) for look, hatch in _FILM.items() if look in films
    ]
    looks = {area.look for area in flat.areas}
    entries += [Entry(say(look), hatch=look) for look in ("double", "bare") if look in looks]
    if flat.gusset:
        entries.append(
            Entry(
                say("gusset"),
                mark=f'<path d="M-11 0H11" {_GUSSET}/>',
            )
        )
    legend(canvas, entries)
