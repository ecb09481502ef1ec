"""What people did: lessons read, scenarios opened, decisions answered."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import BigInteger, CheckConstraint, ForeignKey, Index, String, UniqueConstraint
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
from trainer.records.tables.people import LENGTH_UNITS

PURPOSES = ("learn", "practise", "prove-practice")


class LessonReading(Base):
    __tablename__ = "lesson_readings"
    __table_args__ = (Index(None, "person_id", "unit", "read_at", "lesson_version"),)

    id: Mapped[Id]
    person_id: Mapped[PersonId]
    unit: Mapped[str] = mapped_column(String(64))
    lesson_version: Mapped[str] = mapped_column(String(32))
    read_at: Mapped[Moment]


class AttemptSet(Base):
    """A fixed run of scenarios worked without help; ``forms`` says which, in order."""

    __tablename__ = "attempt_sets"
    __table_args__ = (Index(None, "person_id", "unit", "opened_at"),)

    id: Mapped[Id]
    public_id: Mapped[PublicId]
    person_id: Mapped[PersonId]
    unit: Mapped[str] = mapped_column(String(64))
    forms: Mapped[list[Any]] = mapped_column(CanonicalJson)
    opened_at: Mapped[Moment]
    closed_at: Mapped[datetime | None] = mapped_column(UtcDateTime)


class Attempt(Base):
    """One scenario put before one person, with all that is needed to work it out again."""

    __tablename__ = "attempts"
    __table_args__ = (
        Index("ix_attempts_latest", "person_id", "unit", "opened_at", "family", "purpose"),
        Index(None, "person_id", "opened_at"),
        CheckConstraint(one_of("purpose", PURPOSES), "purpose"),
    )

    id: Mapped[Id]
    public_id: Mapped[PublicId]
    person_id: Mapped[PersonId]
    set_id: Mapped[int | None] = mapped_column(ForeignKey("attempt_sets.id"), index=True)
    purpose: Mapped[str] = mapped_column(String(16))
    unit: Mapped[str] = mapped_column(String(64))
    family: Mapped[str] = mapped_column(String(64))
    family_version: Mapped[int]
    rulebook_version: Mapped[str] = mapped_column(String(32))
    profile: Mapped[str] = mapped_column(String(64))
    pack_digest: Mapped[str] = mapped_column(String(64))
    engine_version: Mapped[int]
    seed: Mapped[int] = mapped_column(BigInteger)
    mode: Mapped[str] = mapped_column(String(64))
    margin: Mapped[float | None]
    facts: Mapped[dict[str, Any]] = mapped_column(CanonicalJson)
    opened_at: Mapped[Moment]
    closed_at: Mapped[datetime | None] = mapped_column(UtcDateTime)


class Answer(Base):
    """One decision answered: the response, its mark, and both clocks. Never changed.

    ``key`` is made on the phone before sending, so an answer sent twice is taken once.
    Person, unit and family repeat the attempt's, for the index that finds the latest answers.
    """

    __tablename__ = "answers"
    __table_args__ = (
        UniqueConstraint("attempt_id", "decision"),
        Index(
            "ix_answers_latest",
            "person_id",
            "unit",
            "server_at",
            "family",
            "right",
            "critical",
            "score",
            "misconception",
        ),
        CheckConstraint(one_of("length_unit", LENGTH_UNITS), "length_unit"),
    )

    id: Mapped[Id]
    key: Mapped[str] = mapped_column(String(64), unique=True)
    attempt_id: Mapped[int] = mapped_column(ForeignKey("attempts.id"))
    person_id: Mapped[PersonId]
    unit: Mapped[str] = mapped_column(String(64))
    family: Mapped[str] = mapped_column(String(64))
    decision: Mapped[str] = mapped_column(String(64))
    response: Mapped[Any] = mapped_column(CanonicalJson)
    right: Mapped[bool]
    critical: Mapped[bool]
    score: Mapped[float]
    misconception: Mapped[str | None] = mapped_column(String(80))
    mark: Mapped[dict[str, Any]] = mapped_column(CanonicalJson)
    server_at: Mapped[Moment]
    phone_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    language: Mapped[str] = mapped_column(String(16))
    length_unit: Mapped[str] = mapped_column(String(2))
    temperature_unit: Mapped[str] = mapped_column(String(1))
