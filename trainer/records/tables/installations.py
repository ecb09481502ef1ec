"""Whole parapets: jobs made for this site, installations of jobs, and their decisions."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import BigInteger, CheckConstraint, ForeignKey, Index, String, text
from sqlalchemy.orm import Mapped, mapped_column

from trainer.records.tables.base import (
    Base,
    CanonicalJson,
    Id,
    Moment,
    PersonId,
    PublicId,
    UtcDateTime,
    one_of,
)

INSTALLATION_PURPOSES = ("practise", "prove")
JOB_SOURCES = ("pack", "site")
_STANDING = text("taken_back_at IS NULL")


class SiteJob(Base):
    """A job made on this site from a real wall; ``spec`` is what a job is drawn from.

    It is offered while it is handed out and not withdrawn: to one crew, or to everybody where
    ``crew_id`` is None.
    """

    __tablename__ = "site_jobs"
    __table_args__ = (
        Index(None, "crew_id", "handed_at", "withdrawn_at"),
        Index(None, "person_id", "made_at"),
    )

    id: Mapped[Id]
    public_id: Mapped[PublicId]
    person_id: Mapped[PersonId]
    crew_id: Mapped[int | None] = mapped_column(ForeignKey("crews.id"))
    name: Mapped[str] = mapped_column(String(120))
    version: Mapped[int]
    spec: Mapped[dict[str, Any]] = mapped_column(CanonicalJson)
    made_at: Mapped[Moment]
    handed_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    withdrawn_at: Mapped[datetime | None] = mapped_column(UtcDateTime)


class Installation(Base):
    """One person's way through a drawn job, with all that is needed to work it out again.

    ``job_text`` is the job as it was drawn and ``limits`` the rules as they were in force: a job
    or a rule that is changed later changes nothing here. ``outcome`` is there once it is closed,
    ``best`` once the best day was worked out.
    """

    __tablename__ = "installations"
    __table_args__ = (
        Index(None, "person_id", "job", "opened_at"),
        Index(None, "person_id", "opened_at"),
        CheckConstraint(one_of("purpose", INSTALLATION_PURPOSES), "purpose"),
        CheckConstraint(one_of("source", JOB_SOURCES), "source"),
    )

    id: Mapped[Id]
    public_id: Mapped[PublicId]
    person_id: Mapped[PersonId]
    purpose: Mapped[str] = mapped_column(String(16))
    source: Mapped[str] = mapped_column(String(8))
    job: Mapped[str] = mapped_column(String(64))
    job_version: Mapped[int]
    job_text: Mapped[dict[str, Any]] = mapped_column(CanonicalJson)
    seed: Mapped[int] = mapped_column(BigInteger)
    limits: Mapped[dict[str, Any]] = mapped_column(CanonicalJson)
    rulebook_version: Mapped[str] = mapped_column(String(32))
    profile: Mapped[str] = mapped_column(String(64))
    pack_digest: Mapped[str] = mapped_column(String(64))
    simulator_version: Mapped[int]
    opened_at: Mapped[Moment]
    closed_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    outcome: Mapped[dict[str, Any] | None] = mapped_column(CanonicalJson)
    best: Mapped[dict[str, Any] | None] = mapped_column(CanonicalJson)


class InstallationDecision(Base):
    """One decision of an installation, in the order they were taken. Never changed, but taken back.

    Of the decisions that stand, one has each ``number``; those taken back keep theirs.
    ``state_digest`` is the SHA-256 of the state it led to. ``key`` is made on the phone before
    sending, so a decision sent twice is taken once; so is ``taken_back_key``.
    """

    __tablename__ = "installation_decisions"
    __table_args__ = (
        Index(
            "ix_installation_decisions_standing",
            "installation_id",
            "number",
            unique=True,
            sqlite_where=_STANDING,
            postgresql_where=_STANDING,
        ),
        Index(None, "installation_id"),
    )

    id: Mapped[Id]
    installation_id: Mapped[int] = mapped_column(ForeignKey("installations.id"))
    number: Mapped[int]
    key: Mapped[str] = mapped_column(String(64), unique=True)
    decision: Mapped[dict[str, Any]] = mapped_column(CanonicalJson)
    state_digest: Mapped[str] = mapped_column(String(64))
    server_at: Mapped[Moment]
    phone_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    taken_back_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    taken_back_key: Mapped[str | None] = mapped_column(String(64), unique=True)
