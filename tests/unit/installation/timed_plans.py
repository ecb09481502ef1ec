"""Plans as decisions with their minute, so that one of them can be changed and the rest kept.

A plan comes from a good foreman's day without its waits. Replayed, every decision is taken at its
minute, or as soon after as the person is free; one that nature no longer allows is left out.
"""

from __future__ import annotations

from tests.unit.installation.small_jobs import LIMITS, corner_job, small_job, wait
from trainer.installation.play import play
from trainer.installation.run import Impossible, decide
from trainer.installation.state import begin


def site_job():
    """A wall with a nailer, a damp stretch, an opening, loose things and a low parapet."""
    return small_job(
        wall={
            "behind": [{"id": "nail", "from_mm": 2000, "to_mm": 2800, "what": "timber nailer"}],
            "damp": [{"from_mm": 200, "to_mm": 700, "dry_at": "15:00"}],
            "rail": False,
        },
        openings=[{"id": "vent", "wall": "A", "at_mm": 700, "off_mm": 900, "what": "vent"}],
        loose=[{"id": "bags", "wall": "A", "at_mm": 700, "off_mm": 2900, "what": "bags"}],
    )


JOBS = {
    "wall": small_job(),
    "site": site_job(),
    "inside": corner_job(),
    "outside": corner_job("outside"),
}


def timed_plan(job):
    """A clean day's decisions as (minute, decision), without the waits."""
    day = play(job, LIMITS, "book")
    assert day.last.findings == []
    taken = zip(day.states, day.decisions, strict=False)
    return [(state.now, d) for state, d in taken if d["do"] != "wait"]


def replayed(job, plan):
    """The state after a plan, each decision at its minute or as soon as nature allows."""
    state = begin(job)
    for minute, decision in plan:
        state = _until(job, state, minute)
        if state.ended is None:
            state = _taken(job, state, decision)
    return state


def _until(job, state, minute):
    while state.ended is None and state.now < minute:
        state = decide(job, LIMITS, state, wait(minute - state.now))
    return state


def _taken(job, state, decision):
    for _ in range(60):
        try:
            return decide(job, LIMITS, state, decision)
        except Impossible as refusal:
            if " busy until " not in str(refusal):
                return state
            state = decide(job, LIMITS, state, wait(1))
            if state.ended is not None:
                return state
    raise AssertionError(decision)


def done(state, do, **fields):
    """The minutes at which such work was done, from the log."""
    return [
        entry["at"]
        for entry in state.log
        if entry["kind"] == "done"
        and entry["do"] == do
        and all(entry.get(key) == value for key, value in fields.items())
    ]


def begun(state, do, **fields):
    """The minutes at which such work was begun."""
    return [
        entry["since"]
        for entry in state.log
        if entry["kind"] == "done"
        and entry["do"] == do
        and all(entry.get(key) == value for key, value in fields.items())
    ]
