"""Every family × fault mode drawn two hundred times: sound, worded, drawn, rightly marked."""

from __future__ import annotations

import pytest

from trainer.services import catalogue
from trainer.services.scenarios import library


@pytest.mark.long
@pytest.mark.parametrize(("family", "mode"), catalogue.cells())
def test_two_hundred_draws_of_a_cell_are_sound(family: str, mode: str) -> None:
    assert catalogue.unsound(family, mode, 200) == []


@pytest.mark.long
@pytest.mark.parametrize(("family", "mode"), catalogue.cells())
def test_two_hundred_seeds_give_different_scenarios(family: str, mode: str) -> None:
    """A cell is worth practising again: most seeds give values of their own."""
    shelf = library()
    facts = {str(shelf.make(family, seed, mode).facts) for seed in range(200)}
    assert len(facts) >= 20
