"""Primer batches worked out by hand, clause by clause."""

from fractions import Fraction

import pytest

from trainer.errors import InputError
from trainer.roofing.primer_batch import PRIMER_BATCH, Batch, Break, batch_length_mm, batch_times

# Sheets of 1 m without laps, primed at 10 min/m: sheet k is primed from 10 (k − 1) to 10 k.
PLAIN = {
    "dry_min": 30,
    "latest_min": 60,
    "prime_min_per_m": 10,
    "minutes_per_sheet": 12,
    "teams": 1,
    "same_crew": False,
    "sheet_mm": 1000,
    "side_lap_mm": 0,
    "girth_mm": 900,
    "coverage_m2_per_l": 3,
}


def batch(**changes):
    return PRIMER_BATCH(PLAIN | changes)


def times(answer):
    return [tuple(sheet.values()) for sheet in answer["timeline"]]


def pause(at_min, minutes):
    return {"break": {"at_min": at_min, "minutes": minutes}}


def test_exactly_in_time_counts():
    # Down at 40 + 12 k, open until 10 (k − 1) + 60: slack 10 − 2 k, nothing left at k = 5.
    answer = batch()
    assert answer["sheets"] == 5
    assert times(answer) == [(40, 52, 8), (52, 64, 6), (64, 76, 4), (76, 88, 2), (88, 100, 0)]
    assert (answer["length_mm"], answer["area_m2"], answer["litres"]) == (5000, 4.5, 1.5)
    assert answer["capped"] is False


def test_exactly_in_time_is_decided_on_decimals():
    # 0.2 to prime, 0.1 to dry, 0.3 to lay: exactly 0.6, which binary fractions overshoot.
    answer = batch(dry_min=0.1, latest_min=0.6, prime_min_per_m=0.2, minutes_per_sheet=0.3)
    assert answer["sheets"] == 1
    assert answer["timeline"] == [{"start_min": 0.3, "done_min": 0.6, "slack_min": 0.0}]


def test_laying_as_fast_as_priming_goes_on_until_the_cap():
    answer = batch(minutes_per_sheet=10)
    assert (answer["sheets"], answer["capped"], answer["length_mm"]) == (500, True, 500_000)
    assert times(answer)[499] == (5030, 5040, 10)


def test_same_crew_lays_only_after_all_priming():
    # n sheets are primed by 10 n and laid from max(40, 10 n): sheet 1 is down 10 later, by 90.
    answer = batch(same_crew=True, latest_min=90, minutes_per_sheet=10)
    assert answer["sheets"] == 8
    assert times(answer)[0] == (80, 90, 0)
    assert times(answer)[7] == (150, 160, 0)


def test_each_team_lays_its_own_sheet_and_the_first_free_takes_the_next():
    answer = batch(teams=2, minutes_per_sheet=25, latest_min=70)
    assert times(answer) == [(40, 65, 5), (50, 75, 5), (65, 90, 0), (75, 100, 0)]


def test_more_teams_than_sheets_only_wait_for_drying():
    answer = batch(teams=10**50, minutes_per_sheet=20)
    assert times(answer)[:2] == [(40, 60, 0), (50, 70, 0)]
    assert answer["capped"] is True


def test_laps_shorten_the_pitch_but_each_sheet_waits_for_its_whole_stretch():
    # Pitch 900 mm, 9 min: sheet 2 covers 900 to 1900, primed from 9 to 19.
    answer = batch(side_lap_mm=100, latest_min=66)
    assert times(answer)[:2] == [(40, 52, 14), (52, 64, 11)]
    assert answer["sheets"] == 5
    assert answer["length_mm"] == 4600


def test_work_that_would_start_when_the_break_begins_waits_for_its_end():
    # Sheet 1 could start at 40. Priming is stopped at 40 too: sheet 5 is begun at 55.
    answer = batch(latest_min=70, **pause(40, 15))
    assert times(answer) == [(55, 67, 3), (67, 79, 1)]
    five = batch_times(Batch(30, 70, 10, 12, 1, False, 1000, 0, Break(40, 15)), 5)
    assert five[4].start_min == 103  # 55, 67, 79, 91, then sheet 5
    assert five[4].slack_min == 55 + 70 - 115


def test_work_that_would_start_in_the_break_waits_for_its_end():
    assert times(batch(latest_min=70, **pause(35, 10)))[0] == (45, 57, 13)


def test_work_under_way_is_interrupted_and_goes_on():
    assert times(batch(latest_min=70, **pause(45, 15)))[0] == (40, 67, 3)


def test_work_that_ends_when_the_break_begins_is_finished():
    answer = batch(latest_min=80, minutes_per_sheet=10, **pause(50, 15))
    assert times(answer)[:2] == [(40, 50, 30), (65, 75, 15)]


def test_drying_goes_on_in_the_break():
    # Primed at 10, dry at 40, in the break from 12 to 40: it starts at 40 as without the break.
    assert times(batch(**pause(12, 28)))[0] == (40, 52, 8)


def test_priming_is_interrupted_and_ages_meanwhile():
    # Priming of sheet 1 stops at 5 and ends at 25: dry at 55.
    assert times(batch(latest_min=80, **pause(5, 15)))[0] == (55, 67, 13)


def test_break_at_the_start_moves_priming_to_its_end():
    assert times(batch(**pause(0, 15)))[0] == (55, 67, 8)


def test_break_of_no_minutes_changes_nothing():
    assert batch(**pause(40, 0)) == batch()


def test_same_crew_that_ends_priming_when_the_break_begins_lays_after_it():
    answer = batch(same_crew=True, dry_min=0, latest_min=60, **pause(20, 15))
    # Two sheets: primed by 20, laid from 35. Three: primed by 45, down at 57 (slack 3), 69 (slack
    # 1) and 81 (its primer begun at 35, slack 14). Four: primed by 55, the first down at 67, late.
    assert times(answer) == [(45, 57, 3), (57, 69, 1), (69, 81, 14)]


@pytest.mark.parametrize(
    "changes", [{"latest_min": 51}, {"latest_min": 0}, {"dry_min": 61}, {"minutes_per_sheet": 1e9}]
)
def test_no_sheet_at_all(changes):
    assert batch(**changes) == {
        "sheets": 0,
        "capped": False,
        "length_mm": 0,
        "area_m2": 0,
        "litres": 0,
        "timeline": [],
    }


def test_nothing_takes_time():
    answer = batch(dry_min=0, latest_min=0, prime_min_per_m=0, minutes_per_sheet=0)
    assert answer["sheets"] == 500
    assert set(times(answer)) == {(0, 0, 0)}
    assert set(times(batch(dry_min=0, prime_min_per_m=0, minutes_per_sheet=0, **pause(0, 7)))) == {
        (7, 7, 60)
    }


def test_length_of_no_sheets_is_nothing_and_of_one_its_width():
    plain = Batch(30, 60, 10, 12, 1, False, 1000, 75)
    assert [batch_length_mm(plain, n) for n in (0, 1, 2)] == [0, 1000, 1925]


def test_extreme_but_finite_values_are_answered_or_refused_in_words():
    assert batch(prime_min_per_m=1e-300, dry_min=1e-300, minutes_per_sheet=1e-300)["sheets"] == 500
    assert batch(prime_min_per_m=1e300)["sheets"] == 0
    with pytest.raises(InputError, match=r"^girth_mm: got 1e\+308; .*finite"):
        batch(girth_mm=1e308, coverage_m2_per_l=1e-9)
    with pytest.raises(InputError, match=r"^coverage_m2_per_l: got 5e-324; .*finite"):
        batch(coverage_m2_per_l=5e-324)


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"side_lap_mm": 1000}, "side_lap_mm"),
        ({"side_lap_mm": -1}, "side_lap_mm"),
        ({"sheet_mm": 0}, "sheet_mm"),
        ({"teams": 0}, "teams"),
        ({"teams": 1.5}, "teams"),
        ({"same_crew": 1}, "same_crew"),
        ({"same_crew": "yes"}, "same_crew"),
        ({"coverage_m2_per_l": 0}, "coverage_m2_per_l"),
        ({"girth_mm": 0}, "girth_mm"),
        ({"dry_min": "30"}, "dry_min"),
        ({"break": None}, "break"),
        ({"break": [40, 15]}, "break"),
        ({"break": {"at_min": 40}}, "break.minutes"),
        ({"break": {"at_min": -1, "minutes": 15}}, "break.at_min"),
        ({"break": {"at_min": 40, "minutes": 15, "for": "lunch"}}, "break.for"),
        ({"wall_mm": 5000}, "wall_mm"),
    ],
)
def test_what_cannot_be_taken_names_its_field(changes, field):
    with pytest.raises(InputError) as refused:
        batch(**changes)
    assert refused.value.field == field


def test_pure_function_keeps_fractions_of_a_minute():
    first = batch_times(Batch(0.5, 60, 3, 7, 1, False, 1000, 0), 1)[0]
    assert (first.start_min, first.done_min) == (Fraction(7, 2), Fraction(21, 2))
