"""Every family of the pack against an example that somebody worked out by hand.

Values and answers stand typed in the family's file (``worked``), found with pencil and paper from
the rules as they are in force by default; the core works the same values out. That is the check of
every family from outside the program: a formula that is wrong disagrees with the hand.
"""

from __future__ import annotations

import pytest

from trainer.engine.features import features
from trainer.engine.worked import disagreements, worked
from trainer.pack.pack import load_pack

PACK = load_pack()
RULES = PACK.book.in_force()
FAMILIES = sorted(PACK.families)


@pytest.mark.parametrize("name", FAMILIES)
def test_what_the_core_works_out_is_what_the_hand_found(name: str) -> None:
    family = PACK.families[name]
    assert family.worked is not None, f"{family.source}: there is no example worked by hand"
    assert disagreements(family, RULES) == []


@pytest.mark.parametrize("name", FAMILIES)
def test_every_decision_that_is_asked_is_a_right_answer_away(name: str) -> None:
    """The example asks at least one decision, and its lines say the numbers it is about."""
    family = PACK.families[name]
    example = worked(family, RULES)
    assert {d.id for d in example.decisions} == set(family.worked.answers)
    for words in family.words.values():
        assert len(words.worked) >= 2


@pytest.mark.parametrize("name", FAMILIES)
def test_every_family_says_how_hard_it_is(name: str) -> None:
    family = PACK.families[name]
    told = features(family, worked(family, RULES))
    assert {"steps", "looks", "hidden", "faults"} <= told.keys(), family.source
    assert told["hidden"] in (0, 1)
    guesses = {key: value for key, value in told.items() if key.endswith(".guess")}
    assert guesses and all(0 < value <= 0.5 for value in guesses.values()), guesses
