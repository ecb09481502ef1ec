"""Axis, bands, rows of events and the key of the timeline."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from trainer.drawing.canvas import CUT, EDGE, THIN, Canvas
from trainer.drawing.interaction import TARGET, Axis, Movable, movable, part, part_name
from trainer.drawing.labels import Label, dot, write
from trainer.drawing.legend import Entry, legend
from trainer.drawing.lettering import SIZE, SMALL
from trainer.drawing.markup import Box, Point, rect_path
from trainer.drawing.palette import ACCENT, BAD, FAINT
from trainer.drawing.placing import spread
from trainer.drawing.symbols import symbol
from trainer.drawing.timeline_data import BANDS, Band, Event, Marker, Timeline, uncovered

LANE = 24.0
_SYMBOL = 30.0
_TICKS = (5, 10, 15, 30, 60, 120, 240, 720, 1440)


class Frame(NamedTuple):
    """Where time and the columns lie, in user units.

    The axis, the bands, the people's columns (left and right of each), the tracks, the labels.
    """

    first: float
    per_min: float
    axis: float
    bands: float
    columns: tuple[tuple[float, float], ...]
    tracks: float
    labels: float

    def y(self, minute: float) -> float:
        return (minute - self.first) * self.per_min

    def at(self, point: Point) -> Point:
        return (self.tracks + 10 + 14 * point[1], self.y(point[0]))


def clock(minute: float) -> str:
    """A minute of the day as a 24-hour clock shows it; past midnight with the days gone by."""
    days, rest = divmod(int(minute + 0.5), 1440)
    time = f"{rest // 60:02d}:{rest % 60:02d}"
    return f"{time}\u00a0+{days}" if days else time


def lanes(bands: Sequence[Band]) -> list[int]:
    """A lane for each band, the first in which it overlaps no other."""
    ends: list[float] = []
    found = []
    for band in bands:
        lane = next((i for i, end in enumerate(ends) if end <= band.from_min), len(ends))
        if lane == len(ends):
            ends.append(0.0)
        ends[lane] = band.to_min
        found.append(lane)
    return found


def draw_axis(canvas: Canvas, line: Timeline, frame: Frame) -> None:
    """The axis with clock labels at round times, faint lines across the bands."""
    bottom = frame.y(line.to_min)
    step = next((t for t in _TICKS if t * frame.per_min >= 24), _TICKS[-1])
    first = -int(-line.from_min // step) * step
    ticks = [(m, frame.y(m)) for m in range(first, int(line.to_min) + 1, step)]
    across = "".join([f"M{frame.axis:.1f} {y:.1f}H{frame.tracks:.1f}" for _, y in ticks])
    marks = "".join([f"M{frame.axis - 6:.1f} {y:.1f}h6" for _, y in ticks])
    canvas.shapes.append(f'<path d="{across}" stroke="{FAINT}" stroke-width=".8"/>')
    canvas.lines.append(
        f'<path class="axis" d="M{frame.axis:.1f} 0V{bottom:.1f}" stroke-width="{CUT}"/>'
        f'<path d="{marks}" stroke-width="{EDGE}"/>'
    )
    right = f'<text x="{frame.axis - 9:.1f}" text-anchor="end" font-size="{SMALL}"'
    canvas.texts += [f'{right} y="{y + 4.3:.1f}">{clock(m)}</text>' for m, y in ticks]
    canvas.placer.take((0.0, -8.0, frame.axis - 4, bottom + 8))
    canvas.placer.avoid((frame.axis - 4, 0.0, frame.tracks, bottom))
    canvas.reach(-8, bottom + 8)


def draw_bands(canvas: Canvas, line: Timeline, frame: Frame, found: Sequence[int]) -> None:
    """Each band in its lane, hatched by its kind, a part."""
    for i, (band, lane) in enumerate(zip(line.bands, found, strict=True)):
        box = _band_box(band, frame, lane)
        fill = canvas.hatch(BANDS[band.kind])
        shapes = f'<path d="{rect_path(box)}" fill="{fill}" stroke-width="{EDGE}"/>'
        name = band.label or canvas.request.say(band.kind)
        top, bottom = _band_reach(line, frame, found, i)
        hit = ((box[0] - 10, top), (box[2] + 10, bottom))
        part(canvas, f"band-{i}", name, shapes, hit, crowded=True)


def _band_box(band: Band, frame: Frame, lane: int) -> Box:
    left = frame.bands + lane * LANE
    return (left, frame.y(band.from_min), left + LANE - 4, frame.y(band.to_min))


def _band_reach(line: Timeline, frame: Frame, found: Sequence[int], i: int) -> tuple[float, float]:
    """Where a band is pressed: 44 units high, less where others of its lane begin or end."""
    band = line.bands[i]
    mates = [b for b, lane in zip(line.bands, found, strict=True) if lane == found[i]]
    spare = max(0.0, TARGET - (band.to_min - band.from_min) * frame.per_min) / 2
    above = [frame.y(b.to_min) for b in mates if b.to_min <= band.from_min]
    below = [frame.y(b.from_min) for b in mates if b.from_min >= band.to_min]
    top, bottom = frame.y(band.from_min), frame.y(band.to_min)
    return max([top - spare, *above]), min([bottom + spare, *below])


class Row(NamedTuple):
    """One label beside the axis: where it points, what it says, its symbol, its part."""

    y: float
    start: float
    text: str
    symbol: str = ""
    ident: str = ""
    name: str = ""
    ink: str = ""

    @property
    def indent(self) -> float:
        """Room for the symbol before the text."""
        return _SYMBOL if self.symbol else 0.0


def gaps(canvas: Canvas, line: Timeline) -> list[tuple[float, float, str]]:
    """Once answered: each stretch that nobody covers, with its times in words."""
    if not line.cover or not canvas.request.answered:
        return []
    return [(a, b, f"{clock(a)}\u2013{clock(b)}") for a, b in uncovered(line.tracks, line.cover)]


def draw_rows(canvas: Canvas, line: Timeline, frame: Frame, found: Sequence[int]) -> None:
    """Labels of events, bands and marks, one under the other in the order of time."""
    made = [_event_row(canvas, line, frame, i, event) for i, event in enumerate(line.events)]
    for i, band in enumerate(line.bands):
        if band.label:
            box = _band_box(band, frame, found[i])
            made.append(Row((box[1] + box[3]) / 2, box[2], band.label))
    for i, marker in enumerate(line.markers):
        row = _marker(canvas, frame, i, marker)
        if row:
            made.append(row)
    made += [
        Row(frame.y((a + b) / 2), frame.tracks, span, ink=BAD) for a, b, span in gaps(canvas, line)
    ]
    made.sort(key=lambda row: row.y)
    _write_rows(canvas, frame, made)


def _event_row(canvas: Canvas, line: Timeline, frame: Frame, i: int, event: Event) -> Row:
    ident = f"event-{i}"
    own = event.label or canvas.request.say(event.kind)
    words = part_name(canvas, ident, own)
    text = f"{clock(event.at_min)} {words}".strip() if line.clock == "with" else words
    return Row(frame.y(event.at_min), frame.axis, text, event.kind, ident, own)


def _marker(canvas: Canvas, frame: Frame, i: int, marker: Marker) -> Row | None:
    """A mark across the bands; one that moves carries its own grip and needs no row."""
    ident = f"marker-{i}"
    name = _marker_name(canvas, i, marker)
    if not marker.movable or canvas.request.answered:
        return Row(frame.y(marker.at_min), frame.axis, name, "", ident, name, ACCENT)
    wide = frame.tracks - frame.axis
    drawn = (
        f'<path d="M-6 0H{wide + 10:.1f}" stroke="{ACCENT}" stroke-width="2.4"/>'
        f'<path d="M-14 -5L-5 0L-14 5Z" fill="{ACCENT}" stroke="none"/>'
    )
    axis = Axis("y", frame.y(0), 1 / frame.per_min, marker.at_min, marker.movable)
    movable(canvas, Movable(ident, name, (axis,), drawn, (wide + 24, 0), frame.axis))
    return None


def _marker_name(canvas: Canvas, i: int, marker: Marker) -> str:
    own = marker.label or f"{canvas.request.say('mark')} {i + 1}"
    return part_name(canvas, f"marker-{i}", own)


def _write_rows(canvas: Canvas, frame: Frame, made: Sequence[Row]) -> None:
    room = canvas.right - frame.labels - 6
    labels = [Label(row.text, "", row.ink, SIZE, room - row.indent) for row in made]
    highs = [label.extent()[1] for label in labels]
    live = canvas.live
    heights = [_row_height(row, high, live) for row, high in zip(made, highs, strict=True)]
    tops = spread([row.y for row in made], heights, -8.0, canvas.bottom + 4)
    for row, label, high, top, tall in zip(made, labels, highs, tops, heights, strict=True):
        middle = top + tall / 2
        _lead(canvas, frame, row, middle)
        left = frame.labels + 4 + row.indent
        write(canvas, label, (left, middle - high / 2, canvas.right, middle + high / 2))
        canvas.placer.take((frame.labels, top, left, top + tall))
        canvas.reach(top, top + tall)
        if row.ident:
            drawn = symbol(row.symbol, (frame.labels + 18, middle)) if row.symbol else ""
            hit = ((frame.labels, top), (canvas.right, top + tall))
            part(canvas, row.ident, row.name, drawn, hit, layer="lines", crowded=True)


def _row_height(row: Row, letters: float, live: bool) -> float:
    """A row that can be pressed is as high as a thumb needs; others as their symbol and letters."""
    if live and row.ident:
        return max(letters + 4, TARGET)
    return max(letters + 4, 29.0 if row.symbol else 0.0)


def _lead(canvas: Canvas, frame: Frame, row: Row, middle: float) -> None:
    """From the axis or the band level to the tracks, then to the label."""
    stroke = f' stroke="{row.ink}"' if row.ink else ""
    knee = frame.tracks if row.start <= frame.axis else row.start
    canvas.line(
        [(row.start, row.y), (max(knee, frame.tracks), row.y), (frame.labels, middle)],
        THIN if not row.ink else 1.6,
        stroke,
    )
    canvas.lines.append(dot((row.start, row.y)))


def draw_key(canvas: Canvas, line: Timeline) -> None:
    """The key: bands that bear no label of their own, marks that can be moved."""
    silent = {band.kind for band in line.bands if not band.label}
    silent |= {band.kind for track in line.tracks for band in track.bands if not band.label}
    entries = [
        Entry(canvas.request.say(kind), hatch) for kind, hatch in BANDS.items() if kind in silent
    ]
    if not canvas.request.answered:
        moving = f'<path d="M-11 0H11" stroke="{ACCENT}" stroke-width="2.4"/>'
        entries += [
            Entry(_marker_name(canvas, i, marker), mark=moving)
            for i, marker in enumerate(line.markers)
            if marker.movable
        ]
    legend(canvas, entries)
