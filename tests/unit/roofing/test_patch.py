"""The least patch, by hand."""

import pytest

from trainer.errors import InputError
from trainer.roofing.patch import PATCH

CUT = {"width_mm": 250, "height_mm": 0, "cover_mm": 100}


def test_a_cut_needs_cover_on_both_sides_and_past_both_ends():
    assert PATCH(CUT) == {"patch_width_mm": 450, "patch_height_mm": 200}


def test_decimals_are_taken_as_written():
    assert PATCH({"width_mm": 0.1, "height_mm": 0.3, "cover_mm": 0.1}) == {
        "patch_width_mm": 0.3,
        "patch_height_mm": 0.5,
    }


@pytest.mark.parametrize("field", CUT)
@pytest.mark.parametrize("value", [-1, None, "9", True])
def test_bad_input_names_the_field(field, value):
    with pytest.raises(InputError) as refusal:
        PATCH({**CUT, field: value})
    assert refusal.value.field == field
