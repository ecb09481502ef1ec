"""My record: what a worker has read and practised, and how it came out."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any
from zoneinfo import ZoneInfo

from trainer.errors import InputError
from trainer.records.database import Session
from trainer.records.queries import attempts, outcomes, people, workers
from trainer.records.tables import Person
from trainer.services import learning
from trainer.services.installations import on_record
from trainer.services.pages import (
    PersonLine,
    RecordLine,
    RecordPage,
    RecordUnit,
    ScenarioPage,
    UnitPage,
)
from trainer.services.parts import Parts
from trainer.services.permissions import Scope, require, require_for, scope
from trainer.services.person import SignedIn
from trainer.services.refusals import NotAllowed, NotFound
from trainer.services.scenario_pages import read_page
from trainer.services.scenarios import Library, language_of, library
from trainer.services.sentences import days_ago, site_zone
from trainer.services.speech import speaker

_PAGE = 30
_LOOKS_BACK = 40
_OFTEN = 2


def my_record(parts: Parts, person: SignedIn, before: str | None = None) -> RecordPage:
    """The signed-in person's own record; ``before`` (ISO 8601) gives the next page."""
    require(person, "scenario.view_own_history")
    with parts.database.reading() as session:
        page = _record(session, parts, person, person.id, person.public_id, person.name, before)
        shelf = library(session)
    return _with_installations(parts, person, person.id, page, shelf)


def record_of(
    parts: Parts, person: SignedIn, person_id: str, before: str | None = None
) -> RecordPage:
    """Somebody's record, for who may see it. Raises NotFound, NotAllowed."""
    with parts.database.reading() as session:
        whose = _person(session, person, person_id)
        require_for(session, parts.clock, person, "scenario.view_others_history", whose.id)
        page = _record(session, parts, person, whose.id, whose.public_id, whose.name, before)
        shelf = library(session)
    return _with_installations(parts, person, whose.id, page, shelf)


def _with_installations(
    parts: Parts, reader: SignedIn, person_id: int, page: RecordPage, shelf: Library
) -> RecordPage:
    """The record with what whole installations show of each unit; they are worked out again."""
    shown = on_record.by_unit(parts, reader, person_id, shelf)
    units = tuple(replace(unit, installed=shown.get(unit.unit, ())) for unit in page.units)
    return replace(page, units=units)


def scenario_of(
    parts: Parts, person: SignedIn, person_id: str, attempt_id: str
) -> tuple[str, ScenarioPage]:
    """Whose it is, and one of their scenarios as they answered it, for who may see their record.

    Raises NotFound, NotAllowed.
    """
    with parts.database.reading() as session:
        whose = _person(session, person, person_id)
        require_for(session, parts.clock, person, "scenario.view_others_history", whose.id)
    return whose.name, read_page(parts, person, whose.id, attempt_id)


def _person(session: Session, person: SignedIn, person_id: str) -> Person:
    if scope(person, "scenario.view_others_history") == Scope.NONE:
        raise NotAllowed("scenario.view_others_history")
    found = people.person(session, person_id)
    if found is None:
        raise NotFound("person")
    return found


def _record(
    session: Session,
    parts: Parts,
    reader: SignedIn,
    person_id: int,
    public_id: str,
    name: str,
    before: str | None,
) -> RecordPage:
    shelf, zone = library(session), site_zone(session)
    rows = outcomes.of_person(session, person_id, _PAGE + 1, _moment(before))
    units = learning.unit_pages(session, parts, shelf, reader, person_id)
    language = language_of(reader)
    since = rows[_PAGE - 1].opened_at if len(rows) > _PAGE else None
    installed = on_record.finished(session, person_id, _moment(before), since)
    return RecordPage(
        person=name,
        person_id=public_id,
        crew=workers.crew_of(session, person_id, parts.clock.now()) or "",
        units=tuple(_unit(session, shelf, unit, person_id, language) for unit in units),
        lines=tuple(line_of(shelf, reader, row, zone) for row in rows[:_PAGE]),
        installed=on_record.lines(session, shelf, reader, installed, zone),
        more=len(rows) > _PAGE,
        notice=speaker(language)(
            "It shows what somebody decided on a screen, not that they are competent: nobody is"
            " signed off by it. A named person decides that, under local rules."
        ),
    )


def _moment(before: str | None) -> datetime | None:
    if not before:
        return None
    try:
        moment = datetime.fromisoformat(before)
    except ValueError:
        raise InputError("before", before, "a moment such as 2026-03-01T07:00:00+00:00") from None
    return moment if moment.tzinfo else moment.replace(tzinfo=UTC)


def _unit(
    session: Session, shelf: Library, unit: UnitPage, person_id: int, language: str
) -> RecordUnit:
    say = speaker(language)
    lesson = say("lesson read") if unit.lesson_read else say("lesson not read yet")
    practice = f"{unit.standing}, {unit.last}" if unit.last else unit.standing
    return RecordUnit(
        unit=unit.id,
        name=unit.name,
        lesson=lesson,
        practice=practice,
        watch=_what_goes_wrong(session, shelf, person_id, unit.id, language),
    )


def _what_goes_wrong(
    session: Session, shelf: Library, person_id: int, unit: str, language: str
) -> str:
    """The misconceptions that came up more than once lately, in words."""
    rows = attempts.latest_answers(session, person_id, unit, _LOOKS_BACK)
    counted = Counter(row.misconception for row in rows if row.misconception and not row.right)
    named = [
        shelf.pack.misconception(name, language)
        for name, times in counted.most_common(2)
        if times >= _OFTEN
    ]
    said = "; ".join(filter(None, named))
    heading = speaker(language)("Went wrong more than once: %(what)s.")
    return heading % {"what": said} if said else ""


def line_of(shelf: Library, reader: SignedIn, row: Any, zone: ZoneInfo) -> RecordLine:
    """One attempt as a line: when, which scenario, how it came out.

    Nothing is said of a scenario whose fixed form is not finished.
    """
    say = speaker(language_of(reader))
    family = shelf.pack.families.get(row.family)
    told = row.set_id is None or row.set_closed_at is not None
    return RecordLine(
        when=row.opened_at.astimezone(zone).strftime("%Y-%m-%d %H:%M"),
        what=family.words_in(language_of(reader)).title if family else row.family,
        outcome=_outcome(row, say) if told else say("kept until the form is finished"),
        right=(row.right or 0) if told else 0,
        of=(row.answers or 0) if told else 0,
        critical=bool(row.critical) and told,
        attempt=row.public_id,
        at=row.opened_at.isoformat(),
        purpose=row.purpose,
    )


def _outcome(row: Any, say: Any) -> str:
    if not row.answers:
        return say("opened, not answered")
    counts = {"right": row.right, "of": row.answers}
    said = say("%(right)d of %(of)d right") % counts
    if row.critical:
        said += "; " + say("one decision could have hurt somebody")
    if row.closed_at is None:
        said += "; " + say("not finished")
    return said


def people_list(parts: Parts, person: SignedIn, text: str = "") -> tuple[PersonLine, ...]:
    """The workers whose record this person may see, by name; ``text`` in name or crew."""
    reach = scope(person, "scenario.view_others_history")
    if reach == Scope.NONE:
        raise NotAllowed("scenario.view_others_history")
    say = speaker(language_of(person))
    now = parts.clock.now()
    with parts.database.reading() as session:
        zone = site_zone(session)
        rows = workers.listed(session, now, text, None if reach == Scope.ALL else person.id)
        totals = {t.person_id: t for t in outcomes.totals_by_person(session, [r.id for r in rows])}
    return tuple(_person_line(row, totals.get(row.id), now, zone, say) for row in rows)


def _person_line(row: Any, done: Any, now: datetime, zone: ZoneInfo, say: Any) -> PersonLine:
    if done is None:
        return PersonLine(row.public_id, row.name, row.crew or "", say("nothing practised yet"), "")
    counts = {"right": done.right, "answers": done.answers}
    summary = say("%(right)d of %(answers)d decisions right") % counts
    if done.critical:
        hurt = say("could have hurt somebody: %(n)d") % {"n": done.critical}
        summary = f"{summary}; {hurt}"
    last = days_ago(done.last_at, now, say, zone)
    return PersonLine(row.public_id, row.name, row.crew or "", summary, last)
