"""How scenarios came out: attempts with the counts of their answers."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import Row, Select, case, distinct, func, select
from sqlalchemy.orm import Session

from trainer.records.tables import Answer, Attempt, AttemptSet


def _one_if(condition: Any) -> Any:
    return func.sum(case((condition, 1), else_=0))


def _counted() -> Select[Any]:
    """Attempts with answers, right and critical counts (None where nothing is answered)."""
    return (
        select(
            Attempt.id,
            Attempt.public_id,
            Attempt.unit,
            Attempt.family,
            Attempt.mode,
            Attempt.purpose,
            Attempt.opened_at,
            Attempt.closed_at,
            Attempt.set_id,
            AttemptSet.closed_at.label("set_closed_at"),
            func.count(Answer.id).label("answers"),
            _one_if(Answer.right).label("right"),
            _one_if(Answer.critical).label("critical"),
        )
        .outerjoin(Answer, Answer.attempt_id == Attempt.id)
        .outerjoin(AttemptSet, AttemptSet.id == Attempt.set_id)
        .group_by(Attempt.id, AttemptSet.closed_at)
    )


def of_person(
    session: Session, person_id: int, limit: int, before: datetime | None = None
) -> Sequence[Row[Any]]:
    """A person's attempts, newest first; ``before`` gives the next page."""
    wanted = _counted().where(Attempt.person_id == person_id)
    if before is not None:
        wanted = wanted.where(Attempt.opened_at < before)
    return session.execute(
        wanted.order_by(Attempt.opened_at.desc(), Attempt.id.desc()).limit(limit)
    ).all()


def of_set(session: Session, set_id: int) -> Sequence[Row[Any]]:
    """The attempts of a fixed form in order."""
    return session.execute(_counted().where(Attempt.set_id == set_id).order_by(Attempt.id)).all()


def practised_lately(session: Session, person_id: int, limit: int) -> Sequence[Row[Any]]:
    """The answered practice scenarios of a person, newest first."""
    wanted = _counted().where(Attempt.person_id == person_id, Attempt.purpose == "practise")
    return session.execute(
        wanted.having(func.count(Answer.id) > 0).order_by(Attempt.id.desc()).limit(limit)
    ).all()


def _totals(*group: Any) -> Select[Any]:
    return select(
        *group,
        func.count(distinct(Answer.attempt_id)).label("scenarios"),
        func.count().label("answers"),
        _one_if(Answer.right).label("right"),
        _one_if(Answer.critical).label("critical"),
        func.max(Answer.server_at).label("last_at"),
    ).group_by(*group)


def totals_by_unit(session: Session, person_id: int) -> Sequence[Row[Any]]:
    """Per unit: scenarios, answers, right, last_at."""
    return session.execute(_totals(Answer.unit).where(Answer.person_id == person_id)).all()


def totals_by_person(session: Session, person_ids: Sequence[int]) -> Sequence[Row[Any]]:
    """Per person: scenarios, answers, right, last_at."""
    return session.execute(_totals(Answer.person_id).where(Answer.person_id.in_(person_ids))).all()


def left_open(session: Session, person_id: int, purpose: str) -> Attempt | None:
    """The scenario opened last, if it is not finished."""
    newest = session.scalar(
        select(Attempt)
        .where(Attempt.person_id == person_id, Attempt.purpose == purpose)
        .order_by(Attempt.id.desc())
        .limit(1)
    )
    return newest if newest is not None and newest.closed_at is None else None


def set_left_open(session: Session, person_id: int, unit: str) -> AttemptSet | None:
    return session.scalar(
        select(AttemptSet)
        .where(
            AttemptSet.person_id == person_id,
            AttemptSet.unit == unit,
            AttemptSet.closed_at.is_(None),
        )
        .order_by(AttemptSet.id.desc())
        .limit(1)
    )
