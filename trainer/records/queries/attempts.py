"""Questions about lessons read, scenarios opened and decisions answered."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from sqlalchemy import Row, bindparam, func, select
from sqlalchemy.orm import Session

from trainer.records.tables import Answer, Attempt, AttemptSet, LessonReading

_AT_A_TIME = 500

# asked on every answer, so built once: building a statement costs more than running it
_ATTEMPT = select(Attempt).where(Attempt.public_id == bindparam("public_id"))
_WITH_KEY = select(Answer).where(Answer.key == bindparam("key"))
_ANSWERS = select(Answer).where(Answer.attempt_id == bindparam("attempt")).order_by(Answer.id)


def attempt(session: Session, public_id: str) -> Attempt | None:
    return session.scalar(_ATTEMPT, {"public_id": public_id})


def attempt_set(session: Session, public_id: str) -> AttemptSet | None:
    return session.scalar(select(AttemptSet).where(AttemptSet.public_id == public_id))


def attempts_of_set(session: Session, set_id: int) -> Sequence[Attempt]:
    """The attempts of one set in the order they were opened."""
    return session.scalars(
        select(Attempt).where(Attempt.set_id == set_id).order_by(Attempt.id)
    ).all()


def answer_with_key(session: Session, key: str) -> Answer | None:
    """The answer the outbox sent under this key, if it was taken already."""
    return session.scalar(_WITH_KEY, {"key": key})


def answers_of(session: Session, attempt_id: int) -> Sequence[Answer]:
    """The answers of one attempt in the order they were taken."""
    return session.scalars(_ANSWERS, {"attempt": attempt_id}).all()


def latest_answers(session: Session, person_id: int, unit: str, limit: int) -> Sequence[Row[Any]]:
    """Newest first: family, right, critical, score, misconception, server_at.

    Read from the covering index ``ix_answers_latest`` alone.
    """
    return session.execute(
        select(
            Answer.family,
            Answer.right,
            Answer.critical,
            Answer.score,
            Answer.misconception,
            Answer.server_at,
        )
        .where(Answer.person_id == person_id, Answer.unit == unit)
        .order_by(Answer.server_at.desc())
        .limit(limit)
    ).all()


def latest_readings(session: Session, person_id: int) -> Sequence[Row[Any]]:
    """Per unit: unit and when its lesson was last read."""
    return session.execute(
        select(LessonReading.unit, func.max(LessonReading.read_at))
        .where(LessonReading.person_id == person_id)
        .group_by(LessonReading.unit)
    ).all()


def every_attempt(session: Session, purpose: str | None = None) -> Iterator[Attempt]:
    """All attempts in order of opening, a few hundred in memory at a time."""
    wanted = select(Attempt).order_by(Attempt.id)
    if purpose is not None:
        wanted = wanted.where(Attempt.purpose == purpose)
    yield from session.scalars(wanted.execution_options(yield_per=_AT_A_TIME))
