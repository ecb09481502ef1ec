"""Several people's day side by side on the timeline, and what nobody covers."""

from __future__ import annotations

from collections.abc import Sequence

from trainer.drawing.canvas import EDGE, Canvas
from trainer.drawing.interaction import TARGET, part, part_name
from trainer.drawing.labels import Label, label_in
from trainer.drawing.lettering import SMALL, text_height, text_width, wrapped
from trainer.drawing.markup import rect_path
from trainer.drawing.palette import BAD, FAINT, PAPER
from trainer.drawing.timeline_data import BANDS, Band, Timeline
from trainer.drawing.timeline_rows import Frame, gaps
from trainer.errors import InputError

_WIDEST, _NARROW, _GAP, _LABELS = 84.0, 62.0, 6.0, 96.0

Column = tuple[float, float]


def lay_columns(canvas: Canvas, line: Timeline, left: float, aside: float) -> tuple[Column, ...]:
    """Left and right of each person's column, from ``left``; ``aside`` and the labels keep room."""
    if not line.tracks:
        return ()
    labels = _LABELS if aside > 16.0 or line.events or line.markers or line.cover else 0.0
    room = canvas.right - left - aside - labels + _GAP
    each = min(_NARROW if labels else _WIDEST, max(TARGET, room / len(line.tracks) - _GAP))
    lefts = [left + i * (each + _GAP) for i in range(len(line.tracks))]
    most = int((room + _GAP) / (TARGET + _GAP))
    if len(line.tracks) > most:
        allowed = f"at most {most} in this width, beside what else is written"
        raise InputError("tracks", len(line.tracks), allowed)
    return tuple((x, x + each) for x in lefts)


def draw_tracks(canvas: Canvas, line: Timeline, frame: Frame) -> None:
    """A column for each person under their name, hatched by what they do; gaps once answered."""
    if not line.tracks:
        return
    bottom, ident = frame.y(line.to_min), 0
    names = [part_name(canvas, f"track-{i}", t.name) for i, t in enumerate(line.tracks)]
    lines = [
        wrapped(name, right - left + 4, SMALL)
        for name, (left, right) in zip(names, frame.columns, strict=True)
    ]
    tall = max(text_height(len(each), SMALL) for each in lines)
    for i, (track, (left, right)) in enumerate(zip(line.tracks, frame.columns, strict=True)):
        shape = rect_path((left, 0.0, right, bottom))
        drawn = f'<path d="{shape}" fill="{PAPER}" stroke="{FAINT}" stroke-width="{EDGE}"/>'
        hit = ((left, -8 - max(tall + 4, TARGET)), (right, -8.0))
        part(canvas, f"track-{i}", track.name, drawn, hit, crowded=True)
        _head(canvas, lines[i], (left + right) / 2, tall)
        for band in track.bands:
            _turn(canvas, line, frame, ident, band, (left, right), track.bands)
            ident += 1
    _draw_gaps(canvas, line, frame)


def _head(canvas: Canvas, lines: Sequence[str], middle: float, tall: float) -> None:
    """The name over its column, standing on one line with the others."""
    top = -10 - text_height(len(lines), SMALL)
    canvas.text(middle, top, lines, SMALL, ' text-anchor="middle" font-weight="bold"')
    half = max(text_width(line, SMALL) for line in lines) / 2
    canvas.placer.take((middle - half, top, middle + half, -10.0))
    canvas.reach(-10 - tall, -8)


def _turn(
    canvas: Canvas,
    line: Timeline,
    frame: Frame,
    i: int,
    band: Band,
    column: Column,
    mates: Sequence[Band],
) -> None:
    """One thing a person does; pressed 44 units high where the next one lets it."""
    top, bottom = frame.y(band.from_min), frame.y(band.to_min)
    box = (column[0], top, column[1], bottom)
    fill = canvas.hatch(BANDS[band.kind])
    shapes = (
        f'<path d="{rect_path(box)}" fill="{PAPER}" stroke="none"/>'
        f'<path d="{rect_path(box)}" fill="{fill}" stroke-width="{EDGE}"/>'
    )
    spare = max(0.0, TARGET - (bottom - top)) / 2
    above = [(frame.y(m.to_min) + top) / 2 for m in mates if m.to_min <= band.from_min]
    below = [(frame.y(m.from_min) + bottom) / 2 for m in mates if m.from_min >= band.to_min]
    hit = (
        (column[0], max([top - spare, *above])),
        (column[1], min([bottom + spare, *below])),
    )
    own = band.label or canvas.request.say(band.kind)
    part(canvas, f"turn-{i}", own, shapes, hit, crowded=True)
    text = part_name(canvas, f"turn-{i}", band.label)
    if text:
        label_in(canvas, Label(text, size=SMALL, room=column[1] - column[0] - 6), box)


def _draw_gaps(canvas: Canvas, line: Timeline, frame: Frame) -> None:
    """A frame across all columns for as long as nobody covers."""
    left, right = frame.columns[0][0] - 3, frame.columns[-1][1] + 3
    for start, end, _ in gaps(canvas, line):
        box = (left, frame.y(start), right, frame.y(end))
        canvas.lines.append(
            f'<path class="gap" d="{rect_path(box)}" fill="{BAD}" fill-opacity=".14" '
            f'stroke="{BAD}" stroke-width="2.2"/>'
        )
