"""Labels that never collide: written beside what they name, with a leader where they moved away."""

from __future__ import annotations

from typing import NamedTuple

from trainer.drawing.canvas import THIN, Canvas
from trainer.drawing.lettering import SIZE, measured, text_height, text_width
from trainer.drawing.markup import Box, Point, centre, grown, rect_path
from trainer.drawing.palette import BAD, GOOD, PAPER, SOFT

ICON = 15.0
"""Room for a tick or a cross before a text."""

_NEAR = 7.0
_TONES = {"right": GOOD, "wrong": BAD}
_SIGNS = {"right": "M-5 0l3.5 4L5 -5", "wrong": "M-4 -4l8 8M4 -4l-8 8", "missed": "M0 -6v7M0 5v.1"}


class Label(NamedTuple):
    """A text with its mark and letter size; broken into lines no wider than ``room``.

    ``patch`` clears the paper under it, where it may come to stand on hatching.
    """

    text: str
    icon: str = ""
    ink: str = ""
    size: float = SIZE
    room: float = 150.0
    patch: bool = False

    @property
    def tone(self) -> str:
        """The colour of the letters, empty for plain ink."""
        return self.ink or _TONES.get(self.icon, "")

    def extent(self) -> tuple[float, float]:
        """Width and height of the box the label needs."""
        _, wide, high = measured(self.text, self.room, self.size)
        return wide + (ICON if self.icon else 0.0), high


def sign(name: str, at: Point, weight: float = 2.4) -> str:
    """A tick, a cross or an exclamation mark, about 11 units large, in its colour."""
    tone = _TONES.get(name, BAD)
    return (
        f'<path class="sign" transform="translate({at[0]:.1f} {at[1]:.1f})" d="{_SIGNS[name]}" '
        f'stroke="{tone}" stroke-width="{weight}" stroke-linecap="round"/>'
    )


def write(canvas: Canvas, label: Label, box: Box, end: bool = False) -> None:
    """Write ``label`` into ``box`` and take the room; ``end`` sets the lines flush right."""
    left, top, right, bottom = box
    lines, tone = measured(label.text, label.room, label.size)[0], label.tone
    style = f' fill="{tone}"' if tone else ""
    canvas.reach(top, bottom)
    if label.patch:
        canvas.lines.append(patch(grown(box, 1.5)))
    if label.icon:
        canvas.lines.append(sign(label.icon, (left + 6, top + label.size * 0.65)))
        left += ICON
    if end:
        canvas.text(right, top, lines, label.size, f'{style} text-anchor="end"')
    else:
        canvas.text(left, top, lines, label.size, style)
    canvas.placer.take(box)


def patch(box: Box) -> str:
    """Clear paper, for letters to stand on hatching."""
    return f'<path d="{rect_path(box)}" fill="{PAPER}" fill-opacity=".84" stroke="none"/>'


def label_near(
    canvas: Canvas, label: Label, anchor: Box, target: Point | None = None, near: float = _NEAR
) -> Box | None:
    """Write ``label`` beside ``anchor``, with a leader to ``target`` when it is not ``near`` it."""
    if not label.text:
        return None
    wide, high = label.extent()
    box = canvas.placer.near(anchor, wide, high)
    write(canvas, label, box)
    if _gap(box, anchor) > near:
        leader(canvas, box, target or centre(anchor))
    return box


def label_in(canvas: Canvas, label: Label, box: Box) -> bool:
    """Write ``label`` in the middle of ``box`` on a clear patch; False where it has no room."""
    wide, high = label.extent()
    if wide + 6 > box[2] - box[0] or high + 4 > box[3] - box[1]:
        return False
    left, top = (box[0] + box[2] - wide) / 2, (box[1] + box[3] - high) / 2
    place = (left, top, left + wide, top + high)
    if not canvas.placer.free(place, lines_too=False):
        return False
    canvas.lines.append(patch(grown(place, 2)))
    write(canvas, label, place)
    return True


def leader(canvas: Canvas, box: Box, target: Point, ends: bool = True) -> None:
    """A thin line from the edge of ``box`` to ``target``, ending in a dot on what is meant."""
    canvas.line([leader_start(box, target), target], THIN)
    if ends:
        canvas.lines.append(dot(target))


def leader_start(box: Box, target: Point) -> Point:
    """Where a leader leaves ``box`` on its way to ``target``."""
    left, top, right, bottom = box
    middle = (top + bottom) / 2
    if target[0] > right:
        return (right + 2, middle)
    if target[0] < left:
        return (left - 2, middle)
    return (target[0], bottom if target[1] > bottom else top)


def _gap(a: Box, b: Box) -> float:
    return max(a[0] - b[2], b[0] - a[2], a[1] - b[3], b[1] - a[3])


def dot(at: Point) -> str:
    """The dot a leader ends in."""
    return f'<path d="M{at[0]:.1f} {at[1]:.1f}h.1" stroke-width="4" stroke-linecap="round"/>'


def plain_text(canvas: Canvas, text: str, x: float, top: float, size: float = SIZE) -> Box:
    """A quiet word at a fixed place (a caption), its room taken."""
    box = (x, top, x + text_width(text, size), top + text_height(1, size))
    canvas.text(x, top, (text,), size, f' fill="{SOFT}"')
    canvas.reach(top, box[3])
    canvas.placer.take(box)
    return box
