"""What holds for every family of the pack, in every fault mode, whatever the seed."""

import dataclasses
import hashlib
import itertools
import json
import os
import random
import subprocess
import sys

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from laws.scenario_cells import (
    CELLS,
    PACK,
    RULES,
    drawn,
    needed_pairs,
    right_responses,
    wrong_responses,
)

from trainer.engine.explain import Telling
from trainer.engine.mark import mark
from trainer.engine.measures import Units
from trainer.engine.respond import read_response
from trainer.engine.solve import judged, make

EVERYWHERE = [Units(), Units("in", "F"), Units("mm", "F")]
SEEDS = st.integers(0, 2**63 - 1)
in_every_cell = pytest.mark.parametrize("cell", CELLS, ids="-".join)


def family_of(cell):
    return PACK.families[cell[0]]


def whatever_the_seed(test):
    """A few seeds in every cell: some two thousand scenarios a law."""
    return in_every_cell(settings(max_examples=8)(given(seed=SEEDS)(test)))


@whatever_the_seed
def test_the_stated_answer_is_marked_as_right_and_every_other_as_wrong(cell, seed):
    made = drawn(cell, seed)
    for decision in made.decisions:
        for response in right_responses(decision):
            assert mark(family_of(cell), made, decision.id, response).right, (decision, response)
        for response in wrong_responses(decision):
            wrong = mark(family_of(cell), made, decision.id, response)
            assert not wrong.right and wrong.score < 1, (decision, response)
            assert decision.critical or not wrong.critical or decision.option(wrong.chosen).critical


@whatever_the_seed
def test_an_order_is_right_exactly_when_nothing_comes_before_what_it_needs(cell, seed):
    made, chance = drawn(cell, seed), random.Random(seed)
    for decision in (d for d in made.decisions if d.kind == "order"):
        pairs = needed_pairs(decision.job)
        for _ in range(4):
            order = chance.sample(decision.answer, len(decision.answer))
            ways = itertools.combinations(order, 2)
            right = not any((later, sooner) in pairs for sooner, later in ways)
            assert mark(family_of(cell), made, decision.id, {"order": order}).right == right


@whatever_the_seed
def test_the_order_of_the_rows_changes_no_mark(cell, seed):
    made = drawn(cell, seed)
    for decision in made.decisions:
        for turned in (decision.options[::-1], decision.options[1:] + decision.options[:1]):
            other = dataclasses.replace(decision, options=turned, parts=decision.parts[::-1])
            others = [other if d.id == decision.id else d for d in made.decisions]
            shuffled = dataclasses.replace(made, decisions=tuple(others))
            for response in itertools.chain(right_responses(decision), wrong_responses(decision)):
                marks = [mark(family_of(cell), s, decision.id, response) for s in (made, shuffled)]
                assert marks[0] == marks[1]


@whatever_the_seed
def test_the_same_seed_gives_the_same_bytes(cell, seed):
    made = drawn(cell, seed)
    assert made.canonical() == drawn(cell, seed).canonical()
    assert json.loads(made.canonical())["values"] == made.values
    again = judged(family_of(cell), made.mode, seed, made.values, made.rules)
    assert again.canonical() == made.canonical()


DIGEST = """
import hashlib
from laws.scenario_cells import CELLS, drawn
texts = (drawn(cell, seed).canonical() for cell in CELLS for seed in (0, 7, 2**40))
print(hashlib.sha256("\\n".join(texts).encode()).hexdigest())
"""


@pytest.mark.parametrize("hash_seed", ["0", "4242"])
def test_a_fresh_process_with_another_hash_seed_gives_the_same_bytes(hash_seed):
    texts = (drawn(cell, seed).canonical() for cell in CELLS for seed in (0, 7, 2**40))
    here = hashlib.sha256("\n".join(texts).encode()).hexdigest()
    ran = subprocess.run(
        [sys.executable, "-c", DIGEST],
        env={**os.environ, "PYTHONHASHSEED": hash_seed, "PYTHONPATH": os.pathsep.join(sys.path)},
        capture_output=True,
        text=True,
        check=True,
    )
    assert ran.stdout.strip() == here


# How each family's calculator shows on which side of its limit the drawn value lies.
SAFE = {
    "primer-window": lambda s: s.results["window"]["state"] != "expired",
    "chalk-line": lambda s: s.decision("given").answer["go"],
    # The margin is that of the last lap; others may lie wrong beside it.
    "flashing-laps": lambda s: 2 not in [t["flashing"] for t in s.results["laid"]["too_close"]],
    # A reading within what the tape can be wrong is neither, and beside the margin.
    "lap-tape": lambda s: "reject" not in [r["verdict"] for r in s.results["laps"]["readings"]],
    "seen-spacing": lambda s: s.results["laps"]["overall"] == "accept",
    "cover-strip": lambda s: s.decision("given").answer["go"],
    "short-lap": lambda s: s.decision("act").answer == "keep-it",
    # The margin is that of the lap beside the narrow field sheets.
    "start-shift": lambda s: (
        s.values["clash_lap"] not in [t["flashing"] for t in s.results["laid"]["too_close"]]
    ),
    # The margin is that of one pair of courses; a second pair may lie wrong beside it.
    "end-stagger": lambda s: s.results[
        ("second_course", "third_course", "fourth_course")[s.values["odd_pair"]]
    ]["ok"],
    "edge-line": lambda s: s.results["line"]["ok"],
    "parapet-as-rail": lambda s: s.results["top"]["ok"],
    # The margin is that of the first extinguisher's way; its size is another matter.
    "extinguisher-way": lambda s: s.results["plan"]["each"][0]["in_reach"],
    # The margin is that of the way to the second torch; whether it is seen is another matter.
    "watch-pair": lambda s: "too far" not in s.results["pairs"]["torches"][1]["grounds"],
    "permit-today": lambda s: s.results["hours"]["covered"],
    # The margin is that of the boards; other things may call for a watch beside them.
    "watch-needed": lambda s: "timber" not in [b["name"] for b in s.results["roof"]["because"]],
    "torch-stand": lambda s: "unclosed" not in s.results["plan"]["grounds"],
    "watch-end": lambda s: s.decision("leave").answer["go"],
    "bleed-out": lambda s: s.decision("cold").answer == [],
    "bitumen-burn": lambda s: s.results["water"]["enough"],
    "gas-off": lambda s: s.results["plan"]["cylinders"][0]["ok"],
    "wind-on-flame": lambda s: s.results["plan"]["ok"],
    "flashing-height": lambda s: s.results["top"]["ok"],
    "tallest-cut": lambda s: s.results["left"]["ok"],
    "level-line": lambda s: s.results["high"]["ok"],
    "dead-metres": lambda s: s.results["front"]["dead_to_mm"] == 0,
    "before-lunch": lambda s: s.results["most"]["sheets"] >= s.values["sheets_planned"],
    "sunny-side": lambda s: s.results["worst"]["ok"],
    # The margin is that of A; B may be dead or spoiled beside it.
    "shower-on-primer": lambda s: s.results["a"]["state"] != "expired",
    "wet-primer-flame": lambda s: s.results["primer"]["ok"],
    "cold-roll": lambda s: "roll cold" not in s.results["roll"]["grounds"],
    # The margin is that of the foot; the top may be short beside it.
    "tapered-lap": lambda s: s.results["taper"]["lap_bottom_mm"] >= s.rules["keep"]["low"],
    "bridged-angle": lambda s: s.results["press"]["ok"],
    "blister-patch": lambda s: s.results["laps"]["overall"] == "accept",
    # The margin is that of the whole lap, whatever lies in it.
    "film-in-lap": lambda s: s.results["wide"]["overall"] == "accept",
    "lunch-turns": lambda s: "turn-0" not in s.decision("bare").answer,
    "night-seal": lambda s: s.decision("more").answer["go"],
    # The margin is that of the torch that was out second; one was out 55 min after the start.
    "two-torches": lambda s: f"track-{s.values['outs'].index(55)}" not in s.decision("stay").answer,
    "warm-wall": lambda s: s.decision("rising").answer == [],
    # The margin is that of one look; another may come late beside it.
    "looking-in": lambda s: f"event-{s.values['odd_at'][0] + 1}" not in s.decision("late").answer,
    # On the safe side every lap that is left gets welded today.
    "last-flame": lambda s: s.decision("stop").answer == s.decision("stop").parts[-1]["id"],
    "slit-end": lambda s: s.decision("act").answer["go"],
    # The margin is that of the lap; it may lie too near a field lap beside it.
    "return-joint": lambda s: s.results["laps"]["overall"] == "accept",
    # The margin is that of one corner or lap, which may be closed; open ones lie farther off.
    "corner-closed": lambda s: s.results["beside"]["ok"],
}


@whatever_the_seed
def test_the_sign_of_the_margin_is_the_verdict_of_the_calculator(cell, seed):
    made = drawn(cell, seed)
    if made.margin is None:
        return
    assert cell[0] in SAFE, "say in SAFE how this family's calculator shows its verdict"
    assert SAFE[cell[0]](made) == (made.margin > 0), made.margin
    low_high = family_of(cell).modes[cell[1]].margin
    if low_high is not None:
        assert (made.margin > 0) == (low_high[0] > 0)


@whatever_the_seed
def test_nothing_is_drawn_where_nobody_could_tell(cell, seed):
    made, spec = drawn(cell, seed), family_of(cell).margin
    if spec is None or spec.about_uncertainty:
        return
    assert abs(made.margin) >= 1
    tolerance = spec.tolerance.value(made.scope())
    value = made.values[spec.value]
    low, high = _ends(made, spec)
    assert min(abs(value - low), abs(value - high)) >= tolerance
    assert not low <= value <= high


def _ends(made, spec):
    """The two statements of the limit; one and the same where the limit is a drawn value."""
    if not spec.rule:
        return (limit := spec.limit.value(made.scope())), limit
    return made.rules[spec.rule]["low"], made.rules[spec.rule]["high"]


@whatever_the_seed
def test_either_statement_of_a_limit_gives_the_same_answers(cell, seed):
    """A crew that works in inches and one that works in millimetres are told the same."""
    made = drawn(cell, seed)
    for name, rule in made.rules.items():
        for stated in {rule["low"], rule["high"]}:
            only = {**rule, "low": stated, "high": stated, "value": stated}
            other = judged(
                family_of(cell), made.mode, seed, made.values, {**made.rules, name: only}
            )
            for mine, theirs in zip(made.decisions, other.decisions, strict=True):
                if mine.kind not in ("measure", "time"):
                    assert mine.answer == theirs.answer, (name, stated)


@whatever_the_seed
def test_a_worker_who_reads_the_drawn_value_and_the_limit_comes_to_the_same_verdict(cell, seed):
    """Said in whole eighths of an inch or in millimetres, the value lies on its own side."""
    made, spec = drawn(cell, seed), family_of(cell).margin
    if spec is None or not spec.rule or not spec.value.endswith("_mm"):
        return
    rule = made.rules[spec.rule]
    for units in EVERYWHERE:
        value = units.read_length("", units.say_length(made.values[spec.value]))
        limit = units.read_length(
            "", units.say_length(rule["high" if units.length == "in" else "low"])
        )
        at_least = rule["direction"] == "at least"
        assert ((value >= limit) if at_least else (value <= limit)) == (made.margin > 0)


@whatever_the_seed
def test_everything_is_said_in_every_unit(cell, seed):
    made = drawn(cell, seed)
    for units in EVERYWHERE:
        told = Telling(family_of(cell), made, "en", units)
        said = [*told.situation, told.look, *told.caution, told.title]
        told.figure(answered=[d.id for d in made.decisions])
        for decision in made.decisions:
            told.figure(waiting=decision.id)
            rows = [text for _, text in told.rows(decision)]
            assert len(set(rows)) == len(rows), rows  # no two rows read the same
            said += [told.prompt(decision), *rows, told.correct(decision)]
            for response in itertools.chain(right_responses(decision), wrong_responses(decision)):
                said += _why(told, decision, response)
        assert all(text.strip() and not set(text) & set("{}") for text in said), said


def _why(told, decision, response):
    made = mark(told.family, told.scenario, decision.id, response)
    explained = told.explain(decision, response, made)
    assert explained.because, (decision.id, response)
    assert bool(explained.correct) != made.right
    return [*explained.because, *explained.sums, *explained.leads_to, explained.chosen]


@whatever_the_seed
def test_numbers_as_they_are_said_and_typed_again(cell, seed):
    """The computed answer counts as right and a tempting one as wrong, in either unit."""
    made = drawn(cell, seed)
    for decision in (d for d in made.decisions if d.kind == "measure"):
        for units in EVERYWHERE:
            for value, right in [
                (decision.answer, True),
                *((o.value, False) for o in decision.options),
            ]:
                typed = units.say_amount(value, decision.unit)
                response = read_response(decision, {"value": typed}, units)
                assert mark(family_of(cell), made, decision.id, response).right == right, typed


@in_every_cell
def test_seeds_give_different_scenarios(cell):
    texts = {dataclasses.replace(drawn(cell, seed), seed=0).canonical() for seed in range(12)}
    assert len(texts) >= 6


def test_every_mode_is_drawn_when_none_is_asked_for():
    for family in PACK.families.values():
        modes = {make(family, seed, RULES).mode for seed in range(120)}
        assert modes == set(family.modes)
