"""Signing in and out. The device keeps a random token; the records decide what it is worth."""

from __future__ import annotations

import hashlib
import secrets
import unicodedata
from collections.abc import Sequence
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import Row

from trainer.records.database import Session
from trainer.records.insert import insert_row
from trainer.records.queries import accounts as queries
from trainer.records.tables import Account, SignedInSession, SignInFailure
from trainer.services.parts import Parts
from trainer.services.person import SignedIn
from trainer.services.refusals import DatabaseBusy, SignInRefused

_FREE_TRIES = 5
_FIRST_WAIT = timedelta(seconds=30)
_LONGEST_WAIT = timedelta(minutes=15)
_BLOCKED_AFTER = 100  # NIST SP 800-63B-4, 3.2.2: no more failures in a row than this
_STRANGERS_KEPT = timedelta(days=1)
_ENDED_KEPT = timedelta(days=30)
_CLEAR_EVERY = 64
_TOUCH_EVERY = timedelta(minutes=5)


def plain_name(sign_in_name: str) -> str:
    """A sign-in name as it is kept: without case, blanks around it, or ways of writing letters."""
    return unicodedata.normalize("NFKC", sign_in_name).strip().casefold()


def sign_in(parts: Parts, sign_in_name: str, password: str) -> str:
    """Open a session and return its token.

    Raises SignInRefused for a wrong name or password and while earlier wrong tries count,
    TooManyAtOnce when too many people sign in at this moment.
    """
    account_id, kept, failed = _verified(parts, plain_name(sign_in_name), password)
    better = parts.passwords.hash(password) if parts.passwords.outdated(kept) else None
    return _open(parts, account_id, better, failed)


def confirm(parts: Parts, person: SignedIn, password: str) -> None:
    """Make sure that the person who is signed in is still the one at the device.

    Raises like ``sign_in``; wrong tries count there too.
    """
    with parts.database.reading() as session:
        name = session.get_one(Account, person.account_id).sign_in_name
    _verified(parts, name, password)


def signed_in(parts: Parts, token: str) -> SignedIn | None:
    """The person whose session this token opens, or None when it opens none (any more)."""
    now = parts.clock.now()
    seen_after = now - parts.session_limits.idle
    with parts.database.asking() as connection:
        rows = queries.open_session(connection, _digest(token), now, seen_after)
    if not rows:
        return None
    if now - rows[0].last_seen_at > _TOUCH_EVERY:
        _touch(parts, rows[0].session_id, now)
    return _person(rows)


def sign_out(parts: Parts, token: str) -> None:
    """End the session of this token; an unknown or ended one is no error."""
    with parts.database.writing() as session:
        queries.end_session(session, _digest(token), parts.clock.now())


def _verified(parts: Parts, name: str, password: str) -> tuple[int, str, bool]:
    """The account's id, its kept password, and whether wrong tries went before.

    Raises SignInRefused unless name and password belong together.
    """
    account_id, kept, failed = _checked_before(parts, name)
    right = parts.passwords.verify(kept, password)
    if account_id is None or kept is None or not right:
        raise _refusal(parts, name, account_id)
    return account_id, kept, failed


def _checked_before(parts: Parts, name: str) -> tuple[int | None, str | None, bool]:
    """As ``_verified``, before the password is known; two None when nobody may use that name."""
    with parts.database.reading() as session:
        failure = queries.failure(session, _digest(name))
        account = queries.account_named(session, name)
    if failure is not None:
        _raise_while_locked(failure, parts.clock.now())
    if account is None or account.disabled_at is not None:
        return None, None, False
    return account.id, account.password_hash, failure is not None


def _raise_while_locked(failure: SignInFailure, now: datetime) -> None:
    if failure.count >= _BLOCKED_AFTER:
        raise SignInRefused(blocked=True)
    if failure.locked_until is not None and failure.locked_until > now:
        raise SignInRefused(until=failure.locked_until)


def _refusal(parts: Parts, name: str, account_id: int | None) -> SignInRefused:
    """Count one more wrong try at this name, and say from when the next is taken."""
    now = parts.clock.now()
    with parts.database.writing() as session:
        failure = queries.failure(session, _digest(name)) or _first_failure(session, name)
        failure.account_id = account_id
        failure.count += 1
        failure.last_at = now
        failure.locked_until = until = _locked_until(failure.count, now)
        blocked = failure.count >= _BLOCKED_AFTER
        queries.forget_strangers(session, before=now - _STRANGERS_KEPT)
    return SignInRefused(until, blocked)


def _first_failure(session: Session, name: str) -> SignInFailure:
    failure = SignInFailure(name_digest=_digest(name), count=0)
    session.add(failure)
    return failure


def _locked_until(count: int, now: datetime) -> datetime | None:
    """The first tries are free; then each doubles the wait, up to the longest."""
    if count < _FREE_TRIES:
        return None
    doublings = min(count - _FREE_TRIES, 16)
    return now + min(_FIRST_WAIT * 2**doublings, _LONGEST_WAIT)


def _open(parts: Parts, account_id: int, better_hash: str | None, failed: bool) -> str:
    token, now = secrets.token_urlsafe(32), parts.clock.now()
    with parts.database.writing() as session:
        if better_hash:
            session.get_one(Account, account_id).password_hash = better_hash
        if failed:
            queries.forget_failures(session, account_id)
        opened = insert_row(
            session,
            SignedInSession,
            token_digest=_digest(token),
            account_id=account_id,
            created_at=now,
            last_seen_at=now,
            expires_at=now + parts.session_limits.longest,
        )
        if opened % _CLEAR_EVERY == 0:
            queries.forget_sessions(session, expired_before=now - _ENDED_KEPT)
    return token


def _touch(parts: Parts, session_id: int, now: datetime) -> None:
    try:
        with parts.database.writing() as session:
            queries.touch_session(session, session_id, now)
    except DatabaseBusy:
        pass  # the next request will do it; this one must not fail for it


def _person(rows: Sequence[Row[Any]]) -> SignedIn:
    first = rows[0]
    return SignedIn(
        id=first.person_id,
        public_id=first.public_id,
        name=first.name,
        language=first.language,
        length_unit=first.length_unit,
        temperature_unit=first.temperature_unit,
        ground=first.ground,
        roles=frozenset(row.role for row in rows if row.role),
        account_id=first.account_id,
        session_id=first.session_id,
        must_change_password=first.must_change_password,
        sign_in_name=first.sign_in_name,
    )


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()
