"""Whatever is written as an expression: it is refused, or it gives plain, small data quickly."""

import string

from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.engine.expression import Expression, ExpressionError, scope_of
from trainer.engine.functions import FUNCTIONS
from trainer.engine.plain import exact
from trainer.engine.template import Template

SCOPE = {"a": 3, "b": 2.5, "xs": [1, 2, 3], "plan": {"ok": True, "at": [4, 5]}, "word_": "rain"}
NAMES = ("a", "b", "xs", "plan", "plan.ok", "plan.at", "word_", "xs[0]", "xs[1:]")
CONSTANTS = ("1", "0", "2.5", "1000000", "True", "None", '"t"')
ATOMS = st.sampled_from((*NAMES, *CONSTANTS, "plan.__class__", "_a", "unknown"))


OPERATORS = ("+", "-", "*", "/", "//", "%", "**", "<", "<=", "==", "in", "and", "or", "is")


def joined(inner):
    operators = st.sampled_from(OPERATORS)
    return st.one_of(
        st.tuples(inner, operators, inner).map(" ".join),
        inner.map("not {}".format),
        inner.map("-{}".format),
        inner.map("({})".format),
        inner.map("[{}]".format),
        st.tuples(inner, inner).map("[{0[0]}, {0[1]}]".format),
        st.tuples(inner, inner).map("{{'k': {0[0]}}}[{0[1]}]".format),
        st.tuples(inner, inner, inner).map("{0[0]} if {0[1]} else {0[2]}".format),
        st.tuples(inner, inner).map("[{0[0]} for a in {0[1]}]".format),
        st.tuples(inner, inner, inner).map("[{0[0]} for x in {0[1]} for y in {0[2]} if x]".format),
        st.tuples(st.sampled_from(sorted(FUNCTIONS)), inner).map("{0[0]}({0[1]})".format),
        st.tuples(st.sampled_from(sorted(FUNCTIONS)), inner, inner).map(
            "{0[0]}({0[1]}, {0[2]})".format
        ),
    )


EXPRESSIONS = st.recursive(ATOMS, joined, max_leaves=12)
NOISE = st.text(string.printable, max_size=60)


@settings(max_examples=600)
@given(EXPRESSIONS | NOISE)
def test_it_is_refused_or_gives_a_value_and_changes_nothing(source):
    scope = scope_of(SCOPE)
    before = repr({name: scope[name] for name in SCOPE})
    try:
        value = Expression(source).value(scope)
        again = Expression(source).value(scope_of(SCOPE))
    except ExpressionError as error:
        assert len(error.message) < 4000
        return
    finally:
        assert repr({name: scope[name] for name in SCOPE}) == before
    assert repr(value) == repr(again)
    try:
        exact(value)
    except ValueError:
        return  # not plain, or too large for a scenario: said so where it is drawn


@settings(max_examples=300)
@given(st.text(string.printable + "{}|", max_size=60))
def test_a_text_is_refused_or_said(source):
    from trainer.engine.measures import Units

    try:
        assert isinstance(Template(source).say(scope_of(SCOPE), Units()), str)
    except ExpressionError as error:
        assert error.message
