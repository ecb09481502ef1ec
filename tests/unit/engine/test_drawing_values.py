"""Values by construction: the margin first, then values that give exactly that margin."""

import pytest

from tests.unit.engine.samples import AGE, LAP, RULES, WARMTH, Rules, family, rule
from trainer.engine.expression import Expression, scope_of
from trainer.engine.hat import Hat
from trainer.engine.margin import margin_of, refuse_ambiguity, value_at
from trainer.engine.solve import make, rule_facts
from trainer.engine.spec import MarginSpec
from trainer.engine.unsound import Unsound, UnsoundScenario
from trainer.errors import InputError

TOLERANCE = Expression("5")


def spec(**more):
    return MarginSpec("lap_mm", TOLERANCE, 1, **({"rule": "keep"} | more))


def scope(rule_in_force, **values):
    return scope_of({"keep": rule_facts(rule_in_force)}, values)


BOTH = rule(LAP, (75, "mm"), (3, "in"))
OLDEST = rule(AGE, (180, "min"))


@pytest.mark.parametrize(
    ("in_force", "margin", "value"),
    [
        (BOTH, 2, 87),  # 76.2 + 10, up to the next whole millimetre
        (BOTH, -2, 65),  # 75 − 10
        (BOTH, 1, 82),  # 81.2
        (OLDEST, 2, 170),  # at most: the safe side lies below
        (OLDEST, -2, 190),
        (rule(LAP, (75, "mm")), 1, 80),
        (rule(LAP, (3, "in")), 1, 82),
    ],
)
def test_a_value_lies_at_the_margin_asked_for_or_a_little_clearer(in_force, margin, value):
    made = scope(in_force)
    assert value_at(spec(), margin, made) == value
    found = margin_of(spec(), {**made, "lap_mm": value})
    assert margin <= found < margin + 0.21 if margin > 0 else margin - 0.21 < found <= margin


@pytest.mark.parametrize(
    ("value", "margin"), [(75, 0), (75.5, 0), (76.2, 0), (77.2, 0.2), (74, -0.2)]
)
def test_between_two_statements_of_one_limit_the_margin_is_nothing(value, margin):
    assert margin_of(spec(), scope(BOTH, lap_mm=value)) == margin


def test_a_drawn_limit_with_a_direction():
    at_most = spec(rule="", limit=Expression("longest_mm"), direction="at most")
    made = scope_of({"longest_mm": 300, "lap_mm": 290})
    assert margin_of(at_most, made) == 2
    assert value_at(at_most, -1, made) == 305


def test_a_value_too_near_its_limit_is_refused_unless_that_is_the_point():
    near = family()
    for margin in (0, 0.99, -0.5):
        with pytest.raises(Unsound, match="closer than one"):
            refuse_ambiguity(near, margin, {})
    refuse_ambiguity(near, 1, {})
    refuse_ambiguity(near, -1, {})


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({"tolerance": Expression("0")}, "tolerance of the margin is not above 0"),
        ({"tolerance": Expression('"5"')}, "tolerance of the margin is '5', not a number"),
        (
            {"rule": "", "limit": Expression("None"), "direction": "at most"},
            "is None, not a number",
        ),
    ],
)
def test_a_margin_that_measures_nothing_is_refused(changes, reason):
    made = MarginSpec(
        **{"value": "lap_mm", "tolerance": TOLERANCE, "step": 1, "rule": "keep"} | changes
    )
    with pytest.raises(Unsound, match=reason):
        margin_of(made, scope(BOTH, lap_mm=80))


def test_a_rule_without_a_number_measures_nothing():
    with pytest.raises(Unsound, match="has no number to measure lap_mm against"):
        margin_of(spec(), scope(rule(LAP), lap_mm=80))


def test_the_margin_drawn_is_the_margin_found():
    for mode, low, high in (("wide", 1.5, 9), ("short", -9, -1.5)):
        for seed in range(100):
            found = make(family(), seed, RULES, mode).margin
            # the grid of half a millimetre is a quarter of the tolerance of 2 mm
            assert low - 0.26 <= found <= high + 0.26


def test_a_margin_can_be_asked_for():
    assert (
        make(family(), 1, RULES, "wide", margin=4).values["lap_mm"] == 84.5
    )  # 76.2 + 8, rounded up
    assert make(family(), 1, RULES, "wide", margin=-4).values["lap_mm"] == 67
    with pytest.raises(UnsoundScenario, match="closer than one"):
        make(family(), 1, RULES, "wide", margin=0.5)
    for wrong in (float("nan"), float("inf"), True):
        with pytest.raises(InputError, match="margin"):
            make(family(), 1, RULES, "wide", margin=wrong)


BY_WAY = """
family: by-way
version: 1
unit: laps
severity: quality
values: {VALUES}
modes: {{plain: }}
judge: {{}}
figure: {{kind: plan}}
decisions:
  - id: a
    kind: choose
    options: [{{id: one, right: True}}, {{id: two, right: False}}]
words:
  en:
    title: t
    situation: s
    look: l
    decisions: {{a: {{prompt: p, right: r, wrong: w, options: {{one: This., two: That.}}}}}}
"""


def drawn(values, seed=1):
    return make(family(BY_WAY.format(VALUES=values)), seed, RULES).values


def test_the_ways_to_draw():
    made = drawn(
        "{a_mm: {from: 10, to: 20, step: 5}, b: {one_of: [x, y]}, c_mm: a_mm * 2,"
        " d: {one_of: '[1, 2, 3]', take: 2}, e: true, f: 2.5, g: '\"text\"'}"
    )
    assert made["a_mm"] in (10, 15, 20)
    assert made["b"] in ("x", "y")
    assert made["c_mm"] == 2 * made["a_mm"]
    assert len(set(made["d"])) == 2 and set(made["d"]) <= {1, 2, 3}
    assert (made["e"], made["f"], made["g"]) == (True, 2.5, "text")


@pytest.mark.parametrize(
    ("values", "reason"),
    [
        ("{a: {from: 5, to: 3}}", "value a: from 5 to 3 there is nothing"),
        ("{a: {one_of: '[]'}}", "value a: there is nothing to draw from"),
        ("{a: {one_of: '[1]', take: 2}}", "value a: 2 cannot be taken from 1"),
        ("{a: {one_of: '[1]', take: 0.5}}", "value a: 0.5 is no whole number of things to take"),
        ("{a: {one_of: '5'}}", "value a: 5 is no list to draw from"),
        ("{a: {from: '\"x\"', to: 3}}", "value a:"),
        ("{a: 1 / 0}", "value a: the expression .* it divides by zero"),
        ("{a: '[][0]'}", "value a: the expression .* list index out of range"),
        ("{a_at: 1500}", "value a_at: 1500 is no minute of a day"),
        ("{a_at: 0 - 1}", "value a_at: -1 is no minute of a day"),
        ("{a: 1000000000000 + 1}", "value a: it is not a number of sensible size"),
    ],
)
def test_what_cannot_be_drawn_is_refused_by_name(values, reason):
    with pytest.raises(UnsoundScenario, match=f"family by-way, mode plain, seed 1: {reason}"):
        drawn(values)


def test_more_limits_can_be_kept_clear_of():
    text = BY_WAY.replace("unit: laps", "unit: laps\nrules: {{warmth: surface}}\n"
                          "clear_of: [{{of: warm_c, rule: warmth, tolerance: 0.5}}]")  # fmt: skip
    rules = Rules(rule(WARMTH, (5, "°C")))
    for warm, fine in ((5.6, True), (4.4, True), (5.2, False), (4.9, False), (5, False)):
        made = family(text.format(VALUES=f"{{warm_c: {warm}}}"))
        if fine:
            make(made, 1, rules)
        else:
            with pytest.raises(UnsoundScenario, match=r"warm_c lies .* closer than one"):
                make(made, 1, rules)


def test_modes_come_as_often_as_they_weigh():
    modes = [make(family(), seed, RULES).mode for seed in range(300)]
    assert 1.4 < modes.count("short") / modes.count("wide") < 2.9


def test_hats_of_different_scenarios_are_different():
    assert Hat("a", 1, "wide", 5).index(10**6) != Hat("a", 1, "wide", 6).index(10**6)
