"""Every plan of a tiny job, searched from the earliest minute on: no foreman, no rule of thumb.

Which work there is, and at which place, is given; who does it, when, and in which order is open.
The search runs over the simulator's own decisions, keeps states without a finding, knows a state
again by its text without its history, and takes the earliest first: the first that is finished and
left is the best day.
"""

from __future__ import annotations

import heapq
from itertools import count

from trainer.errors import InputError
from trainer.installation.laps import missing
from trainer.installation.run import Impossible, decide
from trainer.installation.state import begin, plain

FORGOTTEN = ("log", "n", "known", "findings", "standing", "smoke_wall", "smoulder_wall")
WATCH_MIN = 120


def earliest_end(job, limits, tasks, most=200_000):
    """(minute at which the best day ends, states looked at); None when there is no clean day.

    ``tasks(job, state)`` gives the work that is left, without the people who do it.
    """
    start, number = begin(job), count()
    heap, seen = [(start.now, next(number), start)], set()
    while heap:
        _, _, state = heapq.heappop(heap)
        if state.ended is not None:
            return state.ended, len(seen)
        key = text(state)
        if key in seen:
            continue
        seen.add(key)
        if len(seen) > most:
            raise AssertionError("too many states")
        for after in following(job, limits, state, tasks):
            heapq.heappush(heap, (after.now, next(number), after))
    return None


def text(state):
    """What tells a state from another, its history left out."""
    parts = {k: v for k, v in plain(state).items() if k not in FORGOTTEN}
    return repr(without_numbers(parts))


def without_numbers(value):
    if isinstance(value, dict):
        return {k: without_numbers(v) for k, v in value.items() if k not in ("by", "id")}
    return [without_numbers(v) for v in value] if isinstance(value, list) else value


def following(job, limits, state, tasks):
    """Every clean state one decision on."""
    for decision in decisions(job, state, tasks):
        try:
            after = decide(job, limits, state, decision)
        except (Impossible, InputError):
            continue
        if not after.findings and after.end != "leaving time":
            yield after


def decisions(job, state, tasks):
    if not missing(job, state):
        yield {"do": "leave"}
    idle = [p.id for p in state.people.values() if p.free and not p.watching]
    for task in tasks(job, state):
        for who in idle:
            yield {**task, "who": who}
            if task["do"] == "lay":
                yield from ({**task, "who": who, "with": other} for other in idle if other != who)
    yield from ({"do": "wait", "minutes": minute - state.now} for minute in moments(job, state))


def moments(job, state):
    """The minutes at which something may become possible or right: nothing else is worth a wait."""
    times = {p.until for p in state.people.values() if p.until is not None}
    for coat in state.coats:
        for at in {coat.to_mm, *(e for a, b in marked(job, state, coat.wall) for e in (a, b))}:
            if coat.from_mm < at <= coat.to_mm:
                times.add(-(-(coat.primed_ms(at) + coat.dry_min * 1000) // 1000))
    times |= {strip.cut_at + 30 for strip in state.strips}
    if state.last_flame is not None and not state.flames:
        times |= {
            state.last_flame + WATCH_MIN,
            state.last_flame + WATCH_MIN - job.minutes["close permit"],
        }
    later = sorted(minute for minute in times if minute > state.now)
    return later[:2]


def marked(job, state, wall):
    layout = state.layouts.get(wall)
    if layout is None:
        return []
    starts = [0, *layout["laps"]]
    ends = [at + layout["lap_mm"] for at in layout["laps"]] + [job.wall(wall).length_mm]
    return list(zip(starts, ends, strict=True))
