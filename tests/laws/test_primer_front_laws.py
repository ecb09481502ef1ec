"""Laws of the primer along a wall: at every point it is what the calculator `primer` says there."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.roofing.clock import Moment
from trainer.roofing.primer import PRIMER, Coat, judge
from trainer.roofing.primerfront import PRIMER_FRONT, Front

STARTED = Moment(Fraction(480))
SAID_BY_PRIMER = {"expired": "dead", "late": "late", "ready": "ready", "drying": "drying"}

durations = st.integers(0, 400) | st.decimals(0, 400, places=2).map(float)
paces = st.sampled_from([0, 0.1, 1 / 3]) | st.integers(0, 30) | st.decimals(0, 30, places=2)
lengths = st.integers(1, 60_000) | st.decimals("0.01", 60_000, places=2).map(float)


@st.composite
def fronts(draw):
    dry, plan, latest = sorted(draw(st.tuples(durations, durations, durations)))
    pace = draw(paces.map(float))
    return Front(draw(durations), pace, draw(lengths), dry, plan, latest)


def exactly(number):
    return number if isinstance(number, Fraction) else Fraction(repr(number))


def primer_says(front, at_mm):
    """The state that `primer` gives a coat that went on when the roller passed this point."""
    passed = STARTED.after(exactly(front.prime_min_per_m) / 1000 * at_mm)
    coat = Coat(passed, front.dry_min, front.plan_min, front.latest_min)
    return SAID_BY_PRIMER[judge(coat, STARTED.after(front.elapsed_min), "dry").state]


@given(fronts(), st.fractions(0, 1))
def test_inside_every_stretch_primer_says_the_same(front, part):
    for begin, end, state in front.stretches():
        inside = begin + (end - begin) * (1 + part) / 3  # never on an end, where two states meet
        assert primer_says(front, inside) == state


@given(fronts())
def test_at_the_end_of_a_stretch_the_limit_is_met_exactly_as_primer_has_it(front):
    """The point that is exactly plan_min old is not late, the one exactly latest_min not dead."""
    order = list(SAID_BY_PRIMER.values())
    known = list(front.stretches())
    for (_, end, before), (_, _, after) in pairwise(known):
        said = primer_says(front, end)
        if before == "ready":
            assert said == "ready"
        else:
            assert order.index(before) < order.index(said) <= order.index(after)


@given(fronts())
def test_the_stretches_cover_what_is_primed_once_and_in_order(front):
    known = list(front.stretches())
    at = Fraction(0)
    for begin, end, _ in known:
        assert begin == at < end
        at = end
    assert at == front.primed_mm <= exactly(front.length_mm)
    states = [state for *_, state in known]
    assert states == [state for state in SAID_BY_PRIMER.values() if state in states]


@given(fronts(), st.integers(0, 300))
def test_waiting_never_brings_primer_back(front, wait):
    later = Front(**{**vars(front), "elapsed_min": exactly(front.elapsed_min) + wait})
    for name in ("dead_to_mm", "late_to_mm", "ready_to_mm", "primed_mm"):
        assert getattr(later, name) >= getattr(front, name)


@given(fronts())
def test_the_ends_stand_in_the_order_of_age(front):
    assert 0 <= front.dead_to_mm <= front.late_to_mm <= front.ready_to_mm <= front.primed_mm


@given(
    st.integers(1, 12),
    st.integers(0, 400),
    st.tuples(*[st.integers(0, 240)] * 3).map(sorted),
)
def test_both_calculators_agree_from_outside_at_every_metre(pace, elapsed, limits):
    """Through the doors, with times of day: a whole pace puts every metre on a whole minute.

    The wall is longer than anybody primes in that time, so that no end is the end of the wall.
    """
    sheet = dict(zip(("dry_min", "plan_min", "latest_min"), limits, strict=True))
    now = hours(480 + elapsed)
    wall = PRIMER_FRONT(
        {"started_at": "08:00", "now": now, "prime_min_per_m": pace, "length_mm": 10**6} | sheet
    )
    assert wall["primed_mm"] == pytest.approx(1000 * elapsed / pace, abs=0.01)
    for metre in range(1, elapsed // pace + 1):
        said = PRIMER(
            {"applied_at": hours(480 + metre * pace), "now": now, "touch": "dry",
             "touch_required": "dry"} | sheet
        )  # fmt: skip
        assert SAID_BY_PRIMER[said["state"]] == state_at(wall, metre * 1000)


def state_at(wall, at_mm):
    """What the results of `primer-front` say of one point, off the ends of the wall."""
    if at_mm < wall["dead_to_mm"]:
        return "dead"
    if at_mm < wall["late_to_mm"]:
        return "late"
    return "ready" if at_mm <= wall["ready_to_mm"] else "drying"


def hours(minute):
    return f"{minute // 60:02}:{minute % 60:02}"
