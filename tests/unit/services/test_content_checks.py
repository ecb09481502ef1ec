"""Each check of the content finds its fault: a good family, spoilt in one place at a time."""

from __future__ import annotations

from math import comb
from types import SimpleNamespace

import pytest

from tests.unit.engine.samples import RULES, SUBJECTS
from trainer.engine.solve import make
from trainer.errors import TrainerError
from trainer.pack.families import family_of
from trainer.pack.glossary import load_glossary
from trainer.pack.positions import parse
from trainer.services.content import chance, counts, mistakes
from trainer.services.content.alike import LIKE, likeness, same_again, told_twice
from trainer.services.content.checks import OF_A_FAMILY
from trainer.services.content.guess_numbers import most_within
from trainer.services.content.sample import Sample, masked, take
from trainer.services.content.sums import wrong_sum
from trainer.services.content.vocabulary import problems

SEEDS = 60

GOOD = """
family: sound
version: 1
unit: laps
severity: quality
rules: {keep: side-lap}
values:
  lap_mm: at margin
  roll_mm: {from: 3000, to: 6000, step: 10}
margin: {of: lap_mm, rule: keep, tolerance: 2, step: 0.5}
modes:
  clean: {margin: [1.5, 9]}
  short: {margin: [-9, -1.5]}
judge:
  laps:
    calculator: lap
    inputs: {measured_mm: "[lap_mm]", required_mm: keep.high, uncertainty_mm: 0}
figure: {kind: wall-elevation}
decisions:
  - id: take
    kind: choose
    options:
      - {id: leave, right: 'laps.overall == "accept"', misconception: near-enough}
      - {id: redo, right: 'laps.overall != "accept"', misconception: too-strict}
  - id: left
    kind: measure
    unit: mm
    tolerance: 3
    answer: roll_mm - lap_mm
    options:
      - {id: forgot, value: roll_mm, misconception: forgot-the-lap}
features: {steps: 1, looks: 1, hidden: 0, faults: 1}
worked:
  mode: clean
  values: {lap_mm: 90, roll_mm: 4000}
  answers: {take: leave, left: 3910}
words:
  en:
    title: Is the lap wide enough?
    situation:
      - "The lap at the door is {lap_mm} wide."
      - "The roll is {roll_mm} long."
    look: A wall with one lap.
    worked: [The lap is 90 mm wide. That is enough.]
    decisions:
      take:
        prompt: What do you do with this lap?
        right: it is as the rule asks.
        wrong: look at the rule again.
        options:
          leave: Leave it as it is now.
          redo: Lay the sheet anew here.
      left:
        prompt: How long is what is left of the roll?
        right: the lap comes off the roll.
        wrong: the lap comes off the roll.
        sums: ["{roll_mm} − {lap_mm} = {answer|mm}"]
"""


def sample_of(*changes: tuple[str, str]) -> Sample:
    text = GOOD
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    family = family_of(parse(text, "sound.yaml"), SUBJECTS, {"en": {}})
    shelf = SimpleNamespace(rules=RULES)
    made = (_made(family, seed, mode) for mode in family.modes for seed in range(SEEDS))
    return Sample(shelf, family, tuple(take(shelf, family, one) for one in made if one))


def _made(family, seed, mode):
    try:
        return make(family, seed, RULES, mode)
    except TrainerError:
        return None


def found(group: str, *changes: tuple[str, str]) -> str:
    findings = list(OF_A_FAMILY[group](sample_of(*changes)))
    assert all(one.family == "sound" and one.group == group for one in findings)
    return "\n".join(map(str, findings))


@pytest.mark.parametrize("group", OF_A_FAMILY)
def test_nothing_is_found_in_a_good_family(group):
    assert found(group) == ""


LONG = "one " * 26
HARD = "Notwithstanding insufficient adhesion, discontinuation is generally inadvisable"


@pytest.mark.parametrize(
    ("group", "old", "new", "said"),
    [
        ("reading", "The roll is {roll_mm} long", HARD, "the situation reads at"),
        ("reading", "Leave it as it is now", HARD, "its rows read at"),
        ("reading", "The roll is {roll_mm} long", LONG, "26 words in the situation"),
        ("reading", "look at the rule again", LONG, "26 words in a reason"),
        ("length", "Is the lap wide enough", "Is it wide " * 5, "the title has"),
        ("length", "The roll is {roll_mm} long", "The roll. " * 50, "the situation has"),
        ("length", "The roll is {roll_mm} long", "It is. " * 5, "sentences in metric; allowed: 5"),
        ("length", "What do you do with this lap", "What do you do " * 10, "the prompt has"),
        ("length", "Leave it as it is now", "Leave it " * 13, "the row leave has"),
        ("words", "A wall with one lap", "A wall, utilised", "“utilised”: say “use”"),
        ("words", "Leave it as it is now", "Leave the upstand", "say “parapet”"),
        ("words", "Leave it as it is now", "Leave the parapte", "is “parapet” meant?"),
        ("words", "Lay the sheet anew here", "Lay it horizontally", "“horizontally” is long"),
        ("mistakes", "roll_mm, misconception: forgot-the-lap", "roll_mm", "forgot has"),
        ("mistakes", ", misconception: too-strict", "", "the wrong answer redo has no"),
        ("stated", "features: {steps: 1, looks: 1, hidden: 0, faults: 1}\n", "", "no features"),
        ("stated", "faults: 1", "faults: -1", "feature faults"),
        ("stated", "left: 3910", "left: 3900", "3900 by hand"),
        ("sums", "− {lap_mm} =", "− {keep|limit} =", "does not add up in metric"),
    ],
)  # fmt: skip
def test_a_fault_is_found(group, old, new, said):
    assert said in found(group, (old, new))


def test_a_missing_worked_example_is_found():
    start, end = GOOD.index("worked:\n"), GOOD.index("words:\n")
    lines = ("    worked: [The lap is 90 mm wide. That is enough.]\n", "")
    assert "no worked: example" in found("stated", (GOOD[start:end], ""), lines)


def test_a_row_that_is_long_when_it_is_right_is_found():
    told = "'Leave it as it is, for it is wide enough.' if mode == 'clean' else 'Leave it.'"
    texts = ("Leave it as it is now.", f'"{{({told})|text}}"')
    said = found("guess", texts)
    assert "the right row is the longest in" in said


def test_one_row_that_is_right_too_often_is_found():
    often = ("clean: {margin: [1.5, 9]}", "clean: {margin: [1.5, 9], weight: 9}")
    said = found("guess", often)
    assert 'the row "Leave it as it is now." is right in' in said


def test_always_to_say_stop_is_found():
    go = ("kind: choose\n", "kind: go_stop\n    answer: 'laps.overall == \"accept\"'\n")
    rows = ("{id: leave, right: 'laps.overall == \"accept\"', mis", "{id: go, mis")
    words = ("          leave: Leave", "          go: Leave")
    hand = ("take: leave", "take: go")
    rarely = ("clean: {margin: [1.5, 9]}", "clean: {margin: [1.5, 9], weight: 0.1}")
    assert "always to say" not in found("guess", go, rows, words, hand)
    assert "always to say stop is right in" in found("guess", go, rows, words, hand, rarely)


def test_pinned_rows_whose_place_gives_the_answer_are_found():
    often = ("clean: {margin: [1.5, 9]}", "clean: {margin: [1.5, 9], weight: 4}")
    pinned = ("kind: choose\n", "kind: choose\n    pinned: true\n")
    assert "stands at place 1" in found("guess", often, pinned)
    assert "stands at place" not in found("guess", often)


@pytest.mark.parametrize(("answer", "said"), [("bad == 1", "one is"), ("True", "one, two is")])
def test_a_part_that_is_always_the_answer_is_found(answer, said):
    kind = "mark" if "bad" in answer else "find"
    start, end = GOOD.index("  - id: left"), GOOD.index("features:")
    asked = (
        f'  - id: left\n    kind: {kind}\n    parts: \'[{{"id": "one"}}, {{"id": "two"}}]\'\n'
        f"    answer: 'part.id == \"one\"{' or True' if kind == 'find' else ''}'\n"
    )
    hand = ("left: 3910", f"left: {'one' if kind == 'mark' else '[one, two]'}")
    words = ("        prompt: How long", '        part: "{part.id|text}"\n        prompt: How long')
    assert f"the answer is {said.removesuffix(' is')} in 120 of 120" in found(
        "guess", (GOOD[start:end], asked), hand, words
    )


def test_one_number_that_is_always_right_is_found():
    same = ("roll_mm: {from: 3000, to: 6000, step: 10}", "roll_mm: 3000 + lap_mm")
    hand = ("values: {lap_mm: 90, roll_mm: 4000}", "values: {lap_mm: 90}")
    assert "3000 mm is right in 120 of 120 scenarios" in found("guess", same, hand)


def test_an_answer_that_stands_in_the_situation_is_found():
    printed = ("The roll is {roll_mm} long", "What is left is {(roll_mm - lap_mm)|mm} long")
    assert "the answer stands in the situation in 120 of 120" in found("guess", printed)


def test_one_place_that_is_always_right_is_found():
    start, end = GOOD.index("  - id: left"), GOOD.index("features:")
    asked = (
        "  - id: left\n    kind: place\n    axes: x\n    from: 0\n    to: 900\n    step: 5\n"
        "    tolerance: 2\n    answer: x > 500\n    options:\n"
        "      - {id: far, at: 600 + lap_mm}\n      - {id: near, at: 100}\n"
    )
    rows = (
        "        prompt: How long",
        "        options: {far: Far., near: Near.}\n        prompt: How long",
    )
    said = found("guess", (GOOD[start:end], asked), rows, ("left: 3910", "left: far"))
    assert "the place" in said and "is right in" in said


def test_a_cell_that_draws_the_same_again_is_found():
    same = ("lap_mm: at margin", "lap_mm: {one_of: [80, 82]}")
    margin = ("roll_mm: {from: 3000, to: 6000, step: 10}", "roll_mm: {one_of: [4000]}")
    modes = ("clean: {margin: [1.5, 9]}\n  short: {margin: [-9, -1.5]}", "clean: {}")
    said = found("alike", same, margin, modes)
    assert "only 2 different scenarios among 60; allowed: 6 or more" in said
    assert list(same_again(sample_of())) == []


def test_margins_that_are_unsound_at_the_limit_are_found():
    off = "near_mm: at margin\n  lap_mm: near_mm - 0.4 if mode == 'clean' else near_mm"
    rounded = ("lap_mm: at margin", off)
    said = found("margins", rounded, ("{lap_mm: 90, roll", "{near_mm: 90.4, roll"))
    assert "clean, seed 0: at a margin of +1: lap_mm lies 0.95 tolerances" in said
    assert "short" not in said


def test_a_margin_that_does_not_come_out_as_asked_is_found():
    off = "near_mm: at margin\n  lap_mm: near_mm + 3 if mode == 'clean' else near_mm"
    moved = ("lap_mm: at margin", off)
    said = found("margins", moved, ("{lap_mm: 90, roll", "{near_mm: 87, roll"))
    assert "at a margin of +9: it comes out at +10.65; allowed: 0.25 off, one step" in said


# ---- what shows in the whole pack ----------------------------------------------------------------


def test_two_families_that_tell_the_same_are_found():
    one = "the lap at the door is # wide. the roll is # long. nobody has looked at it yet."
    other = one.replace("door", "drain")
    new = "a torch stands # from the corner. the bottle is behind it. the permit is open."
    assert likeness(one, other) > LIKE > likeness(one, new)
    assert likeness(one, one) == 1
    texts = {"a": [one], "b": [new], "c": [new[:20], other]}
    (finding,) = told_twice(texts)
    assert finding.family == "a" and "like that of c" in str(finding)


def test_a_misconception_that_nobody_can_have_is_found():
    family = sample_of().family
    known = ["near-enough", "too-strict", "forgot-the-lap", "thinks-of-dinner"]
    (finding,) = mistakes.never_made(known, [family])
    assert "thinks-of-dinner" in str(finding)


def test_too_few_cells_and_too_much_choosing_are_found():
    few = counts.Counts({"laps": 2}, {"laps": 11}, {"choose": 3, "place": 2})
    said = [str(finding) for finding in counts.too_few(few)]
    assert "11 cells" in said[0] and "40 %" in said[1] and len(said) == 2
    enough = counts.Counts({"laps": 3}, {"laps": 12}, {"go_stop": 2, "time": 2})
    assert list(counts.too_few(enough)) == []
    assert counts.table(few)[1].split() == ["laps", "2", "11"]


# ---- the yardsticks themselves -------------------------------------------------------------------


def test_the_chance_of_so_many_is_that_of_the_binomial_distribution():
    """Summed exactly in whole numbers; 5 or more heads of 6 is 7 of 64."""
    assert chance.at_least(5, 6, 0.5) == pytest.approx(7 / 64)
    for n, k, share in ((20, 13, 0.25), (200, 140, 0.6), (7, 0, 0.3), (9, 9, 0.9)):
        exact = sum(comb(n, i) * share**i * (1 - share) ** (n - i) for i in range(k, n + 1))
        assert chance.at_least(k, n, share) == pytest.approx(exact)
    assert chance.surely_above(137, 200, 0.6) and not chance.surely_above(125, 200, 0.6)
    assert not chance.surely_above(3, 3, 0.6), "three scenarios prove nothing"


def test_the_value_that_most_answers_take_as_right():
    value, count = most_within([(10, 2), (13, 2), (40, 1), (13.5, 2)])
    assert count == 3 and all(abs(value - answer) <= 2 for answer in (10, 13, 13.5))
    assert most_within([(1, 0), (1, 0), (2, 0)]) == (1, 2)


@pytest.mark.parametrize("text", ["It is 2 3/8 in wide.", "It is 60 mm wide.", "At 16:05."])
def test_numbers_are_masked(text):
    assert not any(sign.isdigit() for sign in masked(text))


def test_words_as_the_trade_says_them_pass():
    glossary = load_glossary()
    text = (
        "The sheets are welded; the insulation is tapered, and the watcher looks at the parapets."
    )
    assert list(problems(text, glossary)) == []


@pytest.mark.parametrize("word", ["membrane", "Prior to", "selects", "torching", "gas bottle"])
def test_words_that_are_not_said_are_found(word):
    assert any("say" in problem for problem in problems(f"It is {word} here.", load_glossary()))


@pytest.mark.parametrize(
    ("line", "comes_to"),
    [
        ("3920 mm − 75 mm = 3845 mm at the most", ""),
        ("3920 mm − 75 mm = 3844 mm at the most", "3845"),
        ("field 100 mm + slope 106 mm + wall 375 mm = 581 mm", ""),
        ("slope of the cant: 75 mm × 1.414 = 106 mm", ""),
        ("slope of the cant: 75 mm × 1.414 = 108 mm", "106.05"),
        ("last flame 14:00 + watch 2 h = 16:00", ""),
        ("last flame 14:00 + watch 2 h = 15:30", "960"),
        ("inside since 09:05 yesterday + 24 h = 09:05 today", ""),
        ("120 mm + 120 mm ÷ sin(120° ÷ 2) = 259 mm", ""),
        ("√(600² + 450²) = 750 mm", ""),
        ("12.4 m × 0.9 m = 11.16 m²", ""),
        ("11.16 m² × 0.3 l/m² = 3.35 l", ""),
        ("21.26 in + 3 in + 3 in = 27.26 in", ""),
        ("40 ft 8 in − 8 in = 40 ft", ""),
        ("from every open place: 1 m or more", ""),
        ("a = b", ""),
    ],
)
def test_a_written_sum_is_worked_out_again(line, comes_to):
    """The right sides were worked out by hand; 259 is 120 + 120 ÷ 0.8660 = 258.56 rounded."""
    assert wrong_sum(line) == comes_to
