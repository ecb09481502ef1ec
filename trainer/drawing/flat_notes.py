"""Names, legs, dimensions, the movable point and the key of the flat sheet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from trainer.drawing.canvas import THIN, Canvas, Scale
from trainer.drawing.dimensions import dimension, tick
from trainer.drawing.flat_corners import name_corner
from trainer.drawing.flat_data import Flat, Leg, Region
from trainer.drawing.flat_shapes import FILMS, STYLES
from trainer.drawing.labels import Label, label_near, leader, patch, write
from trainer.drawing.legend import Entry, legend
from trainer.drawing.lettering import SMALL
from trainer.drawing.markers import draw_marker
from trainer.drawing.markup import Box, along, around, centre, distance, path
from trainer.drawing.placing import spread
from trainer.drawing.spots import LETTERS, Lettered, draw_lettered, draw_spots

_SAMPLES = {word: f'<path d="M-11 0H11" {style}/>' for word, style in STYLES.items()}


def draw_notes(canvas: Canvas, flat: Flat, scale: Scale) -> None:
    """Names of the legs, labels, dimensions, and the point that moves."""
    ring = scale.all(flat.outline)
    for a, b in zip(ring, [*ring[1:], ring[0]], strict=True):
        canvas.placer.avoid_line(a, b)
    _legs(canvas, flat, scale)
    if flat.marker:
        _, top, _, bottom = around(ring)
        spoken = flat.marker.label or canvas.request.say("end of the slit")
        draw_marker(canvas, scale, replace(flat.marker, label=spoken), (top, bottom))
    for i, cut in enumerate(flat.corner_cuts):
        name_corner(canvas, scale, i, cut)
    _gussets(canvas, flat, scale)
    draw_spots(canvas, flat.spots, scale.at)
    for line in (*flat.folds, *flat.slits):
        if line.label:
            x, y = scale.at(along(line.start, line.end, 0.5))
            label = Label(line.label, size=SMALL, patch=True)
            label_near(canvas, label, (x - 3, y - 3, x + 3, y + 3), (x, y))
    for measured in flat.dimensions:
        text = measured.label or canvas.request.length(distance(measured.start, measured.end))
        a, b = scale.all([measured.start, measured.end])
        dimension(canvas, a, b, Label(text, size=SMALL, patch=True), 14)
    for region in (*flat.areas, *flat.films):
        if region.label:
            _name_region(canvas, scale, region)


def _gussets(canvas: Canvas, flat: Flat, scale: Scale) -> None:
    """Gussets to choose from, each with its letter in a ring at its highest corner."""
    lettered = []
    for i, gusset in enumerate(flat.gussets):
        ring = scale.all(gusset.outline)
        letter = gusset.label or LETTERS[i]
        own = f"{canvas.request.say('gusset')} {letter}"
        shapes = f'<path d="{path(ring, closed=True)}" {STYLES["gusset"]}/>'
        box = around(ring)
        canvas.reach(box[1] - 4, box[3] + 4)
        top = min(ring, key=lambda point: (point[1], point[0]))
        lettered.append(Lettered(f"gusset-{i}", own, letter, top, shapes))
    draw_lettered(canvas, lettered)


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
    legs = sorted(flat.legs, key=lambda leg: -leg.to_mm)
    x = around(scale.all(flat.outline))[0] - 12
    stops = sorted({scale.y(mm) for leg in legs for mm in (leg.from_mm, leg.to_mm)})
    _ladder(canvas, x, stops)
    labels = [
        Label(text, size=SMALL, room=x - canvas.left - 12)
        for text in _leg_texts(canvas, flat, legs)
    ]
    extents = [label.extent() for label in labels]
    middles = [scale.y((leg.from_mm + leg.to_mm) / 2) for leg in legs]
    tops = spread(middles, [high + 3 for _, high in extents], stops[0] - 6, stops[-1] + 6)
    for label, (wide, high), top, middle in zip(labels, extents, tops, middles, strict=True):
        box = (x - 10 - wide, top, x - 10, top + high)
        write(canvas, label, box, end=True)
        if abs(top + high / 2 - middle) > 4:
            leader(canvas, box, (x, middle), ends=False)


def _leg_texts(canvas: Canvas, flat: Flat, legs: Sequence[Leg]) -> list[str]:
    """Name and, when it is time to tell, length of each leg."""
    now = "after" if canvas.request.answered else "before"
    if flat.legs_measured not in ("before", now):
        return [leg.label for leg in legs]
    length = canvas.request.length
    return [f"{leg.label} {length(leg.to_mm - leg.from_mm)}".strip() for leg in legs]


def _ladder(canvas: Canvas, x: float, stops: Sequence[float]) -> None:
    """An upright dimension line with its ticks, without texts."""
    canvas.line([(x, stops[0] - 4), (x, stops[-1] + 4)], THIN)
    marks = "".join([tick((x, y)) for y in stops])
    feet = "".join([f"M{x + 3:.1f} {y:.1f}h6" for y in stops])
    canvas.lines.append(
        f'<path d="{marks}" stroke-width="1.4"/><path d="{feet}" stroke-width=".5"/>'
    )
    canvas.placer.take((x - 4, stops[0] - 4, x + 4, stops[-1] + 4))


def draw_key(canvas: Canvas, flat: Flat) -> None:
    """The key: lines, films and regions that occur."""
    say = canvas.request.say
    used = {
        "fold": flat.folds,
        "slit": flat.slits,
        "over-cut": any(slit.overcut_mm for slit in flat.slits),
        "cut": flat.cuts or flat.corner_cuts,
    }
    entries = [Entry(say(word), mark=_SAMPLES[word]) for word, occurs in used.items() if occurs]
    films = {film.look for film in flat.films}
    entries += [Entry(say(word), hatch) for look, (hatch, word) in FILMS.items() if look in films]
    looks = {area.look for area in flat.areas}
    entries += [Entry(say(look), look) for look in ("double", "bare") if look in looks]
    if flat.gusset or flat.gussets:
        entries.append(Entry(say("gusset"), mark=_SAMPLES["gusset"]))
    legend(canvas, entries)
