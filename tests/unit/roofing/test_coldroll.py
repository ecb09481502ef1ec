"""A roll from the cold and a cold wall: hours in the warm, and two grounds of their own."""

from fractions import Fraction

import pytest

from trainer.errors import InputError
from trainer.roofing.clock import Moment
from trainer.roofing.coldroll import COLD_ROLL, Roll, is_warm_enough

COLD = {
    "inside_since": "2026-11-16T15:30",
    "now": "2026-11-17T15:30",
    "storage_h": 24,
    "stored_c": 3,
    "cold_from_c": 10,
    "surface_c": 8,
    "surface_least_c": 5,
}


def roll(**changes):
    return COLD_ROLL(COLD | changes)


def test_ready_after_its_hours_in_the_warm_to_the_minute():
    assert roll() == {"ready": True, "ready_at": "2026-11-17T15:30", "grounds": []}
    assert roll(now="2026-11-17T15:29") == {
        "ready": False, "ready_at": "2026-11-17T15:30", "grounds": ["roll cold"]
    }  # fmt: skip


def test_one_night_is_not_a_day():
    # in at the end of work, out at the start of the next: 16:00 to 07:00 is 15 h
    answer = roll(inside_since="2026-11-16T16:00", now="2026-11-17T07:00")
    assert (answer["ready"], answer["ready_at"]) == (False, "2026-11-17T16:00")


@pytest.mark.parametrize(("stored_c", "grounds"), [(9.9, ["roll cold"]), (10, []), (10.1, [])])
def test_a_roll_kept_at_the_limit_is_not_cold(stored_c, grounds):
    answer = roll(stored_c=stored_c, now="2026-11-16T16:00")
    assert answer["grounds"] == grounds
    assert answer["ready_at"] == ("2026-11-17T15:30" if grounds else "2026-11-16T15:30")


@pytest.mark.parametrize(("surface_c", "grounds"), [(4.9, ["wall cold"]), (5, []), (5.1, [])])
def test_a_cold_wall_is_a_ground_of_its_own(surface_c, grounds):
    assert roll(surface_c=surface_c)["grounds"] == grounds


def test_both_grounds_are_said_in_a_fixed_order():
    answer = roll(surface_c=-1, now="2026-11-16T16:00")
    assert (answer["ready"], answer["grounds"]) == (False, ["roll cold", "wall cold"])


@pytest.mark.parametrize("never", [{"inside_since": None}, {}])
def test_a_cold_roll_that_nobody_brought_in_is_never_ready(never):
    given = {name: value for name, value in COLD.items() if name != "inside_since"}
    assert COLD_ROLL(given | never) == {
        "ready": False, "ready_at": None, "grounds": ["roll cold"]
    }  # fmt: skip


def test_a_roll_that_was_never_cold_needs_no_warming():
    assert roll(inside_since=None, stored_c=15) == {
        "ready": True, "ready_at": "2026-11-17T15:30", "grounds": []
    }  # fmt: skip


def test_times_of_one_day_do_for_a_stay_that_ends_on_it():
    answer = roll(inside_since="07:00", now="12:00", storage_h=6.5)
    assert (answer["ready"], answer["ready_at"]) == (False, "13:30")
    # a third of an hour, written 0.333: 19.98 min, and one waits for 07:20
    assert roll(inside_since="07:00", now="12:00", storage_h=0.333)["ready_at"] == "07:20"


@pytest.mark.parametrize(
    ("changes", "field", "said"),
    [
        ({"inside_since": "15:30", "now": "16:00"}, "storage_h", "YYYY-MM-DDTHH:MM"),
        ({"inside_since": "16:30", "now": "07:00"}, "now", "for another day give"),
        ({"inside_since": "16:30"}, "now", "HH:MM, as in inside_since"),
        ({"inside_since": "yesterday"}, "inside_since", "or null"),
        ({"storage_h": -1}, "storage_h", "≥ 0"),
        ({"stored_c": None}, "stored_c", "≥ -60"),
        ({"surface_c": 1000}, "surface_c", "≤ 100"),
        ({"storage_h": 1e300}, "storage_h", "the years 1 and 9999"),
    ],
)
def test_what_cannot_be_taken_names_its_field(changes, field, said):
    with pytest.raises(InputError) as refused:
        roll(**changes)
    assert refused.value.field == field
    assert said in str(refused.value)


def test_pure_functions_decide_limits_exactly():
    assert is_warm_enough(5, 5.0)
    assert is_warm_enough(0.1, 0.1)
    assert not is_warm_enough(4.999999, 5)
    now = Moment(Fraction(600))
    assert Roll(3, 10, 2).ready_at(now) is None
    assert Roll(10, 10, 2).ready_at(now) == now
    assert Roll(3, 10, 2, now).ready_at(now) == Moment(Fraction(720))
