"""A family that is not whole: every flaw at once, at its line, before anything is drawn."""

from pathlib import Path

import pytest
import yaml

from tests.unit.engine.samples import EVERY_KIND, SUBJECTS, TERMS
from trainer.pack.families import family_of
from trainer.pack.positions import PackError, parse


def flaws(text, terms=TERMS, subjects=SUBJECTS):
    try:
        family_of(parse(text, "a.yaml"), subjects, terms)
    except PackError as error:
        return [str(problem) for problem in error.problems]
    return []


def line(text, part):
    """The line, from 1, on which ``part`` first stands."""
    return text[: text.index(part)].count("\n") + 1


def test_the_sample_is_whole():
    assert flaws(EVERY_KIND) == []


FLAWED = yaml.safe_load((Path(__file__).parent / "flawed_families.yaml").read_text("utf-8"))


@pytest.mark.parametrize("case", FLAWED, ids=lambda case: case["says"][:50])
def test_one_flaw_is_named_with_its_place(case):
    assert case["change"] in EVERY_KIND
    found = flaws(EVERY_KIND.replace(case["change"], case["to"], 1))
    assert any(case["says"] in flaw for flaw in found), found
    assert all(flaw.startswith("a.yaml:") for flaw in found)
    assert all(len(flaw.splitlines()) == 1 for flaw in found)


def test_every_flaw_stands_at_its_line():
    text = EVERY_KIND.replace("keep.high and", "keep.hi and").replace(
        "{keep|limit}", "{kept|limit}"
    )
    text = text.replace("oldest: primer-age", "oldest: nothing")
    places = [flaw.split(": ")[0] for flaw in flaws(text)]
    assert places == [
        f"a.yaml:{line(text, part)}" for part in ("rules:", "keep.hi and", "{kept|limit}")
    ]


def test_two_options_that_are_always_right_and_none_that_ever_is():
    right = "right: 'laps.overall == \"accept\"'}", "right: 'laps.overall != \"accept\"', mis"
    text = EVERY_KIND.replace(right[0], "right: True}").replace(right[1], "right: 1 < 2, mis")
    assert any("keep-it and redo are both right, always; one may be" in f for f in flaws(text))
    text = EVERY_KIND.replace(right[0], "right: False}").replace(right[1], "right: False, mis")
    assert any("no option is ever right; exactly one has to be" in f for f in flaws(text))


def test_a_family_about_uncertainty_may_reach_the_limit():
    text = EVERY_KIND.replace("margin: [1.5, 9]", "margin: [-1, 1]")
    assert flaws(text)
    assert (
        flaws(text.replace("tolerance: 2, step: 0.5", "tolerance: 2, about_uncertainty: true"))
        == []
    )


def test_what_hangs_on_a_broken_place_is_not_complained_about_as_well():
    (only,) = flaws(EVERY_KIND.replace("lap_mm: at margin", "lap_mm: [at margin]"))
    assert 'values.lap_mm: got ["at margin"]; allowed: a formula, "at margin"' in only
    (only,) = flaws(EVERY_KIND.replace("calculator: lap", "calculator: [lap]"))
    assert "judge.laps.calculator" in only
    (only,) = flaws(EVERY_KIND.replace("job: '\"wall\"'", "job: [wall]"))
    assert 'decisions[7].job: got ["wall"]; allowed: a formula' in only


def test_shape_and_sense_are_complained_about_together():
    text = EVERY_KIND.replace("step: 0.5}", "step: 0,5}", 1).replace(
        "at: = lap_mm / 2", "at: = lip / 2"
    )
    text = text.replace("severity: critical", "severity: grave").replace("optons", "options")
    found = flaws(text)
    assert any('severity: got "grave"; allowed: "critical" or "quality"' in f for f in found)
    assert any('"lip / 2" uses the unknown name lip' in f for f in found)
    assert len(found) >= 3


def test_without_rule_book_and_terms_nothing_is_said_about_them():
    assert flaws(EVERY_KIND, terms=None, subjects=None) == []
    text = EVERY_KIND.replace("oldest: primer-age", "oldest: nothing")
    text = text.replace("word('step', part.id)", "word('steps', part.id)")
    assert flaws(text, terms=None, subjects=None) == []


def test_every_language_has_to_be_whole():
    start = EVERY_KIND.index("  en:\n")
    french = EVERY_KIND[start:].replace("  en:\n", "  fr:\n", 1)
    french = french.replace("        prompt: Until when?\n", "        prompt: []\n")
    french = french.replace('labels: {lap: "lap {lap_mm}"}', "labels: {}")
    found = flaws(EVERY_KIND + french, {**TERMS, "fr": TERMS["en"]})
    assert any("words.fr.decisions.until.prompt: there is no prompt" in f for f in found)
    assert any('the words in "fr" have no label lap' in f for f in found)
    assert not any("words.en" in f for f in found)
    assert any('unknown sort "step"' in f for f in flaws(EVERY_KIND + french))  # no terms in "fr"
