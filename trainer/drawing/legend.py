"""The key under a drawing: what its hatches and marks mean, in rows that never collide."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from trainer.drawing.canvas import EDGE, Canvas
from trainer.drawing.lettering import SMALL, measured
from trainer.drawing.markup import rect_path

_SWATCH = 22.0
_ROW = 20.0


class Entry(NamedTuple):
    """One entry of the key: its meaning; a hatch by name, or markup round its own origin."""

    text: str
    hatch: str = ""
    mark: str = ""


def legend(canvas: Canvas, entries: Sequence[Entry]) -> None:
    """Write ``entries`` under everything drawn so far, as many to a row as fit."""
    x, top, edge = canvas.left, canvas.bottom + 8, canvas.right
    room = edge - x - _SWATCH - 6
    for entry in entries:
        lines, wide, high = measured(entry.text, room, SMALL)
        if x > canvas.left and x + _SWATCH + 6 + wide > edge:
            x, top = canvas.left, canvas.bottom + 4
        canvas.lines.append(_swatch(canvas, entry, x, top))
        canvas.text(x + _SWATCH + 6, top, lines, SMALL)
        canvas.reach(top, top + max(high, _ROW - 4))
        x += _SWATCH + 6 + wide + 14


def _swatch(canvas: Canvas, entry: Entry, x: float, top: float) -> str:
    if entry.hatch:
        box = rect_path((x, top + 1, x + _SWATCH, top + 15))
        return f'<path d="{box}" fill="{canvas.hatch(entry.hatch)}" stroke-width="{EDGE}"/>'
    return f'<g transform="translate({x + _SWATCH / 2:.1f} {top + 8:.1f})">{entry.mark}</g>'
