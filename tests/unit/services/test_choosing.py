"""What comes next in practice: weights are ours (docs/decisions/0006), no outside source."""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import dataclass

import pytest

from trainer.services.choosing import Seen, cell_weights, next_cell


@dataclass(frozen=True)
class Mode:
    id: str
    weight: float = 1


@dataclass(frozen=True)
class Family:
    """Only what choosing looks at."""

    id: str
    modes: dict[str, Mode]


def family(name: str, *modes: str) -> Family:
    return Family(name, {mode: Mode(mode) for mode in modes})


TWO = [family("a", "clean", "fault"), family("b", "clean", "fault")]


def test_nothing_seen_every_cell_weighs_the_same() -> None:
    assert set(cell_weights(TWO, []).values()) == {1}


def test_a_cell_is_never_asked_twice_running() -> None:
    for seed in range(200):
        assert next_cell(TWO, [Seen("a", "fault", False)], random.Random(seed)) != ("a", "fault")


def test_a_single_cell_is_asked_again_rather_than_nothing() -> None:
    only = [family("a", "clean")]
    assert next_cell(only, [Seen("a", "clean", True)], random.Random(1)) == ("a", "clean")


@pytest.mark.parametrize(("critical", "other"), [(False, True), (True, False)])
def test_what_went_wrong_weighs_more_and_a_critical_error_most(critical: bool, other: bool) -> None:
    past = [Seen("b", "clean", True), Seen("a", "fault", False, critical)]
    weights = cell_weights(TWO, past)
    assert weights["a", "fault"] > weights["a", "clean"] > weights["b", "fault"]
    milder = cell_weights(TWO, [past[0], Seen("a", "fault", False, other)])
    assert (weights["a", "fault"] > milder["a", "fault"]) == critical


def test_old_errors_fade() -> None:
    fresh = [Seen("b", "clean", True), Seen("a", "fault", False)]
    old = [*[Seen("b", "clean", True)] * 20, Seen("a", "fault", False)]
    assert cell_weights(TWO, fresh)["a", "fault"] > cell_weights(TWO, old)["a", "fault"]


def test_nothing_drops_out_for_good() -> None:
    past = [Seen("b", "clean", True)] + [Seen("a", "clean", True)] * 24
    assert cell_weights(TWO, past)["a", "clean"] > 0
    drawn = Counter(next_cell(TWO, past, random.Random(seed)) for seed in range(3000))
    assert drawn["a", "clean"] > 0
