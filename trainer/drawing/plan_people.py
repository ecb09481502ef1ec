"""How a thing on the roof plan looks: a person with what is in hand, a torch in the wind."""

from __future__ import annotations

from trainer.drawing.canvas import Canvas, Scale
from trainer.drawing.legend import Entry
from trainer.drawing.markup import Point, along, direction
from trainer.drawing.palette import BAD, PAPER, SOFT
from trainer.drawing.plan_data import HOLDS, Plan, Thing
from trainer.drawing.symbols import symbol, torch

HAND = 15.0
"""How far a person with a sign in hand reaches further to the right, in user units."""

_SIGNS = {
    "torch": ("flame", 0.6),
    "extinguisher": ("extinguisher", 0.6),
    "sheet": ("sheet", 0.72),
    "watch": ("watch", 0.85),
    "nothing": ("nothing", 0.72),
}
_WORDS = {
    "torch": "holds a torch",
    "extinguisher": "holds an extinguisher",
    "sheet": "carries a sheet",
    "watch": "keeps watch",
    "nothing": "empty hands",
}
_MOUTH = 25.0
"""From the mouth of the burner to the flame tip in still air, as the symbol draws it."""


def looks(thing: Thing, at: Point, heading: Point, scale: Scale) -> str:
    """The symbol of ``thing`` with its place at ``at``."""
    if thing.kind != "torch":
        drawn = symbol(thing.kind, at)
        return drawn + hand(thing.holds, (at[0] + 19, at[1] - 3)) if thing.holds else drawn
    if thing.bent_to is None:
        return torch(at, heading)
    off = scale.per_mm
    across, up = thing.bent_to[0] - thing.at[0], thing.bent_to[1] - thing.at[1]
    return torch(at, heading) + bent(at, heading, (at[0] + across * off, at[1] - up * off))


def hand(holds: str, at: Point) -> str:
    """The small sign of what a person has in hand."""
    name, size = _SIGNS[holds]
    return symbol(name, at, size=size)


def bent(tip: Point, heading: Point, end: Point) -> str:
    """A flame that leaves the burner along ``heading`` and is bent to ``end``; its dot is the tip.

    The flame in still air, drawn before, stays as a dashed outline.
    """
    (x, y), (dx, dy), (u, v) = tip, heading, end
    mouth = (x - dx * _MOUTH, y - dy * _MOUTH)
    one, two = ((mouth[0] - dy * 5 * k, mouth[1] + dx * 5 * k) for k in (1, -1))
    still = f"M{one[0]:.1f} {one[1]:.1f}L{x:.1f} {y:.1f}L{two[0]:.1f} {two[1]:.1f}"
    near, bow = along(mouth, tip, 0.5), along(mouth, tip, 0.85)
    sx, sy = direction(bow, end)
    sides = []
    for k in (1, -1):
        a, b = (
            (near[0] - dy * 6 * k, near[1] + dx * 6 * k),
            (bow[0] - sy * 4 * k, bow[1] + sx * 4 * k),
        )
        sides.append((a, b))
    (a, b), (d, c) = sides
    flame = (
        f"M{one[0]:.1f} {one[1]:.1f}C{a[0]:.1f} {a[1]:.1f} {b[0]:.1f} {b[1]:.1f} {u:.1f} {v:.1f}"
        f"C{c[0]:.1f} {c[1]:.1f} {d[0]:.1f} {d[1]:.1f} {two[0]:.1f} {two[1]:.1f}Z"
    )
    return (
        f'<path d="{still}" fill="{PAPER}" stroke="{PAPER}" stroke-width="4.4"/>'
        f'<path d="{still}" stroke="{SOFT}" stroke-width="1" stroke-dasharray="3 3"/>'
        f'<path class="bent" d="{flame}" fill="{PAPER}" stroke="{BAD}" stroke-width="1.5"/>'
        f'<path d="M{u:.1f} {v:.1f}h.1" stroke="{BAD}" stroke-width="4.6" stroke-linecap="round"/>'
    )


def hand_entries(canvas: Canvas, plan: Plan) -> list[Entry]:
    """The key of what persons have in hand."""
    held = {thing.holds for thing in plan.things}
    return [
        Entry(canvas.request.say(_WORDS[name]), mark=hand(name, (0.0, 0.0)))
        for name in HOLDS
        if name in held
    ]
