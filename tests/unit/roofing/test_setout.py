"""Girth and chalk line, summed by hand."""

import math

import pytest

from trainer.errors import InputError
from trainer.roofing.setout import CUT_LENGTH, Profile, chalk_line_mm, girth_mm

PLAIN = {"height_mm": 300, "cant_mm": 0, "top_mm": 200, "field_lap_mm": 100, "outer_drop_mm": 50}


def test_without_a_cant_the_legs_add_up():
    assert CUT_LENGTH(PLAIN) == {"girth_mm": 650, "chalk_line_mm": 100}


def test_a_cant_takes_its_slope_and_moves_the_chalk_line_out():
    # 100 + 75 × √2 + 225 + 200 + 50, by hand
    assert CUT_LENGTH({**PLAIN, "cant_mm": 75}) == {"girth_mm": 681.07, "chalk_line_mm": 175}


def test_a_cant_as_high_as_the_parapet_leaves_no_upright():
    profile = Profile(100, 100, 0, 0, 0)
    assert girth_mm(profile) == pytest.approx(100 * math.sqrt(2))
    assert chalk_line_mm(profile) == 100


def test_nothing_at_all_is_no_length():
    assert CUT_LENGTH(dict.fromkeys(PLAIN, 0)) == {"girth_mm": 0, "chalk_line_mm": 0}


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"cant_mm": 300.1}, "cant_mm"),
        ({"height_mm": -1}, "height_mm"),
        ({"field_lap_mm": "100"}, "field_lap_mm"),
        ({"top_mm": None}, "top_mm"),
    ],
)
def test_bad_input_names_the_field(changes, field):
    with pytest.raises(InputError) as refusal:
        CUT_LENGTH({**PLAIN, **changes})
    assert refusal.value.field == field
    assert refusal.value.value == changes[field]
