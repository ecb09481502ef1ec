"""Round the parapet of a section: a guardrail, the ground far below, sun and shade on its faces."""

from __future__ import annotations

from trainer.drawing.canvas import CUT, EDGE, THIN, Canvas, Scale
from trainer.drawing.dimensions import tick
from trainer.drawing.interaction import part, part_name
from trainer.drawing.labels import Label, label_near, write
from trainer.drawing.legend import Entry
from trainer.drawing.lettering import SMALL
from trainer.drawing.markup import Point, rect_path
from trainer.drawing.palette import INK, PAPER
from trainer.drawing.section_data import Section
from trainer.drawing.section_measures import DROP_AT
from trainer.drawing.section_solids import STUB, below, zigzag
from trainer.drawing.section_work_data import Face, Guardrail
from trainer.drawing.symbols import symbol

_POST, _RAIL = 2.6, 3.6
_INSET = 60.0
"""How far a guardrail stands in from the outer edge of the top, in millimetres."""


def draw_guardrail(canvas: Canvas, cut: Section, scale: Scale, rail: Guardrail) -> None:
    """A post with the ends of its rails, on the top of the parapet or on the roof."""
    at = max(cut.width_mm - _INSET, cut.width_mm / 2) if rail.at_mm is None else rail.at_mm
    base = cut.height_mm if at >= 0 else 0.0
    x, top, foot = scale.x(at), scale.y(rail.height_mm), scale.y(base)
    middle = scale.y((max(base, 0.0) + rail.height_mm) / 2)
    post = rect_path((x - _POST, top, x + _POST, foot - 3))
    plate = rect_path((x - 9, foot - 6, x + 9, foot - 3))
    rails = "".join(
        [
            f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{_RAIL}" fill="{INK}" stroke="{PAPER}"/>'
            for y in (top, middle)
        ]
    )
    shapes = f'<path d="{post}{plate}" fill="{PAPER}" stroke-width="{EDGE}"/>{rails}'
    own = canvas.request.say("guardrail")
    part(canvas, "guardrail", own, shapes, ((x - 9, top - 4), (x + 9, foot - 3)))
    canvas.reach(top - 6, foot)
    canvas.placer.avoid((x - 10, top - 5, x + 10, foot))


def name_guardrail(canvas: Canvas, cut: Section, scale: Scale, rail: Guardrail) -> None:
    """Its name, beside the top rail."""
    at = max(cut.width_mm - _INSET, cut.width_mm / 2) if rail.at_mm is None else rail.at_mm
    x, y = scale.x(at), scale.y(rail.height_mm)
    text = part_name(canvas, "guardrail", canvas.request.say("guardrail"))
    label_near(canvas, Label(text, size=SMALL), (x - 10, y - 5, x + 10, y + 5), near=16)


def draw_drop(canvas: Canvas, cut: Section, scale: Scale, drop: float) -> None:
    """The wall broken off, the ground, and how far down it is: not to scale, so always measured."""
    left, right = scale.x(cut.core_from_mm), scale.x(cut.width_mm)
    under, ground = scale.y(-cut.depth_mm), scale.y(-cut.depth_mm) + below(cut) - 10
    start = under if cut.deck.material == "concrete" else under + STUB
    sides = "".join([f"M{x:.1f} {start:.1f}V{ground:.1f}" for x in (left, right)])
    canvas.shapes.append(f'<path d="{sides}" stroke-width="{CUT}"/>')
    zigzag(canvas, (left - 3, under + STUB), (right + 3, under + STUB))
    edge = canvas.right
    earth = rect_path((right, ground, edge, ground + 9))
    canvas.shapes.append(
        f'<path class="earth" d="{earth}" fill="{canvas.hatch("earth")}" stroke="none"/>'
        f'<path d="M{right:.1f} {ground:.1f}H{edge:.1f}" stroke-width="{CUT}"/>'
    )
    canvas.reach(under, ground + 10)
    _fall(canvas, right, scale.y(0), ground, canvas.request.length(drop))


def _fall(canvas: Canvas, right: float, top: float, ground: float, text: str) -> None:
    x, middle = right + DROP_AT, (top + ground) / 2
    kink = [(x, middle - 6), (x + 5, middle - 2), (x - 5, middle + 2), (x, middle + 6)]
    canvas.line([(right, top), (x + 3, top)], THIN)
    canvas.line([(x, top), *kink, (x, ground)], THIN + 0.3)
    marks = tick((x, top)) + tick((x, ground))
    canvas.lines.append(f'<path d="{marks}" stroke-width="1.6"/>')
    label = Label(text, size=SMALL, room=canvas.right - x - 6)
    wide, high = label.extent()
    write(canvas, label, (x + 7, middle - high - 8, x + 7 + wide, middle - 8))
    canvas.placer.avoid((x - 6, top, x + 6, ground))


def draw_faces(canvas: Canvas, cut: Section, scale: Scale) -> None:
    """A small sign of sun or shade beside each face and what it is like."""
    for face in cut.faces:
        at, touched = _beside(cut, scale, face)
        canvas.line([at, touched], THIN)
        own = face.label or canvas.request.say(face.face)
        ident = f"face-{face.face}"
        hit = ((at[0] - 11, at[1] - 11), (at[0] + 11, at[1] + 11))
        part(canvas, ident, own, _sign(face, at), hit, layer="lines")
        box = (*hit[0], *hit[1])
        canvas.placer.take(box)
        canvas.reach(box[1], box[3])
        label = Label(part_name(canvas, ident, face.label), size=SMALL, room=90, patch=True)
        label_near(canvas, label, box)


def _beside(cut: Section, scale: Scale, face: Face) -> tuple[Point, Point]:
    """Where the sign of a face stands, and where it points to."""
    if face.face == "wall":
        y = scale.y(max(cut.height_mm * 0.55, cut.cant_mm + 20))
        return (scale.x(0) - 26, y), (scale.x(0) - 2, y)
    if face.face == "top":
        x = scale.x(cut.width_mm * 0.5)
        return (x, scale.y(cut.height_mm) - 28), (x, scale.y(cut.height_mm) - 5)
    x, y = canvas_left(scale) * 0.7 + scale.x(0) * 0.3, scale.y(cut.finished_mm)
    return (x, y - 30), (x, y - 8)


def canvas_left(scale: Scale) -> float:
    """The left end of the roof shown, in user units."""
    return min(8.0, scale.x(0))


def _sign(face: Face, at: Point) -> str:
    if face.sun is None:
        return f'<circle cx="{at[0]:.1f}" cy="{at[1]:.1f}" r="3" fill="{INK}" stroke="none"/>'
    return symbol("sun" if face.sun else "shade", at)


def face_entries(canvas: Canvas, cut: Section) -> list[Entry]:
    """The key of sun and shade."""
    given = {face.sun for face in cut.faces}
    return [
        Entry(canvas.request.say(words), mark=symbol(name, (0, 0), size=0.8))
        for sun, name, words in ((True, "sun", "in the sun"), (False, "shade", "in the shade"))
        if sun in given
    ]
