"""The key of what is found on a wall: faults, slits, patches, sun and shade, open edges, film."""

from __future__ import annotations

from trainer.drawing.canvas import Canvas
from trainer.drawing.elevation_data import Elevation
from trainer.drawing.elevation_marks import blemish_shapes
from trainer.drawing.elevation_signs import OPEN_EDGE, PATCH, SLIT
from trainer.drawing.elevation_site_data import BLEMISHES
from trainer.drawing.flat_shapes import FILMS
from trainer.drawing.interaction import part_name
from trainer.drawing.legend import Entry
from trainer.drawing.palette import ACCENT
from trainer.drawing.symbols import symbol

_SIZES = {"blister": (10.0, 7.0), "fishmouth": (10.0, 6.0), "wrinkle": (11.0, 4.0), "void": (10, 7)}


def site_entries(canvas: Canvas, wall: Elevation) -> list[Entry]:
    """What occurs on the wall and what it looks like."""
    say = canvas.request.say
    kinds = {blemish.kind for blemish in wall.blemishes}
    entries = [
        Entry(say(kind), mark=blemish_mark(canvas, kind)) for kind in BLEMISHES if kind in kinds
    ]
    marks = {"slit": (wall.cuts, SLIT), "patch": (wall.patches, PATCH)}
    marks["not sealed yet"] = (wall.open_edge, OPEN_EDGE)
    entries += [Entry(say(word), mark=mark) for word, (occurs, mark) in marks.items() if occurs]
    lights = {face.sun for face in wall.faces}
    if True in lights:
        entries.append(Entry(say("in the sun"), mark=symbol("sun", (0, 0), size=0.7)))
    if False in lights:
        entries.append(Entry(say("in the shade"), hatch="shade"))
    if wall.marker and wall.marker.label:
        mark = f'<path d="M-11 0H11" stroke="{ACCENT}" stroke-width="2.4"/>'
        entries.append(Entry(part_name(canvas, "marker", wall.marker.label), mark=mark))
    films = {film.half for film in wall.films}
    return entries + [
        Entry(say(word), hatch=hatch) for half, (hatch, word) in FILMS.items() if half in films
    ]


def blemish_mark(canvas: Canvas, kind: str) -> str:
    """A fault as small as the key shows it."""
    a, b = _SIZES[kind]
    return blemish_shapes(canvas, kind, a, b)
