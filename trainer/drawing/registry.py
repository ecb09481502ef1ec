"""Which kinds of figure there are, and the one way to draw any of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from trainer.drawing import (
    days,
    elevation,
    flat,
    lap_section,
    plan,
    section,
    timeline,
    way_in,
    work,
)
from trainer.drawing.canvas import Canvas
from trainer.drawing.fields import COMMON, Field, Figure, Request
from trainer.errors import InputError, MissingField


@dataclass(frozen=True)
class KindOfFigure:
    """A kind: its own fields, and what draws them."""

    fields: tuple[Field, ...]
    draw: Callable[[Canvas, dict[str, Any]], None]


KINDS: Mapping[str, KindOfFigure] = {
    "parapet-section": KindOfFigure(section.FIELDS, section.draw),
    "wall-elevation": KindOfFigure(elevation.FIELDS, elevation.draw),
    "roof-plan": KindOfFigure(plan.FIELDS, plan.draw),
    "flat-pattern": KindOfFigure(flat.FIELDS, flat.draw),
    "lap-section": KindOfFigure(lap_section.FIELDS, lap_section.draw),
    "wall-at-work": KindOfFigure(work.FIELDS, work.draw),
    "timeline": KindOfFigure(timeline.FIELDS, timeline.draw),
    "days": KindOfFigure(days.FIELDS, days.draw),
    "way-in": KindOfFigure(way_in.FIELDS, way_in.draw),
}
_ALL = {name: Figure(COMMON + kind.fields) for name, kind in KINDS.items()}


def in_millimetres(mm: float) -> str:
    """A length in whole millimetres."""
    return f"{mm:.0f} mm"


def draw(
    figure: Mapping[str, Any],
    say: Callable[[str], str] = str,
    length: Callable[[float], str] = in_millimetres,
) -> str:
    """``figure`` as one ``<svg>`` element: the same data gives the same bytes on every machine.

    ``figure["kind"]`` names the kind, the rest is plain data as docs/drawings.md says; ``say``
    translates the words of the drawing, ``length`` writes millimetres in the worker's unit.
    Raises InputError naming the field that cannot be drawn.
    """
    name = kind_of(figure)
    common, own = _ALL[name].split(figure)
    canvas = Canvas(Request(**common, say=say, length=lambda mm: length(mm).replace(" ", "\u00a0")))
    KINDS[name].draw(canvas, own)
    _check_parts(canvas)
    return canvas.svg()


def kind_of(figure: Mapping[str, Any]) -> str:
    """The kind the figure asks for. Raises InputError when there is no such kind."""
    allowed = " or ".join(f'"{name}"' for name in KINDS)
    if "kind" not in figure:
        raise MissingField("kind", allowed)
    name = figure["kind"]
    if not isinstance(name, str) or name not in KINDS:
        raise InputError("kind", name, allowed)
    return name


def _check_parts(canvas: Canvas) -> None:
    """States and names may only be given for parts that are there."""
    request = canvas.request
    groups = {
        "states": request.states,
        "names": request.names,
        "said": request.said,
        "places": request.places,
    }
    for field, given in groups.items():
        for ident in given:
            if ident not in canvas.part_ids:
                raise InputError(
                    f"{field}.{ident}",
                    given[ident],
                    "parts of this figure: " + ", ".join(canvas.part_ids),
                )
