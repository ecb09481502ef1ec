"""Take-off of small jobs, counted by hand."""

from fractions import Fraction

import pytest

from trainer.errors import InputError
from trainer.roofing.takeoff import TAKEOFF, Job, fewest_sheets

JOB = {
    "walls": [12400, 8200],
    "girth_mm": 900,
    "sheet_mm": 1000,
    "side_lap_mm": 75,
    "roll_mm": 10000,
    "inside_corners": 2,
    "outside_corners": 1,
    "sheets_per_corner": 2,
    "gussets_per_corner": 2,
    "coverage_m2_per_l": 3.3,
}


def test_a_job_counted_by_hand():
    # 12 400: 13.3 → 14 sheets; 8 200: 8.8 → 9; 3 corners × 2: 29. A roll gives 11 strips: 3 rolls.
    # 20.6 m × 0.9 m = 18.54 m², ÷ 3.3 = 5.618 l. 30 m bought, 26.1 m used: 13 % left.
    assert TAKEOFF(JOB) == {
        "sheets": 29,
        "strips_per_roll": 11,
        "rolls": 3,
        "gussets": 6,
        "primer_l": 5.62,
        "offcut_pct": 13.0,
    }


def test_no_walls_and_no_corners_buy_nothing():
    result = TAKEOFF({**JOB, "walls": [], "inside_corners": 0, "outside_corners": 0})
    assert result == {
        "sheets": 0,
        "strips_per_roll": 11,
        "rolls": 0,
        "gussets": 0,
        "primer_l": 0,
        "offcut_pct": 0,
    }


def test_corners_alone():
    result = TAKEOFF({**JOB, "walls": [], "gussets_per_corner": 1})
    assert (result["sheets"], result["rolls"], result["gussets"]) == (6, 1, 3)
    assert result["offcut_pct"] == 46.0


def test_a_strip_as_long_as_the_roll():
    result = TAKEOFF({**JOB, "girth_mm": 10000})
    assert (result["strips_per_roll"], result["rolls"], result["offcut_pct"]) == (1, 29, 0)


@pytest.mark.parametrize(
    ("wall", "sheets"),
    [(1, 1), (75, 1), (1000, 1), (1000.01, 2), (1925, 2), (1925.1, 3), (2850, 3)],
)
def test_fewest_sheets_of_a_wall(wall, sheets):
    assert fewest_sheets(wall, 1000, 75) == sheets


def test_sheets_laid_edge_to_edge():
    assert fewest_sheets(3000, 1000, 0) == 3


def test_decimals_do_not_cost_a_strip():
    # 0.3 / 0.1 is 2.9999999999999996 in binary fractions.
    job = Job([1], 0.1, 1, 0, 0.3, 0, 0, 0, 0, 1)
    assert job.strips_per_roll == 3
    assert job.offcut_pct == Fraction(200, 3)


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"walls": [12400, 0]}, "walls[1]"),
        ({"walls": 12400}, "walls"),
        ({"girth_mm": 10000.5}, "girth_mm"),
        ({"girth_mm": 0}, "girth_mm"),
        ({"side_lap_mm": 1000}, "side_lap_mm"),
        ({"side_lap_mm": -1}, "side_lap_mm"),
        ({"inside_corners": 1.5}, "inside_corners"),
        ({"outside_corners": -1}, "outside_corners"),
        ({"sheets_per_corner": True}, "sheets_per_corner"),
        ({"coverage_m2_per_l": 0}, "coverage_m2_per_l"),
    ],
)
def test_bad_input_names_the_field(changes, field):
    with pytest.raises(InputError) as refusal:
        TAKEOFF({**JOB, **changes})
    assert refusal.value.field == field
