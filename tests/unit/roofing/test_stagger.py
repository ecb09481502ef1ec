"""Laps that are laid, checked pair by pair."""

import pytest

from trainer.errors import InputError
from trainer.roofing.bands import clear_distance, in_mm, whole_parts
from trainer.roofing.stagger import STAGGER

LAID = {"field_laps": [[950, 1050], [1950, 2050]], "flashing_laps": [[1200, 1275]], "clear_mm": 100}


@pytest.mark.parametrize(
    ("one", "other", "clear"),
    [
        ((0, 100), (250, 350), 150),
        ((250, 350), (0, 100), 150),
        ((0, 100), (100, 200), 0),
        ((0, 100), (60, 160), -40),
        ((0, 100), (40, 50), -50),
        ((5, 5), (5, 5), 0),
    ],
)
def test_clear_distance_of_two_bands(one, other, clear):
    assert clear_distance(one, other) == clear


def test_every_lap_clear():
    assert STAGGER(LAID) == {"ok": True, "min_clear_mm": 150, "too_close": []}


def test_exactly_the_clear_distance_is_enough_and_a_hair_less_is_not():
    assert STAGGER({**LAID, "flashing_laps": [[1150, 1225]]})["ok"]
    short = STAGGER({**LAID, "flashing_laps": [[1149.999, 1225]]})
    assert short["ok"] is False
    assert short["too_close"] == [{"flashing": 0, "field": 0, "clear_mm": 100}]


def test_decimals_are_taken_as_written():
    # In binary fractions 0.7 − 0.4 falls short of 0.3.
    inputs = {"field_laps": [[0, 0.4]], "flashing_laps": [[0.7, 1]], "clear_mm": 0.3}
    assert STAGGER(inputs) == {"ok": True, "min_clear_mm": 0.3, "too_close": []}


def test_pairs_too_close_come_by_flashing_then_field():
    result = STAGGER(
        {
            "field_laps": [[2000, 2100], [1000, 1100]],
            "flashing_laps": [[1050, 1125], [5000, 5075], [1020, 1980]],
            "clear_mm": 100,
        }
    )
    assert result["too_close"] == [
        {"flashing": 0, "field": 1, "clear_mm": -50},
        {"flashing": 2, "field": 0, "clear_mm": 20},
        {"flashing": 2, "field": 1, "clear_mm": -80},
    ]
    assert result["min_clear_mm"] == -80


@pytest.mark.parametrize("empty", ["field_laps", "flashing_laps"])
def test_nothing_to_compare_is_fine(empty):
    assert STAGGER({**LAID, empty: []}) == {"ok": True, "min_clear_mm": None, "too_close": []}


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"clear_mm": -1}, "clear_mm"),
        ({"field_laps": [[2, 1]]}, "field_laps[0]"),
        ({"flashing_laps": [[1, 2], [1, True]]}, "flashing_laps[1][1]"),
        ({"flashing_laps": 5}, "flashing_laps"),
    ],
)
def test_bad_input_names_the_field(changes, field):
    with pytest.raises(InputError) as refusal:
        STAGGER({**LAID, **changes})
    assert refusal.value.field == field


def test_whole_parts_and_back():
    parts, per_mm = whole_parts([1.25, -3, 0.1])
    assert (parts, per_mm) == ([25, -60, 2], 20)
    assert [in_mm(part, per_mm) for part in parts] == [1.25, -3, pytest.approx(0.1)]
    assert whole_parts([]) == ([], 1)
