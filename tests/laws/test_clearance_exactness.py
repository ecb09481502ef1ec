"""Clearance in whole parts of a millimetre, against the same sums in fractions, term by term."""

import math
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from trainer.roofing.clearance import Plan, judge, nearest_point

# Decimals as people write them, among them those that binary fractions cannot hold.
NUMBER = st.one_of(
    st.integers(-50, 50),
    st.integers(-500, 500).map(lambda tenths: tenths / 10),
    st.integers(-5000, 5000).map(lambda hundredths: hundredths / 100),
    st.floats(-50, 50),
    st.integers(-50, 50).map(float),
)
POINT = st.tuples(NUMBER, NUMBER)
PLACES = st.lists(POINT | st.tuples(POINT, POINT), min_size=1, max_size=4)


def written(value):
    return Fraction(str(value))


def foot(flame, place):
    """The nearest point of a place, by projection, as fractions."""
    fx, fy = map(written, flame)
    ends = [place, place] if isinstance(place[0], int | float) else place
    (ax, ay), (bx, by) = (tuple(map(written, end)) for end in ends)
    squared = (bx - ax) ** 2 + (by - ay) ** 2
    share = ((fx - ax) * (bx - ax) + (fy - ay) * (by - ay)) / squared if squared else Fraction(0)
    share = min(Fraction(1), max(Fraction(0), share))
    return ax + share * (bx - ax), ay + share * (by - ay)


def squared_distance(flame, place):
    return sum((written(f) - p) ** 2 for f, p in zip(flame, foot(flame, place), strict=True))


@given(POINT, PLACES, NUMBER.map(abs), st.data())
def test_every_verdict_is_that_of_exact_fractions(flame, places, limit, data):
    if data.draw(st.booleans()):  # a limit met exactly, where the distance is a whole number
        root = math.sqrt(squared_distance(flame, places[0]))
        limit = round(root) if root == round(root) else limit
    verdict = judge(Plan(flame, places, limit, False))
    squares = [squared_distance(flame, place) for place in places]
    assert verdict.nearest == squares.index(min(squares))
    assert ("unclosed" in verdict.grounds) == (min(squares) < written(limit) ** 2)
    assert verdict.nearest_mm == math.sqrt(min(squares))


@given(POINT, PLACES)
def test_the_nearest_point_is_that_of_exact_fractions(flame, places):
    for place in places:
        assert nearest_point(flame, place) == tuple(map(float, foot(flame, place)))
