"""Sheets, laps and primed stretches of the wall elevation, and what their marks mean."""

from __future__ import annotations

from collections.abc import Sequence

from trainer.drawing import elevation_films as films
from trainer.drawing.canvas import EDGE, Canvas, Scale
from trainer.drawing.elevation_data import Elevation, Lap, Moved, Stretch
from trainer.drawing.elevation_key import site_entries
from trainer.drawing.elevation_signs import STATE_SIGNS
from trainer.drawing.interaction import (
    TARGET,
    Axis,
    Movable,
    movable,
    part,
    part_name,
    shared_out,
)
from trainer.drawing.labels import Label, label_near
from trainer.drawing.legend import Entry, legend
from trainer.drawing.lettering import SMALL
from trainer.drawing.markup import Point, around, path
from trainer.drawing.palette import ACCENT, PAPER


def draw_bands(canvas: Canvas, wall: Elevation, scale: Scale) -> None:
    """Primer first, sheets over it, laps on top; field laps below the base line."""
    _primer(canvas, wall, scale)
    head, bottom = scale.y(wall.height_mm), scale.y(wall.bottom_mm)
    for i, sheet in enumerate(wall.sheet_ends()):
        _sheet(canvas, wall, scale, i, sheet)
    films.draw_halves(canvas, wall, scale)
    low = min(head - 2, 6 - TARGET)
    pressed = (4.0, max(bottom + 2, TARGET + 4))
    _laps(canvas, wall, scale, "field-lap", wall.field_laps, pressed)
    moving = wall.movable.lap if wall.movable else None
    _laps(canvas, wall, scale, "lap", wall.laps, (low, 2.0), moving)
    films.draw_side_laps(canvas, wall, scale)
    if wall.movable:
        _moving(canvas, wall, scale, wall.movable)


def _primer(canvas: Canvas, wall: Elevation, scale: Scale) -> None:
    for i, stretch in enumerate(wall.primer):
        ring = strip(wall, scale, stretch.from_mm, stretch.to_mm)
        data = path(ring, closed=True)
        left, head, right, foot = around(ring)
        shapes = f'<path d="{data}" fill="{canvas.hatch(stretch.age)}" stroke-width="{EDGE}"/>'
        name = stretch.label or _counted(canvas, "primer", i)
        part(canvas, f"primer-{i}", name, shapes, ((left, head), (right, foot)))
        if stretch.label:
            label_near(canvas, Label(stretch.label, size=SMALL), (left, head, right, head), near=24)


def _counted(canvas: Canvas, word: str, index: int) -> str:
    return f"{canvas.request.say(word)} {index + 1}"


def _sheet(canvas: Canvas, wall: Elevation, scale: Scale, i: int, sheet: Stretch) -> None:
    """A flashing sheet: its outline from the field up to the top; the next one covers its edge."""
    ring = strip(wall, scale, sheet.from_mm, sheet.to_mm)
    data = path(ring, closed=True)
    left, head, right, foot = around(ring)
    shapes = f'<path class="sheet" d="{data}" fill="{PAPER}" stroke-width="{EDGE}"/>'
    name = sheet.label or _counted(canvas, "sheet", i)
    part(canvas, f"sheet-{i}", name, shapes, ((left, head), (right, foot)))
    if sheet.label:
        middle = (left + right) / 2
        label_near(canvas, Label(sheet.label, size=SMALL), (middle, head, middle, head), near=24)


def strip(wall: Elevation, scale: Scale, start: float, end: float) -> list[Point]:
    """The outline of a stretch of sheet from the field up to the top, in user units."""
    head, drop = scale.y(wall.height_mm), wall.field_lap_mm * scale.per_mm
    foot = [(x, y + drop) for x, y in scale.all(wall.base(start, end))]
    return [(scale.x(start), head), (scale.x(end), head), *reversed(foot)]


def lap_corners(lap: Lap, scale: Scale, head: float, foot: float) -> list[Point]:
    """The four corners of a lap band in user units."""
    low, high = lap.foot
    return [
        (scale.x(lap.from_mm), head),
        (scale.x(lap.to_mm), head),
        (scale.x(high), foot),
        (scale.x(low), foot),
    ]


def _corners(wall: Elevation, scale: Scale, word: str, lap: Lap) -> list[Point]:
    """The corners of a lap of the flashing, or of the field, along the foot of the wall."""
    low, high = lap.foot
    if word == "lap":
        head, drop = scale.y(wall.height_mm), wall.field_lap_mm * scale.per_mm
        made = lap_corners(lap, scale, head, 0.0)
        return [
            *made[:2],
            *[
                (x, scale.y(wall.foot_at(mm)) + drop)
                for (x, _), mm in zip(made[2:], (high, low), strict=True)
            ],
        ]
    made = lap_corners(lap, scale, 0.0, scale.y(wall.bottom_mm))
    tops = zip(made[:2], (lap.from_mm, lap.to_mm), strict=True)
    return [*[(x, scale.y(wall.foot_at(mm))) for (x, _), mm in tops], *made[2:]]


def _laps(
    canvas: Canvas,
    wall: Elevation,
    scale: Scale,
    word: str,
    laps: Sequence[Lap],
    pressed: tuple[float, float],
    moving: int | None = None,
) -> None:
    """Lap bands of the flashing or of the field, each a part pressed between two heights."""
    band = (scale.y(wall.height_mm), scale.y(wall.bottom_mm))
    said, sign_y = canvas.request.say(word.replace("-", " ")), _sign_y(word, band)
    order = sorted(range(len(laps)), key=lambda i: laps[i].from_mm)
    middles = [scale.x((laps[i].from_mm + laps[i].to_mm) / 2) for i in order]
    stretches = dict(zip(order, shared_out(middles), strict=True))
    for i, lap in enumerate(laps):
        if i == moving:
            continue
        name = lap.label or f"{said} {i + 1}"
        left, right = stretches[i]
        corners = _corners(wall, scale, word, lap)
        shapes = lap_shapes(canvas, lap, corners, sign_y)
        hit = ((left, pressed[0]), (right, pressed[1]))
        part(canvas, f"{word}-{i}", name, shapes, hit, crowded=True)
        if lap.state:
            _keep_sign(canvas, corners, sign_y)
        _lap_label(canvas, lap, corners, word)


def lap_shapes(canvas: Canvas, lap: Lap, corners: list[Point], sign_y: float) -> str:
    """A hatched band: the edge on top full, the covered edge dashed; its state as a round sign."""
    (a, a_y), (b, b_y), (c, c_y), (d, d_y) = corners
    on_top, hidden = (
        f"{a:.1f} {a_y:.1f}L{d:.1f} {d_y:.1f}",
        f"{c:.1f} {c_y:.1f}L{b:.1f} {b_y:.1f}",
    )
    fill = PAPER if lap.state == "open" else canvas.hatch("lap")
    shapes = (
        f'<path class="lap" d="M{on_top}L{hidden}Z" fill="{fill}" stroke="none"/>'
        f'<path d="M{on_top}" stroke-width="1.6"/>'
        f'<path d="M{hidden}" stroke-width="1.1" stroke-dasharray="4 2"/>'
    )
    if lap.state:
        x = (min(a, d) + max(b, c)) / 2
        place = f"translate({x:.1f} {sign_y:.1f})"
        shapes += f'<g class="state" transform="{place}">{STATE_SIGNS[lap.state]}</g>'
    return shapes


def _sign_y(word: str, band: tuple[float, float]) -> float:
    """State signs stand clear of the strip: over the flashing, under the field."""
    return band[0] - 9 if word == "lap" else band[1] + 9


def _keep_sign(canvas: Canvas, corners: list[Point], y: float) -> None:
    (a, _), (b, _), (c, _), (d, _) = corners
    x = (min(a, d) + max(b, c)) / 2
    canvas.placer.take((x - 6, y - 6, x + 6, y + 6))
    canvas.reach(y - 6, y + 6)


def _lap_label(canvas: Canvas, lap: Lap, corners: list[Point], word: str) -> None:
    if not lap.label:
        return
    box = around(corners)
    clear = 14 if lap.state else 0
    edge = box[1] - clear if word == "lap" else box[3] + clear
    anchor = (box[0], edge - 1, box[2], edge + 1)
    label_near(canvas, Label(lap.label, size=SMALL), anchor, near=24)


def _moving(canvas: Canvas, wall: Elevation, scale: Scale, moved: Moved) -> None:
    """The lap or the edge that can be moved along the wall, its grip above the wall."""
    head = scale.y(wall.height_mm)
    foot = scale.y(wall.foot_at(moved.edge_mm or 0.0) - wall.field_lap_mm)
    if moved.lap is not None:
        lap = wall.laps[moved.lap]
        start, ident = lap.from_mm, f"lap-{moved.lap}"
        own = lap.label or _counted(canvas, "lap", moved.lap)
        corners = [(x - scale.x(start), y) for x, y in _corners(wall, scale, "lap", lap)]
        shapes = lap_shapes(canvas, lap, corners, _sign_y("lap", (head, foot))) + _frame(corners)
        middle = (lap.to_mm - lap.from_mm) / 2 * scale.per_mm
    else:
        start, ident, middle = moved.edge_mm or 0.0, "edge", 0.0
        own = canvas.request.say("edge of the sheet")
        shapes = f'<path d="M0 {head:.1f}V{foot:.1f}" stroke="{ACCENT}" stroke-width="2.6"/>'
    grip_y = head - 26
    stem = f"M{middle:.1f} {head:.1f}V{grip_y + 13:.1f}"
    tether = f'<path d="{stem}" stroke="{ACCENT}" stroke-width="1.4"/>'
    axis = Axis("x", scale.zero_x, 1 / scale.per_mm, start, moved.range)
    thing = Movable(
        ident, part_name(canvas, ident, own), (axis,), shapes, (middle, grip_y), 0.0, tether
    )
    if not canvas.request.answered:
        low, high = scale.x(moved.range.low), scale.x(moved.range.high) + 2 * middle
        canvas.placer.take((low - 22, grip_y - 22, high + 22, grip_y + 22))
    movable(canvas, thing)


def _frame(corners: list[Point]) -> str:
    return f'<path d="{path(corners, closed=True)}" stroke="{ACCENT}" stroke-width="1.8"/>'


def draw_key(canvas: Canvas, wall: Elevation) -> None:
    """The key: lap hatching, states and ages that occur."""
    say = canvas.request.say
    states = {lap.state for lap in (*wall.laps, *wall.field_laps)}
    entries = []
    if states - {"open"}:
        entries.append(Entry(say("lap"), hatch="lap"))
    entries += [
        Entry(say(state), mark=STATE_SIGNS[state]) for state in STATE_SIGNS if state in states
    ]
    ages = {stretch.age for stretch in wall.primer}
    entries += [
        Entry(say(f"primer, {age}"), hatch=age) for age in ("wet", "dry", "dead") if age in ages
    ]
    if wall.chalk_mm is not None:
        entries.append(
            Entry(
                say("chalk line"),
                mark=f'<path d="M-11 0H11" stroke="{ACCENT}" stroke-width="1.6"/>',
            )
        )
    legend(canvas, [*entries, *site_entries(canvas, wall)])
