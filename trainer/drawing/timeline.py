"""Timeline: a day's minutes running down the page, as in a site diary.

Figure coordinates: [minute of the day, track]; track 0 lies right of the bands, 1 further right.
Parts: "event-0"…, "band-0"…, "marker-0"… Fields, units and ranges: ``FIELDS``.
"""

from __future__ import annotations

from typing import Any

from trainer.drawing import timeline_rows as rows
from trainer.drawing.canvas import MARGIN, Canvas
from trainer.drawing.overlays import draw_overlays
from trainer.drawing.timeline_data import FIELDS, Timeline
from trainer.errors import InputError


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
    first, last = line.from_min, line.to_min
    if first >= last:
        raise InputError("to_min", last, f"> from_min ({first:g})")
    shown = f"{first:g} to {last:g}, the minutes drawn"
    times = [("events", i, event.at_min) for i, event in enumerate(line.events)]
    times += [("markers", i, marker.at_min) for i, marker in enumerate(line.markers)]
    for name, i, minute in times:
        if not first <= minute <= last:
            raise InputError(f"{name}[{i}].at_min", minute, shown)
    for i, band in enumerate(line.bands):
        if not first <= band.from_min < band.to_min <= last:
            raise InputError(f"bands[{i}].to_min", band.to_min, f"after from_min, within {shown}")


_SHORT, _TALL = 230.0, 480.0


def _frame(canvas: Canvas, line: Timeline, lanes: int) -> rows.Frame:
    count = len(line.events) + len(line.markers) + sum(1 for band in line.bands if band.label)
    row = 42.0 if canvas.live else 30.0
    tall = min(_TALL, max(_SHORT, count * row))
    axis = MARGIN + 44
    tracks = axis + 10 + lanes * rows.LANE
    moving = any(marker.movable for marker in line.markers)
    dimensions = sum(1 for overlay in canvas.request.after or [] if overlay.type == "dimension")
    room = 16.0 + (58.0 + 14.0 * dimensions if dimensions else 38.0 if moving else 0.0)
    return rows.Frame(
        line.from_min, tall / (line.to_min - line.from_min), axis, axis + 10, tracks, tracks + room
    )


__all__ = ["FIELDS", "draw"]
