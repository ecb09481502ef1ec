"""Readings against a least width, and a lap that tapers."""

from fractions import Fraction

import pytest

from trainer.errors import InputError
from trainer.roofing.laps import DRIFT, LAP, Taper, cover_strip, hidden_lap_mm, judge_reading, worst

READ = {"measured_mm": [80], "required_mm": 75, "uncertainty_mm": 2}
SPACED = {"sheet_mm": 1000, "spacing_mm": [925], "required_mm": 75, "uncertainty_mm": 0}


def verdicts(result):
    return [reading["verdict"] for reading in result["readings"]]


@pytest.mark.parametrize(
    ("measured", "verdict"),
    [
        (77, "accept"),
        (76.999, "measure again"),
        (75, "measure again"),
        (73, "measure again"),
        (72.999, "reject"),
        (0, "reject"),
    ],
)
def test_the_guard_bands_reach_the_uncertainty_to_both_sides(measured, verdict):
    assert judge_reading(measured, 75, 2) == verdict


def test_without_uncertainty_nothing_is_measured_again():
    assert judge_reading(75, 75, 0) == "accept"
    assert judge_reading(74.99, 75, 0) == "reject"


def test_limits_are_met_in_decimals():
    # In binary fractions 100.1 − 0.1 falls short of 100, and 99.9 + 0.1 − 100 is not always 0.
    assert judge_reading(100.1, 100, 0.1) == "accept"
    assert judge_reading(0.1, 0.3, 0.2) == "measure again"


def test_the_verdict_is_reached_before_rounding():
    result = LAP({**READ, "measured_mm": [76.9999]})
    assert result["readings"] == [{"measured_mm": 77.0, "verdict": "measure again"}]


def test_the_worst_reading_rules_the_lap():
    assert LAP({**READ, "measured_mm": [80, 76]})["overall"] == "measure again"
    result = LAP({**READ, "measured_mm": [80, 76, 60, 90]})
    assert verdicts(result) == ["accept", "measure again", "reject", "accept"]
    assert result["overall"] == worst(["accept", "reject"]) == "reject"


def test_a_cover_strip_only_where_something_is_rejected():
    assert LAP(READ)["cover_strip"] is None
    assert LAP({**READ, "measured_mm": [75]})["cover_strip"] is None
    strip = {"width_mm": 150, "past_ends_mm": 75, "centred_on": "exposed edge"}
    assert LAP({**READ, "measured_mm": [60]})["cover_strip"] == strip
    assert vars(cover_strip(75)) == strip


def test_the_lap_behind_the_spacing_of_exposed_edges():
    result = LAP({**SPACED, "spacing_mm": [925, 925.01, 1010]})
    assert [reading["measured_mm"] for reading in result["readings"]] == [75, 74.99, -10]
    assert verdicts(result) == ["accept", "reject", "reject"]
    assert hidden_lap_mm(1000, 924.9) == Fraction("75.1")


@pytest.mark.parametrize(
    ("inputs", "field"),
    [
        ({**READ, "measured_mm": []}, "measured_mm"),
        ({**READ, "measured_mm": 80}, "measured_mm"),
        ({**READ, "measured_mm": [80, -1]}, "measured_mm[1]"),
        ({**READ, "measured_mm": None}, "measured_mm"),
        ({**READ, "uncertainty_mm": -0.5}, "uncertainty_mm"),
        ({**READ, "sheet_mm": 1000}, "sheet_mm"),
        ({**READ, "spacing_mm": [925]}, "spacing_mm"),
        ({**SPACED, "sheet_mm": 0}, "sheet_mm"),
        ({key: value for key, value in SPACED.items() if key != "sheet_mm"}, "sheet_mm"),
        ({key: value for key, value in SPACED.items() if key != "spacing_mm"}, "spacing_mm"),
        ({"required_mm": 75, "uncertainty_mm": 2}, "measured_mm"),
    ],
)
def test_bad_readings_name_the_field(inputs, field):
    with pytest.raises(InputError) as refusal:
        LAP(inputs)
    assert refusal.value.field == field


TAPERED = {"lap_top_mm": 100, "down_mm": 1000, "drift_mm_per_m": -30, "required_mm": 75}


def test_a_lap_that_closes_downwards():
    # 100 − 30 = 70 at the bottom; 75 is reached after 25/30 of the way.
    assert DRIFT(TAPERED) == {
        "lap_bottom_mm": 70,
        "ok": False,
        "fails_at_mm": 833.33,
        "max_drift_mm_per_m": 25,
    }


def test_a_lap_that_just_holds_at_the_bottom_holds():
    result = DRIFT({**TAPERED, "drift_mm_per_m": -25})
    assert (result["lap_bottom_mm"], result["ok"], result["fails_at_mm"]) == (75, True, None)


def test_a_lap_that_opens_downwards():
    result = DRIFT({**TAPERED, "drift_mm_per_m": 15, "down_mm": 900})
    assert (result["lap_bottom_mm"], result["ok"]) == (113.5, True)
    assert result["max_drift_mm_per_m"] == 27.78


def test_a_top_that_is_short_already_fails_at_once():
    for drift in (-10, 0, 500):
        result = DRIFT({**TAPERED, "lap_top_mm": 74.9, "drift_mm_per_m": drift})
        assert (result["ok"], result["fails_at_mm"]) == (False, 0)
        assert result["max_drift_mm_per_m"] is None


def test_a_top_that_just_holds_may_not_close_at_all():
    assert DRIFT({**TAPERED, "lap_top_mm": 75, "drift_mm_per_m": 0})["ok"]
    result = DRIFT({**TAPERED, "lap_top_mm": 75, "drift_mm_per_m": -0.001})
    assert (result["ok"], result["fails_at_mm"], result["max_drift_mm_per_m"]) == (False, 0, 0)


def test_decimal_limits_of_a_taper():
    assert Taper(0.4, 1000, -0.1, 0.3).ok  # 0.4 − 0.1 falls short of 0.3 in binary fractions


@pytest.mark.parametrize("field", ["down_mm", "lap_top_mm", "required_mm"])
def test_bad_taper_names_the_field(field):
    with pytest.raises(InputError) as refusal:
        DRIFT({**TAPERED, field: 0 if field == "down_mm" else -1})
    assert refusal.value.field == field
