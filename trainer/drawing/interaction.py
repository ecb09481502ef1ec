"""Parts that can be pressed and things that can be moved: plain attributes a script can read.

docs/drawings.md says what each attribute means.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from trainer.drawing.canvas import Canvas, Scale
from trainer.drawing.fields import Range
from trainer.drawing.labels import sign
from trainer.drawing.markup import Box, Point, around, escaped, ratio, rect_path
from trainer.drawing.palette import ACCENT, BAD, GOOD, PAPER
from trainer.errors import InputError

TARGET = 44.0
"""The least size of a thing to press: 44 CSS px, the target size of WCAG 2.2, criterion 2.5.5."""

_UNSEEN = 'fill="#000" fill-opacity="0" pointer-events="all"'
RINGS = {
    "chosen": f'stroke="{ACCENT}" stroke-width="2.5"',
    "right": f'stroke="{GOOD}" stroke-width="2.5"',
    "wrong": f'stroke="{BAD}" stroke-width="2.5" stroke-dasharray="7 3"',
    "missed": f'stroke="{BAD}" stroke-width="2.5" stroke-dasharray="2 4"',
}


def part(
    canvas: Canvas,
    ident: str,
    own: str,
    shapes: str,
    *hits: Sequence[Point],
    layer: str = "shapes",
    crowded: bool = False,
) -> None:
    """Draw ``shapes`` as the part ``ident``, in the layer named.

    ``own`` says aloud what it is where the figure gives no name. Each of ``hits`` are points whose
    box is pressed, grown to the least size of a thing to press unless neighbours stand ``crowded``.
    What is pressed, and the ring that shows it, lies over all shapes, so that none hides it.
    """
    canvas.part_ids.append(ident)
    into = canvas.lines if layer == "lines" else canvas.shapes
    into.append(f'<g data-shape="{ident}">{shapes}</g>')
    request = canvas.request
    state = request.states.get(ident, "")
    pressed = canvas.live and (not request.places or ident in request.places)
    if not (state or pressed):
        return
    boxes = [_pressed(canvas, points, crowded) for points in hits]
    said = request.said.get(ident) or request.names.get(ident) or own
    live = _live(said, state) if pressed else ""
    names = f"{'part' if live else ''}{f' is-{state}' if state else ''}".strip()
    ring, known = _ring(boxes, state), request.places.get(ident, ident)
    canvas.hits.append(f'<g class="{names}" data-part="{known}"{live}>{ring}</g>')
    for box in boxes:
        canvas.reach(box[1], box[3])
    if state in ("right", "wrong", "missed"):
        _mark(canvas, state, boxes[0])


def _pressed(canvas: Canvas, points: Sequence[Point], crowded: bool) -> Box:
    left, top, right, bottom = around(points) if crowded else roomy(around(points))
    return (max(left, 2.0), top, min(right, canvas.width - 2.0), bottom)


def _live(name: str, state: str) -> str:
    pressed = "true" if state == "chosen" else "false"
    return f' tabindex="0" role="button" aria-label="{escaped(name)}" aria-pressed="{pressed}"'


def roomy(box: Box, least: float = TARGET) -> Box:
    """``box`` grown round its middle to the least size of a thing to press."""
    left, top, right, bottom = box
    wide, high = max(0.0, least - right + left) / 2, max(0.0, least - bottom + top) / 2
    return (left - wide, top - high, right + wide, bottom + high)


def _ring(boxes: Sequence[Box], state: str) -> str:
    stroke = RINGS.get(state, 'stroke="none"')
    data = "".join([rect_path(box) for box in boxes])
    return f'<path class="hit" d="{data}" {_UNSEEN} {stroke}/>'


def _mark(canvas: Canvas, state: str, hit: Box) -> None:
    """A tick, a cross or a stroke on the upper right corner of what was pressed."""
    x, y = hit[2] - 2, hit[1] + 2
    canvas.lines.append(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="9" fill="{PAPER}" stroke="none"/>')
    canvas.lines.append(sign(state, (x, y)))
    canvas.placer.take((x - 9, y - 9, x + 9, y + 9))
    canvas.reach(y - 9, y + 9)


def part_name(canvas: Canvas, ident: str, own: str) -> str:
    """What a part is called: the name given in the figure, else its own."""
    return canvas.request.names.get(ident, own)


class Axis(NamedTuple):
    """One way a thing may move: its zero in user units, signed millimetres per unit, its range."""

    letter: str
    zero: float
    per_px: float
    value: float
    range: Range

    @property
    def place(self) -> float:
        """Where the value lies, in user units."""
        return self.zero + self.value / self.per_px


def axes_over(
    scale: Scale, at: Point, movable_x: Range | None, movable_y: Range | None
) -> list[Axis]:
    """The ways in which a point of a drawing that is to scale may move."""
    axes = []
    if movable_x:
        axes.append(Axis("x", scale.zero_x, 1 / scale.per_mm, at[0], movable_x))
    if movable_y:
        axes.append(Axis("y", scale.zero_y, -1 / scale.per_mm, at[1], movable_y))
    return axes


class Movable(NamedTuple):
    """A thing to move: its id and spoken name, its axes, its looks round its own origin."""

    ident: str
    name: str
    axes: Sequence[Axis]
    shapes: str
    grip: Point = (0.0, 0.0)
    still: float = 0.0
    """Where it stands along the axis it cannot move on, in user units."""
    tether: str = ""
    """The line from the thing to its grip; gone with the grip."""


def movable(canvas: Canvas, thing: Movable) -> None:
    """Draw ``thing`` at its value; until the decision is answered it can be moved."""
    for axis in thing.axes:
        _check(thing, axis)
    at = _origin(thing)
    place = f'transform="translate({at[0]:.1f} {at[1]:.1f})"'
    if canvas.request.answered:
        shapes = f"<g {place}>{thing.shapes}</g>"
        part(canvas, thing.ident, thing.name, shapes, (at,), layer="lines")
        return
    canvas.part_ids.append(thing.ident)
    canvas.handles.append(
        f'<g class="movable" data-part="{thing.ident}" {place} {_attributes(thing)}>'
        f"{thing.tether}{thing.shapes}{_grip(thing)}</g>"
    )
    canvas.reach(at[1] + thing.grip[1] - 22, at[1] + thing.grip[1] + 22)


def _check(thing: Movable, axis: Axis) -> None:
    span = axis.range
    if not span.low <= axis.value <= span.high:
        allowed = f"{span.low:g} ≤ value ≤ {span.high:g} along {axis.letter}"
        raise InputError(thing.ident, axis.value, allowed)


def _origin(thing: Movable) -> Point:
    places = {axis.letter: axis.place for axis in thing.axes}
    return (places.get("x", thing.still), places.get("y", thing.still))


def _attributes(thing: Movable) -> str:
    axes = thing.axes

    def listed(values: Sequence[float]) -> str:
        return ",".join([ratio(value) for value in values])

    zeros = "".join([f' data-zero-{axis.letter}="{axis.zero:.1f}"' for axis in axes])
    return (
        f'data-axis="{"".join([axis.letter for axis in axes])}" '
        f'data-min="{listed([axis.range.low for axis in axes])}" '
        f'data-max="{listed([axis.range.high for axis in axes])}" '
        f'data-step="{listed([axis.range.step for axis in axes])}" '
        f'data-per-px="{listed([axis.per_px for axis in axes])}"{zeros} '
        f'data-value="{listed([axis.value for axis in axes])}" tabindex="0" '
        f'pointer-events="visiblePainted" {_role(thing)}'
    )


def _role(thing: Movable) -> str:
    name = f'aria-label="{escaped(thing.name)}"'
    if len(thing.axes) != 1:
        return f'role="button" {name}'
    axis = thing.axes[0]
    upright = "vertical" if axis.letter == "y" else "horizontal"
    return (
        f'role="slider" {name} aria-orientation="{upright}" '
        f'aria-valuemin="{ratio(axis.range.low)}" aria-valuemax="{ratio(axis.range.high)}" '
        f'aria-valuenow="{ratio(axis.value)}"'
    )


def _grip(thing: Movable) -> str:
    """The round handle with arrows along the axes, and the invisible disc that is touched."""
    x, y = thing.grip
    arrows = ""
    letters = {axis.letter for axis in thing.axes}
    if "x" in letters:
        arrows += "M-6 -3.5l-3.5 3.5l3.5 3.5M6 -3.5l3.5 3.5l-3.5 3.5"
    if "y" in letters:
        arrows += "M-3.5 -6l3.5 -3.5l3.5 3.5M-3.5 6l3.5 3.5l3.5 -3.5"
    return (
        f'<g class="grip" transform="translate({x:.1f} {y:.1f})">'
        f'<circle class="hit" r="{TARGET / 2:.1f}" {_UNSEEN} stroke="none"/>'
        f'<circle r="13" fill="{PAPER}" stroke="{ACCENT}" stroke-width="2"/>'
        f'<path d="{arrows}" stroke="{ACCENT}" stroke-width="2" stroke-linecap="round"/></g>'
    )


def shared_out(middles: Sequence[float], size: float = TARGET) -> list[tuple[float, float]]:
    """Stretches to press round ``middles`` (rising), ``size`` long where neighbours let them."""
    reaches = []
    for i, middle in enumerate(middles):
        low, high = middle - size / 2, middle + size / 2
        if i:
            low = max(low, (middles[i - 1] + middle) / 2)
        if i + 1 < len(middles):
            high = min(high, (middles[i + 1] + middle) / 2)
        reaches.append((low, high))
    return reaches
