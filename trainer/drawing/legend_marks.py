"""Lines and signs of the drawings, each small enough for one entry of the page that shows them."""

from __future__ import annotations

from trainer.drawing.canvas import CUT, EDGE, THIN, Canvas
from trainer.drawing.dimensions import tick
from trainer.drawing.elevation_key import blemish_mark
from trainer.drawing.elevation_signs import OPEN_EDGE, PATCH, SLIT, STATE_SIGNS
from trainer.drawing.elevation_site_data import BLEMISHES
from trainer.drawing.flat_shapes import STYLES
from trainer.drawing.interaction import RINGS
from trainer.drawing.labels import sign
from trainer.drawing.lap_section_notes import BEAD, BREAK
from trainer.drawing.lap_section_shapes import FILM
from trainer.drawing.markup import Point
from trainer.drawing.overlays import arrow_head, walked
from trainer.drawing.palette import ACCENT, INK, PAPER
from trainer.drawing.plan_people import bent
from trainer.drawing.plan_walls import EDGE_STYLE, guardrail
from trainer.drawing.section_sheets import SHEET
from trainer.drawing.spots import ring_shape
from trainer.drawing.symbols import torch

Marks = list[tuple[str, str]]
"""What each means, and its markup round its own origin."""

_A: Point = (-18.0, 0.0)
_B: Point = (18.0, 0.0)
_FLAT_WORDS = {"slit": "slit", "over-cut": "slit cut too far", "cut": "cut", "fold": "fold"}


def _line(style: str) -> str:
    return f'<path d="M-18 0H18" {style}/>'


def line_marks() -> Marks:
    """Line weights, and the lines that have a meaning of their own."""
    marks = [
        ("membrane sheet", _line(f'stroke-width="{SHEET}"')),
        ("what a section cuts", _line(f'stroke-width="{CUT}"')),
        ("what is seen", _line(f'stroke-width="{EDGE}"')),
        (
            "what measures",
            _line(f'stroke-width="{THIN}"')
            + f'<path d="{tick(_A)}{tick(_B)}" stroke-width="1.4"/>',
        ),
        ("edge under a sheet", _line('stroke-width="1.3" stroke-dasharray="5 3"')),
        ("chalk line", _line(f'stroke="{ACCENT}" stroke-width="1.6"')),
        ("line that moves", _line(f'stroke="{ACCENT}" stroke-width="2.4"')),
        ("film in the lap", _line(FILM)),
        ("roof edge", _line(f'stroke-width="2"{EDGE_STYLE}')),
        ("guardrail", guardrail([_A, _B])),
        ("way a person walks", walked([_A, _B], INK)),
        ("left out", BREAK),
    ]
    return marks + [(_FLAT_WORDS.get(name, name), _line(style)) for name, style in STYLES.items()]


def sign_marks(canvas: Canvas) -> Marks:
    """Signs of laps, faults, beads, places, torches and of what became of a part."""
    marks = [(f"lap, {state}", drawn) for state, drawn in STATE_SIGNS.items()]
    marks += [(kind, blemish_mark(canvas, kind)) for kind in BLEMISHES]
    marks += [
        ("slit in a sheet", SLIT),
        ("patch", PATCH),
        ("edge not sealed yet", OPEN_EDGE),
        ("bead of bitumen", BEAD),
        ("place to press", ring_shape((0.0, 0.0)) + _dot()),
        ("what can be moved", _grip()),
        ("wind", _wind()),
        ("torch", f'<g transform="translate(18 0) scale(.5)">{torch((0.0, 0.0), (1.0, 0.0))}</g>'),
        ("flame bent by wind", _bent()),
    ]
    return marks + [(state, _ring(state)) for state in RINGS]


def _dot() -> str:
    return '<path d="M-16 9h.1" stroke-width="4.4" stroke-linecap="round"/>'


def _grip() -> str:
    arrows = "M-6 -3.5l-3.5 3.5l3.5 3.5M6 -3.5l3.5 3.5l-3.5 3.5"
    return (
        f'<circle r="13" fill="{PAPER}" stroke="{ACCENT}" stroke-width="2"/>'
        f'<path d="{arrows}" stroke="{ACCENT}" stroke-width="2" stroke-linecap="round"/>'
    )


def _wind() -> str:
    head = arrow_head((-18.0, 0.0), (18.0, 0.0), INK)
    waves = '<path d="M-17 -7q5 -4 10 0t10 0M-17 7q5 -4 10 0t10 0" stroke-width="1.3"/>'
    return f'<path d="M-18 0H10" stroke-width="2.6"/>{head}{waves}'


def _bent() -> str:
    shapes = torch((0.0, 0.0), (1.0, 0.0)) + bent((0.0, 0.0), (1.0, 0.0), (-2.0, -24.0))
    return f'<g transform="translate(18 4) scale(.5)">{shapes}</g>'


def _ring(state: str) -> str:
    """The ring round a part, with its tick, cross or stroke where it has one."""
    box = f'<path d="M-16 -9H16V9H-16Z" {RINGS[state]}/>'
    if state == "chosen":
        return box
    return (
        box
        + f'<circle cx="16" cy="-9" r="7" fill="{PAPER}" stroke="none"/>'
        + sign(state, (16.0, -9.0), 2.0)
    )
