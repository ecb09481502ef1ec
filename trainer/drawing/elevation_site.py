"""Sun and shade, open edges and measured heights of the wall elevation."""

from __future__ import annotations

from itertools import pairwise

from trainer.drawing.canvas import EDGE, THIN, Canvas, Scale
from trainer.drawing.dimensions import dimension, tick
from trainer.drawing.elevation_data import Elevation
from trainer.drawing.elevation_signs import OPEN
from trainer.drawing.elevation_site_data import Face, OpenEdge
from trainer.drawing.interaction import TARGET, part, part_name, shared_out
from trainer.drawing.labels import Label, label_near, patch, write
from trainer.drawing.lettering import SMALL
from trainer.drawing.markup import Box, Point, around, distance, grown, path
from trainer.drawing.palette import BAD, PAPER
from trainer.drawing.spots import LETTERS, RING, ring_letter, ring_shape
from trainer.drawing.symbols import symbol

_SUN = 24.0


def draw_faces(canvas: Canvas, wall: Elevation, scale: Scale) -> None:
    """The wall's own surface: hatched in the shade, a small sun where it shines."""
    for i, face in enumerate(wall.faces):
        base = scale.all(wall.base(face.from_mm, face.to_mm))
        head = scale.y(wall.height_mm)
        ring = [(base[0][0], head), (base[-1][0], head), *reversed(base)]
        fill = PAPER if face.sun else canvas.hatch("shade")
        shapes = f'<path d="{path(ring, closed=True)}" fill="{fill}" stroke-width="{EDGE}"/>'
        word = "in the sun" if face.sun else "in the shade"
        own = ", ".join(text for text in (face.label, canvas.request.say(word)) if text)
        box = around(ring)
        part(canvas, f"face-{i}", own, shapes, ((box[0], box[1]), (box[2], box[3])))
        _name_face(canvas, face, i, box)


def _name_face(canvas: Canvas, face: Face, i: int, box: Box) -> None:
    """Its label with the sun before it, in the middle of the face, else above it."""
    text = part_name(canvas, f"face-{i}", face.label)
    sun = _SUN if face.sun else 0.0
    label = Label(text, size=SMALL, room=max(44.0, box[2] - box[0] - sun - 8))
    wide, high = label.extent() if text else (0.0, _SUN)
    tall = max(high, sun)
    x, y = (box[0] + box[2] - wide - sun) / 2, (box[1] + box[3]) / 2
    if wide + sun + 6 > box[2] - box[0] or tall + 2 > box[3] - box[1]:
        x, y = _aside(canvas, wide + sun, tall, box)
    place = (x, y - tall / 2, x + sun + wide, y + tall / 2)
    canvas.lines.append(patch(grown(place, 2)))
    canvas.reach(place[1], place[3])
    if face.sun:
        canvas.lines.append(symbol("sun", (x + _SUN / 2 - 2, y), size=0.75))
        canvas.placer.take((x - 2, y - 12, x + _SUN, y + 12))
    if text:
        write(canvas, label, (x + sun, y - high / 2, x + sun + wide, y + high / 2))


def _aside(canvas: Canvas, wide: float, high: float, box: Box) -> Point:
    """Above a face too small to write in: left and middle of what is written."""
    anchor = (box[0], box[1] - 2, box[2], box[1])
    found = canvas.placer.near(anchor, wide, high)
    return found[0], (found[1] + found[3]) / 2


def draw_open_edges(canvas: Canvas, wall: Elevation, scale: Scale) -> None:
    """Edges that are not sealed: lifted lips along them and the sign of what is open."""
    for i, edge in enumerate(wall.open_edge):
        line = _edge_line(wall, scale, edge)
        x, y = line[0][0] / 2 + line[-1][0] / 2, sum([y for _, y in line]) / len(line)
        out = 1.0 if edge.edge == "foot" else -1.0
        shapes = (
            f'<path class="open-edge" d="{path(line)}" stroke="{BAD}" stroke-width="2.6"/>'
            f'<path d="{_lips(line, out)}" stroke="{BAD}" stroke-width="1.4"/>'
            f'<g class="state" transform="translate({x:.1f} {y + out * 14:.1f})">{OPEN}</g>'
        )
        own = edge.label or f"{canvas.request.say('not sealed yet')} {i + 1}"
        part(canvas, f"open-edge-{i}", own, shapes, line, layer="lines")
        sign = (x - 7, y + out * 14 - 7, x + 7, y + out * 14 + 7)
        canvas.placer.take(sign)
        canvas.reach(sign[1], sign[3])
        text = part_name(canvas, f"open-edge-{i}", edge.label)
        label_near(canvas, Label(text, size=SMALL, patch=True), sign, near=16)


def _edge_line(wall: Elevation, scale: Scale, edge: OpenEdge) -> list[Point]:
    start, end = max(edge.from_mm, 0.0), min(edge.to_mm, wall.wall_mm)
    if edge.edge == "top":
        return scale.all([(start, wall.height_mm), (end, wall.height_mm)])
    drop = wall.field_lap_mm * scale.per_mm
    return [(x, y + drop) for x, y in scale.all(wall.base(start, end))]


def _lips(line: list[Point], out: float) -> str:
    """Path data of short curls that stand off an open edge."""
    data = ""
    for a, b in pairwise(line):
        far, at = distance(a, b), 6.0
        while at < far - 4:
            share = at / far
            x, y = a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share
            data += f"M{x:.1f} {y:.1f}q1 {out * 5:.1f} 5 {out * 5:.1f}"
            at += 12.0
    return data or f"M{line[0][0]:.1f} {line[0][1]:.1f}v{out * 5:.1f}"


def draw_heights(canvas: Canvas, wall: Elevation, scale: Scale) -> None:
    """Plumb dimensions from the roof surface to the top of the wall, each with its letter."""
    if not wall.heights_at:
        return
    shown = wall.heights_measured == "before" or (
        wall.heights_measured == "after" and canvas.request.answered
    )
    ring_y = min(canvas.top + 4, scale.y(wall.height_mm)) - RING - 6
    order = sorted(range(len(wall.heights_at)), key=lambda i: wall.heights_at[i])
    reaches = shared_out([scale.x(wall.heights_at[i]) for i in order])
    hits = dict(zip(order, reaches, strict=True))
    for i, mm in enumerate(wall.heights_at):
        _height(canvas, wall, scale, i, (mm, ring_y), hits[i])
    if shown:
        for mm in wall.heights_at:
            text = canvas.request.length(wall.height_mm - wall.foot_at(mm))
            ends = scale.all([(mm, wall.foot_at(mm)), (mm, wall.height_mm)])
            dimension(canvas, ends[0], ends[1], Label(text, size=SMALL, patch=True))


def _height(
    canvas: Canvas,
    wall: Elevation,
    scale: Scale,
    i: int,
    at: Point,
    hit: tuple[float, float],
) -> None:
    x, ring = scale.x(at[0]), (scale.x(at[0]), at[1])
    head, foot = scale.y(wall.height_mm), scale.y(wall.foot_at(at[0]))
    shapes = (
        f'<path d="M{x:.1f} {at[1] + RING:.1f}V{head:.1f}" stroke-width="{THIN}" '
        f'stroke-dasharray="3 2"/><path d="M{x:.1f} {head:.1f}V{foot:.1f}" stroke-width="1"/>'
        f'<path d="{tick((x, head))}{tick((x, foot))}" stroke-width="1.6"/>{ring_shape(ring)}'
    )
    ident, letter = f"height-{i}", LETTERS[i]
    own = f"{canvas.request.say('place')} {letter}"
    box = ((hit[0], at[1] - TARGET / 2), (hit[1], at[1] + TARGET / 2))
    part(canvas, ident, own, shapes, box, layer="lines", crowded=True)
    ring_letter(canvas, part_name(canvas, ident, letter), ring)
    canvas.placer.take((x - RING, at[1] - RING, x + RING, at[1] + RING))
    canvas.placer.avoid_line((x, head), (x, foot), 4)
    canvas.reach(at[1] - RING, foot)
