"""One family, one seed, one scenario: its bytes, its answers, and when it is refused."""

import dataclasses
import hashlib
import json

import pytest

from tests.unit.engine.samples import (
    AGE,
    EVERY_KIND,
    LAP,
    RULES,
    WARMTH,
    Rules,
    family,
    rule,
    scenario,
)
from trainer.engine.solve import ENGINE_VERSION, judged, lacking, make, rule_facts
from trainer.engine.unsound import UnsoundScenario
from trainer.errors import InputError


def test_the_bytes_of_a_scenario_are_pinned():
    """When this changes, the same family and seed give something else: raise ENGINE_VERSION."""
    texts = [scenario(seed, mode).canonical() for seed in range(20) for mode in ("wide", "short")]
    digest = hashlib.sha256("\n".join(texts).encode()).hexdigest()
    assert (ENGINE_VERSION, digest) == (
        1,
        "404b3d9af27cc0550d2df7142a5da7dc8c29369489b980c70be032eb92a45396",
    )


def test_canonical_is_sorted_compact_json_of_everything():
    made = scenario()
    data = json.loads(made.canonical())
    assert made.canonical() == json.dumps(
        data, sort_keys=True, separators=(",", ":"), ensure_ascii=False
    )
    assert set(data) == {field.name for field in dataclasses.fields(made)}
    _ = made.facts
    assert json.loads(made.canonical()) == data  # what is worked out on the way is not in it


def test_facts_are_values_with_times_as_a_clock_shows_them():
    made = scenario()
    assert made.values["primed_at"] == 540 and made.facts["primed_at"] == "09:00"
    assert {**made.facts, "primed_at": 540} == made.values


def test_formulas_and_labels_of_the_figure():
    made = scenario()
    lap, sheet = made.values["lap_mm"], made.values["sheet_mm"]
    assert made.figure == {
        "kind": "wall-elevation",
        "wall_mm": sheet * 3,
        "label": "@lap",
        "pieces": [{"at": lap / 2}, "plain"],
    }
    assert made.live == {"put": {"movable": {"from": lap}}}
    assert made.after["put"] == {"overlays": [{"at": 76.2}]}


def test_rules_are_kept_with_both_statements_and_their_source():
    assert scenario().rules["keep"] == {
        "id": "side-lap-rule",
        "value": 76.2,
        "low": 75,
        "high": 76.2,
        "unit": "mm",
        "direction": "at least",
        "says": {"mm": "75 mm", "in": "3 in"},
        "source": "a handbook",
    }


def test_the_seed_decides_and_every_part_of_the_name_counts():
    assert scenario(5, "wide").canonical() == scenario(5, "wide").canonical()
    assert scenario(5, "wide").canonical() != scenario(6, "wide").canonical()
    newer = dataclasses.replace(family(), version=4)
    assert make(newer, 5, RULES, "wide").values != scenario(5, "wide").values


def test_a_mode_that_was_drawn_gives_the_same_scenario_when_it_is_given():
    for seed in range(20):
        drawn = scenario(seed)
        assert scenario(seed, drawn.mode).canonical() == drawn.canonical()


def test_drawn_values_can_be_judged_again():
    made = scenario()
    again = judged(family(), made.mode, made.seed, made.values, made.rules)
    assert again.canonical() == made.canonical()


@pytest.mark.parametrize("seed", [-1, 2**63, 1.5, "7", True, None])
def test_other_seeds_are_refused(seed):
    with pytest.raises(InputError, match=r"seed: got .*; allowed: a whole number from 0 up"):
        make(family(), seed, RULES)


def test_an_unknown_mode_is_refused_with_the_known_ones():
    with pytest.raises(InputError, match='mode: got "narrow"; allowed: one of wide, short'):
        make(family(), 1, RULES, "narrow")


def test_nobody_is_marked_by_a_rule_that_nobody_has_read():
    heard = Rules(
        rule(LAP, (75, "mm"), status="from memory"),
        rule(AGE, (180, "min")),
        rule(WARMTH, (5, "°C")),
    )
    assert lacking(family(), RULES) == ()
    assert lacking(family(), heard) == ("side-lap",)
    with pytest.raises(
        UnsoundScenario, match="no rule that may mark anybody is in force on side-lap"
    ):
        make(family(), 1, heard)


def test_a_rule_that_is_not_in_force_is_missed_too():
    from trainer.roofing.rulebook import InForce

    nothing = InForce("1", "empty", {})
    assert lacking(family(), nothing) == ("side-lap", "primer-age", "surface")


def test_facts_of_a_rule_are_worked_out_once():
    one = RULES.rule("side-lap")
    assert rule_facts(one) is rule_facts(one)


def changed(old, new):
    assert old in EVERY_KIND
    return family(EVERY_KIND.replace(old, new))


@pytest.mark.parametrize(
    ("old", "new", "reason"),
    [
        ("right: 'laps.overall != \"accept\"', mis", "right: True, mis",
         "decision take: there are 2 right options (keep-it, redo), not one"),
        ("right: 'laps.overall == \"accept\"'}", "right: mode == 'none'}",
         "decision take: there are 0 right options, not one"),
        ('answer: laps.overall == "accept"', "answer: 1 == 0",
         "decision go: go is False, but the grounds that hold are: none"),
        ("answer: part.id == bad[0]", "answer: part.at_mm > 200",
         "decision worst: there are 2 right parts (middle, right), not one"),
        ('{"id": name, "at_mm": at} for name', '{"at_mm": at} for name',
         "decision worst: each part needs an id, a text"),
        ('{"id": name, "at_mm": at} for name', '{"id": "same"} for name',
         "decision worst: two of its parts have the same id: same, same, same"),
        ('[{"id": name, "at_mm": at} for name, at in places]', "lap_mm",
         "decision worst: its parts are "),
        ("x >= keep.high and y <= 300", "y <= 300",
         "decision put: there are 2 right candidates (in-place, near), not one"),
        ("{id: near, at: 50,", "{id: near, at: 0 - 5,",
         "decision put: near lies at -5, outside 0 to "),
        ("{id: near, at: 50, at_y: 100,", "{id: near, at: 200, at_y: 350,",
         "decision put: above lies where near lies"),
        ("tolerance: 3\n", "tolerance: 1\n",
         "decision much: its tolerance of 1 is less than the answer is rounded by"),
        ("answer: sheet_mm - lap_mm\n", "answer: '\"much\"'\n",
         "decision much: its answer is 'much', not a number"),
        ("answer: primed_at + oldest.value", "answer: primed_at + 20 * 60",
         "decision until: its answer is "),
        ("answer: primed_at + oldest.value", "answer: primed_at + 0.5",
         "decision until: its answer is "),
        ("job: '\"wall\"'", "job: '\"ceiling\"'",
         'decision row: job: got "ceiling"; allowed: "wall" or '),
        ('["bond bottom", "roll", "press laps"]', '["bond bottom", "fly"]',
         "decision row: the wall has no such steps: fly"),
        ("press laps before bond bottom", "press lips before bond bottom",
         "decision row: the wall has no such steps: press lips"),
        ('["bond bottom", "roll", "press laps"]', '["roll"]',
         "decision row: there is nothing to put in order"),
        ("required_mm: keep.high", "required_mm: 0 - 1",
         "judge laps: required_mm: got -1; allowed: a number ≥ 0 (mm)"),
        ("wall_mm: = sheet_mm * 3", "wall_mm: = sheet_mm / 0",
         'the expression "sheet_mm / 0" cannot be used: it divides by zero'),
        ("wall_mm: = sheet_mm * 3", "wall_mm: = 1000000 * 1000000 * 10",
         'the value of "1000000 * 1000000 * 10": it is not a number of sensible size'),
    ],
)  # fmt: skip
def test_what_has_no_single_honest_answer_is_refused_with_the_reason(old, new, reason):
    spec = changed(old, new)
    with pytest.raises(UnsoundScenario) as refused:
        make(spec, 1, RULES, "wide")
    assert reason in refused.value.reason
    assert str(refused.value).startswith("family every-kind, mode wide, seed 1: ")
    assert len(str(refused.value).splitlines()) == 1


def test_a_scenario_that_asks_nothing_is_refused():
    text = EVERY_KIND
    for kind in ("choose", "go_stop", "mark", "find", "place", "measure", "time", "order"):
        text = text.replace(f"kind: {kind}\n", f"kind: {kind}\n    when: lap_mm < 0\n")
    with pytest.raises(UnsoundScenario, match="nothing is asked"):
        make(family(text), 1, RULES)


def test_only_what_applies_is_asked():
    spec = changed("kind: time\n", "kind: time\n    when: mode == 'short'\n")
    assert "until" not in [d.id for d in make(spec, 1, RULES, "wide").decisions]
    assert "until" in [d.id for d in make(spec, 1, RULES, "short").decisions]


def test_an_option_is_offered_only_when_it_applies():
    spec = changed(
        "misconception: too-strict, when: lap_mm > 0", "misconception: too-strict, when: lap_mm < 0"
    )
    assert len(make(spec, 1, RULES).decision("take").options) == 2


def test_a_choice_of_one_is_none():
    text = EVERY_KIND.replace("misconception: too-strict, when: lap_mm > 0",
                              "misconception: too-strict, when: lap_mm < 0")  # fmt: skip
    text = text.replace('misconception: too-strict, critical: "False"', "when: lap_mm < 0")
    with pytest.raises(UnsoundScenario, match="decision take: there is nothing to choose from"):
        make(family(text), 1, RULES, "wide")


def test_traps_that_would_count_as_right_are_left_out():
    much = scenario().decision("much")
    assert [trap.id for trap in much.options] == ["all-of-it"]


def test_rows_are_shuffled_but_where_their_order_means_something():
    orders = {
        tuple(o.id for o in scenario(seed, "wide").decision("take").options) for seed in range(40)
    }
    assert len(orders) == 6
    pinned = changed("kind: choose\n", "kind: choose\n    pinned: true\n")
    orders = {
        tuple(o.id for o in make(pinned, seed, RULES).decision("take").options)
        for seed in range(40)
    }
    assert orders == {("keep-it", "redo", "never")}
    assert all(scenario(seed).decision("go").options[0].id == "go" for seed in range(20))


def test_the_right_order_is_never_the_starting_order():
    for seed in range(60):
        row = scenario(seed).decision("row")
        assert [part["id"] for part in row.parts] != row.answer
        assert sorted(part["id"] for part in row.parts) == sorted(row.answer)


def test_decisions_and_parts_are_found_by_name():
    made = scenario()
    assert made.decision("go").option("short").id == "short"
    assert made.decision("go").option("nobody") is None
    assert made.decision("worst").part("left") == {"id": "left", "at_mm": 100}
    assert made.decision("worst").part("nobody") is None
    with pytest.raises(InputError, match='decision: got "nobody"; allowed: one of take, go, worst'):
        made.decision("nobody")


def test_a_wrong_go_may_have_a_mistake_behind_it():
    spec = changed(
        "      - {id: cold,", "      - {id: go, misconception: too-strict}\n      - {id: cold,"
    )
    go = make(spec, 1, RULES, "short").decision("go").options[0]
    assert (go.id, go.right, go.misconception, go.critical) == ("go", False, "too-strict", True)
    assert [o.id for o in make(spec, 1, RULES).decision("go").options].count("go") == 1
