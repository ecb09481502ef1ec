"""Cooling a burn by the clock: until when, how much is left, whether it was long enough."""

import pytest

from trainer.errors import InputError
from trainer.roofing.burns import BURN_COOLING


def cooled(**changes):
    return BURN_COOLING({"cooling_since": "10:42", "now": "10:55", "cool_min": 20} | changes)


@pytest.mark.parametrize(
    ("now", "left", "enough"),
    [("10:42", 20, False), ("10:55", 7, False), ("11:01", 1, False), ("11:02", 0, True),
     ("11:05", -3, True)],
)  # fmt: skip
def test_enough_from_the_full_time_on(now, left, enough):
    # by hand: 10:42 + 20 min = 11:02
    assert cooled(now=now) == {"cool_until": "11:02", "minutes_left": left, "enough": enough}


def test_a_fraction_of_a_minute_is_waited_for():
    answer = cooled(cool_min=19.5, now="11:01")
    assert answer == {"cool_until": "11:02", "minutes_left": 0.5, "enough": False}


def test_across_midnight_with_dates():
    answer = cooled(cooling_since="2026-12-31T23:50", now="2027-01-01T00:10")
    assert answer == {"cool_until": "2027-01-01T00:10", "minutes_left": 0, "enough": True}


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"now": "10:41"}, "now"),
        ({"now": "2026-12-31T10:55"}, "now"),
        ({"cool_min": 0}, "cool_min"),
        ({"cool_min": 1e6}, "cool_min"),
        ({"cooling_since": "10.42"}, "cooling_since"),
        ({"water_c": 15}, "water_c"),
    ],
)
def test_what_cannot_be_taken_names_its_field(changes, field):
    with pytest.raises(InputError) as refused:
        cooled(**changes)
    assert refused.value.field == field
