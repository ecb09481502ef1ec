"""Opening a scenario and taking its answers: what is stored, and that it is stored once."""

from __future__ import annotations

import re
import secrets
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from trainer.engine.mark import Mark, mark
from trainer.engine.respond import read_response
from trainer.engine.solve import ENGINE_VERSION, Decision, Scenario
from trainer.errors import InputError
from trainer.records.database import Session
from trainer.records.queries import attempts, outcomes
from trainer.records.tables import Answer, Attempt, canonical
from trainer.services.parts import Parts
from trainer.services.permissions import require
from trainer.services.person import SignedIn
from trainer.services.refusals import Conflict, NotFound
from trainer.services.scenarios import Library, language_of, library, units_of

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


def own_attempt(session: Session, person: SignedIn, public_id: str) -> Attempt:
    """The person's own attempt. Raises NotFound for any other: nobody learns that it exists."""
    found = attempts.attempt(session, public_id)
    if found is None or found.person_id != person.id:
        raise NotFound("scenario")
    return found


def waiting(scenario: Scenario, answers: Sequence[Answer]) -> Decision | None:
    """The first decision without an answer; None when all are made."""
    answered = {answer.decision for answer in answers}
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
    with parts.database.writing() as session:
        attempt = own_attempt(session, person, attempt_id)
        if not _taken_before(session, attempt, key, decision_id):
            shelf = library(session)
            take(session, parts, person, attempt, shelf, decision_id, response, key, phone_at)
        form = outcomes.set_of(session, attempt)
        done = attempt.closed_at is not None
    belongs = form.public_id if form else ""
    return Taken(attempt_id, decision_id, attempt.purpose, attempt.unit, done, belongs)


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
    scenario = shelf.of(attempt)
    answers = attempts.answers_of(session, attempt.id)
    decision = _next_decision(scenario, answers, decision_id)
    read = read_response(decision, response, units_of(person))
    family = shelf.pack.family(attempt.family, attempt.family_version)
    made = mark(family, scenario, decision_id, read)
    answer = _answer(parts, person, attempt, decision_id, read, made, key, phone_at)
    session.add(answer)
    session.flush()
    if waiting(scenario, [*answers, answer]) is None:
        attempt.closed_at = parts.clock.now()
    return answer


def _taken_before(session: Session, attempt: Attempt, key: str, decision_id: str) -> bool:
    same = attempts.answer_with_key(session, key)
    if same is not None and (same.attempt_id, same.decision) != (attempt.id, decision_id):
        raise Conflict("This answer was sent before, to something else.", "Answer again.")
    return same is not None


def _next_decision(scenario: Scenario, answers: Sequence[Answer], decision_id: str) -> Decision:
    decision = scenario.decision(decision_id)
    if any(answer.decision == decision_id for answer in answers):
        raise Conflict("You have answered this already.", "Your first answer stands.")
    current = waiting(scenario, answers)
    if current is not None and current.id != decision_id:
        raise Conflict("Another decision comes first.", "Go back to the scenario.")
    return decision


def _answer(
    parts: Parts,
    person: SignedIn,
    attempt: Attempt,
    decision_id: str,
    response: Mapping[str, Any],
    made: Mark,
    key: str,
    phone_at: str | None,
) -> Answer:
    return Answer(
        key=key,
        attempt_id=attempt.id,
        person_id=person.id,
        unit=attempt.unit,
        family=attempt.family,
        decision=decision_id,
        response=dict(response),
        right=made.right,
        critical=made.critical,
        score=made.score,
        misconception=made.misconception or None,
        mark=made.plain(),
        server_at=parts.clock.now(),
        phone_at=_moment(phone_at),
        language=language_of(person),
        length_unit=person.length_unit,
        temperature_unit=person.temperature_unit,
    )


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
