"""All calculators by name: the register agrees with them, and every one keeps the contract."""

import json
import math
import re
import subprocess
import sys

import pytest

from trainer.errors import InputError
from trainer.roofing.calculators import calculator, names_and_summaries
from trainer.roofing.contract import Number, read_json
from trainer.roofing.examples import EXAMPLES

NAMES = list(names_and_summaries())
CONTRACT = [
    "dew-point", "wind-chill", "heat-index", "primer", "primer-batch", "cut-length", "sheets",
    "stagger", "lap", "drift", "corner", "clearance", "fire-watch", "takeoff", "sequence",
]  # fmt: skip
HOSTILE = [math.nan, math.inf, -math.inf, True, "12", None, [], {}, [[1]], {"a": 1}, 10**400]


def no_rule_needed(rule):
    pytest.fail(f"asked the rule book for {rule}")


def test_every_calculator_of_the_contract_is_there():
    assert set(CONTRACT) <= set(NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_register_says_what_the_calculator_says(name):
    found = calculator(name)
    assert (found.name, found.summary) == (name, names_and_summaries()[name])
    assert "\n" not in found.summary
    assert found.sources
    assert all(field.meaning for field in found.fields)


def test_name_that_is_none_is_refused_with_the_names_there_are():
    with pytest.raises(InputError, match=r'^name: got "prime"; allowed: one of dew-point, '):
        calculator("prime")


def test_asking_for_names_imports_no_calculator():
    code = (
        "import sys; from trainer.roofing.calculators import *; names_and_summaries();"
        "loaded = {m.rsplit('.')[-1] for m in sys.modules if m.startswith('trainer.roofing.')};"
        "print(*sorted(loaded)); calculator('primer');"
        "print('trainer.roofing.sheets' in sys.modules)"
    )
    lines = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    ).stdout.splitlines()
    assert lines == ["calculators contract kinds", "False"]


@pytest.mark.parametrize("name", NAMES)
def test_example_is_answered_with_exactly_the_results_that_are_described(name):
    answer = calculator(name)(EXAMPLES[name], no_rule_needed)
    assert answer
    assert set(answer) <= set(calculator(name).results)
    assert read_json(json.dumps(answer, allow_nan=False)) == answer


@pytest.mark.parametrize("name", NAMES)
def test_example_uses_the_fields_there_are_and_can_be_pasted_into_a_shell(name):
    assert set(EXAMPLES[name]) <= {field.name for field in calculator(name).fields}
    assert "'" not in json.dumps(EXAMPLES[name])


def test_examples_are_of_calculators_there_are():
    assert set(EXAMPLES) == set(NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_each_required_field_is_missed_by_name(name):
    for field in calculator(name).fields:
        if field.required:
            given = {key: value for key, value in EXAMPLES[name].items() if key != field.name}
            with pytest.raises(InputError, match=rf"^{field.name}: missing; allowed: "):
                calculator(name)(given)


@pytest.mark.parametrize("name", NAMES)
def test_field_that_is_none_is_refused_by_name(name):
    with pytest.raises(InputError, match=r"^colour: got 1; allowed: no such field"):
        calculator(name)(EXAMPLES[name] | {"colour": 1})


@pytest.mark.parametrize("name", NAMES)
def test_hostile_values_are_refused_by_name_on_one_line(name):
    for field in calculator(name).fields:
        for value in HOSTILE:
            if _takes(field.kind, value):
                continue
            with pytest.raises(InputError) as refused:
                calculator(name)(EXAMPLES[name] | {field.name: value}, no_rule_needed)
            assert re.fullmatch(rf"{field.name}([.\[].*)?", refused.value.field)
            assert "\n" not in str(refused.value)


def _takes(kind, value):
    """Whether a field's own kind, which has its own tests, takes the value. Numbers take none."""
    if isinstance(kind, Number):
        return False
    try:
        kind.read("field", value)
    except InputError:
        return False
    return True
