"""A decision changes its own copy alone, and checks that are left out would find nothing new."""

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.unit.installation import random_plays
from tests.unit.installation.random_plays import busy_corner_job, busy_wall_job
from tests.unit.installation.small_jobs import LIMITS
from trainer.installation import happen, run
from trainer.installation.checks import Look
from trainer.installation.findings import _note, every_check
from trainer.installation.run import decide
from trainer.installation.state import as_text, begin, copied

SEEDS = st.integers(0, 10**6)
JOBS = {
    "corner": busy_corner_job,
    "outside": lambda: busy_corner_job("outside"),
    "wall": busy_wall_job,
}


@pytest.mark.parametrize("name", JOBS)
@settings(max_examples=12, deadline=None)
@given(seed=SEEDS)
def test_no_change_leaks_into_the_state_before(name, seed):
    job, states = JOBS[name](), []
    for before, _, after in random_plays.play(job, LIMITS, seed):
        if not states:
            states.append((before, as_text(before)))
        states.append((after, as_text(after)))
    for state, text in states:
        assert as_text(state) == text


@settings(max_examples=10, deadline=None)
@given(seed=SEEDS)
def test_a_copy_is_equal_and_shares_nothing_that_changes(seed):
    job = busy_corner_job()
    for before, decision, after in random_plays.play(job, LIMITS, seed, count=25):
        assert as_text(copied(before)) == as_text(before)
        assert as_text(decide(job, LIMITS, copied(before), decision)) == as_text(after)


def with_every_check(job, limits, state, touched):
    for check in every_check():
        _note(Look(job, state, limits), check)


def _findings(state):
    return [(f.subject, f.place, f.at, f.cause, f.facts, f.severity) for f in state.findings]


@pytest.mark.parametrize("name", JOBS)
@settings(max_examples=25, deadline=None)
@given(seed=SEEDS)
def test_looking_only_where_something_was_touched_misses_nothing(name, seed):
    job = JOBS[name]()
    sparing = begin(job)
    taken = []
    for _, decision, after in random_plays.play(job, LIMITS, seed):
        sparing = after
        taken.append(decision)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(run, "bring_up_to_date", with_every_check)
        thorough = begin(job)
        for decision in taken:
            thorough = decide(job, LIMITS, thorough, decision)
    key = str
    assert sorted(_findings(sparing), key=key) == sorted(_findings(thorough), key=key)


@settings(max_examples=15, deadline=None)
@given(seed=SEEDS)
def test_the_same_decisions_give_the_same_bytes(seed):
    job = busy_wall_job()
    plays = [list(random_plays.play(job, LIMITS, seed, count=30)) for _ in range(2)]
    assert [as_text(after) for _, _, after in plays[0]] == [
        as_text(after) for _, _, after in plays[1]
    ]


@settings(max_examples=15, deadline=None)
@given(seed=SEEDS)
def test_time_never_goes_back_and_everything_has_its_minute(seed):
    job = busy_corner_job()
    for before, _, after in random_plays.play(job, LIMITS, seed):
        assert before.now <= after.now <= job.leave_by
        assert after.n == before.n + 1
        minutes = [entry["at"] for entry in after.log]
        assert minutes == sorted(minutes)
        for person in after.people.values():
            assert person.until is None or person.until >= after.now
            assert (person.doing is None) == (person.until is None)
        assert after.gas_left >= 0 and after.gas_spare >= 0


def test_random_plays_reach_every_kind_of_work():
    """The plays above are worth something only when they come far."""
    done, found = set(), set()
    for seed in range(60):
        job = random.Random(seed).choice([busy_corner_job, busy_wall_job])()
        days = list(random_plays.play(job, LIMITS, seed))
        done |= {decision["do"] for _, decision, _ in days}
        found |= {finding.subject for finding in days[-1][2].findings}
    assert {"weld", "gusset", "fill", "strip", "strip corner", "preheat", "alarm", "seal"} <= done
    assert len(found) >= 25
    assert happen.SMOULDERS_MIN == 10
