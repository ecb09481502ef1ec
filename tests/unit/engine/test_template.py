"""Texts with values in them."""

import pytest

from trainer.engine.expression import Expression, ExpressionError, scope_of
from trainer.engine.measures import Units
from trainer.engine.template import FORMATS, Passage, Template

SCOPE = scope_of(
    {
        "lap_mm": 60,
        "age_min": 210,
        "now_at": 965,
        "air_c": 12.5,
        "spread_k": 3,
        "damp_pct": 85.5,
        "rest_l": 2.25,
        "count": 3,
        "name": "rain",
        "limit": {"unit": "mm", "says": {"mm": "75 mm", "in": "3 in"}},
        "plan": {"nearest_mm": 990},
        "open": None,
    }
)


def said(text, units=None):
    return Template(text).say(SCOPE, units or Units())


@pytest.mark.parametrize(
    ("text", "metric", "us"),
    [
        ("nothing in it", "nothing in it", "nothing in it"),
        ("{lap_mm} wide", "60 mm wide", "2 3/8 in wide"),
        ("{lap_mm|m}", "0.06 m", "2 3/8 in"),
        ("{lap_mm|n}", "60", "60"),
        ("{plan.nearest_mm} off", "990 mm off", "39 in off"),
        ("{(lap_mm * 2)|mm}", "120 mm", "4 3/4 in"),
        ("{lap_mm * 2}", "120", "120"),
        ("{age_min} old", "3 h 30 min old", "3 h 30 min old"),
        ("at {now_at}", "at 16:05", "at 16:05"),
        ("{air_c}, {spread_k}", "12.5 °C, 3 °C", "54.5 °F, 5.4 °F"),
        ("{damp_pct}, {rest_l}", "85.5 %, 2.25 l", "85.5 %, 2.25 l"),
        ("{limit|limit}", "75 mm", "3 in"),
        ("{count} × {name}", "3 × rain", "3 × rain"),
        ("{'a' if count > 2 else 'b'}", "a", "a"),
        ("{open|at}", "—", "—"),
    ],
)
def test_how_values_are_said(text, metric, us):
    assert said(text) == metric
    assert said(text, Units("in", "F")) == us


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("{lap_mm|furlongs}", "furlongs is no way to say a value; there are mm, m, min"),
        ("{lap_mm", "a brace in it has no partner"),
        ("lap_mm}", "a brace in it has no partner"),
        ("{{lap_mm}}", "a brace in it has no partner"),
        ("{}", "it is not well formed"),
        ("{lap_mm.__class__}", "the name __class__ is not allowed"),
    ],
)
def test_what_is_wrong_with_a_text_is_known_before_it_is_said(text, reason):
    with pytest.raises(ExpressionError, match="cannot be used") as refused:
        _ = [expression.reading for expression in Template(text).expressions]
    assert reason in str(refused.value)


@pytest.mark.parametrize(
    "text", ["{name|mm}", "{count|text}", "{plan}", "{limit|n}", "{plan|limit}"]
)
def test_a_value_that_cannot_be_said_is_refused(text):
    with pytest.raises(ExpressionError, match="cannot be said as"):
        said(text)


def test_a_passage_says_what_holds_in_order():
    passage = Passage(
        (
            (None, Template("First.")),
            (Expression("count > 5"), Template("Never.")),
            (Expression("count == 3"), Template("{count} it is.")),
        )
    )
    assert passage.say(SCOPE, Units()) == ("First.", "3 it is.")
    assert passage and not Passage()


def test_every_format_has_a_value_it_can_say():
    values = {"limit": SCOPE["limit"], "text": "x"}
    for form, say in FORMATS.items():
        assert say(Units(), values.get(form, 5))
