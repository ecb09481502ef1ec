"""The lessons: short, plain, true to the scenarios they show, and with the cautions that matter."""

from __future__ import annotations

import re
from functools import cache

import pytest

from trainer.engine.explain import Telling
from trainer.engine.mark import mark
from trainer.engine.measures import Units
from trainer.engine.reading import ease, reading_ease, sentences, syllables, words
from trainer.engine.solve import Decision, Scenario
from trainer.pack.content import Example, Lesson, Section
from trainer.pack.pack import load_pack
from trainer.services.learning import right_response
from trainer.services.scenarios import Library, figure_of, library

PACK = load_pack()
LESSONS = list(PACK.lessons.values())
NAMES = [lesson.unit for lesson in LESSONS]
EXAMPLES = [
    (lesson.unit, section.example)
    for lesson in LESSONS
    for section in lesson.words["en"].sections
    if section.example
]
EXAMPLE_NAMES = [f"{unit}-{e.decision}-{e.mode}" for unit, e in EXAMPLES]
LESSON = pytest.mark.parametrize("lesson", LESSONS, ids=NAMES)
EXAMPLE = pytest.mark.parametrize(("unit", "example"), EXAMPLES, ids=EXAMPLE_NAMES)

CHEERING = re.compile(
    r"\b(scores?|scored|points\b(?! away)|level up|streaks?|congratulations|well done|great job"
    r"|awesome|excellent|quiz|badges?|rank(s|ing|ed)?|leaderboard|rewards?|unlock(s|ed)?|game)\b|!",
    re.IGNORECASE,
)
LENGTH_OR_TIME = re.compile(r"\d (mm|cm|m|in|ft|min|h)\b")
FLESCH_AT_LEAST = 75
"""Flesch calls 70 to 80 fairly easy and 80 to 90 easy; a lesson is read standing, by new hires."""
WORDS_A_SENTENCE = 14
WORDS_A_MINUTE = 130
"""Slower than the 238 of adults who read silently (Brysbaert 2019, J. Mem. Lang. 109, from
memory): many of the crew read in a second language, and the drawings take time."""


def paragraphs(lesson: Lesson) -> list[str]:
    sections = lesson.words["en"].sections
    return [text for s in sections for text in (*s.text, s.caution) if text]


@cache
def shelf() -> Library:
    return library()


@cache
def worked(unit: str, example: Example) -> tuple[Scenario, Decision]:
    scenario = shelf().make(example.family, example.seed, example.mode)
    return scenario, scenario.decision(example.decision)


# ---- the yardstick itself ------------------------------------------------------------------------


def test_the_reading_ease_agrees_with_sentences_worked_out_elsewhere():
    """Both as worked out in the Wikipedia article on the Flesch tests, from memory."""
    assert reading_ease(6, 1, 6) == pytest.approx(116, abs=0.2)  # The cat sat on the mat.
    assert reading_ease(13, 1, 24) == pytest.approx(37.5, abs=0.1)  # The Australian platypus …
    assert ease(["The cat sat on the mat."]) == pytest.approx(116, abs=0.2)
    hard = "Notwithstanding insufficient adhesion, discontinuation is inadvisable."
    assert ease([hard]) < 0 < FLESCH_AT_LEAST


@pytest.mark.parametrize(
    ("word", "spoken"),
    [
        ("flame", 1), ("rolled", 1), ("sheets", 1), ("edge", 1), ("where", 1), ("sides", 1),
        ("rule", 1), ("rules", 1), ("primer", 2), ("welded", 2), ("gusset", 2), ("metre", 2),
        ("little", 2), ("edges", 2), ("release", 2), ("bonded", 2), ("middle", 2), ("parapet", 3),
        ("bitumen", 3), ("adhesive", 3), ("insulation", 4),
    ],
)  # fmt: skip
def test_syllables_are_counted_as_the_trade_says_them(word, spoken):
    assert syllables(word) == spoken


# ---- the lessons ---------------------------------------------------------------------------------


def test_every_unit_has_a_lesson_and_every_lesson_a_unit():
    assert set(PACK.lessons) == set(PACK.units)


@LESSON
def test_a_lesson_fits_a_phone_and_a_few_minutes(lesson):
    sections = lesson.words["en"].sections
    assert 4 <= len(sections) <= 6
    assert 3 <= lesson.minutes <= 5
    assert sum(len(words(text)) for text in paragraphs(lesson)) <= WORDS_A_MINUTE * lesson.minutes
    for section in sections:
        assert 1 <= len(section.text) <= 3, section.heading
        assert len(section.heading) <= 50
    too_long = [text for text in paragraphs(lesson) if len(text.split()) > 60]
    assert too_long == []


@LESSON
def test_a_lesson_reads_easily(lesson):
    texts = paragraphs(lesson)
    n_words = sum(len(words(text)) for text in texts)
    assert n_words / sum(map(sentences, texts)) <= WORDS_A_SENTENCE
    assert ease(texts) >= FLESCH_AT_LEAST


@LESSON
def test_no_sentence_runs_on(lesson):
    runs_on = [
        sentence
        for text in paragraphs(lesson)
        for sentence in re.split(r"(?<=[.:?;])\s", text)
        if len(words(sentence)) > 30
    ]
    assert runs_on == []


@LESSON
def test_a_critical_unit_is_not_taught_without_a_caution(lesson):
    cautions = [s.caution for s in lesson.words["en"].sections if s.caution]
    unit = PACK.unit(lesson.unit)
    warned_of = unit.words["en"].caution
    assert cautions or not warned_of, "the unit has a caution and its lesson none"
    assert cautions or unit.severity != "critical"


@LESSON
def test_a_lesson_states_the_rules_its_scenarios_are_judged_by(lesson):
    families = [f for f in PACK.families.values() if f.unit == lesson.unit]
    judged_by = {subject for family in families for subject in family.rules.values()}
    assert judged_by <= set(lesson.rules)
    for subject in lesson.rules:
        assert shelf().rules.sentence(subject, "metric").endswith(".")
        assert shelf().rules.sentence(subject, "us").endswith(".")


@LESSON
def test_a_limit_in_the_text_is_called_common_practice(lesson):
    """Limits differ by site; they stand under the lesson with their source."""
    stated = [text for text in paragraphs(lesson) if LENGTH_OR_TIME.search(text)]
    assert [text for text in stated if "ommon practice" not in text] == []


def section_texts(section: Section) -> list[str]:
    return [section.heading, *section.text, section.caution]


@LESSON
def test_a_lesson_speaks_like_a_foreman_and_not_like_a_quiz(lesson):
    english = lesson.words["en"]
    texts = [english.title, *(text for s in english.sections for text in section_texts(s))]
    assert [text for text in texts if CHEERING.search(text)] == []
    assert [text for text in texts if re.search(r"\bmembrane", text)] == [], "say sheet"


@pytest.mark.parametrize("text", ["12 points", "Well done.", "a streak", "Great!", "your score"])
def test_the_words_of_a_quiz_are_found(text):
    assert CHEERING.search(text)


# ---- the worked examples -------------------------------------------------------------------------


@LESSON
def test_a_lesson_has_one_to_three_worked_examples_of_its_own_unit(lesson):
    examples = [example for unit, example in EXAMPLES if unit == lesson.unit]
    assert 1 <= len(examples) <= 3
    assert {PACK.family(e.family).unit for e in examples} == {lesson.unit}


@EXAMPLE
@pytest.mark.parametrize("units", [Units(), Units("in", "F")], ids=["metric", "us"])
def test_an_example_has_its_drawing_and_its_sum(unit, example, units):
    scenario, decision = worked(unit, example)
    family = PACK.family(example.family)
    telling = Telling(family, scenario, "en", units)
    right = right_response(decision)
    told = telling.explain(decision, right, mark(family, scenario, decision.id, right))
    assert told.sums and all(told.sums)
    assert telling.situation
    assert figure_of(telling, answered=(decision.id,)).startswith("<svg")


COMES_OUT = {
    ("hazards", "find", "compound"): ["nailer", "foam"],
    ("hazards", "flame", "near_miss"): "opening",
    ("primer", "act", "clear_fault"): "prime-again",
    ("primer", "act", "compound"): "brush-then-prime",
    ("set-out", "given", "compound"): "short",
    ("set-out", "line", "compound"): "from-toe",
    ("placing", "next", "near_miss"): "preheat film",
    ("placing", "next", "clear_fault"): "press laps",
    ("laps", "find", "clear_fault"): ["lap-2"],
    ("laps", "next", "clear_fault"): "trimmed",
    ("corners", "bare", "clean"): "slit-1",
    ("corners", "bare", "clear_fault"): "slit-0",
    ("flame", "light", "clear_fault"): "unclosed",
    ("flame", "light", "compound"): "cylinder",
    ("flame", "light", "hidden"): "combustible",
}
"""What the text around each example says it shows; numbers and times are left to the sums."""


@EXAMPLE
def test_an_example_shows_what_the_text_around_it_says(unit, example):
    _, decision = worked(unit, example)
    response = right_response(decision)
    shown = response.get("row", response.get("rows"))
    assert shown == COMES_OUT.get((unit, example.decision, example.mode))
    assert shown is not None or decision.kind in ("measure", "time")


def test_the_parapets_that_are_set_out_have_a_cant_to_be_forgotten():
    facts = {e.decision: worked(unit, e)[0].facts for unit, e in EXAMPLES if unit == "set-out"}
    assert all(fact["cant_mm"] > 0 for fact in facts.values())
    assert facts["given"] == facts["line"], "the wrong line is the one that is put right"
    measured = facts["length"]
    assert measured["chalk_given_mm"] == measured["cant_mm"] + measured["field_lap_mm"]


def test_the_watch_that_is_counted_was_lit_again():
    facts = [worked(unit, e)[0].facts for unit, e in EXAMPLES if unit == "fire-watch"]
    assert any(fact["last_flame_at"] != fact["first_out_at"] for fact in facts)


def test_the_primer_that_feels_good_is_past_its_time():
    scenario, _ = next(
        worked(unit, e) for unit, e in EXAMPLES if unit == "primer" and e.mode == "clear_fault"
    )
    assert scenario.facts["touch"] == "dry"
    assert scenario.facts["age_min"] > shelf().rules.value("primer-never-after")
