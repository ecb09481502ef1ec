"""Laws of ways on foot and of extinguishers: nearer, freer or stronger is never worse."""

from __future__ import annotations

import math
from itertools import product

from hypothesis import assume, given
from hypothesis import strategies as st

from trainer.roofing.extinguisher import Asked, Extinguisher, judge
from trainer.roofing.walking import Plan

METRES = st.integers(-3, 6)
POINTS = st.tuples(METRES, METRES)
BLOCKS = st.builds(
    lambda at, size: (at, (at[0] + size[0], at[1] + size[1])),
    POINTS,
    st.tuples(st.integers(1, 4), st.integers(1, 4)),
)
OBSTACLES = st.lists(BLOCKS, max_size=5)
ASKED = st.builds(Asked, st.integers(0, 12), st.integers(0, 4), st.integers(0, 40))
HAIR = 1e-9


def way(obstacles, start, goal):
    """The length of the way, infinite where there is none; only between points with room."""
    plan = Plan([start, goal], obstacles)
    assume(not plan.is_inside(0) and not plan.is_inside(1))
    found = plan.ways(0)[1]
    return found.length_mm if found else math.inf


@given(OBSTACLES, POINTS, POINTS)
def test_a_way_is_never_shorter_than_the_straight_line(obstacles, start, goal):
    assert way(obstacles, start, goal) >= math.dist(start, goal) - HAIR


@given(OBSTACLES, POINTS, POINTS)
def test_the_way_back_is_as_long(obstacles, start, goal):
    there, back = way(obstacles, start, goal), way(obstacles, goal, start)
    assert there == back or math.isclose(there, back)


@given(OBSTACLES, BLOCKS, POINTS, POINTS)
def test_an_obstacle_more_never_shortens_a_way(obstacles, more, start, goal):
    assert way([*obstacles, more], start, goal) >= way(obstacles, start, goal) - HAIR


@given(OBSTACLES, POINTS, POINTS, POINTS)
def test_a_way_by_a_third_point_is_never_shorter(obstacles, start, goal, third):
    # where two corners meet one may stand on either side, and would change sides by standing there
    assume(not any(third in product(*zip(*block, strict=True)) for block in obstacles))
    by = way(obstacles, start, third) + way(obstacles, third, goal)
    assert way(obstacles, start, goal) <= by + HAIR


@given(OBSTACLES, POINTS, POINTS)
def test_a_way_is_made_of_the_lines_between_its_points(obstacles, start, goal):
    plan = Plan([start, goal], obstacles)
    assume(not plan.is_inside(0) and not plan.is_inside(1))
    found = plan.ways(0)[1]
    if found:
        legs = zip(found.points, found.points[1:], strict=False)
        assert math.isclose(found.length_mm, sum(math.dist(*leg) for leg in legs), abs_tol=HAIR)


def enough(work, extinguishers, obstacles, asked):
    places = [work, *(each.at for each in extinguishers)]
    plan = Plan(places, obstacles)
    assume(not any(plan.is_inside(i) for i in range(len(places))))
    return any(each.ok for each in judge(work, extinguishers, obstacles, asked))


EXTINGUISHERS = st.builds(Extinguisher, POINTS, st.integers(0, 4), st.integers(0, 40))


@given(POINTS, st.lists(EXTINGUISHERS, max_size=3), EXTINGUISHERS, OBSTACLES, ASKED)
def test_an_extinguisher_more_is_never_worse(work, extinguishers, more, obstacles, asked):
    with_more = enough(work, [*extinguishers, more], obstacles, asked)
    assert with_more or not enough(work, extinguishers, obstacles, asked)


@given(POINTS, EXTINGUISHERS, POINTS, OBSTACLES, ASKED)
def test_one_that_is_nearer_on_foot_is_never_worse(work, one, at, obstacles, asked):
    assume(way(obstacles, work, at) <= way(obstacles, work, one.at))
    nearer = Extinguisher(at, one.class_a, one.class_b)
    assert enough(work, [nearer], obstacles, asked) or not enough(work, [one], obstacles, asked)


@given(POINTS, EXTINGUISHERS, OBSTACLES, ASKED, st.integers(0, 5), st.integers(0, 3))
def test_asking_for_less_is_never_worse(work, one, obstacles, asked, shorter, smaller):
    more = Asked(asked.limit_mm, asked.class_a + smaller, asked.class_b + smaller)
    less = Asked(asked.limit_mm + shorter, asked.class_a, asked.class_b)
    assert enough(work, [one], obstacles, less) or not enough(work, [one], obstacles, more)
