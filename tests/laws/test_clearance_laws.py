"""Laws of the flame: closing more, standing back and milder limits never forbid it."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from trainer.roofing.clearance import Plan, distance_mm, judge

NUMBER = st.integers(-3000, 3000) | st.integers(-30000, 30000).map(lambda tenths: tenths / 10)
POINT = st.tuples(NUMBER, NUMBER)
SEGMENT = st.tuples(POINT, POINT)
PLACES = st.lists(POINT | SEGMENT, max_size=5)
LIMIT = st.integers(0, 4000)


@st.composite
def plans(draw):
    return Plan(
        flame=draw(POINT),
        unclosed=draw(PLACES),
        limit_mm=draw(LIMIT),
        combustible=draw(st.booleans()),
        wet_primer=draw(st.lists(SEGMENT, max_size=2)),
        wet_primer_mm=draw(LIMIT),
        cylinders=draw(st.lists(POINT, max_size=2)),
        cylinder_limit_mm=draw(LIMIT),
    )


def grounds(plan):
    return set(judge(plan).grounds)


@given(plans(), st.data())
def test_closing_more_never_forbids_the_flame(plan, data):
    keep = data.draw(st.lists(st.booleans(), min_size=5, max_size=5))
    still_open = [place for place, kept in zip(plan.unclosed, keep, strict=False) if kept]
    closed_more = replace(plan, unclosed=still_open)
    assert grounds(closed_more) <= grounds(plan)


@given(plans())
def test_with_everything_closed_nothing_unclosed_is_in_the_way(plan):
    closed = judge(replace(plan, unclosed=[]))
    assert closed.nearest is None and closed.nearest_mm is None
    assert "unclosed" not in closed.grounds


def behind(flame, direction, point):
    """``point``, mirrored through the flame when it lies ahead of it, so that it is behind."""
    ahead = sum((p - f) * d for p, f, d in zip(point, flame, direction, strict=True))
    return tuple(2 * f - p for p, f in zip(point, flame, strict=True)) if ahead > 0 else point


WHOLE = st.integers(-3000, 3000)
WHOLE_POINT = st.tuples(WHOLE, WHOLE)


@given(
    WHOLE_POINT,
    st.lists(st.tuples(WHOLE_POINT, WHOLE_POINT), max_size=4),
    st.tuples(st.integers(-40, 40), st.integers(-40, 40)),
    st.integers(1, 50),
    LIMIT,
)
def test_moving_straight_away_from_everything_never_makes_it_worse(
    flame, segments, direction, paces, limit
):
    places = [tuple(behind(flame, direction, end) for end in ends) for ends in segments]
    plan = Plan(flame, places, limit, False, places, limit, [p for p, _ in places], limit)
    away = tuple(f + paces * d for f, d in zip(flame, direction, strict=True))
    moved = replace(plan, flame=away)
    assert grounds(moved) <= grounds(plan)
    for place in places:
        assert distance_mm(away, place) >= distance_mm(flame, place)


@given(plans(), LIMIT, LIMIT, LIMIT)
def test_wider_limits_never_allow_more(plan, unclosed, primer, cylinder):
    wider = replace(
        plan,
        limit_mm=plan.limit_mm + unclosed,
        wet_primer_mm=plan.wet_primer_mm + primer,
        cylinder_limit_mm=plan.cylinder_limit_mm + cylinder,
    )
    assert grounds(plan) <= grounds(wider)


@given(plans(), st.permutations(range(5)))
def test_the_order_of_the_lists_changes_no_ground_and_no_distance(plan, order):
    shuffled = [plan.unclosed[i] for i in order if i < len(plan.unclosed)]
    other = judge(replace(plan, unclosed=shuffled))
    assert other.grounds == judge(plan).grounds
    assert other.nearest_mm == judge(plan).nearest_mm


@given(POINT, SEGMENT)
def test_a_segment_has_no_direction_and_is_never_further_than_its_ends(flame, segment):
    there, back = segment
    assert distance_mm(flame, (there, back)) == distance_mm(flame, (back, there))
    assert distance_mm(flame, segment) <= min(distance_mm(flame, there), distance_mm(flame, back))


@given(plans())
def test_ok_means_no_ground_and_the_nearest_is_the_nearest(plan):
    verdict = judge(plan)
    assert verdict.ok == (not verdict.grounds)
    if verdict.nearest is not None:
        far = [distance_mm(plan.flame, place) for place in plan.unclosed]
        assert verdict.nearest_mm == min(far) == far[verdict.nearest]
