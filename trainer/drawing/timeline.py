"""Timeline: a day's minutes running down the page, as in a site diary.

Figure coordinates: [minute of the day, track]; track 0 lies right of the bands, 1 further right.
Parts: "event-0"…, "band-0"…, "marker-0"… Fields, units and ranges: ``FIELDS``.
"""

from __future__ import annotations

from typing import Any

from trainer.drawing import timeline_rows as rows
from trainer.drawing.canvas import MARGIN, Canvas
from trainer.drawing.fields import refuse_unless
from trainer.drawing.overlays import draw_overlays
from trainer.drawing.timeline_data import FIELDS, Timeline


def draw(canvas: Canvas, checked: dict[str, Any]) -> None:
    """Draw the timeline described by the checked fields. Raises InputError on bad times."""
    line = Timeline(**checked)
    _check(line)
    lanes = rows.lanes(line.bands)
    frame = _frame(canvas, line, max(lanes, default=-1) + 1)
    rows.draw_axis(canvas, line, frame)
    rows.draw_bands(canvas, line, frame, lanes)
    rows.draw_rows(canvas, line, frame, lanes)
    draw_overlays(canvas, frame.at, frame.per_min)
    rows.draw_key(canvas, line)


def _check(line: Timeline) -> None:
    allowed = f"> from_min ({line.from_min:g})"
    refuse_unless(line.from_min < line.to_min, "to_min", line.to_min, allowed)
    shown = f"{line.from_min:g} to {line.to_min:g}, the minutes drawn"
    times = [(f"events[{i}].at_min", event.at_min) for i, event in enumerate(line.events)]
    times += [(f"markers[{i}].at_min", marker.at_min) for i, marker in enumerate(line.markers)]
    for name, minute in times:
        refuse_unless(line.from_min <= minute <= line.to_min, name, minute, shown)
    for i, band in enumerate(line.bands):
        inside = line.from_min <= band.from_min < band.to_min <= line.to_min
        refuse_unless(inside, f"bands[{i}].to_min", band.to_min, f"after from_min, within {shown}")


_SHORT, _TALL, _ROW = 230.0, 460.0, 30.0


def _frame(canvas: Canvas, line: Timeline, lanes: int) -> rows.Frame:
    count = len(line.events) + len(line.markers) + sum(1 for band in line.bands if band.label)
    tall = min(_TALL, max(_SHORT, count * _ROW))
    axis = MARGIN + 44
    tracks = axis + 10 + lanes * rows.LANE
    moving = any(marker.movable for marker in line.markers)
    dimensions = sum(1 for overlay in canvas.request.after or [] if overlay.type == "dimension")
    room = 16.0 + (58.0 + 14.0 * dimensions if dimensions else 38.0 if moving else 0.0)
    return rows.Frame(
        line.from_min, tall / (line.to_min - line.from_min), axis, axis + 10, tracks, tracks + room
    )


__all__ = ["FIELDS", "draw"]
