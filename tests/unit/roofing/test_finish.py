"""What is left of a height above a raised roof."""

from __future__ import annotations

import pytest

from trainer.errors import InputError
from trainer.roofing.finish import FINISH_HEIGHT


def asked(height, layers, required):
    return FINISH_HEIGHT({"height_mm": height, "layers_mm": layers, "required_mm": required})


@pytest.mark.parametrize(
    ("layers", "left", "short"),
    [([], 300, 0), ([100, 50], 150, 0), ([100, 50, 1], 149, 1), ([300], 0, 150)],
)
def test_layers_are_taken_off_and_what_is_required_exactly_is_enough(layers, left, short):
    assert asked(300, layers, 150) == {
        "added_mm": 300 - left, "height_mm": left, "ok": not short, "short_mm": short,
    }  # fmt: skip


def test_tenths_of_a_millimetre_add_up_as_they_are_written():
    # in binary fractions 0.3 − (0.1 + 0.2) is less than 0
    assert asked(0.3, [0.1, 0.2], 0)["height_mm"] == 0
    assert asked(150.3, [0.1, 0.2], 150)["ok"] is True


def test_layers_that_bury_what_is_measured_are_refused():
    with pytest.raises(InputError) as refused:
        asked(150, [100, 60], 100)
    assert str(refused.value) == (
        "layers_mm: got [100, 60]; allowed: layers that add up to height_mm (150) at most"
    )


def test_a_layer_of_less_than_nothing_is_refused_by_its_place():
    with pytest.raises(InputError, match=r"^layers_mm\[1\]: got -5; "):
        asked(150, [20, -5], 100)
