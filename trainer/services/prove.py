"""Prove, for now a fixed form that is practice: scenarios without help, nothing said until the end.

It never counts as evidence. What comes out says so wherever it is shown.
"""

from __future__ import annotations

import secrets
from collections.abc import Sequence
from typing import Any

from trainer.records.database import Session
from trainer.records.queries import attempts, outcomes
from trainer.records.tables import AttemptSet
from trainer.services.attempts import open_attempt
from trainer.services.pages import ProveResult, ProveStart, RecordLine, Row
from trainer.services.parts import Parts
from trainer.services.permissions import require
from trainer.services.person import SignedIn
from trainer.services.recordbook import line_of
from trainer.services.refusals import NotFound, NothingToDraw
from trainer.services.scenarios import Library, language_of, library
from trainer.services.sentences import site_zone
from trainer.services.speech import speaker

SCENARIOS = 4
_MINUTES = 10


def prove_start(parts: Parts, person: SignedIn, unit_id: str) -> ProveStart:
    """What the form is, before it begins. Raises InputError, NotAllowed."""
    require(person, "scenario.play")
    with parts.database.reading() as session:
        shelf = library(session)
        waiting = outcomes.set_left_open(session, person.id, unit_id)
    return ProveStart(
        unit=unit_id,
        unit_name=shelf.pack.unit(unit_id).words_in(language_of(person)).name,
        scenarios=SCENARIOS,
        minutes=_MINUTES,
        notice=_notice(person),
        open_set=waiting.public_id if waiting else "",
    )


def _notice(person: SignedIn) -> str:
    return speaker(language_of(person))(
        "This is practice. It shows you how proving will feel; it never counts as evidence and"
        " nobody is signed off by it."
    )


def prove_open(parts: Parts, person: SignedIn, unit_id: str) -> str:
    """Begin a form, or go on with the one left open; its public id."""
    require(person, "scenario.play")
    with parts.database.writing() as session:
        shelf = library(session)
        shelf.pack.unit(unit_id)
        waiting = outcomes.set_left_open(session, person.id, unit_id)
        if waiting is not None:
            return waiting.public_id
        form = AttemptSet(
            person_id=person.id,
            unit=unit_id,
            forms=_cells(shelf, unit_id),
            opened_at=parts.clock.now(),
        )
        session.add(form)
        session.flush()
        return form.public_id


def _cells(shelf: Library, unit_id: str) -> list[Any]:
    """The cells of the form in drawn order, none twice before every one was used."""
    families = shelf.families_to_prove(unit_id)
    every = [[family.id, mode] for family in families for mode in family.modes]
    if not every:
        raise NothingToDraw(shelf.rules.profile)
    drawn: list[Any] = []
    while len(drawn) < SCENARIOS:
        left = [cell for cell in every if drawn.count(cell) == min(map(drawn.count, every))]
        drawn.append(secrets.choice(left))
    return drawn


def prove_next(parts: Parts, person: SignedIn, set_id: str) -> str | None:
    """The scenario of the form that waits; None when the form is done."""
    require(person, "scenario.play")
    with parts.database.writing() as session:
        form = _own_set(session, person, set_id)
        opened = attempts.attempts_of_set(session, form.id)
        waiting = next((a for a in opened if a.closed_at is None), None)
        if waiting is not None:
            return waiting.public_id
        if len(opened) == len(form.forms):
            form.closed_at = form.closed_at or parts.clock.now()
            return None
        family, mode = form.forms[len(opened)]
        attempt = open_attempt(
            session, parts, person, library(session), family,
            mode=mode, purpose="prove-practice", set_id=form.id,
        )  # fmt: skip
        return attempt.public_id


def _own_set(session: Session, person: SignedIn, set_id: str) -> AttemptSet:
    form = attempts.attempt_set(session, set_id)
    if form is None or form.person_id != person.id:
        raise NotFound("form")
    return form


def prove_result(parts: Parts, person: SignedIn, set_id: str) -> ProveResult:
    """What came out, in words. Raises NotFound while the form is open."""
    require(person, "scenario.view_own_history")
    with parts.database.reading() as session:
        form = _own_set(session, person, set_id)
        if form.closed_at is None:
            raise NotFound("result yet; the form is not finished")
        shelf, zone = library(session), site_zone(session)
        rows = outcomes.of_set(session, form.id)
    lines = tuple(line_of(shelf, person, row, zone) for row in rows)
    unit = shelf.pack.unit(form.unit).words_in(language_of(person)).name
    return ProveResult(
        set=set_id,
        unit=form.unit,
        unit_name=unit,
        finding=_finding(lines, person),
        lines=lines,
        notice=_notice(person),
        practise_next=(Row(form.unit, unit),) if any(n.right < n.of for n in lines) else (),
    )


def _finding(lines: Sequence[RecordLine], person: SignedIn) -> str:
    say = speaker(language_of(person))
    critical = sum(line.critical for line in lines)
    if critical:
        return say(
            "Not yet: a decision here could have hurt somebody. Go through it below, then practise."
        )
    if all(line.right == line.of for line in lines):
        return say("Every decision was right.")
    return say("Not every decision was right. What to look at again stands below.")
