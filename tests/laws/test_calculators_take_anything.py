"""Whatever JSON comes in: finite results or one plain refusal, from every calculator."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.errors import InputError
from trainer.roofing.calculators import calculator, names_and_summaries
from trainer.roofing.contract import read_json
from trainer.roofing.examples import EXAMPLES

extremes = st.sampled_from(
    [0, -0.0, 1, 5e-324, 1e-300, 1e300, 1e308, 10**300, -1, 0.1, 45, 90, 180, 1440, 10**6]
)
numbers = extremes | st.integers(-(10**6), 10**6) | st.floats(allow_nan=False, allow_infinity=False)
words = st.sampled_from(
    ["", "dry", "wall", "24:00", "23:59", "9999-12-31T23:59", "00:00", "\ud800"]
)
scalars = st.none() | st.booleans() | numbers | words | st.text(max_size=5)
anything = st.recursive(
    scalars,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(words, inner, max_size=3),
    max_leaves=6,
)


def leaves(value, path=()):
    """The path of every number, word and flag in an example."""
    if isinstance(value, dict):
        for key, part in value.items():
            yield from leaves(part, (*path, key))
    elif isinstance(value, list):
        for i, part in enumerate(value):
            yield from leaves(part, (*path, i))
    else:
        yield path


def replaced(example, path, value):
    changed = json.loads(json.dumps(example))
    place = changed
    for step in path[:-1]:
        place = place[step]
    place[path[-1]] = value
    return changed


def answered_or_refused(name, inputs):
    try:
        answer = calculator(name)(inputs, lambda rule: 3)
    except InputError as error:
        assert error.field
        assert "\n" not in str(error)
    else:
        assert json.loads(json.dumps(answer, allow_nan=False)) == answer


@pytest.mark.parametrize("name", names_and_summaries())
@given(data=st.data())
def test_one_leaf_replaced(name, data):
    path = data.draw(st.sampled_from(list(leaves(EXAMPLES[name]))))
    answered_or_refused(name, replaced(EXAMPLES[name], path, data.draw(scalars)))


@pytest.mark.parametrize("name", names_and_summaries())
@given(data=st.data())
def test_several_numbers_replaced_by_extremes(name, data):
    inputs = EXAMPLES[name]
    for path in data.draw(st.lists(st.sampled_from(list(leaves(inputs))), max_size=4)):
        inputs = replaced(inputs, path, data.draw(extremes))
    answered_or_refused(name, inputs)


@pytest.mark.parametrize("name", names_and_summaries())
@settings(max_examples=30)
@given(data=st.data())
def test_whole_fields_replaced_by_anything(name, data):
    field = data.draw(st.sampled_from([f.name for f in calculator(name).fields]))
    answered_or_refused(name, EXAMPLES[name] | {field: data.draw(anything)})


@pytest.mark.parametrize("name", names_and_summaries())
@settings(max_examples=30)
@given(inputs=anything)
def test_anything_at_all(name, inputs):
    answered_or_refused(name, inputs)


@given(st.text(max_size=40) | anything.map(json.dumps))
def test_any_text_is_json_or_refused(text):
    try:
        read_json(text)
    except InputError as error:
        assert "\n" not in str(error)
