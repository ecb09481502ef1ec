"""Questions about accounts, sessions and wrong tries."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, and_, bindparam, delete, select, update
from sqlalchemy.orm import Session

from trainer.records.queries.people import in_force
from trainer.records.queries.prepared import Question
from trainer.records.tables import Account, Person, RoleGrant, SignedInSession, SignInFailure

# runs on every request: columns only
_OPEN_SESSION = (
    select(
        SignedInSession.id.label("session_id"),
        SignedInSession.last_seen_at,
        Account.id.label("account_id"),
        Account.sign_in_name,
        Account.must_change_password,
        Person.id.label("person_id"),
        Person.public_id,
        Person.name,
        Person.language,
        Person.length_unit,
        Person.temperature_unit,
        Person.ground,
        RoleGrant.role,
    )
    .select_from(SignedInSession)
    .join(Account, SignedInSession.account_id == Account.id)
    .join(Person, Account.person_id == Person.id)
    .outerjoin(
        RoleGrant, and_(RoleGrant.person_id == Person.id, in_force(RoleGrant, bindparam("at")))
    )
    .where(
        SignedInSession.token_digest == bindparam("token_digest"),
        SignedInSession.ended_at.is_(None),
        SignedInSession.expires_at > bindparam("at"),
        SignedInSession.last_seen_at > bindparam("seen_after"),
        Account.disabled_at.is_(None),
    )
)
_WHO_ASKS = Question(_OPEN_SESSION)


def account_named(session: Session, sign_in_name: str) -> Account | None:
    return session.scalar(select(Account).where(Account.sign_in_name == sign_in_name))


def failure(session: Session, name_digest: str) -> SignInFailure | None:
    return session.scalar(select(SignInFailure).where(SignInFailure.name_digest == name_digest))


def forget_failures(session: Session, account_id: int) -> None:
    session.execute(delete(SignInFailure).where(SignInFailure.account_id == account_id))


def forget_strangers(session: Session, before: datetime) -> None:
    """Drop wrong tries at names nobody has, when the last is older than ``before``."""
    session.execute(
        delete(SignInFailure).where(
            SignInFailure.last_at < before, SignInFailure.account_id.is_(None)
        )
    )


def forget_sessions(session: Session, expired_before: datetime) -> None:
    session.execute(delete(SignedInSession).where(SignedInSession.expires_at < expired_before))


def open_session(
    connection: Connection, token_digest: str, at: datetime, seen_after: datetime
) -> Sequence[Any]:
    """The session with this token, its account and person: one row for each role held.

    Empty when the session is unknown, ended, expired, last seen before ``seen_after``, or when
    its account is disabled.
    """
    given = {"token_digest": token_digest, "at": at, "seen_after": seen_after}
    return _WHO_ASKS.ask(connection, given)


def touch_session(session: Session, session_id: int, at: datetime) -> None:
    session.execute(
        update(SignedInSession).where(SignedInSession.id == session_id).values(last_seen_at=at)
    )


def end_session(session: Session, token_digest: str, at: datetime) -> None:
    session.execute(
        update(SignedInSession)
        .where(SignedInSession.token_digest == token_digest, SignedInSession.ended_at.is_(None))
        .values(ended_at=at)
    )


def end_sessions(session: Session, account_id: int, at: datetime, but: int | None = None) -> None:
    """End every session of the account, ``but`` the one with that id."""
    session.execute(
        update(SignedInSession)
        .where(
            SignedInSession.account_id == account_id,
            SignedInSession.ended_at.is_(None),
            SignedInSession.id != (but or 0),
        )
        .values(ended_at=at)
    )


def demo_accounts(session: Session) -> Sequence[Row[Any]]:
    """Name, sign-in name and role of every demo account, in order of making."""
    return session.execute(
        select(Person.name, Account.sign_in_name, RoleGrant.role)
        .join(Account, Account.person_id == Person.id)
        .join(RoleGrant, RoleGrant.person_id == Person.id)
        .where(Account.demo.is_(True), Account.disabled_at.is_(None))
        .order_by(Account.id, RoleGrant.id)
    ).all()
