"""The rule book's types: statements as stated, the strictest in force, site rules refused."""

import datetime
import math

import pytest

from trainer.errors import InputError
from trainer.roofing.rulebook import (
    COMMON_PRACTICE,
    Profile,
    Rule,
    RuleBook,
    SiteRule,
    Source,
    Statement,
    Subject,
)
from trainer.roofing.units import UNITS

LAP = Subject("side-lap", "side lap", "at least", "length", "water between sheets", "quality")
AGE = Subject("primer-age", "age of the primer", "at most", "duration", "the bond", "quality")
WATCH = Subject("fire-watch", "fire watch", "at least", "duration", "the building", "critical")
AFTER = Subject("fire-monitoring", "monitoring", "at least", "duration", "the building", "critical")
COLD = Subject("work-temperature", "air", "at least", "temperature", "the bond", "quality")
DEW = Subject("spread", "spread", "at least", "temperature difference", "the bond", "quality")

BOOK_A = Source("guide A", "2020", "3.3")


def rule(rule_id, about, *statements, status="read", **more):
    stated = tuple(Statement(value, unit) for value, unit in statements)
    return Rule(rule_id, about, stated, more.pop("source", BOOK_A), status, **more)


RULES = {
    r.id: r
    for r in (
        rule("lap-both", LAP, (75, "mm"), (3, "in")),
        rule("lap-metric", LAP, (60, "mm")),
        rule("lap-memory", LAP, (80, "mm"), status="from memory"),
        rule("age", AGE, (120, "min"), source=Source(COMMON_PRACTICE), status="secondary"),
        rule("watch-hour", WATCH, (60, "min")),
        rule("watch-law", WATCH, (2, "h"), jurisdiction="Somewhere"),
        rule("watch-words", WATCH, in_words="until fire is no longer possible"),
        rule("monitor", AFTER, (3, "h"), follows="watch-hour"),
        rule("cold", COLD, (-18, "°C"), (0, "°F")),
        rule("dew-k", DEW, (3, "K")),
        rule("dew-f", DEW, (5, "Δ°F")),
    )
}


def profile(name, *rule_ids):
    by_subject = {}
    for rule_id in rule_ids:
        subject = RULES[rule_id].subject
        by_subject[subject] = (*by_subject.get(subject, ()), rule_id)
    return Profile(name, name, "", by_subject)


PROFILES = {
    p.id: p
    for p in (
        profile("usual", "lap-both", "age", "watch-hour", "monitor", "dew-k"),
        profile("strict", "lap-both", "watch-hour", "watch-law", "watch-words", "monitor"),
        profile("words", "watch-words"),
        profile("memory", "lap-metric", "lap-memory"),
    )
}
BOOK = RuleBook(
    "7", {s.id: s for s in (LAP, AGE, WATCH, AFTER, COLD, DEW)}, RULES, PROFILES, "usual"
)
DAY = datetime.date(2026, 3, 4)


def site_rule(subject="side-lap", value=150, unit="mm", reason="windy edge", person="A. Example"):
    return SiteRule(subject, value, unit, reason, person, DAY)


def test_three_inches_stay_76_2_mm_beside_75_mm():
    both = RULES["lap-both"]
    assert (both.low, both.high, both.value, both.unit) == (75.0, 76.2, 76.2, "mm")
    assert both.statements == (Statement(75, "mm"), Statement(3, "in"))


def test_a_limit_from_above_is_strictest_at_its_lowest_statement():
    most = rule("most", AGE, (1, "h"), (61, "min"))
    assert (most.low, most.high, most.value) == (60.0, 61.0, 60.0)


def test_fahrenheit_as_a_temperature_and_as_a_difference():
    assert RULES["cold"].low == -18.0
    assert RULES["cold"].high == pytest.approx(-17.7778, abs=1e-4)
    assert RULES["dew-f"].value == pytest.approx(2.7778, abs=1e-4)


@pytest.mark.parametrize(
    ("rule_id", "metric", "us"),
    [
        ("lap-both", "75 mm", "3 in"),
        ("lap-metric", "60 mm", "2 3/8 in"),  # 60.3 mm: said to the strict side
        ("age", "120 min", "120 min"),
        ("dew-k", "3 °C", "5.4 °F"),
        ("dew-f", "2.8 °C", "5 °F"),
        ("cold", "−18 °C", "0 °F"),
        ("watch-words", "until fire is no longer possible", "until fire is no longer possible"),
    ],
)
def test_a_limit_said_in_the_workers_units(rule_id, metric, us):
    assert (RULES[rule_id].say(), RULES[rule_id].say("us")) == (metric, us)


@pytest.mark.parametrize(
    ("direction", "value", "unit", "system", "said"),
    [
        ("at least", 10, "m", "us", "32 ft 10 in"),
        ("at most", 10, "m", "us", "32 ft 9 in"),
        ("at most", 470, "mm", "us", "18 1/2 in"),
        ("at least", 42, "in", "metric", "1067 mm"),
        ("at least", 50, "ft", "metric", "15.24 m"),
        ("at least", 3.5, "in", "us", "3 1/2 in"),
        ("at least", 950, "mm", "us", "37 7/16 in"),
    ],
)
def test_a_conversion_never_says_less_than_the_limit(direction, value, unit, system, said):
    about = Subject("s", "s", direction, "length", "g", "quality")
    assert rule("r", about, (value, unit)).say(system) == said


@pytest.mark.parametrize(
    ("about", "value", "unit", "metric", "us"),
    [
        (LAP, 30, "ft", "9.144 m", "30 ft"),
        (LAP, 3048, "mm", "3.048 m", "10 ft"),
        (LAP, 9.14, "m", "9.14 m", "30 ft"),
        (LAP, 2999, "mm", "2999 mm", "9 ft 11 in"),
        (WATCH, 59, "min", "59 min", "59 min"),
        (WATCH, 60, "min", "1 h", "1 h"),
        (WATCH, 150, "min", "2 h 30 min", "2 h 30 min"),
        (WATCH, 1.5, "h", "1 h 30 min", "1 h 30 min"),
        (DEW, 3, "K", "3 °C", "5.4 °F"),
    ],
)
def test_a_sentence_says_long_lengths_and_times_as_people_do(about, value, unit, metric, us):
    stated = rule("r", about, (value, unit))
    assert f"at least {metric}; guide A" in stated.sentence()
    assert f"at least {us}; guide A" in stated.sentence("us")
    assert stated.statements == (Statement(value, unit),)


def test_only_what_is_from_memory_and_unconfirmed_marks_nobody():
    memory = {"status": "from memory"}
    assert RULES["lap-both"].may_grade
    assert not RULES["lap-memory"].may_grade
    assert not rule("r", LAP, (80, "mm"), **memory, confirmed_by="A. Example").may_grade
    confirmed = rule("r", LAP, (80, "mm"), **memory, confirmed_by="A. Example", confirmed_on=DAY)
    assert confirmed.may_grade
    assert "confirmed by A. Example, 2026-03-04" in confirmed.sentence()
    assert not BOOK.in_force("memory").may_grade("side-lap")
    assert BOOK.in_force("usual").may_grade("side-lap")


def test_competing_rules_stand_side_by_side():
    assert [r.id for r in BOOK.competing("side-lap")] == ["lap-both", "lap-metric", "lap-memory"]


def test_of_several_rules_in_force_the_strictest_governs():
    strict = BOOK.in_force("strict")
    assert [r.id for r in strict.rules("fire-watch")] == ["watch-hour", "watch-law", "watch-words"]
    assert strict.rule("fire-watch").id == "watch-law"
    assert strict.value("fire-watch") == 120.0


def test_a_rule_in_words_has_no_value_to_give():
    words = BOOK.in_force("words")
    assert words.rule("fire-watch").value is None
    with pytest.raises(InputError, match="until fire is no longer possible"):
        words.value("fire-watch")


def test_monitoring_follows_its_watch_also_when_a_site_rule_stands_for_it():
    usual = BOOK.in_force()
    assert [r.id for r in usual.following(usual.rule("fire-watch"))] == ["monitor"]
    longer = BOOK.in_force(site_rules=[site_rule("fire-watch", 90, "min")])
    assert longer.value("fire-watch") == 90.0
    assert [r.id for r in longer.following(longer.rule("fire-watch"))] == ["monitor"]


def test_a_site_rule_says_who_when_why_and_what_it_replaces():
    in_force = BOOK.in_force(site_rules=[site_rule()])
    assert in_force.value("side-lap") == 150.0
    assert in_force.rule("side-lap").may_grade
    assert in_force.sentence("side-lap") == (
        "Side lap: at least 150 mm; site rule of A. Example, 2026-03-04, because windy edge;"
        " in place of 75 mm (guide A, 2020, 3.3)."
    )


def test_a_site_rule_may_come_where_the_profile_is_silent():
    in_force = BOOK.in_force("words", [site_rule()])
    assert in_force.rule("side-lap").replaces == ()
    assert in_force.value("side-lap") == 150.0


def test_words_stay_in_force_beside_a_site_rule():
    strict = BOOK.in_force("strict", [site_rule("fire-watch", 3, "h")])
    assert [r.id for r in strict.rules("fire-watch")] == ["site-rule-fire-watch", "watch-words"]


def test_law_may_be_tightened_never_loosened():
    assert BOOK.in_force("strict", [site_rule("fire-watch", 2, "h")]).value("fire-watch") == 120
    with pytest.raises(InputError, match=r"at least 2 h .*law in Somewhere.*or stricter"):
        BOOK.in_force("strict", [site_rule("fire-watch", 119, "min")])


@pytest.mark.parametrize(
    ("changed", "field", "allowed"),
    [
        ({"unit": "min"}, "unit", '"mm" or "m" or "in" or "ft"'),
        ({"unit": "cm"}, "unit", '"mm" or "m" or "in" or "ft"'),
        ({"unit": None}, "unit", '"mm"'),
        ({"value": "98,5"}, "value", "a number above 0"),
        ({"value": True}, "value", "a number above 0"),
        ({"value": math.nan}, "value", "a number above 0"),
        ({"value": 0}, "value", "a number above 0"),
        ({"reason": " "}, "reason", "text, not empty"),
        ({"reason": None}, "reason", "text, not empty"),
        ({"person": ""}, "person", "text, not empty"),
        ({"subject": "side-laps"}, "subject", "one of side-lap, primer-age"),
    ],
)
def test_a_site_rule_that_cannot_be_taken(changed, field, allowed):
    with pytest.raises(InputError) as refused:
        BOOK.in_force(site_rules=[site_rule(**changed)])
    assert refused.value.field == field
    assert allowed in refused.value.allowed


@pytest.mark.parametrize("date", [None, "2026-03-04", datetime.datetime(2026, 3, 4)])
def test_a_site_rule_needs_its_day(date):
    undated = SiteRule("side-lap", 150, "mm", "windy", "A. Example", date)
    with pytest.raises(InputError, match="date"):
        BOOK.in_force(site_rules=[undated])


def test_a_temperature_may_be_below_zero():
    in_force = BOOK.in_force(site_rules=[site_rule("work-temperature", -5, "°C")])
    assert in_force.value("work-temperature") == -5.0


def test_two_site_rules_on_one_subject_are_refused():
    with pytest.raises(InputError, match="one site rule for a subject"):
        BOOK.in_force(site_rules=[site_rule(), site_rule(value=160)])


@pytest.mark.parametrize(
    ("ask", "field", "listed"),
    [
        (lambda: BOOK.in_force("usal"), "profile", "usual, strict, words, memory"),
        (lambda: BOOK.rule("lap"), "rule", "lap-both, lap-metric"),
        (lambda: BOOK.competing("lap"), "subject", "side-lap, primer-age"),
        (
            lambda: BOOK.in_force("words").value("side-lap"),
            "subject in profile words",
            "fire-watch",
        ),
        (lambda: BOOK.in_force("words").rules(None), "subject in profile words", "fire-watch"),
        (lambda: Statement(3, "inch"), "unit", '"mm" or "m" or "in"'),
    ],
)
def test_an_unknown_name_is_answered_with_what_there_is(ask, field, listed):
    with pytest.raises(InputError) as refused:
        ask()
    assert refused.value.field == field
    assert listed in refused.value.allowed


def test_what_a_computation_used_is_said_once_each_in_order():
    used = BOOK.in_force().used()
    assert [used(s) for s in ("primer-age", "side-lap", "primer-age")] == [120.0, 76.2, 120.0]
    assert used.sentences("us") == (
        "Age of the primer: at most 2 h; common practice, no source.",
        "Side lap: at least 3 in; guide A, 2020, 3.3.",
    )


def test_what_is_from_memory_says_so():
    assert (
        BOOK.in_force("memory")
        .sentence("side-lap")
        .endswith("; from memory, marks nobody until a person confirms it.")
    )


@pytest.mark.parametrize("unit", UNITS.values(), ids=lambda unit: unit.name)
def test_units_go_there_and_back_exactly(unit):
    for value in (0.1, 3, 98.6, 1000):
        assert float(unit.from_base(unit.to_base(value))) == value


@pytest.mark.parametrize(
    ("value", "unit", "base"),
    [  # inch, foot and pound: international yard and pound agreement, 1959; gallon: 231 in³
        (1, "in", 25.4),
        (36, "in", 914.4),
        (50, "ft", 15240.0),
        (20, "lb", 9.0718474),
        (1, "mph", 1.609344),
        (212, "°F", 100.0),
        (-40, "°F", -40.0),
        (3000, "ft²", 278.709),
        (0.75, "US gal/100 ft²", 0.30560),
        (240, "ft²/US gal", 5.8902),
    ],
)
def test_conversions_against_known_values(value, unit, base):
    assert float(UNITS[unit].to_base(value)) == pytest.approx(base, rel=1e-4)
