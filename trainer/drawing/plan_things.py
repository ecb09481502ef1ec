"""What is open, primed, or stands about on the roof plan; its key."""

from __future__ import annotations

from collections.abc import Sequence

from trainer.drawing.canvas import EDGE, Canvas, Scale
from trainer.drawing.elevation_signs import STATE_SIGNS
from trainer.drawing.interaction import TARGET, Movable, axes_over, movable, part, part_name, roomy
from trainer.drawing.labels import Label, label_near
from trainer.drawing.legend import Entry, legend
from trainer.drawing.lettering import SMALL
from trainer.drawing.markup import Box, Point, along, around, direction, grown, path
from trainer.drawing.palette import INK, PAPER
from trainer.drawing.plan_data import Item, Plan, Primed, Thing
from trainer.drawing.plan_objects import draw_combustibles, draw_openings, object_entries
from trainer.drawing.plan_people import HAND, hand_entries, looks
from trainer.drawing.plan_sheets import sheet_entries
from trainer.drawing.plan_walls import EDGE_STYLE, guardrail
from trainer.drawing.spots import draw_spots
from trainer.drawing.symbols import TORCH_LENGTH, symbol_box, torch_box

_SIGN = 6.5


def draw_things(canvas: Canvas, plan: Plan, scale: Scale) -> None:
    """Primer, open items and things; first all shapes, then all labels, so that none is covered."""
    for i, strip in enumerate(plan.primer):
        _primer(canvas, scale, i, strip)
    waiting = _items(canvas, plan, scale) + _things(canvas, plan, scale)
    waiting += draw_openings(canvas, plan, scale) + draw_combustibles(canvas, plan, scale)
    draw_spots(canvas, plan.spots, scale.at)
    for text, box in waiting:
        label_near(canvas, Label(text, room=130), box)


def _primer(canvas: Canvas, scale: Scale, i: int, strip: Primed) -> None:
    a, b = scale.at(strip.start), scale.at(strip.end)
    dx, dy = direction(a, b)
    half = strip.width_mm * scale.per_mm / 2
    side = (-dy * half, dx * half)
    ring = [
        (a[0] + side[0], a[1] + side[1]),
        (b[0] + side[0], b[1] + side[1]),
        (b[0] - side[0], b[1] - side[1]),
        (a[0] - side[0], a[1] - side[1]),
    ]
    fill = canvas.hatch(strip.age)
    shapes = f'<path d="{path(ring, closed=True)}" fill="{fill}" stroke-width="{EDGE}"/>'
    ident = f"primer-{i}"
    own = strip.label or f"{canvas.request.say('primer')} {i + 1}"
    box = around(ring)
    part(canvas, ident, own, shapes, ring)
    canvas.placer.avoid(box)
    canvas.reach(box[1], box[3])
    if strip.label:
        x, y = along(a, b, 0.5)
        label_near(
            canvas, Label(strip.label, size=SMALL), (x - 2, y - half, x + 2, y + half), (x, y)
        )


def _item_place(item: Item, scale: Scale) -> Point:
    if item.at is not None:
        return scale.at(item.at)
    assert item.start is not None and item.end is not None
    return scale.at(along(item.start, item.end, 0.5))


def _items(canvas: Canvas, plan: Plan, scale: Scale) -> list[tuple[str, Box]]:
    places = [_item_place(item, scale) for item in plan.items]
    waiting = []
    for i, item in enumerate(plan.items):
        x, y = places[i]
        half = _half(places, i)
        ident = f"item-{i}"
        name = item.label or f"{canvas.request.say('place')} {i + 1}"
        part(
            canvas,
            ident,
            name,
            _item_shapes(item, scale, places[i]),
            ((x - half, y - half), (x + half, y + half)),
            layer="lines",
            crowded=True,
        )
        box = (x - _SIGN, y - _SIGN, x + _SIGN, y + _SIGN)
        canvas.placer.take(box)
        canvas.reach(box[1], box[3])
        if item.start is not None and item.end is not None:
            canvas.placer.avoid_line(scale.at(item.start), scale.at(item.end), 4)
        if ident in canvas.request.states:
            box = (x - half, y - half, x + half, y + half)
            canvas.placer.avoid(box)
        if item.label:
            waiting.append((part_name(canvas, ident, item.label), box))
    return waiting


def _half(places: Sequence[Point], i: int) -> float:
    """Half the side of a pressable square: 22, less where the next one is near."""
    x, y = places[i]
    gaps = [max(abs(x - u), abs(y - v)) for j, (u, v) in enumerate(places) if j != i]
    return max(10.0, min([TARGET / 2, *[gap / 2 for gap in gaps]]))


def _item_shapes(item: Item, scale: Scale, at: Point) -> str:
    drawn = ""
    if item.start is not None and item.end is not None:
        data = path(scale.all([item.start, item.end]))
        core = {"open": PAPER, "closed": PAPER, "welded": INK}[item.state]
        dash = ' stroke-dasharray="6 3"' if item.state == "open" else ""
        drawn = f'<path d="{data}" stroke-width="5.4"/>'
        drawn += f'<path d="{data}" stroke="{core}" stroke-width="2.8"{dash}/>'
        if item.state == "closed":
            drawn += f'<path d="{data}" stroke-width="1"/>'
    place = f"translate({at[0]:.1f} {at[1]:.1f})"
    return f'{drawn}<g class="state" transform="{place}">{STATE_SIGNS[item.state]}</g>'


def _things(canvas: Canvas, plan: Plan, scale: Scale) -> list[tuple[str, Box]]:
    counted: dict[str, int] = {}
    waiting = []
    for thing in plan.things:
        number = counted.get(thing.kind, 0)
        counted[thing.kind] = number + 1
        ident = f"{thing.kind}-{number}"
        name = thing.label or canvas.request.say(thing.kind)
        box = _thing(canvas, scale, thing, ident, name)
        waiting.append((part_name(canvas, ident, name), box))
    return waiting


def _thing(canvas: Canvas, scale: Scale, thing: Thing, ident: str, name: str) -> Box:
    """Draw one thing; the box its label stands beside."""
    at = scale.at(thing.at)
    heading = direction(at, scale.at(thing.towards)) if thing.towards else (1.0, 0.0)
    is_torch = thing.kind == "torch"
    box = _box(thing, at, heading, scale)
    canvas.placer.take(grown(box, -3))
    canvas.reach(box[1] - 6, box[3] + 6)
    axes = axes_over(scale, thing.at, thing.movable_x, thing.movable_y)
    if axes:
        origin = (0.0, 0.0)
        shapes = looks(thing, origin, heading, scale)
        grip = (-heading[0] * TORCH_LENGTH, -heading[1] * TORCH_LENGTH) if is_torch else (0.0, 30.0)
        still = at[1] if axes[0].letter == "x" else at[0]
        movable(canvas, Movable(ident, name, axes, shapes, grip, still))
        x, y = at[0] + grip[0], at[1] + grip[1]
        canvas.placer.take((x - 16, y - 16, x + 16, y + 16))
    else:
        shapes = looks(thing, at, heading, scale) + ("" if is_torch else _spot(at))
        part(canvas, ident, name, shapes, (box[:2], box[2:]), layer="lines")
        if ident in canvas.request.states:
            box = roomy(box)
            canvas.placer.take(box)
    return box


def _box(thing: Thing, at: Point, heading: Point, scale: Scale) -> Box:
    if thing.kind != "torch":
        left, top, right, bottom = symbol_box(at)
        return (left, top, right + (HAND if thing.holds else 0.0), bottom)
    left, top, right, bottom = torch_box(at, heading)
    if thing.bent_to:
        x, y = scale.at(thing.bent_to)
        return (min(left, x - 4), min(top, y - 4), max(right, x + 4), max(bottom, y + 4))
    return (left, top, right, bottom)


def _spot(at: Point) -> str:
    """The exact place of a thing whose symbol is larger than itself."""
    return f'<path d="M{at[0]:.1f} {at[1]:.1f}h.1" stroke-width="3.4" stroke-linecap="round"/>'


def draw_key(canvas: Canvas, plan: Plan) -> None:
    """The key: states, ages and lines that occur."""
    say = canvas.request.say
    states = {item.state for item in plan.items}
    entries = [
        Entry(say(state), mark=STATE_SIGNS[state]) for state in STATE_SIGNS if state in states
    ]
    ages = {strip.age for strip in plan.primer}
    entries += [
        Entry(say(f"primer, {age}"), hatch=age) for age in ("wet", "dry", "dead") if age in ages
    ]
    entries += sheet_entries(canvas, plan) + object_entries(canvas, plan)
    entries += hand_entries(canvas, plan)
    if plan.edges:
        entries.append(
            Entry(say("roof edge"), mark=f'<path d="M-11 0H11" stroke-width="2"{EDGE_STYLE}/>')
        )
    if plan.guardrails:
        entries.append(Entry(say("guardrail"), mark=guardrail([(-10.0, 0.0), (10.0, 0.0)])))
    legend(canvas, entries)
