"""Units, shared words, misconceptions and lessons as they come out of their files."""

import pytest

from tests.integration.small_pack import FILES
from trainer.pack.content import (
    Example,
    Unit,
    UnitWords,
    lesson_of,
    misconceptions_of,
    terms_of,
    units_of,
)
from trainer.pack.demo import read_people, read_practice
from trainer.pack.positions import PackError, parse


def document(name, old="", new=""):
    assert old in FILES[name]
    return parse(FILES[name].replace(old, new, 1) if old else FILES[name], name)


def test_units():
    words = UnitWords("Laps", "lap", "Keep laps wide enough.", "")
    assert units_of(document("units.yaml")) == (Unit("laps", "lap", "quality", {"en": words}),)
    assert units_of(document("units.yaml"))[0].words_in("fr") == words


def test_terms_and_misconceptions():
    assert terms_of(document("terms.yaml"))["en"]["step"]["roll"] == "roll it"
    assert misconceptions_of(document("misconceptions.yaml"))["en"]["no-time"] == "leave no time"


def test_a_lesson():
    lesson = lesson_of(document("lessons/laps.yaml"))
    assert (lesson.unit, lesson.version, lesson.minutes) == ("laps", 1, 3)
    assert lesson.rules == ("side-lap",)
    (section,) = lesson.words_in("fr").sections
    assert section.text == ("Two sheets.",) and section.caution == ""
    assert section.example == Example("every-kind", 1, "wide", "take")


@pytest.mark.parametrize(
    ("read", "name", "old", "new", "complaint"),
    [
        (
            units_of,
            "units.yaml",
            "  - id: laps",
            "  - id: Laps!",
            'id: got "Laps!"; allowed: a name',
        ),
        (units_of, "units.yaml", "      en:", "      fr:", "units[0].words.en: missing"),
        (terms_of, "terms.yaml", "roll: roll it", "roll: 5", "roll: got 5; allowed: a text"),
        (terms_of, "terms.yaml", "version: 1", "version: -1", "version: got -1"),
        (misconceptions_of, "misconceptions.yaml", "no-time:", "No Time:", "allowed: a name"),
        (lesson_of, "lessons/laps.yaml", "minutes: 3", "minutes: 31", "minutes: got 31"),
        (lesson_of, "lessons/laps.yaml", "text: [Two sheets.]", "text: Two.", "text: got"),
        (lesson_of, "lessons/laps.yaml", "seed: 1", "seed: -1", "seed: got -1"),
    ],
)
def test_what_is_wrong_is_said_with_its_line(read, name, old, new, complaint):
    with pytest.raises(PackError) as refused:
        read(document(name, old, new))
    assert complaint in str(refused.value)
    assert all(problem.line for problem in refused.value.problems)


PEOPLE = """\
version: 1
site: A site
time_zone: Europe/Dublin
people: [{name: A Person, sign_in: a, roles: [worker], crew: East}]
"""
PRACTICE = """\
version: 1
weeks: 3
workers: [{sign_in: a, began: 3, days: 2, scenarios: 4, skill: 0.5, gain: 0.1, weak: [laps]}]
"""


def test_the_demonstration(tmp_path):
    (tmp_path / "demo").mkdir()
    (tmp_path / "demo" / "people.yaml").write_text(PEOPLE, "utf-8")
    (tmp_path / "demo" / "practice.yaml").write_text(PRACTICE, "utf-8")
    site = read_people(tmp_path)
    assert (site.site, site.people[0].roles, site.people[0].length_unit) == (
        "A site",
        ("worker",),
        "mm",
    )
    (worker,) = read_practice(tmp_path)
    assert (worker.stopped, worker.weak) == (0, ("laps",))
    (tmp_path / "demo" / "people.yaml").write_text(PEOPLE.replace("crew: East", "crow: x"), "utf-8")
    with pytest.raises(PackError, match="crow: no such field"):
        read_people(tmp_path)
