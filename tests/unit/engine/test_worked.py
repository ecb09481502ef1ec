"""Examples worked by hand: read, worked out again, and held against what the hand found."""

import pytest

from tests.unit.engine.samples import EVERY_KIND, RULES, Rules, family
from trainer.engine.unsound import UnsoundScenario
from trainer.engine.worked import disagreements, worked
from trainer.errors import InputError
from trainer.pack.positions import PackError

# By hand: 80 − 76.2 (3 in) = 3.8 mm, 1.9 tolerances of 2 mm on the safe side, so the lap is kept
# and nothing stops the work. Of the sheet 1000 − 80 = 920 mm are seen. 07:30 + 180 min = 10:30.
BY_HAND = """
worked:
  mode: wide
  values: {sheet_mm: 1000, lap_mm: 80, primed_at: "07:30", surface_c: 12, bad: [left, right]}
  answers:
    take: keep-it
    go: go
    worst: left
    every: [right, left]
    put: [120, 250]
    much: 920
    until: "10:30"
    row: [bond bottom, roll, press laps]
words:
  en:
"""
LINES = '    worked: ["80 − 76.2 = 3.8 mm: it is wide enough.", "1000 − 80 = 920 mm."]\n'
TEXT = EVERY_KIND.replace("words:\n  en:\n", BY_HAND.lstrip() + LINES)


def of(*changes):
    text = TEXT
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return family(text)


def test_the_hand_and_the_core_agree():
    made = worked(of(), RULES)
    assert disagreements(of(), RULES) == []
    assert (made.mode, made.margin, made.facts["primed_at"]) == ("wide", 1.9, "07:30")
    assert of().words_in("en").worked[1] == "1000 − 80 = 920 mm."


WRONG = [
    ("take: keep-it", "take: redo", "decision take: redo by hand, keep-it worked out"),
    ("go: go", "go: [short, cold]", "decision go: short, cold by hand, go worked out"),
    ("worst: left", "worst: right", "decision worst: right by hand, left worked out"),
    ("every: [right, left]", "every: []",
     "decision every: nothing by hand, left, right worked out"),
    ("put: [120, 250]", "put: near", "decision put: near by hand, in-place worked out"),
    ("put: [120, 250]", "put: [50, 250]", "decision put: 50, 250 by hand, in-place worked out"),
    ("put: [120, 250]", "put: [5000, 250]", "decision put: 5000, 250 by hand, in-place worked"),
    ("much: 920", "much: 921", "decision much: 921 by hand, 920 worked out"),
    ("much: 920", "much: 920.1", "decision much: 920.1 by hand, 920 worked out"),
    ('until: "10:30"', 'until: "10:31"', "decision until: 10:31 by hand, 10:30 worked out"),
    ("[bond bottom, roll, press laps]\nw", "[roll, bond bottom, press laps]\nw",
     "decision row: roll, bond bottom, press laps by hand,"
     " bond bottom, roll, press laps worked out"),
    ("lap_mm: 80,", "lap_mm: 60,",
     "margin: the values lie on the wrong side of the limit, the mode draws the other"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "sentence"), WRONG, ids=lambda part: part[:30])
def test_a_wrong_answer_by_hand_is_named_with_both(old, new, sentence):
    assert any(sentence in said for said in disagreements(of((old, new)), RULES))


@pytest.mark.parametrize(
    ("old", "new", "agrees"),
    [
        ("put: [120, 250]", "put: in-place", True),
        ("much: 920", "much: 920.0", True),
        ("answer: sheet_mm - lap_mm", "answer: sheet_mm - lap_mm + 0.4", True),
        ("answer: sheet_mm - lap_mm", "answer: sheet_mm - lap_mm + 0.6", False),
    ],
)
def test_a_number_is_as_exact_as_it_is_written(old, new, agrees):
    assert (disagreements(of((old, new)), RULES) == []) == agrees


def test_a_decision_that_is_not_asked_is_not_answered_and_the_other_way_round():
    not_asked = of(("  - id: much\n", "  - id: much\n    when: lap_mm > 100\n"))
    (said,) = disagreements(not_asked, RULES)
    assert said == "decision much: it is answered by hand, but with these values it is not asked"
    asked = of(
        ("  - id: much\n", "  - id: much\n    when: lap_mm < 100\n"), ("    much: 920\n", "")
    )
    assert disagreements(asked, RULES) == [
        "decision much: it is asked with these values, and has no answer"
    ]


FLAWED = [
    ("mode: wide\n", "mode: broad\n", "worked.mode: the family has no mode broad"),
    ("sheet_mm: 1000, ", "", "worked.values.sheet_mm: missing; the mode wide draws it"),
    ("sheet_mm: 1000", "sheet_mm: 1000, width_mm: 3", "the family has no value of this name"),
    ("sheet_mm: 1000", "sheet_mm: 1000, places: []", "only what is drawn is given by hand"),
    ('primed_at: "07:30"', 'primed_at: "7h"', 'got "7h"; allowed: a time of day such as "16:05"'),
    ("    take: keep-it\n", "", "worked.answers.take: missing; every decision has its answer"),
    ("take: keep-it", "takes: keep-it", "worked.answers.takes: no decision has this name"),
    ("take: keep-it", "take: keep", "got 'keep'; allowed: one of keep-it, redo, never"),
    ("go: go", "go: [go]", "allowed: go, one of short, cold, or a list of those"),
    ("every: [right, left]", "every: right", "allowed: a list of ids of parts"),
    ("put: [120, 250]", "put: 120", "a number for each axis"),
    ("much: 920", "much: wide", "worked.answers.much: got 'wide'; allowed: a number"),
    ('until: "10:30"', 'until: "1030"', "got '1030'; allowed: a time of day such as"),
    ('until: "10:30"', "until: 630", "got 630; allowed: a time of day such as"),
    ("worked: [", "worked: [\"{lap_mm} is enough\", ", "a plain text, without {braces}"),
    ("    worked: [", "    title: x\n    not_worked: [", "not_worked: no such field"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "sentence"), FLAWED, ids=lambda part: part[:30])
def test_an_example_that_is_not_whole_is_refused_by_field(old, new, sentence):
    with pytest.raises(PackError) as refused:
        of((old, new))
    assert sentence in str(refused.value)


def test_the_words_go_with_the_example_in_every_language():
    with pytest.raises(PackError, match='the example worked by hand has no words in "en"'):
        of((LINES, ""))
    with pytest.raises(PackError, match="the family has no example worked by hand"):
        family(EVERY_KIND.replace("words:\n  en:\n", "words:\n  en:\n" + LINES))


@pytest.mark.parametrize(
    ("old", "new", "reason"),
    [
        ("surface_c: 12,", "surface_c: 30,", "value surface_c: 30 cannot be drawn; it lies from 6"),
        ("sheet_mm: 1000,", "sheet_mm: 990,", "990 cannot be drawn; there are 1000, 914"),
        ("bad: [left, right]", "bad: [left, top]", "'top' cannot be drawn; there are left"),
        ("lap_mm: 80,", "lap_mm: 77,", "lap_mm lies 0.4 tolerances from its limit"),
    ],
)
def test_values_that_make_no_scenario_are_refused(old, new, reason):
    with pytest.raises(UnsoundScenario) as refused:
        worked(of((old, new)), RULES)
    assert reason in str(refused.value)


def test_a_family_without_an_example_and_a_site_without_the_rule():
    with pytest.raises(InputError, match="a family with an example worked by hand"):
        worked(family(), RULES)
    with pytest.raises(UnsoundScenario, match="no rule that may mark anybody is in force"):
        worked(of(), Rules())
