"""A roof edge: when it needs protection, what counts as protection, and what is said when not."""

from __future__ import annotations

from itertools import product

import pytest

from trainer.roofing.edge import EDGE_PROTECTION

LOW = {
    "drop_mm": 6000,
    "edge_limit_mm": 1800,
    "parapet_mm": 450,
    "guardrail_mm": 1000,
    "guardrail": False,
    "tied_on": False,
}


@pytest.mark.parametrize(
    ("drop", "needed"), [(0, False), (1799.9, False), (1800, True), (1800.1, True)]
)
def test_a_drop_of_the_limit_or_more_needs_protection(drop, needed):
    answer = EDGE_PROTECTION(LOW | {"drop_mm": drop})
    assert (answer["needed"], answer["protected"], answer["ok"]) == (needed, False, not needed)


@pytest.mark.parametrize(
    ("parapet", "grounds", "short"),
    [
        (0, ["no parapet"], 1000),
        (999.5, ["parapet too low"], 0.5),
        (1000, [], 0),
        (1400, [], 0),
    ],
)
def test_a_parapet_as_high_as_a_guardrail_is_one(parapet, grounds, short):
    answer = EDGE_PROTECTION(LOW | {"parapet_mm": parapet})
    assert (answer["grounds"], answer["short_mm"]) == (grounds, short)
    assert answer["ok"] is answer["protected"] is not bool(grounds)


@pytest.mark.parametrize(("guardrail", "tied_on"), list(product([False, True], repeat=2)))
def test_guardrail_and_rope_protect_each_by_itself(guardrail, tied_on):
    answer = EDGE_PROTECTION(LOW | {"guardrail": guardrail, "tied_on": tied_on})
    assert answer["protected"] is answer["ok"] is (guardrail or tied_on)
    assert answer["short_mm"] == 550  # the parapet is no higher for it


def test_nothing_is_held_against_an_edge_that_needs_no_protection():
    answer = EDGE_PROTECTION(LOW | {"drop_mm": 900, "parapet_mm": 0})
    assert answer == {
        "needed": False, "protected": False, "ok": True, "grounds": [], "short_mm": 1000,
    }  # fmt: skip
