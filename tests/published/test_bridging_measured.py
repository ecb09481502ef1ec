"""What a bridging sheet loses: lengths measured with shapely (GEOS), and three angles by hand.

By hand, for a gap g: at 90° the straight line is g√2 (Pythagoras), at 60° the triangle is
equilateral and the line is g, at 120° it is g√3.
"""

from __future__ import annotations

import math
import random

import pytest
import shapely

from trainer.roofing.bridging import BRIDGING


def measured(gap, angle):
    """Along both faces less straight across, with the roof along x and the angle at the origin."""
    up = math.radians(angle)
    on_roof, on_wall = (gap, 0.0), (gap * math.cos(up), gap * math.sin(up))
    pressed = shapely.LineString([on_roof, (0.0, 0.0), on_wall])
    return pressed.length - shapely.LineString([on_roof, on_wall]).length


@pytest.mark.parametrize("seed", range(200))
def test_any_gap_and_angle_as_measured(seed):
    rng = random.Random(seed)
    gap, angle, lap = rng.uniform(0, 200), rng.uniform(5, 175), rng.uniform(0, 200)
    found = BRIDGING({"gap_mm": gap, "angle_deg": angle, "lap_mm": lap, "required_mm": 75})
    lost = measured(gap, angle)
    assert found["lost_mm"] == pytest.approx(lost, abs=0.006)
    assert found["lap_left_mm"] == pytest.approx(lap - lost, abs=0.006)
    assert found["ok"] == (lap - lost >= 75)
    if lap < 75:
        assert found["most_gap_mm"] is None
    else:
        share = measured(1000, angle) / 1000
        assert found["most_gap_mm"] == pytest.approx((lap - 75) / share, rel=1e-9, abs=0.006)


@pytest.mark.parametrize(
    ("angle", "chord"), [(60, 1), (90, 1.41421356), (120, 1.73205081)], ids=str
)
def test_angles_worked_by_hand(angle, chord):
    found = BRIDGING({"gap_mm": 50, "angle_deg": angle, "lap_mm": 100, "required_mm": 75})
    assert found["lost_mm"] == pytest.approx(100 - 50 * chord, abs=0.006)


def test_a_right_angle_with_a_gap_of_40_by_hand():
    """Both faces 80 mm, straight across 40 × 1.4142 = 56.57 mm: 23.43 mm are drawn back."""
    found = BRIDGING({"gap_mm": 40, "lap_mm": 100, "required_mm": 75})
    assert found == {"lost_mm": 23.43, "lap_left_mm": 76.57, "ok": True, "most_gap_mm": 42.68}
