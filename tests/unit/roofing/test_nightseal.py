"""Sealing the open edge in time: counted back from when the roof must be tight."""

from fractions import Fraction

import pytest

from trainer.errors import InputError
from trainer.roofing.clock import Moment
from trainer.roofing.nightseal import NIGHT_SEAL, Seal, sheets_in

PLAIN = {"tight_by": "16:30", "open_m": 12, "seal_min_per_m": 6, "people": 2, "fetch_min": 10}
NOW = {"now": "14:30", "minutes_per_sheet": 20}


def seal(**changes):
    return NIGHT_SEAL(PLAIN | changes)


def test_counted_back_from_when_the_roof_must_be_tight():
    # by hand: 10 + 12 × 6 ÷ 2 = 46, and 16:30 − 46 min is 15:44
    assert seal() == {"seal_min": 46, "start_by": "15:44"}


def test_whole_sheets_that_fit_before():
    # by hand: 14:30 to 15:44 is 74 min, three sheets of 20
    assert seal(**NOW) == {
        "seal_min": 46, "start_by": "15:44", "minutes_left": 74, "sheets_before": 3
    }  # fmt: skip


@pytest.mark.parametrize(
    ("now", "left", "sheets"),
    [
        ("15:04", 40, 2),  # the second is down exactly in time
        ("15:05", 39, 1),
        ("15:44", 0, 0),
        ("15:45", -1, 0),
        ("16:45", -61, 0),  # too late altogether, and not minus four sheets
    ],
)
def test_no_sheet_is_begun_that_is_not_down_in_time(now, left, sheets):
    answer = seal(now=now, minutes_per_sheet=20)
    assert (answer["minutes_left"], answer["sheets_before"]) == (left, sheets)


def test_fetching_is_not_shared_out():
    # by hand: 10 + 72, 10 + 36, 10 + 24, 10 + 18
    assert [seal(people=n)["seal_min"] for n in (1, 2, 3, 4)] == [82, 46, 34, 28]


def test_a_start_between_two_minutes_is_said_a_minute_early():
    # 16:30 less 10 + 7 × 5 ÷ 2 = 27.5 min: 16:02 and a half
    answer = seal(open_m=7, seal_min_per_m=5, **NOW)
    assert (answer["seal_min"], answer["start_by"]) == (27.5, "16:02")
    assert answer["minutes_left"] == 92.5


def test_nothing_open_still_takes_the_fetching():
    assert seal(open_m=0)["start_by"] == "16:20"
    assert seal(open_m=0, fetch_min=0) == {"seal_min": 0, "start_by": "16:30"}


def test_a_start_on_the_day_before_wants_dates():
    with pytest.raises(InputError, match=r"^tight_by: got \"00:30\"; .*YYYY-MM-DDTHH:MM"):
        seal(tight_by="00:30")
    assert seal(tight_by="2026-10-01T00:30")["start_by"] == "2026-09-30T23:44"


@pytest.mark.parametrize(
    ("changes", "field", "said"),
    [
        ({"now": "14:30"}, "minutes_per_sheet", "as now is given"),
        ({"minutes_per_sheet": 20}, "minutes_per_sheet", "together with now"),
        ({"now": "2026-10-01T14:30", "minutes_per_sheet": 20}, "now", "HH:MM, as in tight_by"),
        ({"now": "14:30", "minutes_per_sheet": 0}, "minutes_per_sheet", "> 0"),
        ({"people": 0}, "people", "≥ 1"),
        ({"people": 1.5}, "people", "whole"),
        ({"open_m": -1}, "open_m", "≥ 0"),
        ({"fetch_min": "10"}, "fetch_min", "number"),
        ({"tight_by": "24:00"}, "tight_by", "23:59"),
        ({"open_m": 1e300}, "tight_by", "start_by between"),
        ({"now": "14:30", "minutes_per_sheet": 5e-324}, "minutes_per_sheet", "finite"),
    ],
)
def test_what_cannot_be_taken_names_its_field(changes, field, said):
    with pytest.raises(InputError) as refused:
        seal(**changes)
    assert refused.value.field == field
    assert said in str(refused.value)


def test_pure_functions_keep_fractions_of_a_minute():
    thirds = Seal(open_m=1, seal_min_per_m=1, people=3, fetch_min=0)
    assert thirds.minutes == Fraction(1, 3)
    assert thirds.start_by(Moment(Fraction(60))) == Moment(Fraction(179, 3))
    assert sheets_in(Fraction(1), 0.1) == 10  # in floating point 1 % 0.1 is not 0
    assert sheets_in(Fraction(-1), 0.1) == 0
