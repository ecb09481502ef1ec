"""Learn: the units, and the lesson of each with its worked examples."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from trainer.engine.mark import mark
from trainer.engine.solve import Decision
from trainer.pack.content import Example, Lesson, Section
from trainer.records.database import Session
from trainer.records.queries import attempts, outcomes
from trainer.records.tables import LessonReading
from trainer.services.pages import LessonPage, LessonSection, UnitPage
from trainer.services.parts import Parts
from trainer.services.permissions import require
from trainer.services.person import SignedIn
from trainer.services.refusals import NotFound
from trainer.services.scenarios import Library, figure_of, language_of, library, units_of
from trainer.services.sentences import days_ago, practice_sentence, site_zone
from trainer.services.speech import speaker


def units(parts: Parts, person: SignedIn) -> tuple[UnitPage, ...]:
    """The units with what this person has done in each."""
    with parts.database.reading() as session:
        return unit_pages(session, parts, library(session), person)


def unit_pages(
    session: Session,
    parts: Parts,
    shelf: Library,
    person: SignedIn,
    whose: int | None = None,
) -> tuple[UnitPage, ...]:
    """The units, told to ``person``, with what person ``whose`` (row id) has done in them."""
    worker = person.id if whose is None else whose
    read = {row[0]: row[1] for row in attempts.latest_readings(session, worker)}
    done = {row.unit: row for row in outcomes.totals_by_unit(session, worker)}
    now = parts.clock.now().astimezone(site_zone(session))
    return tuple(
        _unit_page(shelf, person, unit_id, read, done.get(unit_id), now)
        for unit_id in shelf.pack.units
    )


def _unit_page(
    shelf: Library,
    person: SignedIn,
    unit_id: str,
    read: Mapping[str, datetime],
    done: Any,
    now: datetime,
) -> UnitPage:
    unit = shelf.pack.units[unit_id]
    words = unit.words_in(language_of(person))
    say = speaker(language_of(person))
    return UnitPage(
        id=unit.id,
        name=words.name,
        able_to=words.able_to,
        place=unit.place,
        severity=unit.severity,
        lesson_read=unit_id in read,
        practised=done.scenarios if done else 0,
        last=days_ago(done.last_at, now, say, now.tzinfo or UTC) if done else "",
        standing=practice_sentence(done, language_of(person)),
        caution=words.caution,
    )


def lesson(parts: Parts, person: SignedIn, unit_id: str) -> LessonPage:
    """The lesson of a unit. Raises NotFound when there is none."""
    with parts.database.reading() as session:
        shelf = library(session)
    found = shelf.pack.lessons.get(unit_id)
    if found is None:
        raise NotFound("lesson")
    return _lesson_page(shelf, person, found)


def _lesson_page(shelf: Library, person: SignedIn, found: Lesson) -> LessonPage:
    language = language_of(person)
    words = found.words_in(language)
    return LessonPage(
        unit=found.unit,
        unit_name=shelf.pack.unit(found.unit).words_in(language).name,
        title=words.title,
        minutes=found.minutes,
        sections=tuple(
            _section(shelf, person, section, f"example-{place}")
            for place, section in enumerate(words.sections)
        ),
        rules=shelf.sentences(found.rules, units_of(person)),
    )


def _section(shelf: Library, person: SignedIn, section: Section, name: str) -> LessonSection:
    plain = LessonSection(section.heading, section.text, caution=section.caution)
    example = section.example
    can_draw = example and shelf.draws(shelf.pack.family(example.family))
    return _worked(shelf, person, example, name, plain) if example and can_draw else plain


def _worked(
    shelf: Library, person: SignedIn, example: Example, name: str, section: LessonSection
) -> LessonSection:
    """The section with a scenario in which one decision is solved: drawing, answer and sum."""
    scenario = shelf.make(example.family, example.seed, example.mode)
    telling = shelf.telling(scenario, person)
    decision = scenario.decision(example.decision)
    response = right_response(decision)
    told = telling.explain(
        decision, response, mark(telling.family, scenario, decision.id, response)
    )
    return replace(
        section,
        figure=figure_of(telling, answered=(decision.id,), name=name),
        sums=told.sums,
        situation=telling.situation,
        question=telling.prompt(decision),
        answer=(telling.correct(decision), *_reason(told.because, person)),
    )


def _reason(because: tuple[str, ...], person: SignedIn) -> tuple[str, ...]:
    say = speaker(language_of(person))
    return (say("Because %(reason)s") % {"reason": " ".join(because)},) if because else ()


def right_response(decision: Decision) -> dict[str, Any]:
    """A response that the decision marks as right."""
    answer = decision.answer
    if decision.kind == "find":
        return {"rows": list(answer)}
    if decision.kind == "order":
        return {"order": list(answer)}
    if decision.kind == "measure":
        return {"value": answer}
    if decision.kind == "time":
        return {"minute": answer}
    if decision.kind == "go_stop":
        return {"row": "go" if answer["go"] else answer["grounds"][0]}
    return {"row": answer}


def mark_read(parts: Parts, person: SignedIn, unit_id: str) -> None:
    """Note that the lesson was read to its end. Raises NotFound."""
    require(person, "scenario.play")
    with parts.database.writing() as session:
        found = library(session).pack.lessons.get(unit_id)
        if found is None:
            raise NotFound("lesson")
        session.add(
            LessonReading(
                person_id=person.id,
                unit=unit_id,
                lesson_version=str(found.version),
                read_at=parts.clock.now(),
            )
        )
