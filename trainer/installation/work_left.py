"""What every plan still has to begin from a state: the least of it, whoever does it in what order.

What is under way counts as done, so that nothing is counted that could be finished sooner.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor

from trainer.installation.acts_flame import lap_name
from trainer.installation.acts_sheets import sheet_id_of
from trainer.installation.air import bare_mm
from trainer.installation.job import Job
from trainer.installation.laps import (
    corner_sheet_id,
    lap_ids_due,
    sheets_to_lay,
    wall_sheet_id,
)
from trainer.installation.limits import Limits, value
from trainer.installation.state import Decision, State


@dataclass(frozen=True)
class Left:
    """What is still to be begun, in pieces of work.

    ``seconds`` are second corner sheets whose first one lies there, or is just being laid: they
    need no primer. ``firsts`` are first corner sheets, ``overs`` the second ones that follow them.
    """

    sheets: int
    firsts: int
    overs: int
    seconds: int
    rolls: int
    laps: int
    gussets: int
    fills: int
    strips: int

    @property
    def on_primer(self) -> int:
        """Sheets that wait for primer, or for one that does."""
        return self.sheets + self.firsts + self.overs

    @property
    def flame(self) -> bool:
        return bool(self.laps or self.gussets)


def under_way(state: State, *names: str) -> list[Decision]:
    """What people are doing now, of these kinds."""
    people = state.people.values()
    tasks = [p.doing for p in people if p.doing is not None and p.doing["who"] == p.id]
    return [task for task in tasks if task["do"] in names]


def work_left(job: Job, limits: Limits, state: State) -> Left:
    """The least that is left to begin in any plan that ends with nothing missing and no finding."""
    there = {*state.sheets, *(sheet_id_of(t) for t in under_way(state, "lay", "lay corner"))}
    corners = [[corner_sheet_id(i, k) in there for k in (1, 2)] for i in range(len(job.corners))]
    sheets = sum(_sheets_left(job, limits, state, wall.id, there) for wall in job.walls)
    firsts = sum(not first for first, _ in corners)
    seconds = sum(first and not second for first, second in corners)
    in_hand = len(state.strips) + sum(task["strips"] for task in under_way(state, "cut"))
    return Left(
        sheets=sheets,
        firsts=firsts,
        overs=firsts,
        seconds=seconds,
        rolls=sheets + _rolls_left(job, state, there),
        laps=sum(_laps_left(job, limits, state, wall.id) for wall in job.walls),
        gussets=sum(c.gusset is None for c in state.corners) - len(under_way(state, "gusset")),
        fills=_fills_left(limits, state),
        strips=max(0, sheets + 2 * firsts + seconds - in_hand),
    )


def _sheets_left(job: Job, limits: Limits, state: State, wall: str, there: set[str]) -> int:
    marked = len(sheets_to_lay(job, state, wall))
    lie = sum(wall_sheet_id(wall, k) in there for k in range(marked))
    return marked - lie if lie else least_sheets(job, limits, state, wall)


def least_sheets(job: Job, limits: Limits, state: State, wall: str) -> int:
    """The fewest sheets a wall may still get: as it is set out, or set out anew."""
    marked, fewest = len(sheets_to_lay(job, state, wall)), fewest_sheets(job, limits, wall)
    return min(marked, fewest) if marked else fewest


def fewest_sheets(job: Job, limits: Limits, wall: str) -> int:
    """The fewest sheets that cover a wall with the least lap allowed, clear of the field's laps.

    However narrow some of them are: from lap to lap as far as a sheet reaches. Where laps cannot
    be kept clear at all, the fewest that reach.
    """
    key = ("fewest", wall, value(limits, "side-lap"), value(limits, "lap-clearance"))
    if key not in job.kept:
        clear = value(limits, "lap-clearance") if "lap-clearance" in limits else None
        lap = max(1, ceil(value(limits, "side-lap")))
        job.kept[key] = _fewest(job, wall, lap, clear) or _fewest(job, wall, lap, None)
    found: int = job.kept[key]
    return found


def _fewest(job: Job, wall: str, lap: int, clear: float | None) -> int:
    at, end = job.stretch(wall)
    count = 1
    while end - at > job.sheet.width_mm:
        reached = _last_clear(job, wall, at + job.sheet.width_mm - lap, lap, clear)
        if reached <= at:
            return 0
        at, count = reached, count + 1
    return count


def _last_clear(job: Job, wall: str, at: int, lap: int, clear: float | None) -> int:
    """The last place up to ``at`` where a lap may start."""
    if clear is None:
        return at
    for low, high in sorted(job.wall(wall).field_laps, reverse=True):
        if low - clear < at + lap and at < high + clear:
            at = floor(low - clear) - lap
    return at


def _laps_left(job: Job, limits: Limits, state: State, wall: str) -> int:
    welded = {*state.welds, *(lap_name(task) for task in under_way(state, "weld"))}
    due = lap_ids_due(job, state, wall)
    i = job.wall_index(wall)
    ends = (i > 0) + (i < len(job.corners))
    fresh = least_sheets(job, limits, state, wall) - 1 + ends
    return min(sum(k not in welded for k in due), fresh) if due else fresh


def _rolls_left(job: Job, state: State, there: set[str]) -> int:
    """Rolls of what lies there, and one for each corner: on its second sheet it presses both."""
    rolled = {sheet_id_of(task) for task in under_way(state, "roll", "roll corner")}
    rolled |= {name for name, sheet in state.sheets.items() if sheet.rolled_at is not None}
    walls = {name for name in there if not name.startswith("corner-")}
    corners = {corner_sheet_id(i, 2) for i in range(len(job.corners))}
    return len((walls | corners) - rolled)


def _fills_left(limits: Limits, state: State) -> int:
    """Corners that need hot bitumen before a flame may come."""
    if not value(limits, "flame-to-unclosed"):
        return 0
    return max(0, sum(c.filled is None for c in state.corners) - len(under_way(state, "fill")))


def before_laying(job: Job, limits: Limits, state: State) -> int:
    """Minutes of set-out, line and primer of walls on which sheets are still to be laid."""
    work, minutes = 0, job.minutes
    by_eye = job.by_eye_mm >= value(limits, "lap-onto-field")
    marking = {(t["do"], t["wall"]) for t in under_way(state, "set out", "snap")}
    for wall in job.walls:
        if "primed-surfaces" in limits:
            bare = bare_mm(state, wall.id, 0, wall.length_mm)
            work += minutes["prime a metre"] * bare // 1000
        if wall.id not in state.layouts and ("set out", wall.id) not in marking:
            work += minutes["set out"]
        lined = by_eye or wall.id in state.lines or ("snap", wall.id) in marking
        if not lined and not any(sheet.on(wall.id) for sheet in state.sheets.values()):
            work += minutes["snap"]
    return work
