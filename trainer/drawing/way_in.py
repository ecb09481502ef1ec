"""The way in: one parapet section on which every unit of competency has its numbered place.

Each place is a link to its unit: a numbered balloon, a word, and the thing it stands for. The
section is a made-up parapet to scale; what stands on the roof is not. Fields: ``FIELDS``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from trainer.drawing import section_layers as layers
from trainer.drawing.canvas import EDGE, MARGIN, THIN, Canvas, Scale
from trainer.drawing.fields import Choice, Each, Field, Text, Value
from trainer.drawing.interaction import TARGET, roomy
from trainer.drawing.lettering import SIZE, text_width
from trainer.drawing.markup import Box, Point, escaped, path, rect_path
from trainer.drawing.palette import ACCENT, INK, PAPER
from trainer.drawing.section import Cant, Flashing, Layer, Section
from trainer.drawing.symbols import symbol, torch

_HEIGHT, _WIDTH, _ROOF, _CANT, _UP, _LEG, _CHALK = 430.0, 300.0, 590.0, 80.0, 300.0, 130.0, 300.0

PLACES = ("core", "primer", "chalk-line", "sheet", "lap", "corner", "torch", "watch")


@dataclass(frozen=True)
class Unit:
    """A unit and where on the section it belongs."""

    id: str
    place: str
    name: str
    word: str


@dataclass(frozen=True)
class _Spot:
    """Where a place's balloon stands and what it points at, in user units; ``side`` of its word."""

    balloon: Point
    target: Point
    side: str


FIELDS = (
    Field(
        "units",
        Each(
            Value(
                (
                    Field("id", Text(), "the unit; the link leads to #unit-ID"),
                    Field("place", Choice(PLACES), "where it belongs"),
                    Field("name", Text(), "its name, said aloud, already worded"),
                    Field("word", Text(), "written beside the balloon, already worded"),
                ),
                make=Unit,
            ),
            least=1,
            most=len(PLACES),
        ),
        "the units in the order of their numbers",
    ),
)


def draw(canvas: Canvas, checked: dict[str, Any]) -> None:
    """Draw the section, what stands on the roof, and a link for every unit."""
    right = canvas.width - MARGIN - 6
    scale = Scale((right - MARGIN) / (_ROOF + _WIDTH), right - _WIDTH * (right - MARGIN) / 890)
    cut = _section()
    layers.draw_layers(canvas, cut, scale)
    _primer(canvas, scale)
    _chalk(canvas, scale)
    _people_and_flame(canvas, scale)
    spots = _spots(scale)
    for number, unit in enumerate(checked["units"], 1):
        _link(canvas, number, unit, spots[unit.place])
    canvas.reach(scale.y(_HEIGHT) - 34, scale.y(-cut.depth_mm) + 8)


def _section() -> Section:
    return Section(
        height_mm=_HEIGHT,
        width_mm=_WIDTH,
        roof_mm=_ROOF,
        deck=Layer(150, "concrete"),
        insulation=Layer(120, "mineral wool"),
        core="masonry",
        field_sheets=1,
        field_upturn_mm=0,
        cant=Cant(_CANT, "mineral"),
        cladding=None,
        flashing=Flashing(_LEG, _UP, None, 0),
        dimensions=[],
        nailer_mm=None,
        void=None,
        vent=None,
        foam=None,
        chalk=None,
        flame=None,
        finish_mm=None,
    )


def _primer(canvas: Canvas, scale: Scale) -> None:
    """The primed strip above the sheet, and over the top."""
    x, top, low = scale.x(0), scale.y(_HEIGHT), scale.y(_UP)
    outline = [(x, low), (x - 7, low), (x - 7, top - 7), (scale.x(_WIDTH), top - 7)]
    closed = [*outline, (scale.x(_WIDTH), top), (x, top)]
    canvas.shapes.append(
        f'<path d="{path(closed, closed=True)}" fill="{canvas.hatch("dry")}" '
        f'stroke-width="{THIN}"/>'
    )


def _chalk(canvas: Canvas, scale: Scale) -> None:
    x, y = scale.at((-_CHALK, 0))
    canvas.lines.append(
        f'<path d="M{x:.1f} {y - 22:.1f}V{y - 3:.1f}m-4 -7l4 7l4 -7" stroke="{ACCENT}" '
        f'stroke-width="{EDGE}"/>'
    )


def _people_and_flame(canvas: Canvas, scale: Scale) -> None:
    """The watch with an extinguisher, and the torch, both well out on the roof."""
    _, ground = scale.at((0, 0))
    canvas.lines.append(symbol("person", (scale.x(-545), ground - 22), size=1.5))
    canvas.lines.append(symbol("extinguisher", (scale.x(-470), ground - 17), size=1.1))
    canvas.lines.append(torch((scale.x(-290), scale.y(250)), (0.8, 0.6)))


def _spots(scale: Scale) -> dict[str, _Spot]:
    """Balloons a finger apart; each points at what it stands for."""
    face, ground, top = scale.x(0), scale.y(0), scale.y(_HEIGHT)
    wide = _WIDTH * scale.per_mm
    return {
        "core": _Spot((face + wide / 2, scale.y(300)), (face + wide / 2, scale.y(300)), "below"),
        "primer": _Spot((face - 46, top - 4), (face - 4, scale.y(370)), "left"),
        "corner": _Spot((face + wide / 2, scale.y(60)), (face + 3, scale.y(70)), "below"),
        "sheet": _Spot((face - 46, scale.y(300)), (face - 3, scale.y(210)), "left"),
        "torch": _Spot((scale.x(-500), scale.y(395)), (scale.x(-440), scale.y(358)), "above"),
        "watch": _Spot((scale.x(-545), scale.y(190)), (scale.x(-545), ground - 40), "above"),
        "lap": _Spot((scale.x(-155), scale.y(-90)), (scale.x(-150), ground - 3), "below"),
        "chalk-line": _Spot((scale.x(-345), scale.y(-90)), (scale.x(-_CHALK), ground - 2), "below"),
    }


_RADIUS = 13.0


def _link(canvas: Canvas, number: int, unit: Unit, spot: _Spot) -> None:
    x, y = spot.balloon
    word = _word_box(unit.word, spot)
    hit = roomy((min(x - _RADIUS, word[0]), min(y - _RADIUS, word[1]),
                 max(x + _RADIUS, word[2]), max(y + _RADIUS, word[3])), TARGET)  # fmt: skip
    canvas.part_ids.append(unit.id)
    canvas.handles.append(
        f'<a href="#unit-{escaped(unit.id)}" class="part" data-part="{escaped(unit.id)}" '
        f'aria-label="{number}. {escaped(unit.name)}" pointer-events="visiblePainted">'
        f'<path class="hit" d="{rect_path(hit)}" fill="#000" fill-opacity="0" '
        f'pointer-events="all" stroke="none"/>{_leader(spot)}'
        f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{_RADIUS}" fill="{PAPER}" stroke="{ACCENT}" '
        f'stroke-width="1.8"/>{_letters(str(number), _number_box(number, spot.balloon))}'
        f"{_letters(unit.word, word, patch=True)}</a>"
    )
    canvas.reach(hit[1], hit[3])


def _leader(spot: _Spot) -> str:
    if spot.balloon == spot.target:
        return ""
    x, y = spot.target
    return (
        f'<path d="{path([spot.balloon, spot.target])}" stroke="{ACCENT}" stroke-width="1.2"/>'
        f'<circle cx="{x:.1f}" cy="{y:.1f}" r="2.4" fill="{ACCENT}" stroke="none"/>'
    )


def _number_box(number: int, at: Point) -> Box:
    wide = text_width(str(number), SIZE)
    return (at[0] - wide / 2, at[1] - SIZE / 2, at[0] + wide / 2, at[1] + SIZE / 2)


def _word_box(word: str, spot: _Spot) -> Box:
    (x, y), wide = spot.balloon, text_width(word, SIZE)
    if spot.side == "left":
        return (x - _RADIUS - 5 - wide, y - 8, x - _RADIUS - 5, y + 8)
    middle = max(x, MARGIN + wide / 2)
    top = y - _RADIUS - 19 if spot.side == "above" else y + _RADIUS + 3
    return (middle - wide / 2, top, middle + wide / 2, top + 16)


def _letters(text: str, box: Box, patch: bool = False) -> str:
    ground = f'stroke="{PAPER}" stroke-width="3" paint-order="stroke"' if patch else 'stroke="none"'
    return (
        f'<text x="{box[0]:.1f}" y="{(box[1] + box[3]) / 2 + SIZE * 0.35:.1f}" fill="{INK}" '
        f"{ground}>{escaped(text)}</text>"
    )
