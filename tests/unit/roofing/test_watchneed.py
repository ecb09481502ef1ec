"""Four reasons for a fire watch: each by itself, at its limit, and by name."""

from __future__ import annotations

import pytest

from trainer.errors import InputError
from trainer.roofing.watchneed import WATCH_NEEDED


def asked(combustibles=(), openings=(), behind_metal=(), limit_mm=10_700):
    return WATCH_NEEDED(
        {
            "combustibles": [
                {"name": name, "distance_mm": distance, "easily_lit": lit}
                for name, distance, lit in combustibles
            ],
            "openings": [{"name": name, "distance_mm": distance} for name, distance in openings],
            "behind_metal": list(behind_metal),
            "limit_mm": limit_mm,
        }
    )


def test_nothing_round_the_flame_asks_for_nothing():
    assert asked() == {"needed": False, "triggers": [], "because": []}


@pytest.mark.parametrize(
    ("distance", "easily_lit", "triggers"),
    [
        (10_699.9, False, ["combustible near"]),
        (10_699.9, True, ["combustible near"]),
        (10_700, False, []),
        (10_700, True, ["easily lit"]),
        (30_000, False, []),
        (30_000, True, ["easily lit"]),
        (0, False, ["combustible near"]),
    ],
)
def test_what_can_burn_counts_nearer_than_the_limit_or_when_sparks_light_it(
    distance, easily_lit, triggers
):
    assert asked([("stack", distance, easily_lit)])["triggers"] == triggers


@pytest.mark.parametrize(("distance", "needed"), [(0, True), (10_700, True), (10_700.1, False)])
def test_an_opening_counts_up_to_the_limit_itself(distance, needed):
    assert asked(openings=[("hatch", distance)])["needed"] is needed


def test_everything_is_named_in_the_order_of_the_triggers():
    answer = asked(
        [("paper", 12_000, True), ("fence", 11_000, False), ("stack", 200, False)],
        [("far hatch", 20_000), ("near hatch", 10)],
        ["foam", "lining"],
    )
    assert answer["because"] == [
        {"trigger": "combustible near", "name": "stack"},
        {"trigger": "easily lit", "name": "paper"},
        {"trigger": "opening near", "name": "near hatch"},
        {"trigger": "behind metal", "name": "foam"},
        {"trigger": "behind metal", "name": "lining"},
    ]


def test_a_distance_below_nothing_is_refused_by_its_place():
    with pytest.raises(InputError, match=r"^combustibles\[1\]\.distance_mm: got -1; "):
        asked([("stack", 5, False), ("fence", -1, False)])
