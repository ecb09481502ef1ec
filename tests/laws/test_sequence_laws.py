"""Laws of order: any order that respects the needs is right, any other is not."""

from hypothesis import given
from hypothesis import strategies as st

from trainer.roofing.sequence import (
    JOBS,
    check,
    first_violation,
    is_valid_order,
    needs_of,
    possible_next,
    steps,
    violations,
)

JOB = st.sampled_from(JOBS)


@st.composite
def valid_orders(draw):
    job = draw(JOB)
    order = []
    while ready := possible_next(job, order):
        order.append(draw(st.sampled_from(ready)))
    return job, order


@given(valid_orders())
def test_any_order_that_respects_the_needs_is_accepted_step_by_step(made):
    job, order = made
    assert len(order) == len(steps(job))
    assert is_valid_order(job, order)
    for i, name in enumerate(order):
        found = check(job, order[:i], name)
        assert found.allowed and not found.missing and not found.critical


@given(valid_orders(), st.data())
def test_swapping_a_needed_pair_is_refused(made, data):
    job, order = made
    pairs = [(need, step) for step, needs in sorted(needs_of(job).items()) for need in needs]
    need, step = data.draw(st.sampled_from(sorted(pairs)))
    i, j = order.index(need), order.index(step)
    swapped = list(order)
    swapped[i], swapped[j] = step, need
    assert not is_valid_order(job, swapped)
    named = first_violation(job, swapped)
    assert swapped.index(named.step) < swapped.index(named.need)
    assert named.need in needs_of(job)[named.step]


@given(JOB, st.data())
def test_the_first_violation_is_where_step_by_step_work_would_have_stopped(job, data):
    order = data.draw(st.permutations([step["name"] for step in steps(job)]))
    stopped = [name for i, name in enumerate(order) if not check(job, order[:i], name).allowed]
    first = first_violation(job, order)
    assert (first.step if first else None) == (stopped[0] if stopped else None)
    assert {v.step for v in violations(job, order)} <= set(stopped)


@given(JOB, st.data())
def test_doing_more_never_leaves_more_missing(job, data):
    names = [step["name"] for step in steps(job)]
    next_step = data.draw(st.sampled_from(names))
    others = [name for name in names if name != next_step]
    done = data.draw(st.lists(st.sampled_from(others), unique=True))
    more = data.draw(st.lists(st.sampled_from(others), unique=True))
    before, after = check(job, done, next_step), check(job, {*done, *more}, next_step)
    assert set(after.missing) <= set(before.missing)
    assert before.critical or not after.critical


@given(JOB, st.data())
def test_the_order_in_which_done_is_told_changes_nothing(job, data):
    names = [step["name"] for step in steps(job)]
    done = data.draw(st.lists(st.sampled_from(names[:-1]), unique=True))
    shuffled = data.draw(st.permutations(done))
    assert check(job, done, names[-1]) == check(job, shuffled, names[-1])
