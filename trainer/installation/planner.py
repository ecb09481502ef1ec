"""The best day: a plan without findings that ends earliest, and of those takes least sheet.

Every way of working that is tried is played through by the foreman, on the real simulator, with the
forecast alone or with hindsight; the best one that keeps the rules is the plan. When it ends at the
bound that no plan can beat, it is exact. Otherwise the bound is stated beside it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import product

from trainer.installation.bound import earliest_end
from trainer.installation.foreman import Way
from trainer.installation.job import Job
from trainer.installation.laps import missing
from trainer.installation.limits import Limits
from trainer.installation.play import Played, by_the_book, play_by
from trainer.installation.state import Decision, State, begin

_MIXES = 8
"""How many variations of the best way are tried."""


@dataclass(frozen=True)
class Plan:
    """The best plan found. ``end`` and ``bound`` are minutes of the day.

    ``clean``: nothing more goes wrong in it and nothing is left undone. ``exact``: it ends at the
    bound. ``strips`` are those cut in all. ``last`` is its last state, for drawing it.
    """

    end: int
    strips: int
    decisions: tuple[Decision, ...]
    bound: int
    clean: bool
    last: State
    tried: int

    @property
    def exact(self) -> bool:
        return self.clean and self.end <= self.bound


def ways(job: Job, *, hindsight: bool) -> list[Way]:
    """The ways of working that are tried for a job, the plain one first."""
    options = product((False, True), (False, True), (True, False))
    found = [
        Way(melt_late=late, ahead=ahead, together=together, hindsight=hindsight)
        for late, ahead, together in options
    ]
    # who sees more is open to every plan of who sees less
    return [*found, Way(), Way(melt_late=True, ahead=True)] if hindsight else found


def best(
    job: Job,
    limits: Limits,
    *,
    hindsight: bool,
    start: State | None = None,
    tries: Sequence[Way] | None = None,
) -> Plan:
    """The best plan from a state, or from the morning. ``tries`` in place of all ways."""
    state = begin(job) if start is None else start
    bound = earliest_end(job, limits, state)
    chosen = ways(job, hindsight=hindsight) if tries is None else tries
    tried = _tried(job, limits, state, chosen, bound)
    found, way = min(tried, key=lambda item: _worth(job, state, item[0]))
    count = len(tried)
    if tries is None and found.last.ended is not None and found.last.ended > bound:
        bold = [replace(way, in_hand_min=0, pace_pct=pace) for pace in (80, 55)]
        varied = [replace(way, from_right=True), *bold]
        varied += [replace(way, mix=mix) for mix in range(1, _MIXES + 1)]
        more = _tried(job, limits, state, varied, bound)
        count += len(more)
        found = min([found, *(item[0] for item in more)], key=lambda p: _worth(job, state, p))
    return _plan(job, state, found, bound, count)


def _tried(
    job: Job, limits: Limits, state: State, chosen: Iterable[Way], bound: int
) -> list[tuple[Played, Way]]:
    """Every way played through; none after one that cannot be beaten."""
    found = []
    for way in chosen:
        played = play_by(job, limits, by_the_book(job, limits, way), state)
        found.append((played, way))
        if _clean(job, state, played) and (played.last.ended or 0) <= bound:
            break
    return found


def _clean(job: Job, state: State, played: Played) -> bool:
    more = len(played.last.findings) - len(state.findings)
    return not more and not missing(job, played.last)


def _worth(job: Job, state: State, played: Played) -> tuple[bool, int, int, int]:
    """Smaller is better: nothing wrong, then early, then little sheet."""
    last = played.last
    more = len(last.findings) - len(state.findings)
    unclean = not _clean(job, state, played)
    return unclean, more if unclean else 0, last.ended or 0, last.strips_cut


def _plan(job: Job, state: State, played: Played, bound: int, tried: int) -> Plan:
    last = played.last
    return Plan(
        end=last.ended or 0,
        strips=last.strips_cut,
        decisions=played.decisions,
        bound=bound,
        clean=_clean(job, state, played),
        last=last,
        tried=tried,
    )
