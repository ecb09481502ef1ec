"""Times as people type them, and times as the program writes them."""

from fractions import Fraction

import pytest

from trainer.errors import InputError
from trainer.roofing.clock import (
    Moment,
    OffTheClock,
    Time,
    check_not_before,
    check_same_form,
    must_not_pass,
    must_wait_for,
    read_moment,
    result_time,
)


@pytest.mark.parametrize(("text", "minutes"), [("00:00", 0), ("07:10", 430), ("23:59", 1439)])
def test_time_of_day_counts_from_midnight(text, minutes):
    assert read_moment(text) == Moment(Fraction(minutes))


def test_dated_times_run_on_across_days_months_and_leap_years():
    leap_day = read_moment("2028-02-29T23:30")
    assert read_moment("2028-03-01T00:10").since(leap_day) == 40
    assert must_wait_for(leap_day.after(40)) == "2028-03-01T00:10"
    assert must_not_pass(read_moment("2027-01-01T00:00").after(-1)) == "2026-12-31T23:59"


@pytest.mark.parametrize(
    "value",
    [
        "24:00", "7:10", "07:1", "07:60", "07.10", "07:10 ", " 07:10", "07:10\n", "07:10:00", "",
        "-1:00", "٠٧:١٠", "2026-05-04", "2026-05-04 07:10", "2026-05-04T24:00", "2026-02-29T07:10",
        "2026-13-01T07:10", "0000-01-01T07:10", "2026-05-04T07:10Z", "2026-05-04T07:10+02:00",
        "2026-05-04T07:10:00", "26-05-04T07:10", "12026-05-04T07:10", 710, 7.1, None, True,
        ["07:10"], {"at": "07:10"},
    ],
)  # fmt: skip
def test_anything_else_is_no_time(value):
    with pytest.raises(InputError, match=r"^at: got .*HH:MM"):
        Time().read("at", value)


def test_fraction_of_a_minute_rounds_to_the_safe_side():
    moment = read_moment("07:10").after(0.25)
    assert (must_wait_for(moment), must_not_pass(moment)) == ("07:11", "07:10")
    whole = read_moment("07:10").after(0.1).after(0.2).after(0.7)
    assert (must_wait_for(whole), must_not_pass(whole)) == ("07:11", "07:11")


def test_midnight_at_the_end_of_the_day_is_written_and_nothing_after_it():
    assert must_wait_for(read_moment("23:59").after(0.5)) == "24:00"
    assert must_not_pass(read_moment("23:59").after(1.5)) == "24:00"
    assert must_not_pass(read_moment("00:30").after(-30)) == "00:00"
    for write, moment in (
        (must_wait_for, read_moment("23:59").after(1.5)),
        (must_not_pass, read_moment("23:00").after(61)),
        (must_not_pass, read_moment("00:30").after(-30.5)),
    ):
        with pytest.raises(OffTheClock, match="YYYY-MM-DDTHH:MM"):
            write(moment)


@pytest.mark.parametrize("minutes", [1, 1e12, 1e300, -(10**200)])
def test_dates_end_with_the_calendar(minutes):
    edge = read_moment("9999-12-31T23:59" if minutes > 0 else "0001-01-01T00:00")
    with pytest.raises(OffTheClock):
        must_wait_for(edge.after(minutes))


def test_forms_are_not_mixed_and_the_odd_one_is_named():
    day, date = read_moment("07:10"), read_moment("2026-05-04T07:10")
    check_same_form([("a", date), ("b", date)])
    with pytest.raises(InputError, match=r'^b: got "07:10"; allowed: YYYY-MM-DDTHH:MM, as in a$'):
        check_same_form([("a", date), ("b", day)])
    with pytest.raises(InputError, match=r'^b: got "2026-05-04T07:10"; allowed: HH:MM, as in a$'):
        check_same_form([("a", day), ("b", date)])


def test_order_of_times_is_kept():
    check_not_before("now", read_moment("07:10"), "applied_at", read_moment("07:10"))
    with pytest.raises(
        InputError, match=r'^now: got "07:09"; allowed: applied_at \(07:10\) or later'
    ):
        check_not_before("now", read_moment("07:09"), "applied_at", read_moment("07:10"))


def test_result_off_the_clock_names_field_value_result_and_advice():
    with pytest.raises(InputError) as refused:
        result_time("ready_at", read_moment("23:00").after(90), must_wait_for, ("dry_min", 90))
    assert str(refused.value) == (
        "dry_min: got 90; allowed: what keeps ready_at between 00:00 and 24:00 of the same day;"
        " for anything else give every time with its date, YYYY-MM-DDTHH:MM"
    )
