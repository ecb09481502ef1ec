"""Days to one scale, one above the other: what everybody does from hour to hour.

Time runs to the right. Figure coordinates of overlays: [minute, 0], on the first day's uppermost
track. Parts: "finding-0"…, counted on from one day to the next. Fields, units and ranges:
``FIELDS``.
"""

from __future__ import annotations

from typing import Any, NamedTuple

from trainer.drawing.canvas import EDGE, THIN, Canvas
from trainer.drawing.days_data import BLOCKS, FIELDS, Block, Day, Days, Shower, Wrong
from trainer.drawing.interaction import part, part_name, shared_out
from trainer.drawing.legend import Entry, legend
from trainer.drawing.lettering import SIZE, SMALL, text_height, text_width
from trainer.drawing.markup import Point, rect_path
from trainer.drawing.overlays import draw_overlays
from trainer.drawing.palette import ACCENT, BAD, FAINT, INK, PAPER, SOFT
from trainer.drawing.placing import spread
from trainer.drawing.symbols import symbol
from trainer.drawing.timeline_rows import clock
from trainer.errors import InputError

_ROW, _GAP = 17.0, 3.0
_SIGNS = 20.0
_DISC = 8.0
_NAMES = 84.0
_NEAR = 12.0
_TICKS = (15, 30, 60, 120, 240, 480)


class Frame(NamedTuple):
    """From minutes to user units."""

    first: float
    last: float
    left: float
    right: float

    @property
    def per_min(self) -> float:
        return (self.right - self.left) / (self.last - self.first)

    def x(self, minute: float) -> float:
        return self.left + (minute - self.first) * self.per_min

    def at(self, point: Point) -> Point:
        return (self.x(point[0]), _SIGNS + 20 + _ROW / 2)


def draw(canvas: Canvas, checked: dict[str, Any]) -> None:
    """Draw the days described by the checked fields. Raises InputError on bad times."""
    days = Days(**checked)
    _check(days)
    names = [track.name for day in days.days for track in day.tracks]
    wide = min(_NAMES, max(text_width(name, SMALL) for name in names))
    frame = Frame(days.from_min, days.to_min, canvas.left + wide + 8, canvas.right - 6)
    top, counted = 0.0, 0
    for day in days.days:
        top = _day(canvas, frame, day, top, counted) + 16
        counted += len(day.findings)
    draw_overlays(canvas, frame.at, frame.per_min)
    _key(canvas, days)


def _check(days: Days) -> None:
    first, last = days.from_min, days.to_min
    if first >= last:
        raise InputError("to_min", last, f"> from_min ({first:g})")
    shown = f"{first:g} to {last:g}, the minutes drawn"
    for i, day in enumerate(days.days):
        spans: list[tuple[str, Block | Shower]] = [
            (f"rain[{j}]", shower) for j, shower in enumerate(day.rain)
        ]
        for j, track in enumerate(day.tracks):
            spans += [(f"tracks[{j}].blocks[{k}]", each) for k, each in enumerate(track.blocks)]
        for name, span in spans:
            if not first <= span.from_min < span.to_min <= last:
                allowed = f"after from_min, within {shown}"
                raise InputError(f"days[{i}].{name}.to_min", span.to_min, allowed)
        times = [(f"marks[{j}]", mark.at_min) for j, mark in enumerate(day.marks)]
        times += [(f"findings[{j}]", each.at_min) for j, each in enumerate(day.findings)]
        for name, at in times:
            if not first <= at <= last:
                raise InputError(f"days[{i}].{name}.at_min", at, shown)


def _day(canvas: Canvas, frame: Frame, day: Day, top: float, counted: int) -> float:
    """One day from its name down to its hours; where it ends."""
    high = text_height(1, SIZE)
    canvas.text(canvas.left, top, (day.name,), SIZE, ' font-weight="bold"')
    canvas.reach(top, top + high)
    first = top + high + (_SIGNS if day.marks else 4)
    last = first + len(day.tracks) * (_ROW + _GAP) - _GAP
    _hours(canvas, frame, first, last)
    _rain(canvas, frame, day, first, last)
    for i, track in enumerate(day.tracks):
        y = first + i * (_ROW + _GAP)
        _track(canvas, frame, track.name, track.blocks, y)
    _marks(canvas, frame, day, first, last)
    return _findings(canvas, frame, day.findings, first, last + 17, counted)


def _hours(canvas: Canvas, frame: Frame, first: float, last: float) -> None:
    """Faint lines at full hours, and the hours under the last track."""
    step = next((t for t in _TICKS if t * frame.per_min >= 38), _TICKS[-1])
    at = -int(-frame.first // step) * step
    ticks = [float(minute) for minute in range(at, int(frame.last) + 1, step)]
    lines = "".join([f"M{frame.x(m):.1f} {first - 3:.1f}V{last + 4:.1f}" for m in ticks])
    canvas.shapes.append(f'<path d="{lines}" stroke="{FAINT}" stroke-width=".8"/>')
    middle = f'text-anchor="middle" font-size="{SMALL}" fill="{SOFT}"'
    half = text_width("00:00", SMALL) / 2
    canvas.texts += [
        f'<text x="{min(frame.x(m), canvas.right - half):.1f}" y="{last + 15:.1f}" {middle}>'
        f"{clock(m)}</text>"
        for m in ticks
    ]
    canvas.reach(first, last + 18)


def _rain(canvas: Canvas, frame: Frame, day: Day, first: float, last: float) -> None:
    for shower in day.rain:
        box = (frame.x(shower.from_min), first - 3, frame.x(shower.to_min), last + 3)
        canvas.shapes.append(
            f'<path class="rain" d="{rect_path(box)}" fill="{canvas.hatch("damp")}" '
            f'stroke="{ACCENT}" stroke-width="{THIN}"/>'
        )


def _track(canvas: Canvas, frame: Frame, name: str, blocks: list[Block], y: float) -> None:
    top = y + (_ROW - text_height(1, SMALL)) / 2
    canvas.text(canvas.left, top, (_shortened(name),), SMALL)
    line = f"M{frame.left:.1f} {y + _ROW / 2:.1f}H{frame.right:.1f}"
    canvas.shapes.append(
        f'<path d="{line}" stroke="{SOFT}" stroke-width=".8" stroke-dasharray="1 3"/>'
    )
    shapes = ""
    for block in blocks:
        box = rect_path((frame.x(block.from_min), y, frame.x(block.to_min), y + _ROW))
        fill = canvas.hatch(BLOCKS[block.kind]) if BLOCKS[block.kind] else FAINT
        shapes += (
            f'<path d="{box}" fill="{PAPER}" stroke="none"/>'
            f'<path class="block" d="{box}" fill="{fill}" stroke-width="{THIN}"/>'
        )
    canvas.shapes.append(shapes)


def _shortened(name: str) -> str:
    """A name cut to the room before the tracks."""
    if text_width(name, SMALL) <= _NAMES:
        return name
    while text_width(name + "…", SMALL) > _NAMES:
        name = name[:-1]
    return name + "…"


def _marks(canvas: Canvas, frame: Frame, day: Day, first: float, last: float) -> None:
    """A line through all tracks at each mark, its symbol above; where they crowd, side by side."""
    marks = sorted(day.marks, key=lambda mark: mark.at_min)
    wides = [18.0 + (text_width(mark.label, SMALL) + 4 if mark.label else 0.0) for mark in marks]
    wanted = [frame.x(mark.at_min) - 9 + wide / 2 for mark, wide in zip(marks, wides, strict=True)]
    starts = spread(wanted, wides, frame.left - 9, canvas.right)
    for mark, start in zip(marks, starts, strict=True):
        x, y = frame.x(mark.at_min), first - 11
        weight = 2.4 if mark.kind == "end" else 1.0
        canvas.line([(x, first - 2), (x, last + 3)], weight)
        if mark.kind == "end":
            flag = f"M{start + 6:.1f} {y + 7:.1f}v-14h10l-3 4l3 4h-10"
            canvas.lines.append(f'<path d="{flag}" fill="{INK}" stroke-width="1.2"/>')
        else:
            canvas.lines.append(symbol(mark.kind, (start + 9, y), size=0.62))
        if mark.label:
            canvas.text(start + 20, y - 8, (mark.label,), SMALL)
        canvas.reach(y - 9, y + 9)


class Group(NamedTuple):
    """Findings too near to each other to be told apart: the first one's index, and all of them."""

    first: int
    findings: list[Wrong]
    text: str

    @property
    def grave(self) -> bool:
        return any(wrong.grave for wrong in self.findings)

    @property
    def wide(self) -> float:
        return max(2 * _DISC, text_width(self.text, SMALL) + 10)


def _findings(
    canvas: Canvas, frame: Frame, findings: list[Wrong], first: float, top: float, counted: int
) -> float:
    """Their numbers in discs under the hours, tied to their minutes; where they end."""
    groups = _grouped(canvas, frame, findings, counted)
    if not groups:
        return top
    wanted = [frame.x(sum(w.at_min for w in g.findings) / len(g.findings)) for g in groups]
    sizes = [group.wide + 4 for group in groups]
    lefts = spread(wanted, sizes, canvas.left, canvas.right)
    y = top + 13
    middles = [left + size / 2 for left, size in zip(lefts, sizes, strict=True)]
    for group, middle, reach in zip(groups, middles, shared_out(middles), strict=True):
        _finding(canvas, frame, group, (middle, y), first)
        hit = ((reach[0], y - 20), (reach[1], y + 24))
        own = f"{canvas.request.say('finding')} {group.text}"
        part(canvas, f"finding-{group.first}", own, "", hit, layer="lines", crowded=True)
    canvas.reach(first, y + _DISC + 2)
    return y + _DISC + 2


def _grouped(canvas: Canvas, frame: Frame, findings: list[Wrong], counted: int) -> list[Group]:
    """Findings near to each other as one group, the fewer groups the less room there is."""
    near, room = _NEAR, canvas.right - canvas.left
    while True:
        groups = _runs(canvas, frame, findings, counted, near)
        if sum(group.wide + 4 for group in groups) <= room or len(groups) < 2:
            return groups
        near *= 1.5


def _runs(
    canvas: Canvas, frame: Frame, findings: list[Wrong], counted: int, most: float
) -> list[Group]:
    order = sorted(range(len(findings)), key=lambda i: (findings[i].at_min, i))
    runs: list[list[int]] = []
    for i in order:
        first = findings[runs[-1][0]].at_min if runs else 0.0
        if runs and frame.x(findings[i].at_min) - frame.x(first) < most:
            runs[-1].append(i)
        else:
            runs.append([i])
    made = []
    for run in runs:
        names = [part_name(canvas, f"finding-{counted + i}", findings[i].label) for i in run]
        text = names[0] if len(names) == 1 else f"{names[0]}–{names[-1]}"
        made.append(Group(counted + run[0], [findings[i] for i in run], text))
    return made


def _finding(canvas: Canvas, frame: Frame, group: Group, at: Point, first: float) -> None:
    """A thin line down from every minute of the group to its disc."""
    u, v = at
    fill, ink = (BAD, PAPER) if group.grave else (PAPER, BAD)
    knee = v - _DISC - 6
    xs = sorted({frame.x(wrong.at_min) for wrong in group.findings})
    # Thin over the day, so that many do not hide what was done; full on the way to the disc.
    over = "".join([f"M{x:.1f} {first - 2:.1f}V{knee:.1f}" for x in xs])
    to_disc = "".join([f"M{x:.1f} {knee:.1f}L{u:.1f} {v - _DISC:.1f}" for x in xs])
    half = group.wide / 2 - _DISC
    arc = f"A{_DISC:g} {_DISC:g} 0 0 1"
    pill = (
        f"M{u - half:.1f} {v - _DISC:.1f}H{u + half:.1f}{arc} {u + half:.1f} {v + _DISC:.1f}"
        f"H{u - half:.1f}{arc} {u - half:.1f} {v - _DISC:.1f}Z"
    )
    canvas.lines.append(
        f'<path class="finding" d="{over}" stroke="{BAD}" stroke-width=".7" stroke-opacity=".6"/>'
        f'<path d="{to_disc}" stroke="{BAD}" stroke-width="1"/>'
        f'<path d="{pill}" fill="{fill}" stroke="{BAD}" stroke-width="1.6"/>'
    )
    style = f' text-anchor="middle" font-weight="bold" fill="{ink}" stroke="none"'
    canvas.text(u, v - text_height(1, SMALL) / 2, (group.text,), SMALL, style)


def _key(canvas: Canvas, days: Days) -> None:
    """What each tone and pattern means; the discs of findings."""
    say = canvas.request.say
    kinds = {block.kind for day in days.days for track in day.tracks for block in track.blocks}
    entries = []
    for kind, hatch in BLOCKS.items():
        if kind in kinds and hatch:
            entries.append(Entry(say(kind), hatch=hatch))
        elif kind in kinds:
            box = rect_path((-11.0, -7.0, 11.0, 7.0))
            entries.append(
                Entry(say(kind), mark=f'<path d="{box}" fill="{FAINT}" stroke-width="{EDGE}"/>')
            )
    if any(day.rain for day in days.days):
        entries.append(Entry(say("rain"), hatch="damp"))
    marks = {mark.kind for day in days.days for mark in day.marks} - {"end", "rain"}
    entries += [Entry(say(k), mark=symbol(k, (0, 0), size=0.62)) for k in sorted(marks)]
    grave = {wrong.grave for day in days.days for wrong in day.findings}
    discs = ((True, "finding, critical", BAD), (False, "finding", PAPER))
    entries += [
        Entry(say(word), mark=f'<circle r="7" fill="{fill}" stroke="{BAD}" stroke-width="1.6"/>')
        for is_grave, word, fill in discs
        if is_grave in grave
    ]
    legend(canvas, entries)


__all__ = ["FIELDS", "draw"]
