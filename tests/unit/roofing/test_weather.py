"""Verdicts at their limits, branches of the formulas, and what is refused."""

import pytest

from trainer.errors import InputError, MissingField
from trainer.roofing.weather import (
    DEW_POINT,
    HEAT_INDEX,
    WIND_CHILL,
    dew_point_c,
    heat_index_c,
    heat_index_regression_f,
    surface_spread,
)


def test_saturated_air_is_at_its_dew_point_exactly():
    for air in (-45, -3.3, 0, 0.1, 12, 21.7, 60):
        assert dew_point_c(air, 100) == air


@pytest.mark.parametrize(
    ("surface", "required", "ok"), [(15, 3, True), (14.999, 3, False), (12.3, 0.3, True)]
)
def test_spread_of_exactly_what_is_required_is_enough(surface, required, ok):
    spread = {"air_c": 12, "rh_pct": 100, "surface_c": surface, "required_k": required}
    assert DEW_POINT(spread)["ok"] is ok


def test_spread_is_taken_from_the_decimals_as_written():
    assert surface_spread(10.1, 7.1, 3).ok  # 10.1 - 7.1 is 2.9999999999999996 in binary
    assert surface_spread(8.3, 8.0, 0.3).ok


def test_verdict_is_decided_before_rounding():
    close = {"air_c": 12, "rh_pct": 100, "surface_c": 14.999, "required_k": 3}
    assert DEW_POINT(close) == {"dew_point_c": 12, "spread_k": 3.0, "required_k": 3, "ok": False}


def test_rule_book_gives_the_spread_when_none_is_asked():
    asked = {"air_c": 12, "rh_pct": 88, "surface_c": 13}
    rules = {"surface-above-dew-point": 2.8}
    assert DEW_POINT(asked, rules.__getitem__)["required_k"] == 2.8
    with pytest.raises(MissingField, match="surface-above-dew-point"):
        DEW_POINT(asked)
    assert set(DEW_POINT({"air_c": 12, "rh_pct": 88}, pytest.fail)) == {"dew_point_c"}


def test_frost_is_noted_below_zero_and_only_there():
    assert DEW_POINT({"air_c": 0, "rh_pct": 80})["note"] == "frost possible"
    assert "note" not in DEW_POINT({"air_c": 0, "rh_pct": 100})
    assert "note" not in DEW_POINT({"air_c": 12, "rh_pct": 88})


def test_driest_air_there_is_still_has_a_dew_point():
    assert -243.12 < DEW_POINT({"air_c": -45, "rh_pct": 5e-324})["dew_point_c"] < -200


@pytest.mark.parametrize(
    ("calculator", "inputs", "field"),
    [
        (DEW_POINT, {"air_c": -45.1, "rh_pct": 50}, "air_c"),
        (DEW_POINT, {"air_c": 60.1, "rh_pct": 50}, "air_c"),
        (DEW_POINT, {"air_c": 10, "rh_pct": 0}, "rh_pct"),
        (DEW_POINT, {"air_c": 10, "rh_pct": 100.1}, "rh_pct"),
        (DEW_POINT, {"air_c": 10, "rh_pct": 50, "surface_c": 101, "required_k": 3}, "surface_c"),
        (DEW_POINT, {"air_c": 10, "rh_pct": 50, "surface_c": None}, "surface_c"),
        (DEW_POINT, {"air_c": 10, "rh_pct": 50, "surface_c": 9, "required_k": -1}, "required_k"),
        (WIND_CHILL, {"air_c": 10.1, "wind_kmh": 20}, "air_c"),
        (WIND_CHILL, {"air_c": 0, "wind_kmh": 4.7}, "wind_kmh"),
        (WIND_CHILL, {"air_c": 0, "wind_kmh": 150.5}, "wind_kmh"),
        (HEAT_INDEX, {"air_c": 9.9, "rh_pct": 50}, "air_c"),
        (HEAT_INDEX, {"air_c": 30, "rh_pct": -1}, "rh_pct"),
    ],
)
def test_weather_outside_the_valid_range_is_refused(calculator, inputs, field):
    with pytest.raises(InputError) as refused:
        calculator(inputs)
    assert refused.value.field == field


def test_mild_air_takes_the_simple_formula():
    # 20 °C is 68 °F: 0.5 (68 + 61 + 1.2 · 0 + 0.094 · 50) = 66.85 °F, 19.36 °C
    assert HEAT_INDEX({"air_c": 20, "rh_pct": 50}) == {"heat_index_c": 19.36}


@pytest.mark.parametrize(
    ("air_c", "rh_pct", "adjustment_f"),
    [
        (35, 5, -2.0),  # 95 °F: (13 − 5)/4 · √(17/17)
        (35, 13, 0.0),  # not below 13 %
        (30, 95, 0.2),  # 86 °F: (95 − 85)/10 · (87 − 86)/5
        (30, 85, 0.0),  # not above 85 %
        (31, 95, 0.0),  # 87.8 °F: above 87 °F
        (45, 5, 0.0),  # 113 °F: above 112 °F
    ],
)
def test_very_dry_and_very_humid_air_is_adjusted_within_its_range(air_c, rh_pct, adjustment_f):
    bare_f = heat_index_regression_f(air_c * 1.8 + 32, rh_pct)
    assert heat_index_c(air_c, rh_pct) * 1.8 + 32 == pytest.approx(bare_f + adjustment_f)
