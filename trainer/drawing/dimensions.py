"""Dimension lines, dimension chains, level marks and the scale bar."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from trainer.drawing.canvas import THIN, Canvas
from trainer.drawing.labels import Label, label_near, leader, write
from trainer.drawing.lettering import SMALL, text_height, text_width
from trainer.drawing.markup import Box, Point, around, direction, distance, num
from trainer.drawing.palette import INK, PAPER

_TICK = 3.6


def tick(at: Point) -> str:
    """Path data of one oblique stroke across a dimension line."""
    return f"M{at[0] - _TICK:.1f} {at[1] + _TICK:.1f}l{2 * _TICK} -{2 * _TICK}"


def dimension(canvas: Canvas, a: Point, b: Point, label: Label, offset: float = 0.0) -> None:
    """A dimension line from ``a`` to ``b`` in user units, with its text beside it.

    ``offset`` moves the line to the left of a → b, with extension lines back to the points.
    """
    start, end = _moved(a, b, offset), _moved(b, a, -offset)
    stroke = f' stroke="{label.tone}"' if label.tone else ""
    if offset:
        canvas.line([a, start], THIN, stroke)
        canvas.line([b, end], THIN, stroke)
    canvas.line([start, end], THIN + 0.3, stroke)
    canvas.lines.append(f'<path d="{tick(start)}{tick(end)}" stroke-width="1.6"{stroke}/>')
    reach = around([start, end])
    canvas.reach(reach[1] - _TICK, reach[3] + _TICK)
    _label_line(canvas, label, start, end)
    for point in (start, end):
        canvas.placer.avoid(around([(point[0] - 4, point[1] - 4), (point[0] + 4, point[1] + 4)]))


def _moved(a: Point, b: Point, offset: float) -> Point:
    if not offset:
        return a
    dx, dy = direction(a, b)
    return (a[0] + dy * offset, a[1] - dx * offset)


def _label_line(canvas: Canvas, label: Label, a: Point, b: Point) -> None:
    """The text of a dimension: over a long level line, else beside its middle."""
    if not label.text:
        return
    wide, high = label.extent()
    x, y = (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
    level = abs(a[1] - b[1]) <= abs(a[0] - b[0])
    spots = _level_spots(x, y, wide, high) if level else _upright_spots(x, y, wide, high)
    box = canvas.placer.spot(wide, high, spots)
    if box is None:
        label_near(canvas, label, (x - 3, y - 3, x + 3, y + 3))
        return
    write(canvas, label, box)
    if not level and distance((x, y), ((box[0] + box[2]) / 2, y)) > wide / 2 + 12:
        leader(canvas, box, (x, y), ends=False)


def _level_spots(x: float, y: float, wide: float, high: float) -> list[Point]:
    left = x - wide / 2
    return [
        (left, y - high - 2),
        (left, y + 3),
        (left - wide / 2, y - high - 2),
        (left + wide / 2, y + 3),
    ]


def _upright_spots(x: float, y: float, wide: float, high: float) -> list[Point]:
    top = y - high / 2
    return [(side, top + shift) for shift in (0.0, -high, high) for side in (x + 6, x - 6 - wide)]


def chain(
    canvas: Canvas, stops: Sequence[float], texts: Sequence[str], y: float, foot: float
) -> None:
    """A run of dimensions along one level line at ``y``; extension lines reach to ``foot``.

    ``texts`` has one entry for each gap between ``stops``; where a gap is too narrow its text moves
    to another row. A unit that all texts share is written once, with the last.
    """
    up = -1.0 if y < foot else 1.0
    canvas.line([(stops[0] - 4, y), (stops[-1] + 4, y)], THIN)
    marks = "".join([tick((x, y)) for x in stops])
    gap = foot + up * 3
    feet = "".join([f"M{x:.1f} {y + up * 4:.1f}V{gap:.1f}" for x in stops])
    canvas.lines.append(
        f'<path d="{marks}" stroke-width="1.4"/><path d="{feet}" stroke-width=".5"/>'
    )
    canvas.placer.take((stops[0] - 4, y - 3, stops[-1] + 4, y + 3))
    for i, text in enumerate(unit_once(texts)):
        _chain_text(canvas, Label(text, size=SMALL), stops[i], stops[i + 1], y, up)


def _chain_text(canvas: Canvas, label: Label, a: float, b: float, y: float, up: float) -> None:
    if not label.text:
        return
    wide, high = label.extent()
    middle = (a + b) / 2
    rows = [y - high - 5.5 - row * high if up < 0 else y + 5.5 + row * high for row in range(6)]
    box = canvas.placer.spot(wide, high, [(middle - wide / 2, top) for top in rows])
    box = box or canvas.placer.below((middle, rows[-1], middle, rows[-1]), wide, high)
    write(canvas, label, box)
    if box[1] != rows[0] or wide > b - a + 20:
        leader(canvas, box, (middle, y), ends=False)


def unit_once(texts: Sequence[str]) -> list[str]:
    """``texts`` with the unit they all end in kept on the last alone, as a chain is written."""
    units = {text.rpartition("\u00a0")[2] for text in texts}
    unit = units.pop()
    if units or any(character.isdigit() for character in unit):
        return list(texts)
    return [*[text.removesuffix(unit).rstrip() for text in texts[:-1]], texts[-1]]


def level_mark(canvas: Canvas, x: float, y: float) -> None:
    """A level: a triangle standing on its point at (x, y)."""
    canvas.lines.append(f'<path d="M{x:.1f} {y:.1f}l-6 -9h12Z" fill="{PAPER}" stroke-width="1.1"/>')
    canvas.placer.take((x - 7, y - 10, x + 7, y + 1))


_METRIC = (50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000)
_INCHES = (2, 4, 6, 12, 24, 48, 120, 240, 480, 1200)
_BAR = 84.0


def scale_bar(
    canvas: Canvas, per_mm: float, length: Callable[[float], str], note: str = ""
) -> None:
    """A bar of a round length in the worker's unit under all that is drawn, and a ``note``."""
    mm = round_length(_BAR / per_mm, length)
    wide = mm * per_mm
    y = canvas.bottom + 14
    x, half = canvas.left, num(wide / 2)
    canvas.lines.append(
        f'<path class="scale-bar" d="M{x:.1f} {y:.1f}h{wide:.1f}" stroke-width="6"/>'
        f'<path d="M{x + wide / 2:.1f} {y:.1f}h{half}" stroke="{PAPER}" stroke-width="4"/>'
    )
    canvas.placer.take((x, y - 4, x + wide, y + 4))
    high = text_height(1, SMALL)
    text = Label(length(mm), size=SMALL)
    box = (x + wide + 6, y - high / 2, x + wide + 6 + text_width(text.text, SMALL), y + high / 2)
    write(canvas, text, box)
    if note:
        _bar_note(canvas, note, box)


def _bar_note(canvas: Canvas, note: str, bar: Box) -> None:
    room = canvas.right - bar[2] - 14
    label = Label(note, size=SMALL, room=canvas.right - canvas.left)
    wide, high = label.extent()
    if wide <= room:
        write(canvas, label, (canvas.right - wide, bar[1], canvas.right, bar[1] + high))
    else:
        write(canvas, label, (canvas.left, bar[3] + 4, canvas.left + wide, bar[3] + 4 + high))


def in_inches(length: Callable[[float], str]) -> bool:
    """Whether ``length`` writes inches: whoever calls 25.4 mm "1" works in inches."""
    return length(25.4).lstrip()[:1] == "1" and length(1000.0).lstrip()[:1] != "1"


def round_length(about: float, length: Callable[[float], str]) -> float:
    """The round length in the worker's unit nearest below ``about`` millimetres."""
    steps = [n * 25.4 for n in _INCHES] if in_inches(length) else [float(n) for n in _METRIC]
    fitting = [step for step in steps if step <= about]
    return fitting[-1] if fitting else steps[0]


__all__ = [
    "INK",
    "chain",
    "dimension",
    "in_inches",
    "level_mark",
    "round_length",
    "scale_bar",
    "tick",
    "unit_once",
]
