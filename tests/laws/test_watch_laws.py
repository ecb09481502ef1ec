"""Laws of the fire watch: more danger never asks for less, more watching never leaves more open."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from trainer.roofing.clock import Moment
from trainer.roofing.pairing import Torch, Watcher, judge
from trainer.roofing.watchcover import Stretch, truly_present, uncovered
from trainer.roofing.watchneed import Around, Combustible, Opening, reasons

NAMES = st.text(max_size=3)
LENGTHS = st.integers(0, 20_000)
THINGS = st.lists(st.builds(Combustible, NAMES, LENGTHS, st.booleans()), max_size=4)
OPENINGS = st.lists(st.builds(Opening, NAMES, LENGTHS), max_size=3)
AROUNDS = st.builds(Around, THINGS, OPENINGS, st.lists(NAMES, max_size=2))


def needed(around, limit_mm):
    return any(reasons(around, limit_mm).values())


@given(AROUNDS, AROUNDS, LENGTHS)
def test_more_round_the_flame_never_asks_for_less(around, more, limit_mm):
    together = Around(
        [*around.combustibles, *more.combustibles],
        [*around.openings, *more.openings],
        [*around.behind_metal, *more.behind_metal],
    )
    found = [reasons(each, limit_mm) for each in (around, more, together)]
    for trigger in found[2]:
        assert found[2][trigger] == found[0][trigger] + found[1][trigger]


@given(AROUNDS, LENGTHS, LENGTHS)
def test_a_longer_limit_never_asks_for_less(around, limit_mm, longer):
    assert needed(around, limit_mm + longer) or not needed(around, limit_mm)


@given(THINGS, LENGTHS)
def test_nothing_is_a_reason_twice(things, limit_mm):
    named = [name for names in reasons(Around(things, [], []), limit_mm).values() for name in names]
    assert len(named) <= len(things)


MOMENTS = st.integers(0, 30).map(lambda minute: Moment(Fraction(minute)))
STRETCHES = st.tuples(MOMENTS, MOMENTS).map(lambda ends: Stretch(*sorted(ends)))
MANY = st.lists(STRETCHES, max_size=5)


def open_minutes(wanted, present):
    return sum(gap.minutes for gap in uncovered(wanted, present))


@given(STRETCHES, MANY, STRETCHES)
def test_more_watching_never_leaves_more_open(wanted, present, more):
    assert open_minutes(wanted, [*present, more]) <= open_minutes(wanted, present)


@given(STRETCHES, MANY, STRETCHES)
def test_being_away_longer_never_leaves_less_open(wanted, present, away):
    here = {"A": present}
    gone = truly_present(here, {"A": [away]})
    assert open_minutes(wanted, gone) >= open_minutes(wanted, truly_present(here, {}))


@given(STRETCHES, MANY)
def test_gaps_lie_in_order_within_what_is_wanted_and_filling_them_covers_it(wanted, present):
    gaps = uncovered(wanted, present)
    edges = [edge for gap in gaps for edge in (gap.start, gap.end)]
    assert edges == sorted(set(edges))
    assert all(wanted.start <= edge <= wanted.end for edge in edges)
    assert uncovered(wanted, [*present, *gaps]) == []


@given(STRETCHES, MANY, st.data())
def test_the_order_of_the_watchers_changes_nothing(wanted, present, data):
    turned = data.draw(st.permutations(present))
    assert uncovered(wanted, turned) == uncovered(wanted, present)


WATCHERS = st.tuples(st.booleans(), st.booleans())
TORCHES = st.lists(
    st.tuples(st.sampled_from(["A", "B", None]), LENGTHS, st.booleans(), st.booleans()),
    min_size=1,
    max_size=5,
)


def crew(of_a, of_b):
    return [Watcher("A", *of_a), Watcher("B", *of_b)]


def lit(torches):
    return [Torch(str(i), *each) for i, each in enumerate(torches)]


@given(TORCHES, WATCHERS, WATCHERS, LENGTHS, st.data())
def test_a_trained_guard_of_its_own_clears_a_torch(torches, of_a, of_b, limit_mm, data):
    i = data.draw(st.integers(0, len(torches) - 1))
    before = judge(lit(torches), crew(of_a, of_b), limit_mm)
    helped = lit(torches)
    helped[i] = Torch(str(i), "C", *torches[i][1:])
    after = judge(helped, [*crew(of_a, of_b), Watcher("C", True, False)], limit_mm)
    assert after[i] == []
    assert all(set(a) <= set(b) for a, b in zip(after, before, strict=True))


@given(TORCHES, WATCHERS, WATCHERS, LENGTHS, LENGTHS)
def test_a_longer_limit_is_never_worse(torches, of_a, of_b, limit_mm, longer):
    pair = lit(torches), crew(of_a, of_b)
    strict, mild = judge(*pair, limit_mm), judge(*pair, limit_mm + longer)
    assert all(set(a) <= set(b) for a, b in zip(mild, strict, strict=True))


@given(TORCHES, WATCHERS, WATCHERS, LENGTHS)
def test_a_torch_more_never_clears_another(torches, of_a, of_b, limit_mm):
    fewer = judge(lit(torches[:-1]), crew(of_a, of_b), limit_mm)
    every = judge(lit(torches), crew(of_a, of_b), limit_mm)
    assert all(set(a) <= set(b) for a, b in zip(fewer, every[:-1], strict=True))
