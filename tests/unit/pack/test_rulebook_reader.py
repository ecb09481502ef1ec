"""The reader of the rule book: a small book read whole, and every way to write one wrongly."""

import datetime
import os

import pytest

from trainer.errors import TrainerError
from trainer.pack.positions import PackError
from trainer.pack.rulebook import load_rulebook
from trainer.roofing.rulebook import COMMON_PRACTICE, Source, Statement

BOOK = """\
version: "3"
default_profile: here
documents:
  guide: {name: Guide, edition: "2020"}
subjects:
  side-lap:
    name: side lap
    direction: at least
    dimension: length
    guards: water
    severity: quality
    rules:
      lap-guide:
        limit: [{value: 75, unit: mm}, {value: 3, unit: in}]
        source: {document: guide, section: "3.3"}
        status: read
        jurisdiction: Somewhere
        note: or more
      lap-heard:
        limit: [{value: 80, unit: mm}]
        source: common practice, no source
        status: from memory
        confirmed_by: A. Example
        confirmed_on: 2026-03-04
  watch:
    name: watch
    direction: at least
    dimension: duration
    guards: the building
    severity: critical
    rules:
      watch-words:
        limit: null
        in_words: until fire is no longer possible
        source: {document: guide}
        status: secondary
      watch-hour:
        limit: [{value: 1, unit: h}]
        source: {document: guide}
        status: read
        follows: watch-words
profiles:
  base:
    name: base
    note: nothing but laps
    in_force: [lap-guide]
  here:
    name: here
    note: both watches
    based_on: base
    in_force: [watch-words, watch-hour]
"""


@pytest.fixture
def write(tmp_path):
    path = tmp_path / "rulebook.yaml"

    def written(old="", new=""):
        assert old in BOOK
        path.write_text(BOOK.replace(old, new, 1) if old else BOOK, "utf-8")
        return path

    return written


def said(path):
    """What loading says, without the folder."""
    with pytest.raises(PackError) as refused:
        load_rulebook(path)
    return [
        f"{problem.line}: {problem.where}: {problem.message}" for problem in refused.value.problems
    ]


def test_a_rule_comes_out_as_it_was_written(write):
    book = load_rulebook(write())
    rule = book.rule("lap-guide")
    assert rule.statements == (Statement(75, "mm"), Statement(3, "in"))
    assert rule.source == Source("Guide", "2020", "3.3")
    assert (rule.subject, rule.direction, rule.guards) == ("side-lap", "at least", "water")
    assert (rule.severity, rule.status, rule.jurisdiction) == ("quality", "read", "Somewhere")
    assert (rule.note, book.version) == ("or more", "3")
    heard = book.rule("lap-heard")
    assert heard.source == Source(COMMON_PRACTICE)
    assert (heard.confirmed_by, heard.confirmed_on) == ("A. Example", datetime.date(2026, 3, 4))
    assert heard.may_grade
    assert book.rule("watch-hour").follows == "watch-words"


def test_a_profile_stands_on_another_and_its_subjects_replace_whole(write):
    path = write("[watch-words, watch-hour]", "[watch-hour, lap-heard]")
    assert load_rulebook(path).profile("here").rules == {
        "side-lap": ("lap-heard",),
        "watch": ("watch-hour",),
    }
    assert load_rulebook(write()).profile().rules == {
        "side-lap": ("lap-guide",),
        "watch": ("watch-words", "watch-hour"),
    }


def test_the_book_is_read_again_only_when_its_file_changes(write):
    path = write()
    first = load_rulebook(path)
    assert load_rulebook(str(path)) is first
    write('version: "3"', 'version: "4"')
    os.utime(path, ns=(1, 1))
    assert load_rulebook(path).version == "4"


def test_a_book_that_is_not_there(tmp_path):
    with pytest.raises(TrainerError, match="cannot be read: no such file"):
        load_rulebook(tmp_path / "rulebook.yaml")


@pytest.mark.parametrize(
    ("old", "new", "complaint"),
    [
        (
            "value: 75, unit: mm",
            "value: 75, unit: cm",
            '14: subjects.side-lap.rules.lap-guide.limit[0].unit: got "cm"; '
            'allowed: "mm" or "m" or "in" or "ft"',
        ),
        (
            "value: 1, unit: h",
            "value: 1, unit: mm",
            '38: subjects.watch.rules.watch-hour.limit[0].unit: got "mm"; allowed: "min" or "h"',
        ),
        (
            "value: 75, unit: mm",
            "value: 98,5, unit: mm",
            "14: subjects.side-lap.rules.lap-guide.limit[0].value: got 98,5; "
            "allowed: a number with a point: 98.5",
        ),
        (
            "value: 75, unit: mm",
            'value: "98,5", unit: mm',
            '14: subjects.side-lap.rules.lap-guide.limit[0].value: got "98,5"; '
            "allowed: a number, with a point: 98.5",
        ),
        (
            "value: 3, unit: in",
            "value: 30, unit: in",
            "14: subjects.side-lap.rules.lap-guide.limit: got 75 mm and 30 in; "
            "allowed: the same limit in two units",
        ),
        (
            "value: 3, unit: in",
            "value: 76, unit: mm",
            "14: subjects.side-lap.rules.lap-guide.limit: got mm twice; "
            "allowed: one statement for each unit",
        ),
        (
            "limit: [{value: 80, unit: mm}]",
            "limit: 80 mm",
            '20: subjects.side-lap.rules.lap-heard.limit: got "80 mm"; '
            "allowed: null, or one or two statements {value, unit}",
        ),
        (
            "        in_words: until fire is no longer possible\n",
            "",
            "32: subjects.watch.rules.watch-words.in_words: missing; "
            "allowed: what the source asks for, as limit is null",
        ),
        (
            "{document: guide}",
            "{document: guid}",
            '35: subjects.watch.rules.watch-words.source.document: got "guid"; '
            "allowed: an id that this file defines (did you mean guide?)",
        ),
        (
            "source: common practice, no source",
            "source: common practise",
            '21: subjects.side-lap.rules.lap-heard.source: got "common practise"; '
            "allowed: {document, section} or common practice, no source",
        ),
        (
            "follows: watch-words",
            "follows: watch-word",
            '41: subjects.watch.rules.watch-hour.follows: got "watch-word"; '
            "allowed: an id that this file defines (did you mean watch-words?)",
        ),
        (
            "2026-03-04",
            "2026-02-30",
            '24: subjects.side-lap.rules.lap-heard.confirmed_on: got "2026-02-30"; '
            "allowed: a day of the calendar",
        ),
        (
            "        confirmed_by: A. Example\n",
            "",
            "19: subjects.side-lap.rules.lap-heard.confirmed_by: missing; "
            "allowed: a text, not empty",
        ),
        (
            "status: from memory",
            "status: memory",
            '22: subjects.side-lap.rules.lap-heard.status: got "memory"; '
            'allowed: "read" or "secondary" or "from memory"',
        ),
        (
            "      lap-heard:",
            "      Lap heard:",
            '19: subjects.side-lap.rules.Lap heard: got "Lap heard"; '
            "allowed: a name in small letters and digits, words joined by -",
        ),
        (
            "[lap-guide]",
            "[lap-gide]",
            '46: profiles.base.in_force[0]: got "lap-gide"; '
            "allowed: an id that this file defines (did you mean lap-guide?)",
        ),
        (
            "based_on: base",
            "based_on: here",
            "50: profiles.here.based_on: rests on itself; "
            "allowed: a profile that stands without it",
        ),
        (
            "default_profile: here",
            "default_profile: there",
            '2: default_profile: got "there"; '
            "allowed: an id that this file defines (did you mean here?)",
        ),
        (
            "status: secondary",
            "status: secondary\n        colour: red",
            "37: subjects.watch.rules.watch-words.colour: no such field; allowed: limit, source, "
            "status, in_words, jurisdiction, note, follows, confirmed_by, confirmed_on",
        ),
    ],
)
def test_what_is_wrong_is_named_with_line_value_and_what_is_allowed(write, old, new, complaint):
    assert said(write(old, new)) == [complaint]


def test_one_id_in_two_subjects(write):
    assert said(write("      watch-words:\n", "      lap-guide:\n"))[:2] == [
        '13: subjects.side-lap.rules.lap-guide: got "lap-guide" in two subjects; '
        "allowed: each rule id once",
        '32: subjects.watch.rules.lap-guide: got "lap-guide" in two subjects; '
        "allowed: each rule id once",
    ]


def test_a_field_given_twice(write):
    assert said(write("note: or more", "note: or more\n        status: secondary")) == [
        "19: subjects.side-lap.rules.lap-guide.status: given twice; allowed: each field once"
    ]


def test_form_and_sense_are_complained_about_together(write, tmp_path):
    path = write("unit: in", "unit: inch")
    text = path.read_text("utf-8").replace("value: 80", "value: 80,5").replace("status: read", "")
    path.write_text(text.replace("[lap-guide]", "[lap-gide]"), "utf-8")
    assert [line.split(":")[0] for line in said(path)] == ["13", "14", "20", "37", "46"]


@pytest.mark.parametrize(
    "whole", ["", "[]", "subjects: 3\nprofiles: []", "subjects: {a: {rules: 1}}"]
)
def test_a_file_of_quite_another_form(tmp_path, whole):
    path = tmp_path / "rulebook.yaml"
    path.write_text(whole, "utf-8")
    assert said(path)
