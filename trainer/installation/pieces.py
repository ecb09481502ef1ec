"""What is still to be laid, piece by piece, and whether weather and material allow it now."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.installation.air import open_coats
from trainer.installation.foreman import Desk, best_laps, once
from trainer.installation.laps import corner_sheet_id, sheets_to_lay, wall_sheet_id
from trainer.installation.state import Decision

_BORDERLINE_K = 4
Stretch = tuple[str, int, int]
"""A wall and a stretch of it."""


@dataclass(frozen=True)
class Piece:
    """One sheet that is still to be laid: its task and the stretches it goes onto."""

    id: str
    task: Decision
    place: tuple[Stretch, ...]
    minutes: int


def ready_to_work(desk: Desk, wall_id: str) -> bool:
    """Whether one may stand at a wall: it is high enough, guarded, or the drop is small."""
    wall = desk.job.wall(wall_id)
    guarded = wall.rail or wall_id in desk.state.rails
    high = wall.height_mm >= desk.limit("guardrail-height")
    return guarded or high or wall.drop_mm <= desk.limit("unprotected-edge-height", 1e9)


@once
def pieces(desk: Desk) -> list[Piece]:
    """The sheets still to be laid, in the order in which this foreman lays them."""
    job, state, found = desk.job, desk.state, []
    for i in range(len(job.corners)):
        place = job.corner_stretches(i)
        for number in (1, 2):
            name = corner_sheet_id(i, number)
            if name not in state.sheets:
                task = {"do": "lay corner", "corner": i, "number": number}
                minutes = job.minutes["corner sheet"] + (job.minutes["roll"] if number == 2 else 3)
                found.append(Piece(name, task, place, minutes))
    for wall in job.walls:
        row = list(enumerate(planned(desk, wall.id)))
        for number, ends in reversed(row) if desk.way.from_right else row:
            name = wall_sheet_id(wall.id, number)
            if name not in state.sheets:
                task = {"do": "lay", "wall": wall.id, "sheet": number, "half": "top"}
                found.append(Piece(name, task, ((wall.id, *ends),), _sheet_minutes(desk)))
    return found


def planned(desk: Desk, wall: str) -> list[tuple[int, int]]:
    """The sheets of a wall: as it is set out, else as this foreman will set it out."""
    job, marked = desk.job, sheets_to_lay(desk.job, desk.state, wall)
    if marked:
        return marked
    start, end = job.stretch(wall)
    laps = best_laps(job, desk.limits, wall)
    ends = [*(at + job.sheet.side_lap_mm for at in laps), end]
    return list(zip([start, *laps], ends, strict=True))


def _sheet_minutes(desk: Desk) -> int:
    minutes = desk.job.minutes
    two = desk.way.together and len(desk.job.crew) > 2
    return minutes["lay together" if two else "lay"] + minutes["roll"] + minutes["touch"]


@once
def strips_short(desk: Desk) -> int:
    """How many strips must still be cut."""
    job, state = desk.job, desk.state
    due = 2 * len(job.corners)
    due += sum(len(planned(desk, wall.id)) for wall in job.walls)
    in_hand = sum(task["do"] in ("lay", "lay corner") for task in desk.doing("lay", "lay corner"))
    return due - len(state.sheets) - len(state.strips) - in_hand


@once
def melted_enough(desk: Desk) -> bool:
    """Whether the strips that will go under others have their film melted off."""
    return sum(strip.melted for strip in desk.state.strips) >= melts_due(desk)


@once
def melts_due(desk: Desk) -> int:
    """How many of the sheets still to be laid will go under another one."""
    job, state, due = desk.job, desk.state, 0
    for i in range(len(job.corners)):
        due += corner_sheet_id(i, 2) not in state.sheets
    for wall in job.walls:
        count = len(planned(desk, wall.id))
        missing = sum(wall_sheet_id(wall.id, k) not in state.sheets for k in range(count))
        due += max(0, missing - 1)
    return due


def closes_at(desk: Desk, piece: Piece) -> int:
    """The last minute at which a piece may be down on the primer under it."""
    parts = [c for part in piece.place for c in open_coats(desk.state, *part)]
    now = desk.state.now * 1000
    oldest = min((coat.primed_ms(low) for low, _, coat in parts), default=now)
    return oldest // 1000 + desk.job.paper.latest_min


def weather_allows(desk: Desk, wall: str) -> bool:
    """Warm enough and far enough above the dew point, measured where it is a near thing."""
    state, sight, now = desk.state, desk.sight, desk.state.now
    coldest = max(desk.job.paper.coldest_c, desk.limit("adhesive-lap-temperature", -99))
    spread = desk.limit("surface-above-dew-point", -99)
    cold = sight.surface_c(state, wall, now) - coldest
    close = sight.spread_k(state, wall, now) - spread
    humid = desk.limit("relative-humidity", 101) - sight.rh_pct(state, wall, now)
    near = min(cold, close) < _BORDERLINE_K or humid < _BORDERLINE_K
    if near and not sight.measured(state, wall):
        desk.wanted_measure = wall
        return False
    if min(cold, close, humid) < 0:
        desk.look_again(now + 15 - now % 15)
        return False
    return True
