"""How a person gets in: accounts, sessions on a device, and wrong tries at signing in."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKey, String
from sqlalchemy.orm import Mapped, mapped_column

from trainer.records.tables.base import Base, Id, Moment, UtcDateTime


class Account(Base):
    __tablename__ = "accounts"

    id: Mapped[Id]
    person_id: Mapped[int] = mapped_column(ForeignKey("people.id"), unique=True)
    sign_in_name: Mapped[str] = mapped_column(String(64), unique=True)
    password_hash: Mapped[str] = mapped_column(String(200))
    password_set_at: Mapped[Moment]
    must_change_password: Mapped[bool] = mapped_column(default=False)
    demo: Mapped[bool] = mapped_column(default=False)
    created_at: Mapped[Moment]
    disabled_at: Mapped[datetime | None] = mapped_column(UtcDateTime)


class SignInFailure(Base):
    """Wrong tries in a row at one sign-in name, whether or not anybody has that name.

    Kept by the digest of the name: people type passwords into the name field.
    """

    __tablename__ = "sign_in_failures"

    id: Mapped[Id]
    name_digest: Mapped[str] = mapped_column(String(64), unique=True)
    account_id: Mapped[int | None] = mapped_column(ForeignKey("accounts.id"))
    count: Mapped[int]
    last_at: Mapped[datetime] = mapped_column(UtcDateTime, index=True)
    locked_until: Mapped[datetime | None] = mapped_column(UtcDateTime)


class SignedInSession(Base):
    """One signed-in device. The cookie holds the random token, the row only its digest."""

    __tablename__ = "sessions"

    id: Mapped[Id]
    token_digest: Mapped[str] = mapped_column(String(64), unique=True)
    account_id: Mapped[int] = mapped_column(ForeignKey("accounts.id"), index=True)
    created_at: Mapped[Moment]
    last_seen_at: Mapped[Moment]
    expires_at: Mapped[datetime] = mapped_column(UtcDateTime, index=True)
    ended_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
