"""Marked points to press: a dot on the point, its letter in a ring beside it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from trainer.drawing.canvas import THIN, Canvas
from trainer.drawing.fields import POINT, Field, Many, Value, Words
from trainer.drawing.interaction import TARGET, part
from trainer.drawing.labels import Label
from trainer.drawing.lettering import SMALL
from trainer.drawing.markup import Point, along, centre, distance
from trainer.drawing.palette import INK, PAPER
from trainer.drawing.placing import beside

RING = 10.0
"""Radius of the ring that bears the letter, in user units."""

LETTERS = "ABCDEFGHIJKL"


@dataclass(frozen=True)
class Spot:
    """A marked point, called by its letter."""

    at: Point
    label: str


SPOTS = Field(
    "spots",
    Many(
        Value(
            (
                Field("at", POINT, "the point meant"),
                Field("label", Words(), "its letter; A, B, C … when empty", default=""),
            ),
            make=Spot,
        ),
        most=12,
    ),
    "points to press, each with its letter",
    default=[],
)


class Lettered(NamedTuple):
    """A part that is pressed on a ring with its letter: id, spoken name, letter, point, shapes."""

    ident: str
    own: str
    letter: str
    at: Point
    shapes: str = ""


def draw_spots(canvas: Canvas, spots: Sequence[Spot], place: Callable[[Point], Point]) -> None:
    """Each spot as a dot on its point and its letter in a ring, pressed on the ring."""
    say, lettered = canvas.request.say, []
    for i, spot in enumerate(spots):
        letter = spot.label or LETTERS[i]
        own = f"{say('place')} {letter}"
        lettered.append(Lettered(f"spot-{i}", own, letter, place(spot.at)))
    draw_lettered(canvas, lettered)


def draw_lettered(canvas: Canvas, things: Sequence[Lettered]) -> None:
    """Each thing with a ring beside its point, the rings a thumb apart where there is room."""
    for x, y in [thing.at for thing in things]:
        canvas.placer.take((x - 4, y - 4, x + 4, y + 4))
    rings: list[Point] = []
    for thing in things:
        rings.append(_ring_place(canvas, thing.at, rings))
    for i, thing in enumerate(things):
        half = _half(rings, i)
        x, y = rings[i]
        hit = ((x - half, y - half), (x + half, y + half))
        shapes = thing.shapes + _spot(thing.at, rings[i])
        part(canvas, thing.ident, thing.own, shapes, hit, layer="lines", crowded=True)
        ring_letter(canvas, canvas.request.names.get(thing.ident, thing.letter), rings[i])


def ring_letter(canvas: Canvas, letter: str, ring: Point) -> None:
    """The letter in the middle of its ring."""
    _, high = Label(letter, size=SMALL).extent()
    style = ' text-anchor="middle" font-weight="bold"'
    canvas.text(ring[0], ring[1] - high / 2, (letter,), SMALL, style)


def ring_shape(ring: Point) -> str:
    """The ring round a letter."""
    return (
        f'<circle cx="{ring[0]:.1f}" cy="{ring[1]:.1f}" r="{RING:g}" fill="{PAPER}" '
        f'stroke="{INK}" stroke-width="1.4"/>'
    )


def _ring_place(canvas: Canvas, at: Point, others: Sequence[Point]) -> Point:
    """The middle of the ring beside ``at``: free, and a thumb away from the other rings."""
    size = 2 * RING
    anchor = (at[0] - 4, at[1] - 4, at[0] + 4, at[1] + 4)
    corners = list(beside(anchor, size, size))
    apart = [c for c in corners if all(_far(c, other) for other in others)]
    box = canvas.placer.spot(size, size, apart) or canvas.placer.near(anchor, size, size)
    canvas.placer.take(box)
    canvas.reach(box[1], box[3])
    return centre(box)


def _far(corner: Point, other: Point) -> bool:
    across, down = corner[0] + RING - other[0], corner[1] + RING - other[1]
    return max(abs(across), abs(down)) >= TARGET


def _half(places: Sequence[Point], i: int) -> float:
    x, y = places[i]
    gaps = [max(abs(x - u), abs(y - v)) for j, (u, v) in enumerate(places) if j != i]
    return max(RING, min([TARGET / 2, *[gap / 2 for gap in gaps]]))


def _spot(at: Point, ring: Point) -> str:
    x, y = at
    u, v = along(ring, at, RING / max(distance(at, ring), RING))
    return (
        f'<path d="M{x:.1f} {y:.1f}h.1" stroke="{PAPER}" stroke-width="6.4" '
        f'stroke-linecap="round"/>'
        f'<path d="M{u:.1f} {v:.1f}L{x:.1f} {y:.1f}" stroke-width="{THIN}"/>'
        f'<path class="spot" d="M{x:.1f} {y:.1f}h.1" stroke-width="4.4" stroke-linecap="round"/>'
        f"{ring_shape(ring)}"
    )
