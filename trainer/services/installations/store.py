"""Taking decisions and taking them back: what is stored, and that it is stored once."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from trainer.errors import InputError
from trainer.installation.run import Ended, decide
from trainer.installation.state import State
from trainer.records.database import IntegrityError, Session
from trainer.records.insert import insert_row
from trainer.records.queries import installations as queries
from trainer.records.tables import InstallationDecision
from trainer.services.installations.opening import open_installation
from trainer.services.installations.replaying import digest, keep_state, outcome_of
from trainer.services.installations.standing import Standing, others, own, standing_of
from trainer.services.parts import Parts
from trainer.services.permissions import require
from trainer.services.person import SignedIn
from trainer.services.refusals import Conflict

__all__ = [
    "Standing",
    "Taken",
    "open_installation",
    "others",
    "own",
    "standing_of",
    "take",
    "take_back",
]

_KEY = re.compile(r"[A-Za-z0-9_-]{16,64}")


@dataclass(frozen=True)
class Taken:
    """A decision that is safely stored, or taken back, now or when it was first sent.

    ``number`` is how many decisions stand after it; ``ended``: it was the last of all.
    """

    public_id: str
    number: int
    ended: bool


def take(
    parts: Parts,
    person: SignedIn,
    public_id: str,
    number: int,
    decision: Mapping[str, Any],
    key: str,
    phone_at: str | None = None,
) -> Taken:
    """Take one decision and store it, once however often it is sent.

    ``number`` is how many decisions the sender's page showed; ``key`` is made on the phone, 16 to
    64 letters, digits, - or _; ``phone_at`` is its own clock in ISO 8601. The decision that ends
    the installation closes it. Raises InputError for a decision that cannot be read, Impossible
    where nature does not allow it, Ended when it is over, Conflict from an old page, NotFound.
    """
    standing = _checked(parts, person, public_id, key)
    if (before := _taken_before(standing, key)) is not None:
        return before
    _refuse_old_page(standing, number)
    # Worked out before the turn to write is taken; that nothing came between is seen in its turn.
    state = decide(standing.job, standing.limits, standing.state, decision)
    row = {
        "installation_id": standing.row.id,
        "number": state.n,
        "key": key,
        "decision": dict(decision),
        "state_digest": digest(state),
        "server_at": parts.clock.now(),
        "phone_at": _moment(phone_at),
    }
    if not _stored(parts, standing, row, state):
        return _overtaken(parts, _taken_before(own(parts, person, public_id), key), key)
    keep_state(public_id, row["state_digest"], state)
    return Taken(public_id, state.n, state.ended is not None)


def take_back(parts: Parts, person: SignedIn, public_id: str, number: int, key: str) -> Taken:
    """Take the last decision back: it is marked so, never deleted, and once however often sent.

    Only while practising and before the end. Raises Conflict from an old page, when there is
    nothing to take back and when proving, Ended, InputError, NotFound.
    """
    standing = _checked(parts, person, public_id, key)
    if standing.purpose == "prove":
        raise Conflict("Nothing is taken back while you prove.", "Go on from here.")
    if (before := _taken_back_before(standing, key)) is not None:
        return before
    _refuse_old_page(standing, number)
    if standing.ended:
        raise Ended("This installation is over.")
    if not standing.standing_steps:
        raise Conflict("Nothing has been decided yet.", "There is nothing to take back.")
    if not _stored_back(parts, standing, key):
        return _overtaken(parts, _taken_back_before(own(parts, person, public_id), key), key)
    return Taken(public_id, number - 1, False)


def _checked(parts: Parts, person: SignedIn, public_id: str, key: str) -> Standing:
    require(person, "installation.play")
    if not isinstance(key, str) or not _KEY.fullmatch(key):
        raise InputError("key", key, "16 to 64 letters, digits, - or _, new for each decision")
    return own(parts, person, public_id)


def _taken_before(standing: Standing, key: str) -> Taken | None:
    """What came of this very decision when it was first sent, if it was."""
    step = next((step for step in standing.steps if step.key == key), None)
    if step is None:
        return None
    last = step.taken_back_at is None and step.number == standing.number
    return Taken(standing.row.public_id, step.number, last and standing.ended)


def _taken_back_before(standing: Standing, key: str) -> Taken | None:
    step = next((step for step in standing.steps if step.taken_back_key == key), None)
    return step and Taken(standing.row.public_id, step.number - 1, False)


def _refuse_old_page(standing: Standing, number: int) -> None:
    if number != standing.number:
        raise _old_page()


def _old_page() -> Conflict:
    return Conflict(
        "This page was old: something was decided in another tab.", "Look at how it stands now."
    )


def _stored(parts: Parts, standing: Standing, row: dict[str, Any], state: State) -> bool:
    """Store a decision, and the end with it; False when something came between."""
    try:
        with parts.database.writing() as session:
            if not _still_last(session, standing):
                return False
            insert_row(session, InstallationDecision, **row)
            if state.ended is not None:
                outcome = outcome_of(standing.job, state)
                queries.close(session, standing.row.id, row["server_at"], outcome)
    except IntegrityError:
        return False
    return True


def _stored_back(parts: Parts, standing: Standing, key: str) -> bool:
    try:
        with parts.database.writing() as session:
            if not _still_last(session, standing):
                return False
            last = standing.standing_steps[-1].id
            queries.take_back(session, last, key, parts.clock.now())
    except IntegrityError:
        return False
    return True


def _still_last(session: Session, standing: Standing) -> bool:
    steps = standing.standing_steps
    return queries.last_decision(session, standing.row.id) == (steps[-1].id if steps else 0)


def _overtaken(parts: Parts, before: Taken | None, key: str) -> Taken:
    """The same decision, or another one, was stored since we looked."""
    if before is not None:
        return before
    with parts.database.reading() as session:
        if queries.key_used(session, key):
            raise Conflict("This decision was sent before, to something else.", "Decide again.")
    raise _old_page()


def _moment(text: str | None) -> datetime | None:
    """The phone's clock, where it makes sense; a strange one is no reason to lose a decision."""
    try:
        moment = datetime.fromisoformat(text or "")
        return moment.astimezone(UTC) if moment.tzinfo else None
    except (ValueError, OverflowError):
        return None
