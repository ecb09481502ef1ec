"""What stands in the way on the roof plan, what is open, what can burn."""

from __future__ import annotations

from trainer.drawing.canvas import CUT, EDGE, THIN, Canvas, Scale
from trainer.drawing.interaction import part, part_name, roomy
from trainer.drawing.labels import Label, label_in, label_near
from trainer.drawing.legend import Entry
from trainer.drawing.lettering import SMALL
from trainer.drawing.markup import Box, Point, direction, grown, num, path, rect_path
from trainer.drawing.palette import PAPER
from trainer.drawing.plan_data import Plan
from trainer.drawing.plan_site_data import Combustible, Hole, Obstacle, Rect
from trainer.drawing.symbols import symbol, symbol_box

_HATCH = {
    "rooflight": "glass",
    "plant": "casing",
    "stack of insulation": "boards",
    "pallet of rolls": "rolls",
    "stair head": "steps",
}
_KEY_SIZE = 0.75


def rect_box(rect: Rect, scale: Scale) -> Box:
    """The box of ``rect`` in user units."""
    return scale.box(*rect.low, *rect.high)


def draw_obstacles(canvas: Canvas, plan: Plan, scale: Scale) -> None:
    """Obstacles to scale, each hatched by its kind; pressed anywhere on them."""
    for i, obstacle in enumerate(plan.obstacles):
        box = rect_box(obstacle, scale)
        own = obstacle.label or canvas.request.say(obstacle.kind)
        shapes = _obstacle(canvas, obstacle, box)
        part(canvas, f"obstacle-{i}", own, shapes, (box[:2], box[2:]))
        canvas.placer.avoid(box)
        canvas.reach(box[1], box[3])


def _obstacle(canvas: Canvas, obstacle: Obstacle, box: Box) -> str:
    data, fill = rect_path(box), canvas.hatch(_HATCH[obstacle.kind])
    return (
        f'<path d="{data}" fill="{PAPER}" stroke="none"/>'
        f'<path d="{data}" fill="{fill}" stroke-width="{CUT}"/>{_sign(obstacle.kind, box)}'
    )


def _sign(kind: str, box: Box) -> str:
    """What tells a kind from the others: glass has a kerb and a cross, plant one diagonal."""
    left, top, right, bottom = (num(value) for value in box)
    if kind == "rooflight":
        kerb = min(4.0, (box[2] - box[0]) / 5, (box[3] - box[1]) / 5)
        inner = rect_path(grown(box, -kerb))
        cross = f"M{left} {top}L{right} {bottom}M{left} {bottom}L{right} {top}"
        return f'<path d="{inner}{cross}" stroke-width="{THIN}"/>'
    if kind == "plant":
        return f'<path d="M{left} {bottom}L{right} {top}" stroke-width="{EDGE}"/>'
    return ""


def name_obstacles(canvas: Canvas, plan: Plan, scale: Scale) -> None:
    """The names of obstacles: in them where they fit, else beside them."""
    for i, obstacle in enumerate(plan.obstacles):
        own = obstacle.label or canvas.request.say(obstacle.kind)
        text, box = part_name(canvas, f"obstacle-{i}", own), rect_box(obstacle, scale)
        if text and not label_in(canvas, Label(text, size=SMALL, room=box[2] - box[0] - 6), box):
            label_near(canvas, Label(text, size=SMALL, room=110), box)


def draw_openings(canvas: Canvas, plan: Plan, scale: Scale) -> list[tuple[str, Box]]:
    """Openings and their state; texts and boxes to write beside."""
    waiting = []
    for i, hole in enumerate(plan.openings):
        ident, own = f"opening-{i}", hole.label or canvas.request.say(opening_word(hole))
        shapes, box = _opening(canvas, hole, scale)
        part(canvas, ident, own, shapes, (box[:2], box[2:]), layer="lines")
        waiting.append((part_name(canvas, ident, hole.label), _kept(canvas, ident, box)))
    return waiting


def opening_word(hole: Hole) -> str:
    """What an opening is called in the key."""
    return f"opening, {'covered' if hole.covered else 'open'}"


def _opening(canvas: Canvas, hole: Hole, scale: Scale) -> tuple[str, Box]:
    if hole.at is not None:
        at = scale.at(hole.at)
        x, y = at
        return symbol(opening_word(hole), at), (x - 10, y - 10, x + 10, y + 10)
    assert hole.start is not None and hole.end is not None
    if hole.start[0] == hole.end[0] or hole.start[1] == hole.end[1]:
        return _gap(canvas, scale.at(hole.start), scale.at(hole.end), hole.covered)
    box = rect_box(Rect(hole.start, hole.end), scale)
    return _shaft(canvas, box, hole.covered), box


def _shaft(canvas: Canvas, box: Box, covered: bool) -> str:
    """A rectangle: open, its dark half tells the depth; covered, it bears a plate."""
    left, top, right, bottom = box
    data = rect_path(box)
    ground = f'<path d="{data}" fill="{PAPER}" stroke-width="{CUT}"/>'
    if covered:
        cross = f"{data}M{left:.1f} {top:.1f}L{right:.1f} {bottom:.1f}"
        cross += f"M{left:.1f} {bottom:.1f}L{right:.1f} {top:.1f}"
        return f'{ground}<path d="{cross}" fill="{canvas.hatch("plate")}" stroke-width="{CUT}"/>'
    dark = path([(left, bottom), (left, top), (right, top)], closed=True)
    return f'{ground}<path d="{dark}" fill="{canvas.hatch("depth")}" stroke-width="{CUT}"/>'


def _gap(canvas: Canvas, a: Point, b: Point, covered: bool) -> tuple[str, Box]:
    """A gap in a wall's face between two ends: clear between jambs, or with a plate over it."""
    dx, dy = direction(a, b)
    jambs = "".join(
        [f"M{x - dy * 8:.1f} {y + dx * 8:.1f}L{x + dy * 8:.1f} {y - dx * 8:.1f}" for x, y in (a, b)]
    )
    side = (dy * 5, dx * 5)
    ring = [
        (a[0] - side[0], a[1] + side[1]),
        (b[0] - side[0], b[1] + side[1]),
        (b[0] + side[0], b[1] - side[1]),
        (a[0] + side[0], a[1] - side[1]),
    ]
    fill = canvas.hatch("plate") if covered else PAPER
    edge = f'stroke-width="{EDGE}"' if covered else 'stroke="none"'
    data = path(ring, closed=True)
    shapes = (
        f'<path d="{data}" fill="{PAPER}" stroke="none"/><path d="{data}" fill="{fill}" {edge}/>'
        f'<path d="{jambs}" stroke-width="2.4"/>'
    )
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    return shapes, grown((min(xs), min(ys), max(xs), max(ys)), 3)


def draw_combustibles(canvas: Canvas, plan: Plan, scale: Scale) -> list[tuple[str, Box]]:
    """Things that burn, each with its symbol; texts and boxes to write beside."""
    waiting = []
    for i, thing in enumerate(plan.combustibles):
        ident, own = f"combustible-{i}", _called(canvas, thing)
        at = scale.at(thing.at)
        box = symbol_box(at)
        part(canvas, ident, own, symbol(thing.kind, at), (box[:2], box[2:]), layer="lines")
        waiting.append((part_name(canvas, ident, own), _kept(canvas, ident, box)))
    return waiting


def _called(canvas: Canvas, thing: Combustible) -> str:
    return thing.label or canvas.request.say(thing.kind)


def _kept(canvas: Canvas, ident: str, box: Box) -> Box:
    """``box`` with the ring of a part that has a state, its room taken."""
    kept = roomy(box) if ident in canvas.request.states else box
    canvas.placer.take(kept)
    canvas.reach(kept[1], kept[3])
    return kept


def object_entries(canvas: Canvas, plan: Plan) -> list[Entry]:
    """The key of openings: what is open, what is covered."""
    say = canvas.request.say
    words = sorted({opening_word(hole) for hole in plan.openings}, reverse=True)
    return [Entry(say(word), mark=symbol(word, (0, 0), size=_KEY_SIZE)) for word in words]
