"""Saying and reading numbers in a worker's own units."""

import math

import pytest

from trainer.engine.measures import (
    Units,
    display_rounding,
    say_clock,
    say_duration,
    say_number,
)
from trainer.errors import InputError

METRIC, US = Units(), Units("in", "F")


# 1 in = 25.4 mm exactly (international yard and pound agreement, 1959); eighths worked out by hand.
@pytest.mark.parametrize(
    ("mm", "metric", "us"),
    [
        (60, "60 mm", "2 3/8 in"),
        (60.3, "60.3 mm", "2 3/8 in"),
        (160.3, "160 mm", "6 1/4 in"),
        (99.96, "100 mm", "3 7/8 in"),
        (76.2, "76.2 mm", "3 in"),
        (75, "75 mm", "3 in"),
        (100, "100 mm", "3 7/8 in"),
        (3, "3 mm", "1/8 in"),
        (1, "1 mm", "0 in"),
        (0, "0 mm", "0 in"),
        (-40, "−40 mm", "−1 5/8 in"),
        (-0.01, "0 mm", "0 in"),
        (1218, "1218 mm", "4 ft"),
        (1000, "1000 mm", "39 3/8 in"),
        (1280, "1280 mm", "4 ft 2 3/8 in"),
        (3048, "3048 mm", "10 ft"),
    ],
)
def test_lengths(mm, metric, us):
    assert METRIC.say_length(mm) == metric
    assert US.say_length(mm) == us


def test_distances():
    assert METRIC.say_distance(12400) == "12.4 m"
    assert METRIC.say_distance(987) == "0.99 m"
    assert US.say_distance(12400) == "40 ft 8 1/4 in"


def test_temperatures_and_their_differences():
    assert (METRIC.say_temperature(12.5), US.say_temperature(12.5)) == ("12.5 °C", "54.5 °F")
    assert (METRIC.say_temperature(-40), US.say_temperature(-40)) == ("−40 °C", "−40 °F")
    assert (METRIC.say_difference(3), US.say_difference(3)) == ("3 °C", "5.4 °F")


def test_a_limit_is_said_as_its_source_states_it_for_these_units():
    lap = {"unit": "mm", "says": {"mm": "75 mm", "in": "3 in"}}
    warm = {"unit": "°C", "says": {"mm": "5 °C", "in": "40 °F"}}
    mixed = Units("mm", "F")
    assert [u.say_limit(lap) for u in (METRIC, US, mixed)] == ["75 mm", "3 in", "75 mm"]
    assert [u.say_limit(warm) for u in (METRIC, US, mixed)] == ["5 °C", "40 °F", "40 °F"]


@pytest.mark.parametrize(
    ("minutes", "said"),
    [
        (0, "0 min"),
        (45, "45 min"),
        (59.6, "1 h"),
        (60, "1 h"),
        (210, "3 h 30 min"),
        (-12, "−12 min"),
        (-0.2, "0 min"),
    ],
)
def test_durations(minutes, said):
    assert say_duration(minutes) == said


def test_times_of_day():
    assert say_clock(0) == "00:00"
    assert say_clock(965) == "16:05"
    assert say_clock(1440) == "24:00"
    assert say_clock("16:05") == "16:05"
    assert say_clock(None) == "—"
    for wrong in (-1, 1441, math.nan):
        with pytest.raises(ValueError):
            say_clock(wrong)


def test_plain_numbers():
    said = [say_number(value) for value in (3, 3.0, 2.5, 2.555, -0.25, -0.001, 0)]
    assert said == ["3", "3", "2.5", "2.56", "−0.25", "0", "0"]


@pytest.mark.parametrize("units", [METRIC, US, Units("mm", "F")])
@pytest.mark.parametrize(
    ("unit", "value"), [("mm", 832.5), ("mm", 1280), ("c", 12.5), ("k", 3), ("min", 45), ("%", 7)]
)
def test_an_amount_that_was_said_can_be_typed_again(units, unit, value):
    read = units.read_amount("value", units.say_amount(value, unit), unit)
    assert abs(read - value) <= display_rounding(unit, value) + 1e-9


def test_display_rounding_is_that_of_the_coarsest_units():
    assert display_rounding("mm", 60) == pytest.approx(1.5875)  # half an eighth of an inch
    assert display_rounding("c", 5) == display_rounding("k", 5) == 0.05
    assert display_rounding("%", 7.25) == 0
    assert display_rounding("%", 1 / 3) == pytest.approx(1 / 300)


@pytest.mark.parametrize("wrong", [("cm", "C"), ("mm", "K"), ("", "C"), (None, "C")])
def test_other_units_are_refused(wrong):
    with pytest.raises(InputError):
        Units(*wrong)


def test_terms_of_a_sum_in_inches_add_up():
    """120 mm − 100 mm = 20 mm: rounded to eighths it would read 4 3/4 − 3 7/8 = 3/4."""
    exact = Units("in", "F", decimal=True)
    said = [float(exact.say_length(mm).removesuffix(" in")) for mm in (120, 100, 20)]
    assert said[0] - said[1] == pytest.approx(said[2], abs=0.011)


# 1 ft = 0.3048 m exactly (international yard and pound agreement, 1959); worked out by hand.
@pytest.mark.parametrize(
    ("text", "units", "mm"),
    [
        ("12.4", METRIC, 12_400),
        ("12.4 m", METRIC, 12_400),
        ("40", US, 12_192),
        ("40.5 ft", US, 12_344.4),
        ("40 ft 8 in", US, 12_395.2),
        ("47 1/4 in", US, 1_200.15),
        ("40' 8 1/2\"", US, 12_407.9),
    ],
)
def test_a_long_way_is_typed_in_metres_or_feet(text, units, mm):
    assert units.read_amount("value", text, "m") == pytest.approx(mm)


@pytest.mark.parametrize(
    ("text", "units"), [("12,4", METRIC), ("40 ft", METRIC), ("8 1/2", US), ("far", US)]
)
def test_a_way_that_is_not_one_is_refused(text, units):
    with pytest.raises(InputError, match="value"):
        units.read_amount("value", text, "m")


def test_a_long_way_is_said_as_it_is_asked():
    assert (METRIC.say_amount(12_400, "m"), METRIC.sign("m")) == ("12.4 m", "m")
    assert (US.say_amount(12_395.2, "m"), US.sign("m")) == ("40 ft 8 in", "ft")
    assert [units.sign("k") for units in (METRIC, US)] == ["°C", "°F"]


@pytest.mark.parametrize(
    ("metric", "us", "own_metric", "own_us"),
    [
        ("75 mm", "3 in", 75, 76.2),
        ("1 m", "36 in", 1000, 914.4),
        ("4.5 m", "15 ft", 4500, 4572),
        ("9144 mm", "30 ft", 9144, 9144),
        ("89 mm", "3 1/2 in", 89, 88.9),
    ],
)
def test_a_sum_goes_on_with_the_limit_that_it_says(metric, us, own_metric, own_us):
    rule = {"unit": "mm", "says": {"mm": metric, "in": us}, "value": 0}
    assert METRIC.own_value(rule) == own_metric
    assert US.own_value(rule) == pytest.approx(own_us)


@pytest.mark.parametrize(
    ("stated", "said"), [("9144 mm", "9.144 m"), ("15240 mm", "15.24 m"), ("915 mm", "915 mm")]
)
def test_a_limit_too_long_to_read_in_millimetres_is_said_in_metres(stated, said):
    assert METRIC.say_limit({"unit": "mm", "says": {"mm": stated, "in": "30 ft"}}) == said
