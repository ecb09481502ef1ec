"""Broken packs: everything wrong is said at once, by file and line, and nothing is half loaded."""

import os

import pytest

from tests.integration.small_pack import FILES, SmallPack
from trainer.engine.solve import make
from trainer.pack.pack import load_pack
from trainer.pack.positions import PackError

FAMILY, LESSON = "families/every-kind.yaml", "lessons/laps.yaml"


@pytest.fixture
def pack(tmp_path):
    return SmallPack(tmp_path)


def said(pack):
    """What loading complains of, without the folder; every complaint on one line."""
    with pytest.raises(PackError) as refused:
        load_pack(pack.root)
    lines = str(refused.value).splitlines()
    assert len(lines) == len(refused.value.problems)
    return [line.replace(f"{pack.root.as_posix()}/", "") for line in lines]


def test_the_small_pack_is_whole(pack):
    loaded = load_pack(pack.root)
    assert list(loaded.families) == ["every-kind"]
    made = make(loaded.family("every-kind"), 1, loaded.book.in_force())
    assert len(made.decisions) == 8


SPOILT = [
    (FAMILY, "side-lap, oldest", "side-lip, oldest", 'the rule book has no subject "side-lip"'),
    (FAMILY, "calculator: lap", "calculator: lup", 'it names no calculator with "lup"; one of'),
    (FAMILY, "measured_mm:", "measured:", "gives lap the unknown field measured; it takes"),
    (FAMILY, "tolerance: 2, step", 'tolerance: "2,5", step', "a number has a point: 2.5"),
    (FAMILY, "to: 20, step: 0.5}", 'to: 20, step: "0,5"}', 'got "0,5"; allowed: a number > 0'),
    (FAMILY, "unit: mm\n", "unit: cm\n", 'got "cm"; allowed: mm, m, c, k, min'),
    (FAMILY, "of: lap_mm, rule: keep", "of: lap_mm, rule: oldest", "a rule in min; allowed"),
    (FAMILY, "  en:\n", "  fr:\n", "en: missing"),
    (FAMILY, "        prompt: What now?\n", "", "words.en.decisions.take.prompt: missing"),
    (FAMILY, "          keep-it: Keep it.\n", "", "option keep-it has no text"),
    (FAMILY, "margin: [1.5, 9]", "margin: [0.1, 0.9]", "reaches within one tolerance"),
    (FAMILY, "answer: primed_at +", "answer: primed +", "uses the unknown name primed (did you"),
    (FAMILY, "misconception: too-strict,", "misconception: too-lax,", "no misconception too-lax"),
    (FAMILY, "unit: laps\n", "unit: lips\n", "there is no unit lips in"),
    (FAMILY, "version: 3\n", "version: three\n", 'version: got "three"; allowed: a whole number'),
    (FAMILY, "version: 3\n", "version: 3\nversion: 4\n", "version: given twice"),
    (FAMILY, "kind: choose", "kind: chose", 'got "chose"; allowed: "place" or "mark"'),
    (FAMILY, "kind: choose\n", "kind: choose\n    optons: []\n", "optons: no such field; allowed"),
    (FAMILY, "values:\n", "values:\n\tx: 3\n", "not readable as YAML"),
    (FAMILY, "label: \"@lap\"", "label: \"@lap", "not readable as YAML"),
    (FAMILY, "lap_mm: at margin", "lap_mm: {from: 3}", "values.lap_mm.to: missing"),
    (FAMILY, "lap_mm: at margin", "lap_mm: {from: 3, to: 4, one_of: [1]}", "either from … to …"),
    (FAMILY, "margin: {of", "margn: {of", "margn: no such field; allowed: "),
    (FAMILY, "wide: {", "Wide: {", 'modes.Wide: got "Wide"; allowed: a name of small letters'),
    (LESSON, "family: every-kind", "family: every-kin", "there is no family every-kin"),
    (LESSON, "mode: wide", "mode: broad", "the family every-kind has no mode broad"),
    (LESSON, "decision: take", "decision: took", "the family every-kind has no decision took"),
    (LESSON, "rules: [side-lap]", "rules: [side-lip]", 'the rule book has no subject "side-lip"'),
    (LESSON, "unit: laps", "unit: lips", "there is no unit lips in"),
    (LESSON, "minutes: 3", "minutes: 3,5", 'minutes: got "3,5"; allowed: a whole number'),
    ("units.yaml", "severity: quality", "severity: bad", 'severity: got "bad"; allowed'),
    ("misconceptions.yaml", "    no-time: leave no time\n", "", "no misconception no-time"),
    ("rulebook.yaml", "in_force: [lap-guide, ", "in_force: [",
     "no rule on side-lap that may mark anybody is in force in the profile here"),
    ("rulebook.yaml", "        status: read", "        status: from memory",
     "no rule on side-lap that may mark anybody is in force in the profile here"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "old", "new", "expected"), SPOILT, ids=lambda part: part[:40])
def test_each_fault_is_said_with_its_file_and_line(pack, name, old, new, expected):
    line = pack.spoil(name, old, new)
    complaints = said(pack)
    found = [complaint for complaint in complaints if expected in complaint]
    assert len(found) == 1, complaints
    file, where, _ = found[0].split(":", 2)
    if name in ("misconceptions.yaml", "rulebook.yaml"):  # the family that leans on it is told
        assert file == FAMILY and FILES[FAMILY].splitlines()[int(where) - 1]
    else:
        assert file == name and (abs(int(where) - line) <= 2 or "as YAML" in expected), found


def test_all_problems_of_all_files_come_at_once(pack):
    pack.spoil("rulebook.yaml", "unit: in}", "unit: inch}")
    pack.spoil("units.yaml", "place: lap", "plaice: lap")
    pack.spoil("misconceptions.yaml", "version: 1", "version: 1,5")
    pack.spoil("terms.yaml", "terms:", "tarms:")
    pack.spoil(FAMILY, "lap_mm / 2", "lip / 2")
    pack.spoil(FAMILY, "severity: critical", "severity: grave")
    pack.spoil(LESSON, "minutes: 3", "minutes: 300")
    files = [complaint.split(":")[0] for complaint in said(pack)]
    assert set(files) == set(FILES)
    assert files.count(FAMILY) == 2


def test_what_cannot_be_read_is_not_missed_by_the_others(pack):
    pack.spoil("rulebook.yaml", "unit: in}", "unit: inch}")
    pack.spoil("terms.yaml", "terms:", "tarms:")
    pack.spoil("units.yaml", "place: lap", "plaice: lap")
    pack.spoil("misconceptions.yaml", "words:", "wards:")
    pack.spoil(FAMILY, "version: 3", "version: 0")
    assert not [c for c in said(pack) if c.startswith(LESSON)]
    assert len([c for c in said(pack) if c.startswith(FAMILY)]) == 1


def test_two_files_of_one_version(pack):
    (pack.root / "families" / "again.yaml").write_text(FILES[FAMILY], "utf-8")
    (complaint,) = said(pack)
    assert complaint.startswith(f"{FAMILY}:2: version: version 3 of every-kind stands in")
    assert complaint.endswith("families/again.yaml too")


def test_an_older_version_stands_beside_the_newer(pack):
    older = FILES[FAMILY].replace("version: 3", "version: 2")
    (pack.root / "families" / "older.yaml").write_text(older, "utf-8")
    loaded = load_pack(pack.root)
    assert loaded.family("every-kind").version == 3
    assert loaded.family("every-kind", 2).version == 2


def test_two_lessons_of_one_unit_and_two_units_of_one_name(pack):
    (pack.root / "lessons" / "more.yaml").write_text(FILES[LESSON], "utf-8")
    unit = FILES["units.yaml"].split("units:\n")[1]
    pack.spoil("units.yaml", unit, unit + unit)
    found = said(pack)
    assert any("lessons/more.yaml:1: unit: the lesson of laps stands in" in c for c in found)
    assert any("units.yaml:8: units[1].id: there are two units laps" in c for c in found)


def test_every_language_has_the_words_of_every_other(pack):
    pack.spoil("terms.yaml", "  en:\n", "  fr:\n    step: {roll: rouler, fly: voler}\n  en:\n")
    pack.spoil("misconceptions.yaml", "  en:\n", "  fr:\n    too-strict: trop\n  en:\n")
    found = said(pack)
    assert "terms.yaml:4: terms.fr.step: press laps is missing here" in found
    assert 'terms.yaml:4: terms.fr.step.fly: the words in "en" do not have it' in found
    assert "misconceptions.yaml:3: words.fr: no-time is missing here" in found


FRENCH_UNIT = "      fr: {name: Lés, word: lé, able_to: Garder la largeur.}\n"
SPANISH_LESSON = "  es:\n    title: Solapes\n    sections: [{heading: Uno, text: [Dos láminas.]}]\n"


def test_a_language_that_one_file_speaks_all_must_speak(pack):
    pack.spoil("units.yaml", "      en: {", FRENCH_UNIT + "      en: {")
    pack.spoil(LESSON, "  en:\n", SPANISH_LESSON + "  en:\n")
    found = said(pack)
    folder = pack.root.as_posix()
    for where, language, other in (
        ("misconceptions.yaml:2: words", "fr", "units.yaml"),
        ("terms.yaml:2: terms", "fr", "units.yaml"),
        ("terms.yaml:2: terms", "es", LESSON),
        ("units.yaml:6: units[0].words", "es", LESSON),
        ("lessons/laps.yaml:5: words", "fr", "units.yaml"),
    ):
        sentence = f'{where}: the language "{language}" is missing here; {other} has it'
        assert sentence in [c.replace(f"{folder}/", "") for c in found]
    assert len([c for c in found if c.startswith(FAMILY) and "is missing here" in c]) == 2


@pytest.mark.parametrize("name", [name for name in FILES if "/" not in name])
def test_a_file_that_is_missing(pack, name):
    (pack.root / name).unlink()
    assert any(c.startswith(f"{name}: cannot be read: no such file") for c in said(pack))


@pytest.mark.parametrize("name", FILES)
@pytest.mark.parametrize("content", [b"", b"\xff\xfe\x00", b"5", b"[1, 2]", b"a: &b [*b]", b"\x00"])
def test_a_file_that_is_no_file_of_ours(pack, name, content):
    (pack.root / name).write_bytes(content)
    assert any(c.startswith(name) for c in said(pack))


def test_a_folder_that_is_not_there(tmp_path):
    with pytest.raises(PackError, match="cannot be read: no such file"):
        load_pack(tmp_path / "nothing")


def test_nothing_is_half_loaded_and_a_mended_file_is_read_again(pack):
    before = load_pack(pack.root)
    pack.spoil(FAMILY, "lap_mm / 2", "lip / 2")
    for _ in range(2):
        assert said(pack)
    assert list(before.families) == ["every-kind"]  # who has it keeps it whole
    pack.mend(FAMILY)
    after = load_pack(pack.root)
    assert after.digest == before.digest and list(after.families) == ["every-kind"]


def test_a_pack_is_read_once_while_its_files_stay_as_they_are(pack):
    first = load_pack(pack.root)
    assert load_pack(pack.root) is first
    pack.spoil("units.yaml", "Keep laps wide", "Keep every lap wide")
    changed = load_pack(pack.root)
    assert changed is not first and changed.digest != first.digest
    os.utime(pack.root / "units.yaml", (1, 1))
    assert load_pack(pack.root).digest == changed.digest


def test_what_a_pack_is_asked_for_and_does_not_have(pack):
    from trainer.errors import InputError

    loaded = load_pack(pack.root)
    for ask, message in (
        (lambda: loaded.family("nobody"), 'family: got "nobody"; allowed: one of every-kind'),
        (
            lambda: loaded.family("every-kind", 9),
            "family version: got 9; allowed: of every-kind: 3",
        ),
        (lambda: loaded.unit("nobody"), 'unit: got "nobody"; allowed: one of laps'),
    ):
        with pytest.raises(InputError) as refused:
            ask()
        assert str(refused.value) == message
    assert loaded.misconception("no-time", "en") == "leave no time"
    assert loaded.misconception("no-time", "fr") == "leave no time"
    assert loaded.misconception("nobody", "en") == ""
    assert [family.id for family in loaded.families_of("laps")] == ["every-kind"]
    assert loaded.families_of("nobody") == ()
