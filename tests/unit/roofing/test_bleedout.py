"""The bead along a welded lap, judged at every limit by hand: 6 to 10 mm, read within 1 mm."""

import pytest

from trainer.errors import InputError
from trainer.roofing.bleedout import BLEED_OUT, worst

WELDED = {"readings_mm": [8], "least_mm": 6, "most_mm": 10, "uncertainty_mm": 1}


@pytest.mark.parametrize(
    ("reading", "verdict"),
    [
        (0, "cold"),
        (4.99, "cold"),
        (5, "measure again"),
        (6.99, "measure again"),
        (7, "right"),
        (9, "right"),
        (9.01, "measure again"),
        (11, "measure again"),
        (11.01, "too hot"),
    ],
)
def test_one_reading(reading, verdict):
    found = BLEED_OUT({**WELDED, "readings_mm": [reading]})
    assert found == {
        "readings": [{"measured_mm": reading, "verdict": verdict}],
        "overall": verdict,
    }


@pytest.mark.parametrize("without", [{"most_mm": None}, {}])
def test_without_a_greatest_width_nothing_is_too_hot(without):
    inputs = {"readings_mm": [60, 7], "least_mm": 6, "uncertainty_mm": 1, **without}
    assert BLEED_OUT(inputs)["overall"] == "right"


@pytest.mark.parametrize(
    ("readings", "overall"),
    [
        ([8, 12, 4], "cold"),
        ([8, 12, 10], "too hot"),
        ([8, 10], "measure again"),
        ([8, 7], "right"),
    ],
)
def test_the_worst_place_rules_the_lap(readings, overall):
    found = BLEED_OUT({**WELDED, "readings_mm": readings})
    assert found["overall"] == overall
    assert worst([each["verdict"] for each in found["readings"]]) == overall


def test_decimals_are_taken_as_written():
    # In binary fractions 0.3 − 0.1 falls short of 0.2.
    inputs = {"readings_mm": [0.3], "least_mm": 0.2, "uncertainty_mm": 0.1}
    assert BLEED_OUT(inputs)["overall"] == "right"


def test_least_and_most_may_be_one_width():
    exactly = {"readings_mm": [6, 6.1, 5.9], "least_mm": 6, "most_mm": 6, "uncertainty_mm": 0}
    verdicts = [each["verdict"] for each in BLEED_OUT(exactly)["readings"]]
    assert verdicts == ["right", "too hot", "cold"]


def test_a_greatest_width_below_the_least_is_refused_in_words():
    with pytest.raises(InputError, match=r"most_mm: got 5; allowed: ≥ least_mm \(6\), or null"):
        BLEED_OUT({**WELDED, "most_mm": 5})


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"readings_mm": []}, "readings_mm"),
        ({"readings_mm": [8, -1]}, "readings_mm[1]"),
        ({"readings_mm": 8}, "readings_mm"),
        ({"least_mm": None}, "least_mm"),
        ({"most_mm": "10"}, "most_mm"),
        ({"uncertainty_mm": -1}, "uncertainty_mm"),
    ],
)
def test_bad_input_names_the_field(changes, field):
    with pytest.raises(InputError) as refusal:
        BLEED_OUT({**WELDED, **changes})
    assert refusal.value.field == field
