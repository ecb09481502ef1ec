"""Timeline: a day's minutes running down the page, as in a site diary.

Figure coordinates: [minute of the day, track]; track 0 lies right of the bands, 1 further right.
Parts: "event-0"…, "band-0"…, "track-0"…, "turn-0"… (bands of the tracks, one track after the
other), "marker-0"… Fields, units and ranges: ``FIELDS``.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from trainer.drawing import timeline_rows as rows
from trainer.drawing.canvas import MARGIN, Canvas
from trainer.drawing.overlays import draw_overlays
from trainer.drawing.timeline_data import FIELDS, Timeline
from trainer.drawing.timeline_tracks import draw_tracks, lay_columns
from trainer.errors import InputError


def draw(canvas: Canvas, checked: dict[str, Any]) -> None:
    """Draw the timeline described by the checked fields. Raises InputError on bad times."""
    line = Timeline(**checked)
    _check(line)
    lanes = rows.lanes(line.bands)
    frame = _frame(canvas, line, max(lanes, default=-1) + 1)
    rows.draw_axis(canvas, line, frame)
    rows.draw_bands(canvas, line, frame, lanes)
    draw_tracks(canvas, line, frame)
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
    bands = [(f"bands[{i}]", band) for i, band in enumerate(line.bands)]
    for i, track in enumerate(line.tracks):
        bands += [(f"tracks[{i}].bands[{j}]", band) for j, band in enumerate(track.bands)]
    for name, band in bands:
        if not first <= band.from_min < band.to_min <= last:
            raise InputError(f"{name}.to_min", band.to_min, f"after from_min, within {shown}")
    _check_tracks(line)
    if line.cover and not first <= line.cover.from_min < line.cover.to_min <= last:
        allowed = f"after from_min, within {shown}"
        raise InputError("cover.to_min", line.cover.to_min, allowed)


def _check_tracks(line: Timeline) -> None:
    """Nobody does two things at once, and a cover needs somebody."""
    for i, track in enumerate(line.tracks):
        ordered = sorted(track.bands, key=lambda band: band.from_min)
        for before, band in pairwise(ordered):
            if band.from_min < before.to_min:
                name = f"tracks[{i}].bands[{track.bands.index(band)}].from_min"
                allowed = f"≥ {before.to_min:g}, where what this person does before ends"
                raise InputError(name, band.from_min, allowed)
    if line.cover and not line.tracks:
        raise InputError("cover", line.cover.kind, "tracks beside it")


_SHORT, _TALL = 230.0, 480.0


def _frame(canvas: Canvas, line: Timeline, lanes: int) -> rows.Frame:
    count = (
        len(rows.gaps(canvas, line))
        + len(line.events)
        + len(line.markers)
        + sum(1 for band in line.bands if band.label)
    )
    row = 42.0 if canvas.live else 30.0
    tall = min(_TALL, max(_SHORT, count * row))
    axis = MARGIN + (62 if line.to_min > 1440 else 44)
    moving = any(marker.movable for marker in line.markers)
    dimensions = sum(1 for overlay in canvas.request.after or [] if overlay.type == "dimension")
    wide = 14.0 if line.tracks else 58.0
    room = 16.0 + (wide + 14.0 * dimensions if dimensions else 38.0 if moving else 0.0)
    columns = lay_columns(canvas, line, axis + 10 + lanes * rows.LANE, room)
    tracks = columns[-1][1] + 4 if columns else axis + 10 + lanes * rows.LANE
    per_min = tall / (line.to_min - line.from_min)
    return rows.Frame(line.from_min, per_min, axis, axis + 10, columns, tracks, tracks + room)


__all__ = ["FIELDS", "draw"]
