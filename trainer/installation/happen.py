"""What comes by itself: showers, gusts, footprints, dust, smoke, the end of the gas."""

from __future__ import annotations

from trainer.installation.act import log
from trainer.installation.checks_flame import near_what_burns
from trainer.installation.checks_site import ANSWER_SMOKE_WITHIN_MIN
from trainer.installation.coats import spoil
from trainer.installation.day import Happening
from trainer.installation.job import Job
from trainer.installation.limits import Limits, value
from trainer.installation.state import State

SMOULDERS_MIN = 10
"""From a flame on something that burns to the first smoke: common practice, no source."""
_NEVER = 10**6


def next_happening(job: Job, state: State) -> int:
    """The next minute at which something happens that nobody decided."""
    times = [_NEVER]
    if state.due < len(job.schedule):
        times.append(max(state.now, job.schedule[state.due][0]))
    if "torch" in state.flames:
        times.append(state.now + state.gas_left)
    if state.smoke_at is not None and not state.smoke_answered:
        late = state.smoke_at + ANSWER_SMOKE_WITHIN_MIN
        times += [late] if late > state.now else []
    if state.smoulder_at is not None:
        times.append(state.smoulder_at)
    return min(times)


def happen_until(job: Job, limits: Limits, state: State) -> set[str]:
    """Let everything happen that is due by now; what it may have made wrong."""
    touched: set[str] = set()
    while state.due < len(job.schedule) and job.schedule[state.due][0] <= state.now:
        at, kind, thing = job.schedule[state.due]
        state.due += 1
        touched |= _happen(job, state, at, kind, thing)
    if state.smoulder_at is not None and state.smoulder_at <= state.now:
        state.smoulder_at = None
        touched |= _smoke(state, state.smoulder_wall)
    if state.smoke_at is not None and state.now == state.smoke_at + ANSWER_SMOKE_WITHIN_MIN:
        touched.add("smoke")
    smoulder(job, limits, state)
    return touched


def smoulder(job: Job, limits: Limits, state: State) -> None:
    """A flame on something that burns starts to smoulder; nobody sees it yet."""
    if state.smoulder_at is not None or not state.flames:
        return
    band = value(limits, "flame-free-band")
    for flame in state.flames.values():
        wall = near_what_burns(job, state.covered, job.placed(flame.spot), band)
        if wall:
            state.smoulder_at, state.smoulder_wall = state.now + SMOULDERS_MIN, wall
            return


def _happen(job: Job, state: State, at: int, kind: str, thing: Happening | None) -> set[str]:
    if kind == "rain":
        return _rain(job, state)
    if kind == "rain over":
        state.rain_over = at
        log(state, kind)
        return {"weather"}
    if thing is None:
        log(state, kind)
        return {"weather"}
    if kind == "smoke":
        return _smoke(state, thing.wall)
    spoil(state, thing.wall, thing.from_mm, thing.to_mm, kind)
    return {"coat"}


def _rain(job: Job, state: State) -> set[str]:
    state.rained_at, state.dried = state.now, {}
    for wall in job.walls:
        spoil(state, wall.id, 0, wall.length_mm, "rain")
    log(state, "rain")
    return {"weather", "coat"}


def _smoke(state: State, wall: str) -> set[str]:
    if state.smoke_answered:  # the first smoke that nobody saw to is the one that counts
        state.smoke_at, state.smoke_wall, state.smoke_answered = state.now, wall, False
    log(state, "smoke", wall=wall)
    return {"smoke"}
