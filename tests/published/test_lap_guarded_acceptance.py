"""The decision rule for a measured lap beside JCGM 106:2012.

JCGM 106:2012, "Evaluation of measurement data: the role of measurement uncertainty in conformity
assessment", 8.3.2 guarded acceptance: for a lower limit T_L the acceptance limit is A_L = T_L + w,
here with the guard band w = U = 2u. Its point: with a normal distribution about the reading, an
accepted item conforms with a probability of at least Φ(2) = 0.977 (7.3.2 and 8.3.2). Clauses and
the two worked examples of 7.4 are from memory; the probabilities are worked out below.
"""

from statistics import NormalDist

import pytest

from trainer.roofing.laps import judge_reading


def conformance_probability(reading, least, standard_uncertainty):
    """JCGM 106:2012, 7.3.2, formula for a single lower limit: Φ((y − T_L) / u)."""
    return NormalDist().cdf((reading - least) / standard_uncertainty)


@pytest.mark.parametrize(
    ("reading", "u", "least", "probability", "verdict"),
    [
        # 7.4, example 2: burst pressure of a container, 509.7 kPa with u = 8.6 kPa, at least 490.
        (509.7, 8.6, 490, 0.99, "accept"),
        # 7.4, example 1, turned round: breakdown of −5.47 V with u = 0.05 V, at most −5.40 V.
        (5.47, 0.05, 5.40, 0.92, "measure again"),
    ],
)
def test_worked_examples(reading, u, least, probability, verdict):
    assert round(conformance_probability(reading, least, u), 2) == probability
    assert judge_reading(reading, least, 2 * u) == verdict


@pytest.mark.parametrize("u", [0.5, 1, 1.5])
def test_verdicts_are_the_probabilities_of_the_guide(u):
    """In steps of 0.1 mm across the limit: accept from 0.977 up, reject below 0.023."""
    least, guarded = 75, NormalDist().cdf(2)
    for tenths in range(700, 801):
        reading = tenths / 10
        probability = conformance_probability(reading, least, u)
        verdict = judge_reading(reading, least, 2 * u)
        if abs(probability - guarded) > 1e-9 and abs(probability - (1 - guarded)) > 1e-9:
            assert (verdict == "accept") == (probability > guarded)
            assert (verdict == "reject") == (probability < 1 - guarded)
        else:  # exactly on a guard band's edge
            assert verdict == ("accept" if reading > least else "measure again")


@pytest.mark.parametrize(
    ("probability", "z"),
    [(0.80, 0.84), (0.90, 1.28), (0.95, 1.64), (0.99, 2.33), (0.999, 3.09)],
)
def test_guard_bands_for_other_probabilities(probability, z):
    """JCGM 106:2012, table 1 (from memory): z = (y − T_L) / u for a conformance probability."""
    assert NormalDist().inv_cdf(probability) == pytest.approx(z, abs=0.01)
    least, u = 75, 1
    assert judge_reading(least + z * u + 1e-6, least, z * u) == "accept"
    assert judge_reading(least + z * u - 1e-6, least, z * u) == "measure again"
