"""Sheets that lie on top of each other, counted by hand."""

import pytest

from trainer.errors import InputError
from trainer.roofing.plies import PLIES, Laid, Thickest

ONE = [[0, 0], [1000, 1000]]
BESIDE = [[925, 0], [1925, 1000]]
LAID = {"sheets": [ONE, BESIDE], "points": [[500, 500], [950, 500], [3000, 0]]}


def test_one_two_and_none():
    assert PLIES(LAID) == {"plies": [1, 2, 0], "most": 2, "most_at": [962.5, 500], "over": None}


@pytest.mark.parametrize(
    ("at_most", "over"), [(0, [0, 1]), (1, [1]), (2, [])], ids=["none", "one", "two"]
)
def test_over_names_the_points_with_more_than_may_be(at_most, over):
    assert PLIES({**LAID, "at_most": at_most})["over"] == over


@pytest.mark.parametrize(
    ("point", "plies"),
    [([925, 500], 2), ([924.999, 500], 1), ([1000, 0], 2), ([0, 0], 1), ([0, -0.001], 0)],
)
def test_a_point_on_an_edge_is_covered(point, plies):
    assert PLIES({**LAID, "points": [point]})["plies"] == [plies]


@pytest.mark.parametrize(
    "turned",
    [[[1000, 1000], [0, 0]], [[0, 1000], [1000, 0]], [[1000, 0], [0, 1000]]],
)
def test_corners_in_any_order(turned):
    assert PLIES({**LAID, "sheets": [turned, BESIDE]}) == PLIES(LAID)


def test_sheets_that_only_touch_share_no_area():
    touching = [ONE, [[1000, 0], [2000, 1000]]]
    found = PLIES({"sheets": touching, "points": [[1000, 500]]})
    assert found == {"plies": [2], "most": 1, "most_at": [500, 500], "over": None}


def test_of_several_piles_the_lowest_then_the_leftmost():
    high = [[[0, 100], [10, 110]]] * 2
    right = [[[50, 0], [60, 10]]] * 2
    left = [[[20, 0], [30, 10]]] * 2
    assert PLIES({"sheets": [*high, *right, *left], "points": []})["most_at"] == [25, 5]
    assert PLIES({"sheets": [*high, *right], "points": []})["most_at"] == [55, 5]


def test_nothing_laid():
    assert Laid([]).thickest() == Thickest(0, None)
    found = PLIES({"sheets": [], "points": [[1, 1]], "at_most": 0})
    assert found == {"plies": [0], "most": 0, "most_at": None, "over": []}


def test_decimals_are_taken_as_written():
    # In binary fractions 0.1 + 0.2 lies beyond 0.3.
    assert PLIES({"sheets": [[[0, 0], [0.3, 1]]], "points": [[0.3, 1]]})["plies"] == [1]


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"sheets": [ONE, [[5, 0], [5, 9]]]}, "sheets[1]"),
        ({"sheets": [[[0, 4], [9, 4]]]}, "sheets[0]"),
        ({"sheets": [[[0, 0], [9, "9"]]]}, "sheets[0][1][1]"),
        ({"sheets": [ONE] * 201}, "sheets"),
        ({"points": [[0, 0]] * 201}, "points"),
        ({"points": [[0]]}, "points[0]"),
        ({"at_most": 1.5}, "at_most"),
        ({"at_most": -1}, "at_most"),
    ],
)
def test_bad_input_names_the_field(changes, field):
    with pytest.raises(InputError) as refusal:
        PLIES({**LAID, **changes})
    assert refusal.value.field == field
    assert "\n" not in str(refusal.value)
