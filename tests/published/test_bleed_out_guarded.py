"""Verdicts on a bead of bitumen beside JCGM 106:2012 and the one published width.

JCGM 106:2012, 7.3.2, 7.4 and 8.3 (clauses from memory): with a standard uncertainty u = U/2 and
errors spread normally, a reading guarded by U against a limit lies on the right side of it with a
probability of at least Φ(2) = 0.977; between two limits the conformance probability is the
difference Φ((T_U − y)/u) − Φ((T_L − y)/u).
A bead of at least 6 mm (1/4 in): UIHC 07550, a hospital owner's standard, page 12 (read). It names
no greatest width; 10 mm is common practice, no source.
"""

from statistics import NormalDist

import pytest

from trainer.roofing.bleedout import BLEED_OUT, Bead

UIHC = 6
PRACTICE = 10
GUARDED = NormalDist().cdf(2)


def chances(reading, u):
    """That the bead truly is below the least, and above the greatest width."""
    true = NormalDist(reading, u)
    return true.cdf(UIHC), 1 - true.cdf(PRACTICE)


@pytest.mark.parametrize("u", [0.25, 0.4, 0.9])
def test_verdicts_are_the_probabilities_of_the_guide(u):
    """In steps of 0.1 mm from bead to bead, off the very edges of the guard bands."""
    bead = Bead(UIHC, PRACTICE, 2 * u)
    for step in range(161):
        reading = step / 10 + 0.03
        narrow, wide = chances(reading, u)
        verdict = bead.judge(reading)
        assert (verdict == "cold") == (narrow > GUARDED)
        assert (verdict == "too hot") == (wide > GUARDED)
        assert (verdict == "right") == (narrow < 1 - GUARDED and wide < 1 - GUARDED)
        if verdict == "right":
            assert 1 - narrow - wide > 2 * GUARDED - 1


@pytest.mark.parametrize(
    ("reading", "verdict"),
    [(4.9, "cold"), (5, "measure again"), (6.9, "measure again"), (7, "right"), (40, "right")],
)
def test_the_published_rule_alone_within_1_mm(reading, verdict):
    """6 − 1 = 5 and 6 + 1 = 7 by hand; with no greatest width nothing is too hot."""
    inputs = {"readings_mm": [reading], "least_mm": UIHC, "most_mm": None, "uncertainty_mm": 1}
    found = BLEED_OUT(inputs)
    assert found["overall"] == verdict
    quarter_inch = BLEED_OUT({**inputs, "least_mm": 6.35})  # stricter by 0.35 mm
    assert quarter_inch["overall"] == {7: "measure again", 5: "cold"}.get(reading, verdict)
