"""Looking back on a finished installation: what was wasted, and which decision cost most.

Time stands beside the verdict and never in it: whatever was quick and wrong was wrong.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from trainer.installation.foreman import Way
from trainer.installation.job import Job, girth_of
from trainer.installation.laps import missing
from trainer.installation.limits import Limits
from trainer.installation.planner import Plan, best
from trainer.installation.state import State

_LOOKS = 7
"""States from which is planned again at first; then the worst stretch is halved."""

_MM2_PER_M2 = 1_000_000


@dataclass(frozen=True)
class Wasted:
    """What was done for nothing: wall stripped and laid again, primer that no sheet lies on."""

    redone_mm: int
    primer_mm: int
    primer_l: float


@dataclass(frozen=True)
class Dearest:
    """The decision after which the best possible end moved most, and by how many minutes."""

    number: int
    minutes: int


@dataclass(frozen=True)
class Verdict:
    """How the day stands by the rules alone. ``left``: what is not finished."""

    critical: int
    quality: int
    left: tuple[str, ...]

    @property
    def clean(self) -> bool:
        return not (self.critical or self.quality or self.left)


def verdict(job: Job, state: State) -> Verdict:
    """Findings by severity and what is left to do; speed has no part in it."""
    critical = sum(f.severity == "critical" for f in state.findings)
    return Verdict(critical, len(state.findings) - critical, tuple(missing(job, state)))


def wasted(job: Job, state: State) -> Wasted:
    """What was redone and what primer was wasted, in millimetres of wall and litres."""
    extra, area = 0, 0
    for wall in job.walls:
        primed = sum(c.to_mm - c.from_mm for c in state.coats if c.wall == wall.id)
        extra_here = max(0, primed - _covered_mm(state, wall.id))
        extra += extra_here
        area += extra_here * girth_of(wall, 100)
    stripped = state.primed_mm - sum(c.to_mm - c.from_mm for c in state.coats)
    extra += max(0, stripped)
    area += max(0, stripped) * girth_of(job.walls[0], 100)
    litres = round(area / _MM2_PER_M2 / job.paper.coverage_m2_per_l, 1)
    return Wasted(state.redone_mm, extra, litres)


def _covered_mm(state: State, wall: str) -> int:
    """How much of a wall sheets cover, laps counted once."""
    total, reached = 0, 0
    for low, high in sorted(e for s in state.sheets.values() if (e := s.on(wall))):
        total += max(0, high - max(low, reached))
        reached = max(reached, high)
    return total


def dearest(job: Job, limits: Limits, states: Sequence[State]) -> Dearest | None:
    """The decision that cost most, by planning again from the states before it and after it.

    ``states``: the state before each decision, and the last. None where no decision moved the
    best possible end. A plan from a later state is open to an earlier one as well, so the ends
    never fall; the longest rise is halved until one decision is left.
    """
    if len(states) < 2:
        return None
    ends: dict[int, int] = {}

    def end(i: int) -> int:
        if i not in ends:
            ends[i] = _end_from(job, limits, states[i])
        return ends[i]

    marks = sorted({round(i * (len(states) - 1) / _LOOKS) for i in range(_LOOKS + 1)})
    soonest = end(marks[-1])
    for i in reversed(marks):
        soonest = ends[i] = min(soonest, end(i))
    low, high = max(pairwise(marks), key=lambda m: ends[m[1]] - ends[m[0]])
    while high - low > 1:
        middle = (low + high) // 2
        ends[middle] = min(max(end(middle), ends[low]), ends[high])
        upper = ends[high] - ends[middle] > ends[middle] - ends[low]
        low, high = (middle, high) if upper else (low, middle)
    rise = ends[high] - ends[low]
    return Dearest(high, rise) if rise > 0 else None


def _end_from(job: Job, limits: Limits, state: State) -> int:
    if state.ended is not None:
        return state.ended if not missing(job, state) else job.leave_by
    return best(job, limits, hindsight=True, start=state, tries=_QUICK).end


_QUICK = (Way(hindsight=True), Way(hindsight=True, melt_late=True, ahead=True))


@dataclass(frozen=True)
class Days:
    """The best day by the forecast and with hindsight; the second is never the later one."""

    forecast: Plan
    hindsight: Plan


def best_days(job: Job, limits: Limits) -> Days:
    """Both best days of a job. Takes seconds: never on a page that somebody waits for."""
    forecast = best(job, limits, hindsight=False)
    hindsight = best(job, limits, hindsight=True)
    later = (hindsight.clean, -hindsight.end) < (forecast.clean, -forecast.end)
    return Days(forecast, forecast if later else hindsight)
