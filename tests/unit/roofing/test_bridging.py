"""A sheet that bridges the angle, at its limits; worked by hand."""

import pytest

from trainer.errors import InputError
from trainer.roofing.bridging import BRIDGING, Bridge

BRIDGED = {"gap_mm": 40, "angle_deg": 90, "lap_mm": 100, "required_mm": 75}


def test_the_angle_is_square_when_left_out():
    assert BRIDGING({k: v for k, v in BRIDGED.items() if k != "angle_deg"}) == BRIDGING(BRIDGED)


def test_a_sheet_in_the_angle_loses_nothing():
    assert BRIDGING({**BRIDGED, "gap_mm": 0, "lap_mm": 75}) == {
        "lost_mm": 0,
        "lap_left_mm": 75,
        "ok": True,
        "most_gap_mm": 0,
    }


@pytest.mark.parametrize(("gap", "ok"), [(25, True), (25.001, False)])
def test_a_limit_met_exactly_is_met(gap, ok):
    # At 60° the sheet loses just the gap: 100 − 25 = 75.
    assert BRIDGING({**BRIDGED, "angle_deg": 60, "gap_mm": gap})["ok"] is ok
    assert (Bridge(gap, 60, 100, 75).lap_left_mm == 75) is ok


def test_a_lap_that_is_short_already_has_no_gap():
    found = BRIDGING({**BRIDGED, "lap_mm": 74.9, "gap_mm": 0})
    assert (found["ok"], found["most_gap_mm"]) == (False, None)


def test_a_lap_can_be_drawn_apart():
    # 120 mm: 0.5858 × 120 = 70.29 mm lost of 50.
    found = BRIDGING({**BRIDGED, "gap_mm": 120, "lap_mm": 50})
    assert (found["lost_mm"], found["lap_left_mm"]) == (70.29, -20.29)


def test_a_nearly_straight_angle_keeps_its_digits():
    # 1 − cos ε ≈ ε²/2 with ε = 0.0005° = 8.7266e-6 rad, so a lost mm takes 1 / ε² mm of gap.
    found = BRIDGING({**BRIDGED, "angle_deg": 179.999, "lap_mm": 76})
    assert found["most_gap_mm"] == pytest.approx(1 / 8.72664626e-6**2, rel=1e-8)


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("gap_mm", -1),
        ("angle_deg", 0),
        ("angle_deg", 180),
        ("angle_deg", None),
        ("lap_mm", -0.1),
        ("required_mm", "75"),
    ],
)
def test_bad_input_names_the_field(field, value):
    with pytest.raises(InputError) as refusal:
        BRIDGING({**BRIDGED, field: value})
    assert refusal.value.field == field
