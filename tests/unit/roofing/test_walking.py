"""Ways on foot round rectangles: bends, edges, obstacles that touch, and no way at all."""

from __future__ import annotations

import math

import pytest

from trainer.roofing.walking import Plan

BLOCK = ((2, -1), (4, 3))


def way(start, goal, *obstacles):
    found = Plan([start, goal], obstacles).ways(0)[1]
    return found and (found.length_mm, found.points)


def length(start, goal, *obstacles):
    found = way(start, goal, *obstacles)
    return found and found[0]


def test_without_anything_between_the_way_is_straight():
    assert way((0, 0), (3, 4)) == (5, ((0, 0), (3, 4)))
    assert length((0, 0), (0, 5), BLOCK) == 5
    assert way((7, 7), (7, 7), BLOCK) == (0, ((7, 7), (7, 7)))


@pytest.mark.parametrize("corners", [((2, -1), (4, 3)), ((4, 3), (2, -1)), ((2, 3), (4, -1))])
def test_it_bends_at_the_corners_of_the_shorter_side(corners):
    # by hand: (0, 0) to (2, −1), along the edge to (4, −1), on to (6, 0)
    found = way((0, 0), (6, 0), corners)
    assert found == (
        pytest.approx(2 * math.sqrt(5) + 2), ((0, 0), (2, -1), (4, -1), (6, 0)),
    )  # fmt: skip


def test_one_may_start_at_an_edge_and_walk_along_it():
    assert length((2, 0), (2, 3), BLOCK) == 3
    assert length((0, 3), (9, 3), BLOCK) == 9
    assert length((2, 0), (4, 0), BLOCK) == 4  # down, across and up again


def test_one_may_walk_straight_up_to_an_edge_and_straight_away_from_it():
    assert length((2, 0), (0, 0), BLOCK) == length((0, 0), (2, 0), BLOCK) == 2
    assert length((2, 0), (1, 1), BLOCK) == pytest.approx(math.sqrt(2))


def test_a_corner_that_is_grazed_is_not_in_the_way():
    assert length((1, 4), (3, 2), ((0, 0), (2, 3))) == pytest.approx(2 * math.sqrt(2))


@pytest.mark.parametrize(
    ("second", "expected"),
    [
        (((4.5, 3), (6, 9)), 9),  # half a millimetre is a way
        (((4, 3), (6, 9)), None),  # corner to corner is none
        (((4, 1), (6, 9)), None),  # edge to edge is none
        (((3, 2), (6, 9)), None),  # overlapping is none
    ],
)
def test_between_obstacles_that_touch_there_is_no_way(second, expected):
    # straight along the top of the block and the foot of the second one, or not at all
    found = length((0, 3), (9, 3), BLOCK, second)
    if expected is None:
        assert found > 9.2
    else:
        assert found == expected


def test_the_diagonal_through_two_corners_that_meet_is_no_way():
    below, above = ((0, 0), (2, 2)), ((2, 2), (4, 4))
    assert length((1, 3), (3, 1), below, above) > 4
    assert length((1, 3), (3, 1), below, ((2.1, 2.1), (4, 4))) == pytest.approx(2 * math.sqrt(2))


def yard(gap):
    return (
        ((2, 1), (6, 2)), ((6 + gap, 2), (7, 6)), ((2, 6), (6, 7)), ((1, 2), (2, 6)),
    )  # fmt: skip


def test_from_a_yard_whose_corners_just_meet_there_is_no_way_out():
    assert way((4, 4), (9, 9), *yard(0)) is None
    assert length((4, 4), (9, 9), *yard(0.001)) == pytest.approx(math.hypot(5, 5))
    assert length((3, 3), (5, 5), *yard(0)) == pytest.approx(math.hypot(2, 2))


def test_tenths_that_only_meet_in_decimals_leave_no_way():
    # in binary fractions 0.1 + 0.2 is not 0.3: the edges are compared as they are written
    left, right = ((0, -50), (0.3, 50)), ((0.3, -50), (0.7, 50))
    assert Plan([(0.3, 0)], (left, right)).is_inside(0)


@pytest.mark.parametrize(
    ("point", "inside"),
    [
        ((3, 0), True),
        ((2, 0), False),  # on the edge
        ((2, -1), False),  # at a corner
        ((4, 2), True),  # where two touch along an edge
        ((4, 3), False),  # where that edge ends
        ((0, 0), False),
    ],
)
def test_a_point_is_inside_when_no_side_of_it_is_free(point, inside):
    assert Plan([point], (BLOCK, ((4, 1), (6, 9)))).is_inside(0) is inside


def test_ways_go_to_every_point_in_their_order():
    ways = Plan([(0, 0), (6, 0), (0, 9)], [BLOCK]).ways(2)
    assert [found and found.points[-1] for found in ways] == [(0, 0), (6, 0), (0, 9)]
    assert [found and found.points[0] for found in ways] == [(0, 9)] * 3
