"""Hatching: what a thing is made of, or what state it is in, by pattern and never by tint alone.

Concrete, masonry, timber and insulation follow the drawing-office custom of ISO 128-50 and
ANSI Y14.2 in spirit (common practice; neither standard fixes a full set of materials).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from trainer.drawing.palette import ACCENT, BAD, HATCH, INK, WASH
from trainer.errors import TrainerError


@dataclass(frozen=True)
class Tile:
    """One repeat of a pattern: its size in user units and its path."""

    width: int
    height: int
    lines: str
    dots: str = ""
    stroke: str = HATCH
    weight: float = 0.8
    ground: str = ""


_CURL = "M-2 5C1 -1 5 -1 6 4S2 10 4 11S12 8 12 3S16 0 18 5"

_TILES: Mapping[str, Tile] = {
    "concrete": Tile(
        30,
        30,
        "M4 6l5 1l-3 4ZM19 18l6 -1l-2 5ZM20 3l3 1l-2 2ZM7 22l3 2l-3 2Z",
        "M14 9h.1M26 10h.1M3 16h.1M12 17h.1M16 26h.1M27 27h.1M11 2h.1M2 28h.1M28 1h.1",
    ),
    "masonry": Tile(9, 9, "M-2 2L2 -2M-1 10L10 -1M7 11L11 7"),
    "timber": Tile(26, 8, "M0 2c5 -2 8 2 13 0s8 1 13 0M0 6c7 2 10 -1 15 0s6 1 11 0"),
    "end-grain": Tile(
        22,
        22,
        "M2 -1a10 10 0 0 1 10 12M6 -1a6 6 0 0 1 5 8M13 23a12 12 0 0 1 10 -12M17 23a8 8 0 0 1 6 -7"
        "M-1 4a12 12 0 0 1 9 14M-1 12a6 6 0 0 1 4 8",
    ),
    "wood-fibre": Tile(18, 12, "M2 3l5 1M11 1l4 2M8 8l5 -1M1 10l4 -1M14 9l3 2M6 5l2 2"),
    "foam": Tile(10, 10, "M0 0L10 10M10 0L0 10"),
    "mineral-wool": Tile(16, 12, _CURL),
    "mineral": Tile(12, 12, "M1 3q2 -3 4 0t4 0M6 9q2 -3 4 0", "M2 9h.1M10 5h.1"),
    "metal": Tile(5, 5, "M-1 1L1 -1M-1 6L6 -1M4 6L6 4"),
    "wet": Tile(14, 9, "M0 3q3.5 -4 7 0t7 0M0 7.5q3.5 -4 7 0t7 0", "", ACCENT, 1.0, WASH),
    "dry": Tile(9, 9, "", "M2 2h.1M6.5 6.5h.1", INK, 1.2),
    "dead": Tile(10, 10, "M2 2l6 6M8 2l-6 6", "", BAD, 1.0),
    "lap": Tile(6, 6, "M-1 1L1 -1M-1 7L7 -1M5 7L7 5", "", INK, 0.9),
    "film": Tile(12, 8, "M0 2h7M6 6h6"),
    "film-lower": Tile(8, 12, "M2 0v7M6 6v6"),
    "film-side": Tile(6, 6, "M-1 5L1 7M-1 -1L7 7M5 -1L7 1", "", HATCH, 0.9),
    "double": Tile(7, 7, "M0 0L7 7M7 0L0 7", "", INK, 0.8),
    "bare": Tile(8, 8, "", "M2 2h.1M6 6h.1", BAD, 1.2),
    "field": Tile(16, 16, "", "M3 4h.1M11 2h.1M7 9h.1M14 11h.1M4 14h.1", HATCH, 0.8),
    "mineral-board": Tile(14, 8, "M1 2h5M8 6h5", "M10 2h.1M3 6h.1"),
    "felt": Tile(12, 5, "M0 1.5H9M-3 4H6M9 4H12", "", INK, 1.3),
    "steel-cut": Tile(4, 4, "M-1 1L1 -1M-1 5L5 -1M3 5L5 3", "", INK, 1.1),
    "ballast": Tile(
        20,
        16,
        "M2 5a3.5 3 0 1 1 7 0a3.5 3 0 1 1 -7 0M11 4a4 3 0 1 1 8 0a4 3 0 1 1 -8 0"
        "M6 12a4.5 3 0 1 1 9 0a4.5 3 0 1 1 -9 0M-3.5 12a3.5 3 0 1 1 7 0a3.5 3 0 1 1 -7 0"
        "M16.5 12a3.5 3 0 1 1 7 0a3.5 3 0 1 1 -7 0",
    ),
    "air": Tile(12, 12, "", "M3 3h.1M9 9h.1", ACCENT, 0.9),
    "earth": Tile(16, 12, "M1 11L6 1M5 11L10 1M9 11L14 1", "", HATCH, 1.0),
    # on the roof, seen from above
    "glass": Tile(20, 20, "M3 12L10 5M5 15L15 5"),
    "casing": Tile(8, 8, "M0 4H8"),
    "boards": Tile(18, 12, "M0 0H18M0 6H18M5 0V6M14 6V12"),
    "rolls": Tile(14, 14, "M7 1.5A5.5 5.5 0 0 1 7 12.5A5.5 5.5 0 0 1 7 1.5M7 5.5v3"),
    "steps": Tile(8, 8, "M4 0V8"),
    "plate": Tile(5, 5, "M0 0L5 5M5 0L0 5", "", INK, 0.7),
    "depth": Tile(5, 5, "M-1 1L1 -1M-1 6L6 -1M4 6L6 4", "", INK, 1.2),
    "ply-2": Tile(12, 12, "", "M3 3h.1M9 9h.1", INK, 0.9),
    # what people do in a day
    "eat": Tile(12, 12, "M3 6A3 3 0 0 1 9 6A3 3 0 0 1 3 6M6 5.9h.1", "", INK, 0.8),
    "cold": Tile(13, 13, "M6.5 2V11M2.6 4.2L10.4 8.8M2.6 8.8L10.4 4.2", "", HATCH, 0.9),
    "warm": Tile(9, 16, "M4.5 0c-4 2.7 -4 5.3 0 8s4 5.3 0 8", "", INK, 0.9),
    "seal": Tile(10, 6, "M0 3H10", "", INK, 2.2),
    "flames": Tile(
        12, 14, "M6 2C9 5 10 7 10 9A4 4 0 0 1 2 9C2 7 4 6 4 4C5 5 6 4 6 2", "", BAD, 0.9
    ),
    # on the wall
    "shade": Tile(9, 9, "M-2 7L2 11M-1 -1L10 10M7 -2L11 2", "", HATCH, 0.7),
    "hollow": Tile(9, 9, "M3 4.5A1.5 1.5 0 0 1 6 4.5A1.5 1.5 0 0 1 3 4.5", "", INK, 0.8),
    "primed": Tile(10, 10, "M1 3h4M6 8h3", "", INK, 0.8, WASH),
    "damp": Tile(
        14,
        14,
        "M3.5 2.5C5 5 5.5 5.5 5.5 6.5A2 2 0 0 1 1.5 6.5C1.5 5.5 2 5 3.5 2.5"
        "M10.5 8.5C12 11 12.5 11.5 12.5 12.5A2 2 0 0 1 8.5 12.5C8.5 11.5 9 11 10.5 8.5",
        "",
        ACCENT,
        0.9,
    ),
    "loose": Tile(16, 12, "M2 5q3 -5 6 0M10 11q3 -5 6 0", "", BAD, 1.1),
    "ply-3": Tile(10, 10, "M-1 1L1 -1M-1 11L11 -1M9 11L11 9"),
}
NAMES = tuple(_TILES)


def hatch(name: str, ident: str) -> str:
    """The pattern element ``name`` with the id ``ident``."""
    return f'<pattern id="{ident}" {_rest(name)}'


@cache
def _rest(name: str) -> str:
    tile = _TILES.get(name)
    if tile is None:
        raise TrainerError(f"There is no hatch called {name}.", f"There are: {', '.join(NAMES)}.")
    ground = f'<path fill="{tile.ground}" stroke="none" d="M0 0h{tile.width}v{tile.height}H0Z"/>'
    dots = f'<path d="{tile.dots}" stroke-width="{tile.weight * 2:.1f}"/>' if tile.dots else ""
    lines = f'<path d="{tile.lines}"/>' if tile.lines else ""
    return (
        f'width="{tile.width}" height="{tile.height}" '
        f'patternUnits="userSpaceOnUse" fill="none" stroke="{tile.stroke}" '
        f'stroke-width="{tile.weight}" stroke-linecap="round">'
        f"{ground if tile.ground else ''}{lines}{dots}</pattern>"
    )
