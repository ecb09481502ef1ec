"""No plan that keeps the rules can end before this: a bound from what every plan must do.

It is a relaxation: people never wait for one another, never walk, and every piece of work takes its
shortest. What is left is the longest chain that nothing can shorten (a strip is cut and relaxes,
primer dries, the last sheet goes on, is rolled, its lap is welded), the work of all hands together,
and the one torch; then the fire watch, in whose last minutes the permit can be filled in.
"""

from __future__ import annotations

from trainer.installation.air import open_coats, spread_k
from trainer.installation.job import Job
from trainer.installation.limits import Limits, value
from trainer.installation.state import State
from trainer.installation.work_left import Left, before_laying, under_way, work_left


def earliest_end(job: Job, limits: Limits, state: State) -> int:
    """The minute before which no plan without further findings can end from this state."""
    if state.ended is not None:
        return state.ended
    left, now = work_left(job, limits, state), state.now
    watch = int(value(limits, "fire-watch"))
    closing = job.minutes["close permit"] if state.permit == "open" else 0
    if under_way(state, "close permit"):
        closing = 0
    over = now if state.last_flame is None else state.last_flame + watch
    chains = (_sheets(job, limits, state, left), _torch(job, state, left))
    done = now + max(*chains, _hands(job, limits, state, left))
    return max(done + (watch if left.flame else 0), over, now + closing)


def _sheets(job: Job, limits: Limits, state: State, left: Left) -> int:
    """From now until the last sheet lies, is rolled, and what it laps onto is welded."""
    if not left.on_primer:
        return 0
    minutes = job.minutes
    first = max(_first_strip(job, limits, state), _first_primer(job, limits, state))
    last = first + _laying(job, limits, state, left, first)
    closed = minutes["roll"] if value(limits, "flame-to-unclosed") else 0
    after = minutes["roll"]
    if left.laps:
        bagged = minutes["bag film"] if "combustibles-distance" in limits else 0
        lit = 0 if "torch" in state.flames else minutes["light"]
        after = max(closed, bagged, lit) + minutes["weld"]
    corner = 2 * minutes["corner sheet"] + closed + minutes["gusset"] if left.firsts else 0
    if left.firsts and closed:
        corner += minutes["fill"]
    if left.firsts and "t-joint-cut" in limits:
        corner += minutes["trim"]
    return max(last + after, first + corner)


def _laying(job: Job, limits: Limits, state: State, left: Left, first: int) -> int:
    """The shortest time in which all hands, or all but one, lay what waits for primer."""
    minutes, crew = job.minutes, len(job.crew)
    sheet = min(minutes["lay"], 2 * minutes["lay together"])
    corners = minutes["corner sheet"]
    work = left.sheets * sheet + (left.firsts + left.overs) * corners
    kinds = [min(minutes["lay"], minutes["lay together"])] if left.sheets else []
    least = max(-(-work // crew), min([*kinds, *([corners] if left.firsts else [])]))
    if not left.laps or _ever_melted(state) or "watchers-per-torch" not in limits:
        return least
    # Film must come off before all but the first corner sheets are laid. From then on somebody
    # watches, until the flame has been out for the length of the watch.
    other, alone = work - left.firsts * corners, max(0, int(value(limits, "fire-watch")) - first)
    fewer = crew - 1
    if other <= fewer * alone:
        return max(least, -(-other // fewer))
    return max(least, alone + -(-(other - fewer * alone) // crew))


def _ever_melted(state: State) -> bool:
    """Whether a torch burnt before, so that film may have been melted off and the watch be over."""
    return state.last_flame is not None or any(strip.melted for strip in state.strips)


def _first_strip(job: Job, limits: Limits, state: State) -> int:
    """Minutes until the first strip has relaxed."""
    relax = int(value(limits, "relaxing-time"))
    cutting = {task["who"] for task in under_way(state, "cut")}
    ends = [p.until for p in state.people.values() if p.id in cutting and p.until is not None]
    cut = [strip.cut_at for strip in state.strips] + ends
    first = min(cut, default=state.now + job.minutes["cut a strip"])
    return max(0, first + relax - state.now)


def _first_primer(job: Job, limits: Limits, state: State) -> int:
    """Minutes until the first sheet can lie on dry primer on a face that is warm enough."""
    warm = [
        at
        for wall in job.walls
        for at in _moments(job, state)
        if _may_lay(job, limits, wall.id, at)
    ]
    never = job.leave_by
    dry = [state.now]
    if {"primer-touch-dry", "primed-surfaces"} <= limits.keys():
        dry = _dry_from(job, limits, state)
    return max(0, min(dry, default=never) - state.now, min(warm, default=never) - state.now)


def _dry_from(job: Job, limits: Limits, state: State) -> list[int]:
    """When primer would be dry that is rolled on from any moment on, or lies there already."""
    begun = 1 if job.minutes["prime a metre"] else 0  # it takes some of a minute to the next point
    dry = [
        at + begun + job.paper.drying_min(job.surface_c(wall.id, at))
        for wall in job.walls
        for at in _moments(job, state)
        if _may_prime(job, limits, wall.id, at)
    ]
    if any(open_coats(state, c.wall, c.from_mm, c.to_mm) for c in state.coats):
        dry += [c.primed_ms(c.from_mm) // 1000 + c.dry_min for c in state.coats]
    return dry


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
    if "adhesive-lap-temperature" not in limits:
        return True
    coldest = max(job.paper.coldest_c, value(limits, "adhesive-lap-temperature", -99))
    spread = value(limits, "surface-above-dew-point", -99)
    return job.surface_c(wall, at) >= coldest and spread_k(job, wall, at) >= spread


def _torch(job: Job, state: State, left: Left) -> int:
    """The one torch, one weld after the other."""
    if not left.flame:
        return 0
    burns = "torch" in state.flames or under_way(state, "light")
    lit = 0 if burns else job.minutes["light"]
    return lit + left.laps * job.minutes["weld"] + left.gussets * job.minutes["gusset"]


def _hands(job: Job, limits: Limits, state: State, left: Left) -> int:
    """All hands: work that must be done by anybody, and somebody watching while anybody welds."""
    minutes = job.minutes
    welding = left.laps * minutes["weld"] + left.gussets * minutes["gusset"]
    guards = 1 if value(limits, "watchers-per-torch") >= 1 else 0
    lay = min(minutes["lay"], 2 * minutes["lay together"])
    work = (
        (1 + guards) * welding
        + left.sheets * lay
        + (left.firsts + left.overs + left.seconds) * minutes["corner sheet"]
        + left.rolls * minutes["roll"]
        + left.fills * minutes["fill"]
        + left.strips * minutes["cut a strip"]
        + before_laying(job, limits, state)
    )
    opening = state.permit == "none" and not under_way(state, "open permit")
    if opening and left.flame and "permit-content" in limits:
        work += minutes["open permit"]
    return -(-work // len(job.crew))
