"""One drawing in the making: layers of markup, what is taken, how far it reaches."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from trainer.drawing import lettering
from trainer.drawing.fields import Request
from trainer.drawing.hatches import hatch
from trainer.drawing.lettering import ASCENT
from trainer.drawing.markup import Box, Point, escaped, path
from trainer.drawing.palette import INK, PAPER
from trainer.drawing.placing import Placer

MARGIN = 8.0
_SIZED = {lettering.SIZE: "", lettering.SMALL: f' font-size="{lettering.SMALL:g}"'}
CUT, EDGE, THIN = 1.7, 1.1, 0.7
"""Line weights: what the section cuts, what is seen, what measures and points."""


class Scale(NamedTuple):
    """From millimetres (y up) to user units (y down), alike along both axes."""

    per_mm: float
    zero_x: float
    zero_y: float = 0.0

    def x(self, mm: float) -> float:
        return self.zero_x + mm * self.per_mm

    def y(self, mm: float) -> float:
        return self.zero_y - mm * self.per_mm

    def at(self, point: Point) -> Point:
        return (self.zero_x + point[0] * self.per_mm, self.zero_y - point[1] * self.per_mm)

    def all(self, points: Sequence[Point]) -> list[Point]:
        k, x0, y0 = self.per_mm, self.zero_x, self.zero_y
        return [(x0 + x * k, y0 - y * k) for x, y in points]

    def box(self, left: float, bottom: float, right: float, top: float) -> Box:
        """The box in user units from two corners in millimetres."""
        return (self.x(left), self.y(top), self.x(right), self.y(bottom))


class Canvas:
    """Collects a drawing in layers, bottom to top: shapes, lines, hits, texts, handles.

    The origin is the kind's own; the view box is found at the end from what was reached.
    """

    __slots__ = (
        "_hatches",
        "bottom",
        "handles",
        "hits",
        "lines",
        "live",
        "part_ids",
        "placer",
        "request",
        "shapes",
        "texts",
        "top",
        "width",
    )

    def __init__(self, request: Request) -> None:
        self.request = request
        self.width = float(request.width)
        self.live = request.live
        self.shapes: list[str] = []
        self.lines: list[str] = []
        self.texts: list[str] = []
        self.handles: list[str] = []
        self.hits: list[str] = []
        self.part_ids: list[str] = []
        self._hatches: dict[str, str] = {}
        self.top = 1e9
        self.bottom = -1e9
        self.placer = Placer(MARGIN, self.width - MARGIN)

    def beside(self) -> Canvas:
        """A canvas for the same figure drawn once more, such as a detail: with hatches in common.

        What it collects goes nowhere unless its maker takes it; nothing on it can be pressed.
        """
        made = Canvas(self.request)
        made.live = False
        made._hatches = self._hatches
        return made

    @property
    def left(self) -> float:
        return MARGIN

    @property
    def right(self) -> float:
        return self.width - MARGIN

    def reach(self, top: float, bottom: float) -> None:
        """Make the view box hold everything from ``top`` to ``bottom``."""
        if top < self.top:
            self.top = top
        if bottom > self.bottom:
            self.bottom = bottom

    def ident(self, name: str) -> str:
        """An id of this figure alone."""
        return f"{self.request.id}-{name}"

    def hatch(self, name: str) -> str:
        """The fill that hatches with ``name``; its pattern goes into the drawing once."""
        made = self.ident(name)
        if name not in self._hatches:
            self._hatches[name] = hatch(name, made)
        return f"url(#{made})"

    def line(self, points: Sequence[Point], weight: float = EDGE, style: str = "") -> None:
        """A line over the shapes; ``style`` holds further attributes."""
        self.lines.append(f'<path d="{path(points)}" stroke-width="{weight}"{style}/>')

    def text(
        self,
        x: float,
        top: float,
        lines: Sequence[str],
        size: float = lettering.SIZE,
        style: str = "",
    ) -> None:
        """Lines of letters whose box begins at (x, top); whoever writes keeps the room."""
        head = f'<text x="{x:.1f}" y="{top + size * ASCENT:.1f}"{_SIZED[size]}{style}>'
        if len(lines) == 1:
            self.texts.append(f"{head}{escaped(lines[0])}</text>")
            return
        rest = "".join(
            [
                f'<tspan x="{x:.1f}" dy="{size * lettering.LINE:.1f}">{escaped(line)}</tspan>'
                for line in lines[1:]
            ]
        )
        self.texts.append(f"{head}{escaped(lines[0])}{rest}</text>")

    def svg(self) -> str:
        """The whole drawing as one element."""
        request = self.request
        top, bottom = self.top - MARGIN, self.bottom + MARGIN
        box = f"0 {top:.1f} {self.width:.1f} {bottom - top:.1f}"
        live = self.live or (self.handles and not request.answered)
        role = "group" if live else "img"
        name, told = self.ident("title"), self.ident("desc")
        defs = "".join(self._hatches.values())
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="drawing" viewBox="{box}" '
            f'width="{self.width:.1f}" height="{bottom - top:.1f}" role="{role}" '
            f'aria-labelledby="{name} {told}" pointer-events="none" fill="none" stroke="{INK}" '
            f'stroke-linejoin="round" '
            f'font-family="{lettering.FACE}" font-size="{lettering.SIZE:.1f}">'
            f'<title id="{name}">{escaped(request.title)}</title>'
            f'<desc id="{told}">{escaped(request.desc)}</desc>'
            f"{f'<defs>{defs}</defs>' if defs else ''}"
            f'<path class="ground" fill="{PAPER}" stroke="none" '
            f'd="M0 {top:.1f}h{self.width:.1f}V{bottom:.1f}h-{self.width:.1f}Z"/>'
            f"{''.join(self.shapes)}<g>{''.join(self.lines)}</g>"
            f"{''.join(self.hits)}"
            f'<g class="labels" fill="{INK}" stroke="{PAPER}" stroke-width="3" '
            f'paint-order="stroke">{"".join(self.texts)}</g>'
            f"{''.join(self.handles)}</svg>"
        )
