"""The reader of families: from YAML to what the engine works with, and the shape it asks for."""

import pytest

from tests.unit.engine.samples import EVERY_KIND, SUBJECTS, TERMS, family
from trainer.engine.expression import Expression
from trainer.engine.spec import KINDS, MEASURED_IN
from trainer.pack.families import family_of, read_family
from trainer.pack.positions import PackError, parse


def complaints(text):
    with pytest.raises(PackError) as refused:
        family_of(parse(text, "a.yaml"), SUBJECTS, TERMS)
    return [str(problem) for problem in refused.value.problems]


def test_what_a_family_becomes():
    made = family()
    assert (made.id, made.version, made.unit, made.severity) == (
        "every-kind",
        3,
        "laps",
        "critical",
    )
    assert made.rules == {"keep": "side-lap", "oldest": "primer-age", "warmth": "surface"}
    assert list(made.values) == ["sheet_mm", "lap_mm", "primed_at", "surface_c", "bad", "places"]
    assert made.values["lap_mm"].at_margin
    assert made.values["surface_c"].step == 0.5
    assert made.values["bad"].take == Expression("2")
    assert (made.margin.value, made.margin.rule, made.margin.step) == ("lap_mm", "keep", 0.5)
    assert made.modes["short"].margin == (-9, -1.5) and made.modes["short"].weight == 2
    assert [judge.calculator for judge in made.judges] == ["lap"]
    assert made.source == "every-kind.yaml"


def test_every_kind_of_decision_is_there():
    assert sorted(spec.kind for spec in family().decisions) == sorted(KINDS)
    assert all(spec.critical == Expression("True") for spec in family().decisions)


def test_a_margin_may_be_written_either_way_round():
    text = EVERY_KIND.replace("[-9, -1.5]", "[-1.5, -9]")
    assert family(text).modes["short"].margin == (-9, -1.5)


def test_texts_with_an_equals_sign_are_formulas_of_the_figure():
    assert family().figure["wall_mm"] == Expression("sheet_mm * 3")
    assert family().figure["label"] == "@lap"


def test_a_lone_text_is_a_passage_and_a_list_may_have_conditions():
    words = family().words["en"]
    assert [condition for condition, _ in words.situation.parts] == [
        None,
        Expression('mode == "short"'),
    ]
    assert len(words.look.parts) == 1
    assert words.decisions["take"].options["keep-it"].text.source == "Keep it."
    assert words.terms == TERMS["en"]


def test_a_family_is_read_from_its_file(tmp_path):
    path = tmp_path / "every-kind.yaml"
    path.write_text(EVERY_KIND, "utf-8")
    assert read_family(path, SUBJECTS, TERMS).decisions == family().decisions
    with pytest.raises(PackError, match="cannot be read: no such file"):
        read_family(tmp_path / "nothing.yaml", SUBJECTS, TERMS)


@pytest.mark.parametrize(
    ("old", "new", "complaint"),
    [
        ("family: every-kind", "family: Every Kind",
         'family: got "Every Kind"; allowed: a name of small'),
        ("version: 3", "version: 0", "version: got 0; allowed: a whole number ≥ 1"),
        ("version: 3", "version: 1.5", "version: got 1.5; allowed: a whole number ≥ 1"),
        ("unit: laps", "unit: 5", "unit: got 5; allowed: a name of small letters"),
        ("values:\n", "values:\n  Lap: 3\n",
         'values.Lap: got "Lap"; allowed: a name of small letters'),
        ("step: 5}", "step: 0}", "values.primed_at.step: got 0; allowed: a number > 0"),
        ("step: 5}", "stop: 5}",
         "values.primed_at.stop: no such field; allowed: from, to, take, step"),
        ("take: 2}", "take: [2]}", "values.bad.take: got [2]; allowed: a formula"),
        ("{one_of: [1000, 914]}", "{one_of: []}", "values.sheet_mm.one_of"),
        ("{one_of: [1000, 914]}", "{}", "values.sheet_mm: got {}; allowed: a formula, "),
        ("{one_of: [1000, 914]}", "null", "values.sheet_mm: got null; allowed: a formula, "),
        ("{one_of: [1000, 914]}", "{take: 3}", "values.sheet_mm.one_of: missing"),
        ("margin: [1.5, 9]", "margin: 3", "modes.wide.margin: got 3; allowed: two numbers"),
        ("margin: [1.5, 9]", "margin: [1.5]", "modes.wide.margin: got [1.5]; allowed: two numbers"),
        ("margin: [1.5, 9]", "margin: [1,5, 9]",
         "modes.wide.margin: got [1, 5, 9]; allowed: two numbers"),
        ("weight: 2", "weight: -1", "modes.short.weight: got -1; allowed: a number > 0"),
        ("  wide: {margin: [1.5, 9]}", "  wide: 5",
         "modes.wide: got 5; allowed: a block of margin"),
        ("figure:\n  kind: wall-elevation", "figure:\n  sort: wall", "figure.kind: missing"),
        ("calculator: lap", "calculater: lap", "judge.laps.calculator: missing"),
        ("axes: xy", "axes: xyz", 'decisions[4].axes: got "xyz"; allowed: "x" or "y" or "xy"'),
        ("{id: near,", "{ident: near,", "decisions[4].options[1].id: missing"),
        ("        prompt: Put it there.\n", "        prompt: {a: b}\n", "put.prompt: got"),
        ("      - if: mode == \"short\"\n        say: Something looks narrow.",
         "      - if: mode == \"short\"", "words.en.situation[1].say: missing"),
        ("          never: Leave it out.", "          never: {txt: Leave.}",
         "never.txt: no such field; allowed: text, right, wrong, leads_to (did you mean text?)"),
    ],
)  # fmt: skip
def test_what_is_wrong_in_the_shape_is_said_with_what_is_allowed(old, new, complaint):
    assert old in EVERY_KIND
    found = complaints(EVERY_KIND.replace(old, new, 1))
    assert any(complaint in said for said in found), found


def test_what_is_missing_at_the_top_is_said_all_at_once():
    found = complaints("family: nothing\n")
    missing = [said.split(": ")[1] for said in found]
    assert missing == [
        "version", "unit", "severity", "values", "modes", "judge", "figure", "decisions", "words"
    ]  # fmt: skip


def test_the_units_of_a_measure_are_those_the_engine_can_say():
    for unit in MEASURED_IN:
        text = EVERY_KIND.replace("    unit: mm\n", f'    unit: "{unit}"\n')
        assert family(text).decision("much").unit == unit
