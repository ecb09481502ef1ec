"""The content of the pack: every family through every check of the content, with a few seeds.

``trainer scenario check`` does the same with two hundred.
"""

from __future__ import annotations

from functools import cache

import pytest

from trainer.pack.glossary import load_glossary
from trainer.services.content import alike, checks, sample
from trainer.services.content.counts import counts, too_few
from trainer.services.content.mistakes import never_made
from trainer.services.scenarios import library

SEEDS = 25
FAMILIES = list(library().pack.families)


@cache
def sampled(family: str) -> sample.Sample:
    shelf = library()
    return sample.sample(shelf, shelf.pack.family(family), SEEDS)


@pytest.mark.parametrize("group", checks.OF_A_FAMILY)
@pytest.mark.parametrize("family", FAMILIES)
def test_a_family(family: str, group: str) -> None:
    assert [str(one) for one in checks.OF_A_FAMILY[group](sampled(family))] == []


def test_no_two_families_tell_the_same() -> None:
    told = {family: alike.situations(sampled(family)) for family in FAMILIES}
    assert [str(one) for one in alike.told_twice(told)] == []


def test_every_misconception_is_used() -> None:
    pack = library().pack
    found = never_made(pack.misconceptions["en"], pack.families.values())
    assert [str(one) for one in found] == []


def test_there_is_enough_of_everything() -> None:
    assert [str(one) for one in too_few(counts(library().pack))] == []


def test_the_glossary_says_one_word_for_one_thing() -> None:
    glossary = load_glossary()
    assert not set(glossary.avoided) & set(glossary.trade)
    assert not glossary.known & set(glossary.avoided)
    meanings = [word.means for word in glossary.trade.values()]
    assert len(set(meanings)) == len(meanings)
    assert all(len(text) <= 90 for text in meanings)
