"""What the files of the pack say of each other: every name in one known to the other."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from trainer.engine.solve import lacking
from trainer.engine.spec import Family
from trainer.pack.content import Example, Lesson, Unit
from trainer.pack.families import Terms
from trainer.pack.jobs import JobSpec
from trainer.pack.positions import Document, Problem
from trainer.pack.yaml_values import Steps
from trainer.roofing.rulebook import RuleBook

Made = TypeVar("Made")


@dataclass(frozen=True)
class Read(Generic[Made]):
    """What a file says, and the file, so that a problem can name the line."""

    document: Document
    made: Made

    def problem(self, steps: Steps, message: str) -> Problem:
        return self.document.problem(steps, message)


@dataclass(frozen=True)
class Files:
    """Everything in the pack; None where a file could not be read, which has its own problems."""

    book: RuleBook | None
    units: Read[tuple[Unit, ...]] | None
    terms: Read[Terms] | None
    misconceptions: Read[Mapping[str, Mapping[str, str]]] | None
    families: tuple[Read[Family], ...]
    lessons: tuple[Read[Lesson], ...]
    jobs: tuple[Read[JobSpec], ...] = ()
    unread: frozenset[str] = frozenset()
    """Names of families whose files have problems: that they are missing is no news."""


def disagreements(files: Files) -> Iterator[Problem]:
    """Every name in one file that another should know, every thing that is there twice."""
    yield from missing_languages(files)
    if files.units:
        yield from _twice_in_one(files.units)
    if files.terms:
        yield from _languages(files.terms, "terms")
    if files.misconceptions:
        yield from _languages(files.misconceptions, "words")
    for family in files.families:
        yield from _family(family, files)
    yield from _versions(files.families)
    yield from _versions(files.jobs)
    for lesson in files.lessons:
        yield from _lesson(lesson, files)
    yield from _lessons_of_one_unit(files.lessons)


def missing_languages(files: Files) -> Iterator[Problem]:
    """Whoever chose a language reads all of the pack in it: what one file speaks, all speak."""
    speak = list(_speaking(files))
    first: dict[str, str] = {}
    for read, _, languages in speak:
        for language in languages:
            first.setdefault(language, read.document.file)
    for read, steps, languages in speak:
        for language in first.keys() - languages:
            message = f'the language "{language}" is missing here; {first[language]} has it'
            yield read.problem(steps, message)


def _speaking(files: Files) -> Iterator[tuple[Read[Any], Steps, Collection[str]]]:
    """Every file, where its languages stand, and which it speaks."""
    if files.terms:
        yield files.terms, ("terms",), files.terms.made
    if files.misconceptions:
        yield files.misconceptions, ("words",), files.misconceptions.made
    for place, unit in enumerate(files.units.made if files.units else ()):
        assert files.units
        yield files.units, ("units", place, "words"), unit.words
    for family in files.families:
        yield family, ("words",), family.made.words
    for lesson in files.lessons:
        yield lesson, ("words",), lesson.made.words
    for job in files.jobs:
        yield job, ("title",), job.made.title
        yield job, ("brief",), job.made.brief


def _twice_in_one(units: Read[tuple[Unit, ...]]) -> Iterator[Problem]:
    seen: set[str] = set()
    for place, unit in enumerate(units.made):
        if unit.id in seen:
            yield units.problem(("units", place, "id"), f"there are two units {unit.id}")
        seen.add(unit.id)


def _languages(read: Read[Any], field: str) -> Iterator[Problem]:
    """Every language has the words that English has, and no more."""
    english = _keys(read.made["en"])
    for language, words in read.made.items():
        for missing in sorted(english - _keys(words)):
            yield read.problem((field, language, *missing[:-1]), f"{missing[-1]} is missing here")
        for more in sorted(_keys(words) - english):
            yield read.problem((field, language, *more), 'the words in "en" do not have it')


def _keys(words: Mapping[str, Any], way: Steps = ()) -> set[Steps]:
    found: set[Steps] = set()
    for key, part in words.items():
        here = (*way, key)
        found |= _keys(part, here) if isinstance(part, Mapping) else {here}
    return found


def _family(family: Read[Family], files: Files) -> Iterator[Problem]:
    made = family.made
    yield from _unit(family, made.unit, files)
    if files.misconceptions:
        yield from _misconceptions(family, files.misconceptions)
    if files.book:
        profile = files.book.in_force()
        for subject in lacking(made, profile):
            name = next(name for name, known in made.rules.items() if known == subject)
            message = f"no rule on {subject} that may mark anybody is in force in the profile"
            yield family.problem(("rules", name), f"{message} {profile.profile}")


def _misconceptions(
    family: Read[Family], misconceptions: Read[Mapping[str, Mapping[str, str]]]
) -> Iterator[Problem]:
    known, file = misconceptions.made["en"], misconceptions.document.file
    for place, decision in enumerate(family.made.decisions):
        for row, option in enumerate(decision.options):
            name = option.misconception
            if name and name not in known:
                steps = ("decisions", place, "options", row, "misconception")
                yield family.problem(steps, f"there is no misconception {name} in {file}")


def _unit(read: Read[Any], unit: str, files: Files) -> Iterator[Problem]:
    if files.units and unit not in [known.id for known in files.units.made]:
        message = f"there is no unit {unit} in {files.units.document.file}"
        yield read.problem(("unit",), message)


def _versions(reads: Collection[Read[Family]] | Collection[Read[JobSpec]]) -> Iterator[Problem]:
    seen: dict[tuple[str, int], str] = {}
    for read in reads:
        key = (read.made.id, read.made.version)
        if key in seen:
            message = f"version {key[1]} of {key[0]} stands in {seen[key]} too"
            yield read.problem(("version",), message)
        seen.setdefault(key, read.document.file)


def _lesson(lesson: Read[Lesson], files: Files) -> Iterator[Problem]:
    yield from _unit(lesson, lesson.made.unit, files)
    for place, subject in enumerate(lesson.made.rules):
        if files.book and subject not in files.book.subjects:
            yield lesson.problem(("rules", place), f'the rule book has no subject "{subject}"')
    for language, words in lesson.made.words.items():
        for place, section in enumerate(words.sections):
            if section.example and (reason := _odd_example(section.example, files)):
                steps = ("words", language, "sections", place, "example")
                yield lesson.problem(steps, reason)


def _odd_example(example: Example, files: Files) -> str:
    """Why an example shows nothing; empty when it does."""
    named = [read.made for read in files.families if read.made.id == example.family]
    if example.family in files.unread:
        return ""
    if not named:
        return f"there is no family {example.family}"
    newest = max(named, key=lambda family: family.version)
    if example.mode not in newest.modes:
        return f"the family {newest.id} has no mode {example.mode}"
    if example.decision not in [decision.id for decision in newest.decisions]:
        return f"the family {newest.id} has no decision {example.decision}"
    return ""


def _lessons_of_one_unit(lessons: Collection[Read[Lesson]]) -> Iterator[Problem]:
    seen: dict[str, str] = {}
    for lesson in lessons:
        unit = lesson.made.unit
        if unit in seen:
            yield lesson.problem(("unit",), f"the lesson of {unit} stands in {seen[unit]}")
        seen.setdefault(unit, lesson.document.file)
