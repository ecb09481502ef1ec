"""The substrate gate: what stands against a flame, each thing by its name."""

from __future__ import annotations

import pytest

from trainer.errors import InputError
from trainer.roofing.substrate import SUBSTRATE


def no_rule(subject: str) -> float:
    raise AssertionError(f"no rule is needed, {subject} was asked for")


def asked(*materials: str, **more):
    layers = [{"name": f"{m} {n}", "material": m} for n, m in enumerate(materials, 1)]
    return SUBSTRATE({"layers": layers, **more}, no_rule)


def test_nothing_that_burns_and_nothing_open_lets_a_flame_come():
    assert asked("concrete", "mineral wool", openings=[]) == {
        "flame": True, "burns": [], "open_ways": [], "grounds": []
    }  # fmt: skip
    assert asked("masonry", openings=[]) == asked("masonry")


@pytest.mark.parametrize("covering", ["concrete", "steel", "mineral board"])
def test_covering_timber_does_not_make_it_safe(covering):
    # RCABC Roofing Practices Manual, SBS Standard, part 10, 1.2.2: no torching to a combustible
    for order in ((covering, "timber"), ("timber", covering)):
        found = asked(*order)
        assert (found["flame"], found["grounds"]) == (False, ["combustible"])
        assert [name.split()[0] for name in found["burns"]] == ["timber"]


def test_an_opening_is_a_ground_of_its_own():
    # IFC 2018, 3504.1.2: openings near hot work are covered
    found = asked("concrete", openings=["vent"])
    assert (found["flame"], found["open_ways"], found["grounds"]) == (False, ["vent"], ["opening"])


def test_both_grounds_are_said_in_a_fixed_order():
    found = asked("foam", "timber", openings=["void", "vent"])
    assert found["burns"] == ["foam 1", "timber 2"]
    assert found["open_ways"] == ["void", "vent"]
    assert found["grounds"] == ["combustible", "opening"]


@pytest.mark.parametrize(
    ("inputs", "field"),
    [
        ({"layers": []}, "layers"),
        ({}, "layers"),
        ({"layers": [{"name": "cant", "material": "straw"}]}, "material"),
        ({"layers": [{"name": 3, "material": "steel"}]}, "name"),
        ({"layers": [{"name": "cant", "material": "steel"}], "openings": "vent"}, "openings"),
    ],
)
def test_what_cannot_be_taken_is_named(inputs, field):
    with pytest.raises(InputError) as refused:
        SUBSTRATE(inputs, no_rule)
    assert field in refused.value.field
