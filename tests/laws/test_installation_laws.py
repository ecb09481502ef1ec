"""Laws of installations, on states that random plays come to."""

import json
from functools import cache

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.unit.installation import random_plays
from tests.unit.installation.random_plays import busy_corner_job, busy_wall_job
from tests.unit.installation.small_jobs import LIMITS, alone, do, played, small_job, wait
from trainer.installation.air import touch
from trainer.installation.checks import Look
from trainer.installation.checks_flame import CHECKS
from trainer.installation.draw_job import draw_job
from trainer.installation.place import Spot
from trainer.installation.planner import best
from trainer.installation.run import decide
from trainer.installation.state import Flame, as_text, begin, copied
from trainer.pack.pack import load_pack

SEEDS = st.integers(0, 10**6)
JOBS = {"wall": busy_wall_job(), "inside": busy_corner_job(), "outside": busy_corner_job("outside")}
NAMES = st.sampled_from(sorted(JOBS))
FEW = settings(max_examples=20, deadline=None)


def state_of(name, seed, count):
    """The state that a random play of so many decisions comes to."""
    states = [after for _, _, after in random_plays.play(JOBS[name], LIMITS, seed, count=count)]
    return states[-1] if states else begin(JOBS[name])


# ------------------------------------------------------------------ primer and time


@FEW
@given(name=NAMES, seed=SEEDS, at=st.integers(0, 1200), later=st.integers(1, 90))
def test_primer_only_dries(name, seed, at, later):
    """A finger finds wet, then tacky, then dry; never the other way."""
    state = state_of(name, seed, 30)
    order = ["wet", "tacky", "dry"]
    for coat in state.coats:
        point = coat.from_mm + at % max(1, coat.to_mm - coat.from_mm)
        now, then = (order.index(touch(coat, point, m)) for m in (state.now, state.now + later))
        assert now <= then
        assert coat.primed_ms(coat.from_mm) <= coat.primed_ms(point) <= coat.primed_ms(coat.to_mm)


@cache
def laid_after(minutes):
    """The first sheet of a wall, laid so long after the roller was done."""
    job = small_job()
    ready = alone(
        job,
        do("set out", wall="A", laps=[900, 1800], lap_mm=100),
        do("cut", strips=1, roll="r1"),
        do("prime", wall="A", stretch=(0, 2800)),
    )
    state = alone(job, wait(minutes), do("lay", wall="A", sheet=0), state=ready)
    return {finding.subject for finding in state.findings}


@settings(max_examples=40, deadline=None)
@given(first=st.integers(1, 240), longer=st.integers(1, 120))
def test_waiting_never_un_expires_primer_nor_wets_it_again(first, longer):
    soon, late = laid_after(first), laid_after(first + longer)
    assert "primer-never-after" not in soon or "primer-never-after" in late
    assert "primer-touch-dry" not in late or "primer-touch-dry" in soon


@FEW
@given(name=NAMES, seed=SEEDS, parts=st.lists(st.integers(1, 25), min_size=2, max_size=4))
def test_a_wait_in_parts_is_one_wait(name, seed, parts):
    """Whatever ends a wait early ends the parts as well; together they come to the same state."""
    state, job = state_of(name, seed, 25), JOBS[name]
    assume(state.ended is None)
    whole = until(job, state, state.now + sum(parts))
    stepped = state
    for part in parts:
        stepped = until(job, stepped, min(stepped.now + part, job.leave_by))
    assert (stepped.now, stepped.coats, stepped.sheets) == (whole.now, whole.coats, whole.sheets)
    assert [(f.subject, f.place, f.at) for f in stepped.findings] == [
        (f.subject, f.place, f.at) for f in whole.findings
    ]


def until(job, state, minute):
    while state.ended is None and state.now < minute:
        state = decide(job, LIMITS, state, wait(minute - state.now))
    return state


# ------------------------------------------------------------------ the flame


def flame_subjects(job, state):
    """(tool, subject) of what a flame in this state would be found for."""
    look = Look(job, state, LIMITS)
    return {
        (fact.place.split()[0], fact.subject)
        for check in CHECKS
        for fact in check.find(look)
        if fact.place.split()[0] in ("torch", "melter")
    }


def closings(state):
    """Every single thing that could be closed in a state, done at once and without anybody."""
    for name in state.sheets:
        yield lambda s, n=name: setattr(s.sheets[n], "rolled_at", s.now)
        yield lambda s, n=name: setattr(s.sheets[n], "melted", True)
    for i, corner in enumerate(state.corners):
        if f"corner-{i}:1" in state.sheets and corner.filled is None:
            yield lambda s, i=i: setattr(s.corners[i], "filled", s.now)
    for thing in ("nail", "vent", "bags"):
        yield lambda s, t=thing: s.covered.append(t)
    yield lambda s: s.cleared.append("bags")
    yield lambda s: setattr(s, "cans", None)
    yield lambda s: setattr(s, "film", None)
    yield lambda s: setattr(s, "permit", "open")


@settings(max_examples=60, deadline=None)
@given(
    name=NAMES,
    seed=SEEDS,
    at=st.integers(0, 1300),
    off=st.sampled_from([0, 400, 900, 1200, 5000]),
    data=st.data(),
)
def test_closing_more_never_forbids_the_flame(name, seed, at, off, data):
    """Rolled, bonded, filled, covered, carried away, closed, bagged: nothing new is found."""
    job, open_ = JOBS[name], copied(state_of(name, seed, 45))
    wall = data.draw(st.sampled_from([w.id for w in job.walls]))
    open_.flames = {"torch": Flame("torch", Spot(wall, at, off), "dana", open_.now, 1)}
    todo = list(closings(open_))
    chosen = data.draw(st.sets(st.sampled_from(range(len(todo))), min_size=1))
    closed = copied(open_)
    for number in chosen:
        todo[number](closed)
    assert flame_subjects(job, closed) <= flame_subjects(job, open_)


# ------------------------------------------------------------------ findings and replay


@FEW
@given(name=NAMES, seed=SEEDS)
def test_a_finding_never_vanishes_and_ends_once(name, seed):
    before = []
    for _, _, after in random_plays.play(JOBS[name], LIMITS, seed):
        kept = after.findings[: len(before)]
        for old, new in zip(before, kept, strict=True):
            assert (old.subject, old.place, old.at, old.cause) == (
                new.subject, new.place, new.at, new.cause,
            )  # fmt: skip
            assert new.until == old.until if old.until is not None else True
        before = after.findings


@FEW
@given(name=NAMES, seed=SEEDS)
def test_decisions_kept_as_text_replay_to_the_same_bytes(name, seed):
    job = JOBS[name]
    days = list(random_plays.play(job, LIMITS, seed))
    kept = [json.dumps(decision) for _, decision, _ in days]
    assert as_text(played(job, *map(json.loads, kept))) == as_text(days[-1][2])


# ------------------------------------------------------------------ the best day

SHOWERY = ("shower-forecast",)


@pytest.mark.parametrize("job_id", SHOWERY)
@settings(max_examples=4, deadline=None)
@given(seed=st.integers(0, 200))
def test_without_showers_the_best_end_is_never_later(job_id, seed):
    spec = load_pack().jobs[job_id]
    job = spec.drawn(seed, 102)
    plain = json.loads(json.dumps(job.plain))
    plain["weather"]["rain"] = []
    plain["weather"]["forecast"] = plain["weather"]["forecast"] | {
        "rain_from": None, "rain_to": None, "rain_pct": 0,
    }  # fmt: skip
    dry = draw_job(plain, 0, 102)
    wet_day = best(job, LIMITS, hindsight=True)
    dry_day = best(dry, LIMITS, hindsight=True)
    assert dry_day.clean
    assert not wet_day.clean or dry_day.end <= wet_day.end
