"""The primer along one wall: where it is dead, late, ready and wet at one moment."""

from fractions import Fraction

import pytest

from trainer.errors import InputError
from trainer.roofing.primerfront import PRIMER_FRONT, Front

WALL = {
    "started_at": "08:00",
    "now": "11:15",
    "prime_min_per_m": 6,
    "length_mm": 30000,
    "dry_min": 45,
    "plan_min": 120,
    "latest_min": 180,
}


def front(**changes):
    return PRIMER_FRONT(WALL | changes)


def ends(answer):
    return [answer[name] for name in ("dead_to_mm", "late_to_mm", "ready_to_mm", "primed_mm")]


def stretches(answer):
    return [(part["from_mm"], part["to_mm"], part["state"]) for part in answer["stretches"]]


def test_all_four_states_along_one_wall():
    # by hand: 195 min since the start; (195 − 180) ÷ 6 = 2.5 m, (195 − 120) ÷ 6 = 12.5 m,
    # (195 − 45) ÷ 6 = 25 m; primed after 180 min
    answer = front()
    assert ends(answer) == [2500, 12500, 25000, 30000]
    assert stretches(answer) == [
        (0, 2500, "dead"), (2500, 12500, "late"), (12500, 25000, "ready"), (25000, 30000, "drying")
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("now", "expected", "states"),
    [
        ("08:00", [0, 0, 0, 0], []),  # nothing on the wall yet
        ("08:30", [0, 0, 0, 5000], ["drying"]),
        ("08:45", [0, 0, 0, 7500], ["drying"]),  # only the point 0 is dry
        ("09:00", [0, 0, 2500, 10000], ["ready", "drying"]),
        ("10:00", [0, 0, 12500, 20000], ["ready", "drying"]),  # the point 0 is 120 min old
        ("10:06", [0, 1000, 13500, 21000], ["late", "ready", "drying"]),
        ("12:00", [10000, 20000, 30000, 30000], ["dead", "late", "ready"]),
        ("13:00", [20000, 30000, 30000, 30000], ["dead", "late"]),
        ("14:00", [30000, 30000, 30000, 30000], ["dead"]),  # even the last metre is 180 min old
        ("15:00", [30000, 30000, 30000, 30000], ["dead"]),
    ],
)
def test_the_day_goes_on(now, expected, states):
    answer = front(now=now)
    assert ends(answer) == expected
    assert [state for *_, state in stretches(answer)] == states


def test_a_wall_primed_in_no_time_is_of_one_age():
    for now, state in (
        ("08:00", "drying"), ("08:44", "drying"), ("08:45", "ready"), ("10:00", "ready"),
        ("10:01", "late"), ("11:00", "late"), ("11:01", "dead"),
    ):  # fmt: skip
        assert stretches(front(prime_min_per_m=0, now=now)) == [(0, 30000, state)]


def test_limits_that_fall_together_leave_a_state_out():
    answer = front(plan_min=180)
    assert [state for *_, state in stretches(answer)] == ["dead", "ready", "drying"]
    answer = front(dry_min=0)
    assert [state for *_, state in stretches(answer)] == ["dead", "late", "ready"]


def test_across_midnight_with_dates():
    answer = front(started_at="2026-06-30T22:30", now="2026-07-01T01:45")
    assert answer == front()


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"now": "07:59"}, "now"),
        ({"now": "2026-06-30T11:15"}, "now"),
        ({"length_mm": 0}, "length_mm"),
        ({"prime_min_per_m": -1}, "prime_min_per_m"),
        ({"plan_min": 44}, "plan_min"),
        ({"latest_min": 119}, "latest_min"),
        ({"dry_min": None}, "dry_min"),
        ({"touch": "dry"}, "touch"),
    ],
)
def test_what_cannot_be_taken_names_its_field(changes, field):
    with pytest.raises(InputError) as refused:
        front(**changes)
    assert refused.value.field == field


def test_pure_front_keeps_fractions_of_a_millimetre():
    third = Front(Fraction(100), 3, 1e6, 0, 50, 60)
    assert (third.dead_to_mm, third.late_to_mm) == (Fraction(40000, 3), Fraction(50000, 3))
    assert [state for *_, state in third.stretches()] == ["dead", "late", "ready"]
