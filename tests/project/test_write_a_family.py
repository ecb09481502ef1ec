"""docs/write-a-family.md tells all there is, and its example is as sound as it says."""

import re
from pathlib import Path

import pytest
import yaml

from trainer.drawing import draw
from trainer.engine.explain import Telling
from trainer.engine.features import features
from trainer.engine.functions import CALLABLE
from trainer.engine.mark import mark
from trainer.engine.measures import Units
from trainer.engine.solve import make
from trainer.engine.spec import FEATURES, KINDS, MEASURED_IN
from trainer.engine.template import FORMATS
from trainer.engine.validate_words import NAMES_OF_ANSWER
from trainer.engine.worked import disagreements, worked
from trainer.pack.families import family_of
from trainer.pack.family_schema import FAMILY
from trainer.pack.pack import load_pack
from trainer.pack.positions import parse

PAGE = (Path(__file__).parents[2] / "docs" / "write-a-family.md").read_text("utf-8")
PACK = load_pack()
(EXAMPLE,) = (text for text in re.findall(r"```yaml\n(.*?)```", PAGE, re.S) if "family:" in text)
PROSE = re.sub(r"^```.*?^```$", "", PAGE, flags=re.S | re.M)
NAMED = set(re.findall(r"[a-z_0-9%²]+", " ".join(re.findall(r"`([^`]+)`", PROSE))))


def fields(schema):
    """Every name of a field in a schema."""
    if isinstance(schema, dict):
        found = set(schema.get("properties", {}))
        return found.union(*map(fields, schema.values())) if schema else found
    return set().union(*map(fields, schema)) if isinstance(schema, list) else set()


@pytest.mark.parametrize(
    "names",
    [
        fields(FAMILY.schema),
        CALLABLE,
        set(FORMATS),
        set(KINDS),
        set(MEASURED_IN),
        frozenset().union(*NAMES_OF_ANSWER.values()),
    ],
    ids=["fields", "functions", "forms", "kinds", "units", "names in texts"],
)
def test_everything_there_is_is_told(names):
    assert not names - NAMED, sorted(names - NAMED)


def test_families_named_on_the_page_are_in_the_pack():
    (sentence,) = re.findall(r"The families of the pack show the rest: (.*?)\.\n", PAGE, re.S)
    named = re.findall(r"`([a-z-]+)`", sentence)
    assert named and set(named) <= set(PACK.families)


def example():
    return family_of(parse(EXAMPLE, "docs/write-a-family.md"), PACK.book.subjects, PACK.terms)


def test_the_example_names_units_and_misconceptions_of_the_pack():
    family = example()
    assert family.unit in PACK.units
    named = {o.misconception for d in family.decisions for o in d.options} - {""}
    assert named <= set(PACK.misconceptions["en"])


def test_the_example_has_an_example_that_was_worked_out_by_hand():
    """By hand: 1000 − 940 = 60 mm, less than 75 mm, so a strip."""
    family, rules = example(), PACK.book.in_force()
    assert disagreements(family, rules) == []
    made = worked(family, rules)
    assert (made.values["seen_mm"], made.decision("width").answer) == (940, 60)
    told = features(family, made)
    assert [told[name] for name in FEATURES] == [2, 2, 1, 1]


@pytest.mark.parametrize("mode", yaml.safe_load(EXAMPLE)["modes"])
def test_the_example_is_sound(mode):
    family, rules = example(), PACK.book.in_force()
    for seed in range(200):
        made = make(family, seed, rules, mode)
        act, width = made.decision("act"), made.decision("width")
        assert act.answer == ("keep-it" if made.margin > 0 else "strip")
        assert width.answer == made.values["lap_mm"]
        for units in (Units(), Units("in", "F")):
            told = Telling(family, made, "en", units)
            assert draw(told.figure(), length=units.say_length).startswith("<svg")
            for option in act.options:
                given = mark(family, made, "act", {"row": option.id})
                assert given.right == (option.id == act.answer)
                assert told.explain(act, {"row": option.id}, given).because
            trap = mark(family, made, "width", {"value": width.options[0].value})
            assert not trap.right and told.explain(width, {"value": 1}, trap).because
