"""Sheets laid on the roof plan, one over the other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from trainer.drawing.canvas import CUT, Canvas, Scale
from trainer.drawing.interaction import part
from trainer.drawing.labels import Label, label_near, write
from trainer.drawing.legend import Entry
from trainer.drawing.lettering import SMALL
from trainer.drawing.markup import Box, Point, num, rect_path
from trainer.drawing.palette import PAPER
from trainer.drawing.plan_data import Plan
from trainer.drawing.plan_objects import rect_box
from trainer.drawing.plan_site_data import Laid

_HATCH = {1: "", 2: "ply-2", 3: "ply-3"}
_Span = tuple[float, float]


def draw_laid(canvas: Canvas, plan: Plan, scale: Scale) -> None:
    """Sheets in the order they were laid; an edge under a later sheet is dashed."""
    boxes = [rect_box(sheet, scale) for sheet in plan.laid]
    for i, sheet in enumerate(plan.laid):
        box = boxes[i]
        own = sheet.label or f"{canvas.request.say('sheet')} {i + 1}"
        part(canvas, f"laid-{i}", own, _sheet(canvas, sheet, box), (box[:2], box[2:]))
        canvas.reach(box[1], box[3])
        for a, b in _sides(box):
            canvas.placer.avoid_line(a, b)
    hidden = "".join([run for i, box in enumerate(boxes) for run in _hidden(box, boxes[i + 1 :])])
    if hidden:
        canvas.shapes.append(
            f'<path class="under" d="{hidden}" stroke-width="1.3" stroke-dasharray="5 3"/>'
        )


def _sheet(canvas: Canvas, sheet: Laid, box: Box) -> str:
    data, hatch = rect_path(box), _HATCH[sheet.ply or 1]
    ground = f'<path d="{data}" fill="{PAPER}" stroke-width="{CUT}"/>'
    if not hatch:
        return ground
    return f'{ground}<path d="{data}" fill="{canvas.hatch(hatch)}" stroke="none"/>'


def _sides(box: Box) -> tuple[tuple[Point, Point], ...]:
    left, top, right, bottom = box
    return (
        ((left, top), (right, top)),
        ((right, top), (right, bottom)),
        ((left, bottom), (right, bottom)),
        ((left, top), (left, bottom)),
    )


def _hidden(box: Box, later: Sequence[Box]) -> Iterator[str]:
    """Path data of the stretches of ``box``'s edges that lie under ``later`` sheets."""
    left, top, right, bottom = box
    for y in (top, bottom):
        spans = [(o[0], o[2]) for o in later if o[1] + 0.05 < y < o[3] - 0.05]
        for a, b in _merged(spans, left, right):
            yield f"M{num(a)} {num(y)}H{num(b)}"
    for x in (left, right):
        spans = [(o[1], o[3]) for o in later if o[0] + 0.05 < x < o[2] - 0.05]
        for a, b in _merged(spans, top, bottom):
            yield f"M{num(x)} {num(a)}V{num(b)}"


def _merged(spans: Sequence[_Span], low: float, high: float) -> list[_Span]:
    """``spans`` cut to ``low`` and ``high`` and joined where they meet."""
    made: list[_Span] = []
    for a, b in sorted((max(a, low), min(b, high)) for a, b in spans):
        if a >= b:
            continue
        if made and a <= made[-1][1]:
            made[-1] = (made[-1][0], max(made[-1][1], b))
        else:
            made.append((a, b))
    return made


def name_laid(canvas: Canvas, plan: Plan, scale: Scale) -> None:
    """Each sheet's name, written where that sheet lies on top."""
    boxes = [rect_box(sheet, scale) for sheet in plan.laid]
    for i, sheet in enumerate(plan.laid):
        text = canvas.request.names.get(f"laid-{i}", sheet.label)
        if text:
            _name(canvas, text, boxes[i], boxes[i + 1 :])


def _name(canvas: Canvas, text: str, box: Box, later: Sequence[Box]) -> None:
    label = Label(text, size=SMALL, room=max(box[2] - box[0] - 8, 24.0), patch=True)
    wide, high = label.extent()
    corners = [
        (x, y)
        for x, y in _grid(box, wide, high)
        if not any(_meet((x, y, x + wide, y + high), other) for other in later)
    ]
    found = canvas.placer.spot(wide, high, corners)
    if found:
        write(canvas, label, found)
    else:
        label_near(canvas, label._replace(room=110), box)


def _grid(box: Box, wide: float, high: float) -> Iterator[Point]:
    """Top left corners of labels inside ``box``, the middle first."""
    left, top, right, bottom = box[0] + 4, box[1] + 3, box[2] - 4 - wide, box[3] - 3 - high
    if right < left or bottom < top:
        return
    for share in (0.5, 0.25, 0.75, 0.0, 1.0):
        for other in (0.5, 0.25, 0.75, 0.0, 1.0):
            yield (left + (right - left) * share, top + (bottom - top) * other)


def _meet(a: Box, b: Box) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def sheet_entries(canvas: Canvas, plan: Plan) -> list[Entry]:
    """The key of plies, and of an edge that lies under another sheet."""
    say = canvas.request.say
    plies = sorted({sheet.ply for sheet in plan.laid if sheet.ply})
    entries = [_ply(say(f"ply {ply}"), _HATCH[ply]) for ply in plies if len(plies) > 1]
    if len(plan.laid) > 1:
        mark = '<path d="M-11 0H11" stroke-width="1.3" stroke-dasharray="5 3"/>'
        entries.append(Entry(say("edge under a sheet"), mark=mark))
    return entries


def _ply(text: str, hatch: str) -> Entry:
    if hatch:
        return Entry(text, hatch=hatch)
    return Entry(text, mark=f'<path d="M-11 -7H11V7H-11Z" stroke-width="{CUT}"/>')
