"""Features of a scenario: what the family says, and what can be counted by other means."""

import itertools
import random

import pytest

from tests.unit.engine.samples import EVERY_KIND, RULES, family, scenario
from trainer.engine.features import features, orders_that_keep
from trainer.engine.mark import mark
from trainer.engine.solve import make
from trainer.engine.unsound import UnsoundScenario
from trainer.pack.positions import PackError
from trainer.roofing import sequence

SAID = "features: {steps: 3, looks: len(places), hidden: 1, faults: '0 if margin > 0 else 2'}\n"
STATED = EVERY_KIND.replace("judge:\n", SAID + "judge:\n")


def test_what_the_family_says_is_worked_out_from_the_scenario():
    for mode, faults in (("wide", 0), ("short", 2)):
        told = features(family(STATED), make(family(STATED), 7, RULES, mode))
        assert [told[k] for k in ("steps", "looks", "hidden", "faults")] == [3, 3, 1, faults]


def test_a_family_that_says_nothing_still_has_what_can_be_counted():
    made = scenario(7, "short")
    told = features(family(), made)
    assert "steps" not in told
    assert (told["margin"], told["unsafe"]) == (-made.margin, 1)
    assert told["decisions"] == 8
    # "A sheet 1000 mm wide, its lap 60 mm. Primed at 07:30, 12 °C." "Something looks narrow."
    assert told["words"] == 9 + 5 + 3
    kinds = {name for name in told if ".kind_" in name}
    assert {"take.kind_choose", "put.kind_place", "row.kind_order"} <= kinds and len(kinds) == 8
    assert all(isinstance(value, float) for value in told.values())


def test_features_are_no_part_of_what_a_scenario_stores():
    """Stored answers are worked out from the same bytes, whatever a family says of itself."""
    stated = make(family(STATED), 7, RULES, "wide")
    assert stated.canonical() == scenario(7, "wide").canonical()


def test_the_chance_of_a_guess_by_kind():
    told = features(family(), scenario(7, "wide"))
    assert told["take.guess"] == pytest.approx(1 / 3, abs=1e-6)
    assert told["go.guess"] == pytest.approx(1 / 3, abs=1e-6)
    assert told["worst.guess"] == pytest.approx(1 / 3, abs=1e-6)
    assert told["every.guess"] == 1 / 2**3
    # 3 mm to either side, of 0 to 2 × 1000 (or 914) mm
    assert told["much.guess"] in (
        pytest.approx(6 / 2000, abs=1e-6),
        pytest.approx(6 / 1828, abs=1e-6),
    )
    assert told["until.guess"] == pytest.approx(3 / 1440, abs=1e-6)
    assert told["row.guess"] == pytest.approx(1 / 6, abs=1e-6)  # one order of three steps keeps all


def test_the_chance_of_placing_blindly_against_ten_thousand_blind_placings():
    made, chance = scenario(7, "wide"), random.Random(1)
    decision = made.decision("put")
    hits = 0
    for _ in range(10_000):
        at = {
            f"{a}_mm": chance.uniform(*decision.bounds[2 * i : 2 * i + 2])
            for i, a in enumerate("xy")
        }
        hits += mark(family(), made, "put", at).right
    assert features(family(), made)["put.guess"] == pytest.approx(hits / 10_000, abs=0.04)


@pytest.mark.parametrize("job", sequence.JOBS)
@pytest.mark.parametrize("size", [2, 4, 6])
def test_orders_that_keep_every_need_against_trying_all(job, size):
    names = [step["name"] for step in sequence.steps(job)]
    asked = random.Random(size).sample(names, size)
    before = {name: sequence.needs_of(job)[name] & set(asked) for name in asked}
    tried = sum(
        all(before[step] <= set(order[:place]) for place, step in enumerate(order))
        for order in itertools.permutations(asked)
    )
    assert orders_that_keep(before) == tried


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ("steps: 3, ", "", "features.steps: missing"),
        ("steps: 3", "steps: 3, stepps: 3", "stepps: no such field; allowed: steps, looks"),
        ("looks: len(places)", "looks: len(place)", "uses the unknown name place (did you mean"),
        ("hidden: 1", "hidden: [1]", "features.hidden: got [1]; allowed: a formula"),
    ],
)
def test_features_that_are_not_whole_are_refused(old, new, sentence):
    with pytest.raises(PackError) as refused:
        family(STATED.replace(old, new))
    assert sentence in str(refused.value)


@pytest.mark.parametrize("value", ["'\"many\"'", "-1", "places", "1 / (lap_mm - lap_mm)"])
def test_a_feature_that_is_no_number_from_0_up_is_unsound(value):
    text = STATED.replace("steps: 3", f"steps: {value}")
    with pytest.raises(UnsoundScenario, match="feature steps: "):
        features(family(text), make(family(text), 7, RULES, "wide"))
