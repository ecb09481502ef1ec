"""No plan that keeps the rules can end before this: a bound from what every plan must do.

It is a relaxation: people never wait for one another, never walk, and every piece of work takes its
shortest. What is left is the longest chain that nothing can shorten (a strip is cut and relaxes,
primer dries, the last sheet goes on, is rolled, its lap is welded), the work of all hands together,
and the one torch; then the fire watch and the permit.
"""

from __future__ import annotations

from dataclasses import dataclass

from trainer.installation.air import bare_mm, open_coats, spread_k
from trainer.installation.foreman import best_laps
from trainer.installation.job import Job
from trainer.installation.laps import (
    corner_sheet_id,
    lap_ids_due,
    sheets_to_lay,
    wall_sheet_id,
)
from trainer.installation.limits import Limits, value
from trainer.installation.state import State


@dataclass(frozen=True)
class _Left:
    """What is still to be done: sheets by wall, corner sheets, laps and gussets."""

    sheets: int
    corner_sheets: int
    laps: int
    gussets: int
    fills: int

    @property
    def flame(self) -> bool:
        return bool(self.laps or self.gussets)


def earliest_end(job: Job, limits: Limits, state: State) -> int:
    """The minute before which no plan without further findings can end from this state."""
    left = _left(job, limits, state)
    watch = int(value(limits, "fire-watch"))
    closing = job.minutes["close permit"] if state.permit != "closed" else 0
    if not left.flame and not left.sheets and not left.corner_sheets:
        last = state.last_flame
        over = state.now if last is None else max(state.now, last + watch)
        return over + (closing if state.permit == "open" else 0)
    chains = (_sheets(job, limits, state, left), _torch(job, state, left), _hands(job, state, left))
    flame_over = state.now + max(chains)
    return flame_over + (watch + closing if left.flame else 0)


def _left(job: Job, limits: Limits, state: State) -> _Left:
    sheets = laps = 0
    for i, wall in enumerate(job.walls):
        count = len(sheets_to_lay(job, state, wall.id)) or len(best_laps(job, limits, wall.id)) + 1
        sheets += sum(wall_sheet_id(wall.id, k) not in state.sheets for k in range(count))
        ends = (i > 0) + (i < len(job.corners))
        due = lap_ids_due(job, state, wall.id)
        laps += sum(k not in state.welds for k in due) if due else count - 1 + ends
    corners = range(len(job.corners))
    names = [corner_sheet_id(i, number) for i in corners for number in (1, 2)]
    return _Left(
        sheets,
        sum(name not in state.sheets for name in names),
        laps,
        sum(corner.gusset is None for corner in state.corners),
        sum(corner.filled is None for corner in state.corners),
    )


def _sheets(job: Job, limits: Limits, state: State, left: _Left) -> int:
    """From now until the last sheet lies, is rolled, and what it laps onto is welded."""
    minutes = job.minutes
    if not left.sheets and not left.corner_sheets:
        return 0
    first = max(_first_strip(job, limits, state), _first_primer(job, limits, state))
    lay = min(minutes["lay"], 2 * minutes["lay together"])
    work = left.sheets * lay + left.corner_sheets * minutes["corner sheet"]
    least = min(minutes["lay together"], minutes["lay"])
    last = first + max(-(-work // len(job.crew)), least)
    watched = len(job.crew) - 1
    if left.laps and watched and not any(strip.melted for strip in state.strips):
        # film must come off first: from then on somebody watches, or two hours have gone by
        over = int(value(limits, "fire-watch"))
        fewer = first + max(-(-work // watched), least)
        last = min(fewer, max(first, over) + -(-work // len(job.crew)))
    flame = minutes["light"] + minutes["weld"]
    after = max(minutes["roll"], minutes["bag film"]) + flame if left.flame else minutes["roll"]
    if left.corner_sheets == 2 * len(job.corners) and job.corners:
        corner = 2 * minutes["corner sheet"] + minutes["trim"] + minutes["roll"]
        last = max(last, first + corner + minutes["fill"] + minutes["gusset"] - after)
    return last + after


def _first_strip(job: Job, limits: Limits, state: State) -> int:
    """Minutes until the first strip has relaxed."""
    relax = int(value(limits, "relaxing-time"))
    if state.strips:
        return max(0, min(strip.cut_at for strip in state.strips) + relax - state.now)
    return job.minutes["cut a strip"] + relax


def _first_primer(job: Job, limits: Limits, state: State) -> int:
    """Minutes until the first sheet can lie on dry primer on a face that is warm enough."""
    rolled = job.minutes["prime a metre"] * job.sheet.least_mm // 1000
    dry = [
        at + rolled + job.paper.drying_min(job.surface_c(wall.id, at))
        for wall in job.walls
        for at in _moments(job, state)
        if _may_prime(job, limits, wall.id, at)
    ]
    if _any_primed(job, state):
        dry += [c.primed_ms(c.from_mm) // 1000 + c.dry_min for c in state.coats]
    warm = [
        at
        for wall in job.walls
        for at in _moments(job, state)
        if _may_lay(job, limits, wall.id, at)
    ]
    never = job.leave_by
    return max(0, min(dry, default=never) - state.now, min(warm, default=never) - state.now)


def _moments(job: Job, state: State) -> list[int]:
    """Now, and every later minute at which the air or the sun changes."""
    changes = {hour.at for hour in job.weather.path}
    changes |= {edge for wall in job.walls for times in wall.sun for edge in times}
    return [state.now, *sorted(at for at in changes if at > state.now)]


def _may_prime(job: Job, limits: Limits, wall: str, at: int) -> bool:
    humid = value(limits, "relative-humidity", 101)
    spread = value(limits, "surface-above-dew-point", -99)
    return job.weather.hour(at).rh_pct <= humid and spread_k(job, wall, at) >= spread


def _may_lay(job: Job, limits: Limits, wall: str, at: int) -> bool:
    coldest = max(job.paper.coldest_c, value(limits, "adhesive-lap-temperature", -99))
    spread = value(limits, "surface-above-dew-point", -99)
    return job.surface_c(wall, at) >= coldest and spread_k(job, wall, at) >= spread


def _any_primed(job: Job, state: State) -> bool:
    """Whether primer lies anywhere that no sheet covers yet."""
    return any(open_coats(state, c.wall, c.from_mm, c.to_mm) for c in state.coats)


def _torch(job: Job, state: State, left: _Left) -> int:
    """The one torch, one weld after the other."""
    if not left.flame:
        return 0
    lit = 0 if "torch" in state.flames else job.minutes["light"]
    return lit + left.laps * job.minutes["weld"] + left.gussets * job.minutes["gusset"]


def _hands(job: Job, state: State, left: _Left) -> int:
    """All hands: work that must be done by anybody, and somebody watching while anybody welds."""
    minutes = job.minutes
    welding = left.laps * minutes["weld"] + left.gussets * minutes["gusset"]
    lay = min(minutes["lay"], 2 * minutes["lay together"])
    strips = max(0, left.sheets + left.corner_sheets - len(state.strips))
    work = (
        2 * welding
        + left.sheets * (lay + minutes["roll"])
        + left.corner_sheets * minutes["corner sheet"]
        + left.fills * (minutes["fill"] + minutes["roll"])
        + strips * minutes["cut a strip"]
        + _before_laying(job, state)
    )
    if state.permit == "none" and left.flame:
        work += minutes["open permit"]
    busy = sum(max(0, (p.until or state.now) - state.now) for p in state.people.values())
    return max(0, (work - busy) // len(job.crew))


def _before_laying(job: Job, state: State) -> int:
    """Set-out, line and primer of walls on which sheets are still to be laid."""
    work = 0
    for wall in job.walls:
        bare = bare_mm(state, wall.id, 0, wall.length_mm)
        work += job.minutes["prime a metre"] * bare // 1000
        if wall.id not in state.layouts:
            work += job.minutes["set out"]
        if wall.id not in state.lines and not any(s.on(wall.id) for s in state.sheets.values()):
            work += job.minutes["snap"]
    return work
