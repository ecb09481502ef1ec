"""Chance that is the same everywhere: the hat's sequence is pinned."""

from collections import Counter

import pytest

from trainer.engine.hat import Hat


def test_the_same_name_draws_the_same_and_another_does_not():
    def drawn(*name):
        hat = Hat(*name)
        return [hat.index(1000) for _ in range(8)]

    assert drawn("a", 1) == drawn("a", 1) == drawn("a", "1")
    assert len({tuple(drawn(*name)) for name in (("a", 1), ("a", 2), ("a1",), ("a", 1, ""))}) == 4


def test_the_sequence_is_pinned():
    # Computed by other means: SHA-256 of the name as the seed of CPython's Mersenne Twister, whose
    # random() is the same in every version (docs.python.org, random, Notes on Reproducibility).
    hat = Hat("primer-window", 1, "clean", 7)
    assert [hat.index(1000) for _ in range(6)] == [488, 250, 857, 905, 62, 147]


def test_a_sample_holds_each_thing_once():
    for seed in range(50):
        assert sorted(Hat(seed).sample("abcdef")) == list("abcdef")
        three = Hat(seed).sample("abcdef", 3)
        assert len(set(three)) == 3


def test_the_grid_has_both_ends_and_only_its_own_values():
    drawn = {Hat(seed).on_grid(10, 12, 0.5) for seed in range(200)}
    assert drawn == {10, 10.5, 11, 11.5, 12}
    assert {Hat(seed).on_grid(0, 0.3, 0.1) for seed in range(200)} == {0, 0.1, 0.2, 0.3}
    assert {Hat(seed).on_grid(3, 3, 1) for seed in range(20)} == {3}
    assert {Hat(seed).on_grid(0, 5, 3) for seed in range(50)} == {0, 3}


def test_weights_are_kept():
    drawn = Counter(Hat(seed).by_weight([("once", 1), ("thrice", 3)]) for seed in range(2000))
    assert 2.5 < drawn["thrice"] / drawn["once"] < 3.6


@pytest.mark.parametrize(
    "draw",
    [
        lambda hat: hat.pick([]),
        lambda hat: hat.index(0),
        lambda hat: hat.on_grid(5, 4, 1),
        lambda hat: hat.sample([1, 2], 3),
        lambda hat: hat.sample([1, 2], -1),
    ],
)
def test_where_there_is_nothing_to_draw_it_says_so(draw):
    with pytest.raises(ValueError):
        draw(Hat("empty"))
