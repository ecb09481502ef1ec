"""Opening a scenario and taking its answers: what is stored, and that it is stored once."""

from __future__ import annotations

import re
import secrets
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from trainer.engine.mark import Mark, mark
from trainer.engine.respond import read_response
from trainer.engine.solve import ENGINE_VERSION, Decision, Scenario
from trainer.errors import InputError
from trainer.records.database import IntegrityError, Session
from trainer.records.insert import insert_row
from trainer.records.queries import attempts
from trainer.records.queries.standing import close
from trainer.records.tables import Answer, Attempt, canonical
from trainer.services.parts import Parts
from trainer.services.permissions import require
from trainer.services.person import SignedIn
from trainer.services.refusals import Conflict
from trainer.services.scenarios import Library, language_of, units_of
from trainer.services.standing import Standing, own_standing

_KEY = re.compile(r"[A-Za-z0-9_-]{16,64}")
_SEEDS = 2**31


@dataclass(frozen=True)
class Taken:
    """An answer that is safely stored, now or when it was first sent."""

    attempt: str
    decision: str
    purpose: str
    unit: str
    done: bool
    set: str = ""
    """The fixed form the scenario belongs to, if any."""


def open_attempt(
    session: Session,
    parts: Parts,
    person: SignedIn,
    shelf: Library,
    family: str,
    *,
    mode: str = "",
    seed: int | None = None,
    purpose: str = "practise",
    set_id: int | None = None,
) -> Attempt:
    """Draw a scenario and put it before the person; the caller's transaction keeps it."""
    drawn = shelf.make(family, secrets.randbelow(_SEEDS) if seed is None else seed, mode)
    attempt = Attempt(
        person_id=person.id,
        set_id=set_id,
        purpose=purpose,
        unit=drawn.unit,
        family=drawn.family,
        family_version=drawn.version,
        rulebook_version=shelf.pack.book.version,
        profile=shelf.rules.profile,
        pack_digest=shelf.pack.digest,
        engine_version=ENGINE_VERSION,
        seed=drawn.seed,
        mode=drawn.mode,
        margin=drawn.margin,
        facts=drawn.facts,
        opened_at=parts.clock.now(),
    )
    session.add(attempt)
    session.flush()
    return attempt


def waiting(scenario: Scenario, answered: Collection[str]) -> Decision | None:
    """The first decision that is not among the ``answered``; None when all are made."""
    return next((d for d in scenario.decisions if d.id not in answered), None)


def answer(
    parts: Parts,
    person: SignedIn,
    attempt_id: str,
    decision_id: str,
    response: Mapping[str, Any],
    key: str,
    phone_at: str | None = None,
) -> Taken:
    """Mark and store one answer, once however often it is sent.

    ``key`` is made on the phone, 16 to 64 letters, digits, - or _; ``phone_at`` is its own clock in
    ISO 8601. Raises InputError for a response that cannot be taken, Conflict when another answer to
    this decision is there already or an earlier decision still waits, NotFound.
    """
    require(person, "scenario.play")
    if not _KEY.fullmatch(key):
        raise InputError("key", key, "16 to 64 letters, digits, - or _, new for each answer")
    sent = _Sent(decision_id, response, key, phone_at)
    standing = own_standing(parts, person, attempt_id)
    if _taken_before(standing, sent):
        return _taken(standing, decision_id, done=standing.attempt.closed_at is not None)
    # Marked before the turn to write is taken: answers are only ever added, so what this reading
    # allows stays allowed, and of two answers at the same moment the records keep one.
    made = _made(parts, person, standing.attempt, standing.shelf, standing.answers, sent)
    try:
        _store(parts, standing.attempt.id, made)
    except IntegrityError:
        return _overtaken(parts, person, attempt_id, sent)
    return _taken(standing, decision_id, done=made.last)


@dataclass(frozen=True)
class _Sent:
    """What came from the phone for one decision."""

    decision: str
    response: Mapping[str, Any]
    key: str
    phone_at: str | None = None


@dataclass(frozen=True)
class _Made:
    """A marked answer as its row, and whether it is the last one of its scenario."""

    row: dict[str, Any]
    last: bool


def _store(parts: Parts, attempt_id: int, made: _Made) -> None:
    with parts.database.writing() as session:
        insert_row(session, Answer, **made.row)
        if made.last:
            close(session, attempt_id, parts.clock.now())


def _overtaken(parts: Parts, person: SignedIn, attempt_id: str, sent: _Sent) -> Taken:
    """The same answer, or another to the same decision, was stored since we looked."""
    standing = own_standing(parts, person, attempt_id)
    if _taken_before(standing, sent):
        return _taken(standing, sent.decision, done=standing.attempt.closed_at is not None)
    with parts.database.reading() as session:
        if attempts.answer_with_key(session, sent.key):
            raise _sent_before()
    raise _answered_already()


def _taken(standing: Standing, decision_id: str, *, done: bool) -> Taken:
    attempt = standing.attempt
    form = standing.place.set
    return Taken(attempt.public_id, decision_id, attempt.purpose, attempt.unit, done, form)


def take(
    session: Session,
    parts: Parts,
    person: SignedIn,
    attempt: Attempt,
    shelf: Library,
    decision_id: str,
    response: Mapping[str, Any],
    key: str,
    phone_at: str | None = None,
) -> Answer:
    """Mark and add one answer in the caller's transaction; the last one closes the attempt."""
    sent = _Sent(decision_id, response, key, phone_at)
    answers = attempts.answers_of(session, attempt.id)
    made = _made(parts, person, attempt, shelf, answers, sent)
    answer = Answer(**made.row)
    session.add(answer)
    session.flush()
    if made.last:
        attempt.closed_at = parts.clock.now()
    return answer


def _taken_before(standing: Standing, sent: _Sent) -> bool:
    before = standing.answered_with(sent.key)
    if before not in (None, sent.decision):
        raise _sent_before()
    return before is not None


def _sent_before() -> Conflict:
    return Conflict("This answer was sent before, to something else.", "Answer again.")


def _answered_already() -> Conflict:
    return Conflict("You have answered this already.", "Your first answer stands.")


def _next_decision(scenario: Scenario, answered: Collection[str], decision_id: str) -> Decision:
    decision = scenario.decision(decision_id)
    if decision_id in answered:
        raise _answered_already()
    current = waiting(scenario, answered)
    if current is not None and current.id != decision_id:
        raise Conflict("Another decision comes first.", "Go back to the scenario.")
    return decision


def _made(
    parts: Parts,
    person: SignedIn,
    attempt: Any,
    shelf: Library,
    answers: Iterable[Any],
    sent: _Sent,
) -> _Made:
    """The answer marked. ``attempt`` and ``answers``: rows or objects, as they are at hand."""
    scenario = shelf.of(attempt)
    answered = {answer.decision for answer in answers}
    decision = _next_decision(scenario, answered, sent.decision)
    read = read_response(decision, sent.response, units_of(person))
    family = shelf.pack.family(attempt.family, attempt.family_version)
    made = mark(family, scenario, sent.decision, read)
    last = waiting(scenario, answered | {sent.decision}) is None
    return _Made(_row(parts, person, attempt, sent, read, made), last)


def _row(
    parts: Parts,
    person: SignedIn,
    attempt: Any,
    sent: _Sent,
    response: Mapping[str, Any],
    made: Mark,
) -> dict[str, Any]:
    return {
        "key": sent.key,
        "attempt_id": attempt.id,
        "person_id": person.id,
        "unit": attempt.unit,
        "family": attempt.family,
        "decision": sent.decision,
        "response": dict(response),
        "right": made.right,
        "critical": made.critical,
        "score": made.score,
        "misconception": made.misconception or None,
        "mark": made.plain(),
        "server_at": parts.clock.now(),
        "phone_at": _moment(sent.phone_at),
        "language": language_of(person),
        "length_unit": person.length_unit,
        "temperature_unit": person.temperature_unit,
    }


def _moment(text: str | None) -> datetime | None:
    """The phone's clock, where it makes sense; a strange one is no reason to lose an answer."""
    try:
        moment = datetime.fromisoformat(text or "")
        return moment.astimezone(UTC) if moment.tzinfo else None
    except (ValueError, OverflowError):
        return None


def stored_mark(answer: Answer) -> Mark:
    """The mark as it was stored."""
    return Mark(**answer.mark)


def differences(shelf: Library, attempt: Attempt, answers: Sequence[Answer]) -> list[str]:
    """What comes out differently when a stored attempt is worked out again; empty when nothing.

    Rules of a site may have changed since; then the drawn values differ and say so.
    """
    scenario = shelf.of(attempt)
    found = []
    if canonical(scenario.facts) != canonical(attempt.facts):
        changed = [k for k, v in scenario.facts.items() if attempt.facts.get(k) != v]
        found.append(f"drawn values differ: {', '.join(changed) or 'fewer than stored'}")
    family = shelf.pack.family(attempt.family, attempt.family_version)
    for answer in answers:
        again = mark(family, scenario, answer.decision, answer.response)
        if canonical(again.plain()) != canonical(answer.mark):
            found.append(f"decision {answer.decision}: stored {answer.mark}, now {again.plain()}")
        if (again.right, again.critical) != (answer.right, answer.critical):
            found.append(f"decision {answer.decision}: right or critical changed")
    return found
