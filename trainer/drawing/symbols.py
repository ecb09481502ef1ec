"""Symbols: what stands on a roof, what happens at a time, what water and fire look like.

Each is a line drawing about 24 user units large round its own origin; places to scale are marked
by the origin, sizes of symbols are not to scale.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from trainer.drawing.markup import Box, Point, ratio
from trainer.drawing.palette import ACCENT, BAD, INK, PAPER
from trainer.errors import TrainerError

_FLAME = "M0 -12C6 -6 8 -2 8 3A8 8 0 0 1 -8 3C-8 -1 -5 -3 -4 -6C-2 -5 -1 -4 -1 -2C1 -4 1 -8 0 -12Z"
_DROP = "M0 -9C4 -3 6 0 6 3A6 6 0 0 1 -6 3C-6 0 -4 -3 0 -9Z"

# Kind → (outline on paper, further lines). Origin in the middle unless said.
_SYMBOLS: Mapping[str, tuple[str, str]] = {
    # on the roof
    "cylinder": (
        "M-6.5 -1C-6.5 -5 -3.5 -6 -3.5 -7H3.5C3.5 -6 6.5 -5 6.5 -1V12.5H-6.5Z",
        "M-3.5 -7V-10.5H3.5V-7M-6.5 1.5H6.5M-6.5 9H6.5M0 -10.5V-13M-2.5 -13H2.5",
    ),
    "can": (
        "M-8 -6H8V9H-8Z",
        "M-8 -6A8 2.5 0 0 1 8 -6A8 2.5 0 0 1 -8 -6M-8 -5C-8 -17 8 -17 8 -5M-8 2H8",
    ),
    "melter": (
        "M-9 -8H9V5C9 8 -9 8 -9 5Z",
        "M-11 -8H11M-9 -3H-13V1M9 -3H13V1"
        "M-5 12c-2 -2 0 -3 0 -5c2 2 2 4 0 5M5 12c-2 -2 0 -3 0 -5c2 2 2 4 0 5",
    ),
    "extinguisher": (
        "M-5 -5C-5 -9 5 -9 5 -5V12H-5Z",
        "M0 -8V-12M-4 -12H5M5 -12L8 -15M-3 -11C-10 -11 -9 -4 -9 2M-5 0H5M-5 4H5",
    ),
    "person": (
        "M-8 12V5A6 6 0 0 1 -2 0H2A6 6 0 0 1 8 5V12ZM-4.5 -7A4.5 5.5 0 0 0 4.5 -7Z",
        "M-6.5 -7H6.5M-5 -7A5 5 0 0 1 5 -7M0 0L-1.5 4L0 8L1.5 4Z",
    ),
    "roll": (
        "M-10 -5H8A5 5 0 0 1 8 5H-10Z",
        "M8 -5A5 5 0 0 0 8 5M-10 -5A3 5 0 0 0 -10 5M8 -1.5A1.5 1.5 0 0 0 8 1.5",
    ),
    "vent": ("M-8 -8H8V8H-8Z", "M-5 -4H5M-5 0H5M-5 4H5"),
    "bucket": ("M-7 -6H7L5 9H-5Z", "M-7 -6C-7 -16 7 -16 7 -6"),
    # what can burn
    "timber": (
        "M-12 3H12V9H-12ZM-10 -3H10V3H-10ZM-8 -9H8V-3H-8Z",
        "M-9 6h7M2 6h7M-7 0h5M1 0h6M-5 -6h9",
    ),
    "paper": ("M-8 -11H3L8 -6V11H-8Z", "M3 -11V-6H8M-5 -2H5M-5 2H5M-5 6H2"),
    "foam": (
        "M-12 -3L-6 -9H12V4L6 10H-12Z",
        "M-12 -3H6V10M6 -3L12 -9M-12 -3L6 10M6 -3L-12 10M-6 -3L6 5.6M-12 1.4L0 10"
        "M0 -3L-12 5.6M6 1.4L-6 10",
    ),
    "screen": (
        "M-10 -10H10V9H-10Z",
        "M-10 -13V12M10 -13V12M-10 -3.5L-3.5 -10M-10 3L3 -10M-10 9L9 -10M-3.5 9L10 -4.5M3 9L10 2"
        "M-10 3L-4 9M-10 -3.5L2.5 9M-10 -10L9 9M-3.5 -10L10 3.5M3 -10L10 -3",
    ),
    # openings, and what a person has in hand
    "opening, open": ("M-9 -9H9V9H-9Z", "M-9 9L9 -9M-7 3L3 -7M-7 -1L-1 -7M-7 -5L-5 -7"),
    "opening, covered": ("M-9 -9H9V9H-9Z", "M-9 -9L9 9M-9 9L9 -9M-9 0H9M0 -9V9"),
    "watch": (
        "M-9 0C-5 -7 5 -7 9 0C5 7 -5 7 -9 0Z",
        "M-2.5 0A2.5 2.5 0 0 1 2.5 0A2.5 2.5 0 0 1 -2.5 0M-.5 0h1",
    ),
    "sheet": ("M-8 -4H6A4 4 0 0 1 6 4H-8Z", "M6 -4A4 4 0 0 0 6 4M-8 4V9H3"),
    "nothing": ("M-6 0A6 6 0 0 1 6 0A6 6 0 0 1 -6 0Z", ""),
    "shade": (
        "M-8 0A8 8 0 0 1 8 0A8 8 0 0 1 -8 0Z",
        "M-6 5L5 -6M-3 7.4L7.4 -3M0 8L8 0M-7.6 2.4L2.4 -7.6M-8 -2L-2 -8",
    ),
    # at a time
    "applied": ("M-10 -10H6V-3H-10Z", "M6 -6.5H10V1H-1V4M-3 4H1V12H-3Z"),
    "touch": (
        "M-3 6.5A2.5 2.5 0 0 0 2 6.5V-1H4.5A3 3 0 0 0 7.5 -4V-9A3 3 0 0 0 4.5 -12"
        "H-3A5 5 0 0 0 -8 -7V-4L-3 0Z",
        "M2 -1V-5M4.8 -1V-5M-11 11.5H11M-6.5 8.5l-2 -1M5.5 8.5l2 -1",
    ),
    "rain": (
        "M-6 1A5 5 0 0 1 -6 -8A6 6 0 0 1 5 -8A4.6 4.6 0 0 1 6 1Z",
        "M-5 5l-2 5M0 5l-2 5M5 5l-2 5",
    ),
    "dew": (
        "M0 -9C3 -5 4.5 -2 4.5 0A4.5 4.5 0 0 1 -4.5 0C-4.5 -2 -3 -5 0 -9Z",
        "M-11 8H11M-8 4.5h.1M8 4.5h.1M-8.5 1h.1",
    ),
    "frost": ("", "M0 -11V11M-9.5 -5.5L9.5 5.5M-9.5 5.5L9.5 -5.5M-3 -9L0 -6L3 -9M-3 9L0 6L3 9"),
    "dust": ("", "M-9 8H9M-8 2h.1M-3 4h.1M2 1h.1M7 3h.1M-5 -3h.1M0 -5h.1M5 -3h.1M-2 -9h.1M4 -9h.1"),
    "footprints": (
        "M-8 -9A3 4 0 0 1 -2 -9C-2 -5 -3 -3 -3 0H-7C-7 -3 -8 -5 -8 -9Z"
        "M2 -3A3 4 0 0 1 8 -3C8 1 7 3 7 6H3C3 3 2 1 2 -3Z",
        "M-7 2.5H-3V5H-7ZM3 8.5H7V11H3Z",
    ),
    "now": ("M9 -8V8L-9 0Z", ""),
    "break": (
        "M-8 -6H5V5A3 3 0 0 1 2 8H-5A3 3 0 0 1 -8 5Z",
        "M5 -3H7A3 3 0 0 1 7 3H5M-5 -9v-3M-1.5 -9v-3M2 -9v-3",
    ),
    "flame": (_FLAME, ""),
    "flame-out": (_FLAME, "M-10 -11L10 11"),
    "drop": (_DROP, "M-3 4A3.4 3.4 0 0 0 0 6.5"),
    "smoke": ("", "M-5 11C-9 6 -1 3 -5 -2S-3 -9 -5 -12M4 11C0 6 8 3 4 -2S6 -9 4 -12"),
    "roll-press": ("M-8 4A5 5 0 0 1 2 4A5 5 0 0 1 -8 4Z", "M-3 4L9 -11M-11 9.5H11"),
    "delivery": (
        "M-12 -6H3V6H-12ZM3 -2H8L12 2V6H3Z",
        "M-11 9A2.4 2.4 0 0 1 -6 9A2.4 2.4 0 0 1 -11 9M5 9A2.4 2.4 0 0 1 10 9A2.4 2.4 0 0 1 5 9"
        "M-9 -2H0M-9 2H0",
    ),
    "dark": ("M3 -10A10 10 0 1 0 10 5A8.5 8.5 0 0 1 3 -10Z", "M9 -9v.1M11 -3v.1"),
    "burn": (
        "M-12 4C-9 0 -5 -1 -2 -1H10A2 2 0 0 1 10 3H4H8A2 2 0 0 1 8 7H2H5A2 2 0 0 1 5 11H-6L-12 10Z",
        "M4 -12C6 -9 7 -8 7 -6A3 3 0 0 1 1 -6C1 -8 3 -9 4 -12",
    ),
    "sun": (
        "M-5 0A5 5 0 0 1 5 0A5 5 0 0 1 -5 0Z",
        "M0 -8V-12M0 8V12M-8 0H-12M8 0H12M-5.7 -5.7L-8.5 -8.5M5.7 -5.7L8.5 -8.5"
        "M-5.7 5.7L-8.5 8.5M5.7 5.7L8.5 8.5",
    ),
    "point": ("M-4 0A4 4 0 0 1 4 0A4 4 0 0 1 -4 0Z", ""),
}
NAMES = tuple(_SYMBOLS)
_TINTED = {"flame": BAD, "drop": ACCENT, "flame-out": INK}
HALF = 13.0
"""Half the size of the square that holds any symbol, but for the torch."""


def symbol(kind: str, at: Point, ink: str = "", size: float = 1.0) -> str:
    """The symbol ``kind`` with its origin at ``at``."""
    scale = "" if size == 1.0 else f" scale({ratio(size)})"
    place = f"translate({at[0]:.1f} {at[1]:.1f}){scale}"
    return f'<g class="symbol" data-symbol="{kind}" transform="{place}" {_drawn(kind, ink)}'


@cache
def _drawn(kind: str, ink: str) -> str:
    made = _SYMBOLS.get(kind)
    if made is None:
        raise TrainerError(f"There is no symbol called {kind}.", f"There are: {', '.join(NAMES)}.")
    outline, lines = made
    body = f'<path d="{outline}" fill="{PAPER}"/>' if outline else ""
    rest = f'<path d="{lines}"/>' if lines else ""
    return (
        f'stroke="{ink or _TINTED.get(kind, INK)}" stroke-width="1.4" stroke-linecap="round">'
        f"{body}{rest}</g>"
    )


def symbol_box(at: Point, size: float = 1.0) -> Box:
    """The square a symbol may fill."""
    half = HALF * size
    return (at[0] - half, at[1] - half, at[0] + half, at[1] + half)


TORCH_LENGTH = 74.0


def torch(tip: Point, heading: Point) -> str:
    """A torch whose flame tip is at ``tip``, burning towards the unit vector ``heading``."""
    x, y = heading
    if x < 0:  # keep the handle under the tube
        matrix = f"matrix({ratio(x)} {ratio(y)} {ratio(y)} {ratio(-x)} {tip[0]:.1f} {tip[1]:.1f})"
    else:
        matrix = f"matrix({ratio(x)} {ratio(y)} {ratio(-y)} {ratio(x)} {tip[0]:.1f} {tip[1]:.1f})"
    return (
        f'<g class="symbol" data-symbol="torch" transform="{matrix}" '
        f'stroke="{INK}" stroke-width="1.4">'
        f'<path d="M-25 -5C-18 -9 -10 -4 0 0C-10 4 -18 9 -25 5Z" fill="{PAPER}" stroke="{BAD}"/>'
        f'<path d="M-25 -2.5C-20 -4 -15 -2 -11 0C-15 2 -20 4 -25 2.5" stroke="{BAD}" '
        f'stroke-width="1"/>'
        f'<path d="M-25 -6H-36L-39 -3V3L-36 6H-25Z" fill="{PAPER}"/>'
        f'<path d="M-39 -1.2H-64V1.2H-39M-64 -3H-74V3H-64ZM-56 1.2V8H-53V1.2" fill="{PAPER}"/></g>'
    )


def torch_box(tip: Point, heading: Point) -> Box:
    """The box that holds a torch."""
    back = (tip[0] - heading[0] * TORCH_LENGTH, tip[1] - heading[1] * TORCH_LENGTH)
    return (
        min(tip[0], back[0]) - 8,
        min(tip[1], back[1]) - 8,
        max(tip[0], back[0]) + 8,
        max(tip[1], back[1]) + 8,
    )
