"""Signs of the wall elevation: how far a lap is, and what faults look like."""

from __future__ import annotations

from trainer.drawing.markup import Point
from trainer.drawing.palette import BAD, HATCH, INK, PAPER

OPEN = f'<circle r="5" fill="{PAPER}" stroke-width="1.6"/>'
STATE_SIGNS = {
    "open": OPEN,
    "closed": f'<path d="M-5 0A5 5 0 0 1 5 0A5 5 0 0 1 -5 0H5" fill="{PAPER}" stroke-width="1.6"/>',
    "welded": f'<circle r="5" fill="{INK}" stroke-width="1.6"/>',
}
"""How far a lap is: an empty ring, a ring with a bar, a full disc."""

OPEN_EDGE = (
    f'<path d="M-11 -3H11" stroke="{BAD}" stroke-width="2.6"/>'
    f'<path d="M-9 -3q1 5 5 5M1 -3q1 5 5 5" stroke="{BAD}" stroke-width="1.4"/>'
)
SLIT = (
    f'<path d="M-11 0H11" stroke="{PAPER}" stroke-width="6"/><path d="M-11 0H11" stroke-width="3"/>'
)
PATCH = (
    f'<path d="M-8 -6H8Q10 -6 10 -4V4Q10 6 8 6H-8Q-10 6 -10 4V-4Q-10 -6 -8 -6Z" fill="{PAPER}" '
    'stroke-width="1.8"/><path d="M-7 -3.5H7V3.5H-7Z" stroke-width=".7" stroke-dasharray="2 2"/>'
)
_TURNS = {
    "left": "",
    "right": ' transform="scale(-1 1)"',
    "up": ' transform="rotate(90)"',
    "down": ' transform="rotate(-90)"',
}


def blister(a: float, b: float) -> str:
    """A dome: full outline, its far side shaded; ``a`` and ``b`` are half its width and height."""
    ring = f"M{-a:.1f} 0A{a:.1f} {b:.1f} 0 0 1 {a:.1f} 0A{a:.1f} {b:.1f} 0 0 1 {-a:.1f} 0Z"
    start, end = (-0.6 * a, 0.8 * b), (0.9 * a, -0.44 * b)
    dark = (
        f"M{start[0]:.1f} {start[1]:.1f}A{a:.1f} {b:.1f} 0 0 0 {end[0]:.1f} {end[1]:.1f}"
        f"Q{a * 0.2:.1f} {b * 0.2:.1f} {start[0]:.1f} {start[1]:.1f}Z"
    )
    light = f"M{-0.6 * a:.1f} {-0.25 * b:.1f}Q{-0.5 * a:.1f} {-0.6 * b:.1f} 0 {-0.68 * b:.1f}"
    return (
        f'<path d="{ring}" fill="{PAPER}" stroke-width="1.6"/>'
        f'<path d="{dark}" fill="{HATCH}" stroke="none"/><path d="{light}" stroke-width="1"/>'
    )


def fishmouth(length: float, half: float, opens: str) -> str:
    """A gaping edge: a dark mouth and a fold that runs out into the sheet to a point."""
    body = (
        f"M{length:.1f} 0Q{-length * 0.3:.1f} {-half * 0.55:.1f} {-length:.1f} {-half:.1f}"
        f"V{half:.1f}Q{-length * 0.3:.1f} {half * 0.55:.1f} {length:.1f} 0Z"
    )
    deep = max(2.4, min(half * 0.45, length * 0.5))
    mouth = f"A{deep:.1f} {half:.1f} 0 0 1 {-length:.1f} {half:.1f}"
    return (
        f"<g{_TURNS[opens]}>"
        f'<path d="{body}" fill="{PAPER}" stroke-width="1.4"/>'
        f'<path d="M{-length:.1f} {-half:.1f}{mouth}Z" fill="{INK}" stroke-width="1"/>'
        f'<path d="M{-length + deep:.1f} 0H{length * 0.7:.1f}" stroke-width=".8"/></g>'
    )


def wrinkle(a: float, b: float) -> str:
    """A ridge along the longer side: two edges that meet at the ends, strokes across between."""
    turn = ' transform="rotate(90)"' if b > a else ""
    long, half = max(a, b), min(a, b)
    edges = (
        f"M{-long:.1f} 0C{-long * 0.5:.1f} {-half * 1.3:.1f} {long * 0.3:.1f} {-half * 1.3:.1f} "
        f"{long:.1f} 0C{long * 0.5:.1f} {half * 1.3:.1f} {-long * 0.3:.1f} {half * 1.3:.1f} "
        f"{-long:.1f} 0Z"
    )
    count = max(2, int(long * 2 / 7))
    bars = "".join(
        [
            f"M{-long * 0.7 + step * long * 1.4 / count:.1f} {-half * 0.7:.1f}l2 {half * 1.4:.1f}"
            for step in range(count + 1)
        ]
    )
    return (
        f'<g{turn}><path d="{edges}" fill="{PAPER}" stroke-width="1.4"/>'
        f'<path d="{bars}" stroke-width=".8"/></g>'
    )


def hollow(a: float, b: float, fill: str) -> str:
    """What does not stick though it lies flat: a dashed outline and small rings."""
    ring = f"M{-a:.1f} 0A{a:.1f} {b:.1f} 0 0 1 {a:.1f} 0A{a:.1f} {b:.1f} 0 0 1 {-a:.1f} 0Z"
    return (
        f'<path d="{ring}" fill="{PAPER}" stroke="none"/>'
        f'<path d="{ring}" fill="{fill}" stroke-width="1.4" stroke-dasharray="4 3"/>'
    )


def placed(shapes: str, at: Point) -> str:
    """``shapes`` drawn round their own origin, moved to ``at``."""
    return f'<g transform="translate({at[0]:.1f} {at[1]:.1f})">{shapes}</g>'
