"""How one attempt stands, for its page and its answers: one statement, plain columns."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, bindparam, func, select, update
from sqlalchemy.orm import Session

from trainer.records.queries.prepared import Question
from trainer.records.tables import Answer, Attempt, AttemptSet, Site, SiteRule

_STANDING = Question(
    select(
        Attempt.id,
        Attempt.public_id,
        Attempt.purpose,
        Attempt.unit,
        Attempt.family,
        Attempt.family_version,
        Attempt.profile,
        Attempt.seed,
        Attempt.mode,
        Attempt.closed_at,
        Attempt.set_id,
        AttemptSet.public_id.label("set"),
        AttemptSet.forms,
        AttemptSet.closed_at.label("set_closed_at"),
        Answer.key,
        Answer.decision,
        Answer.response,
        Answer.right,
        Answer.critical,
        Answer.mark,
        select(Site.profile).order_by(Site.id).limit(1).scalar_subquery().label("site_profile"),
        select(func.max(SiteRule.id)).scalar_subquery().label("newest_site_rule"),
    )
    .outerjoin(AttemptSet, AttemptSet.id == Attempt.set_id)
    .outerjoin(Answer, Answer.attempt_id == Attempt.id)
    .where(Attempt.public_id == bindparam("public_id"), Attempt.person_id == bindparam("person_id"))
    .order_by(Answer.id)
)
_CLOSE = (
    update(Attempt.__table__)  # type: ignore[arg-type]
    .where(Attempt.id == bindparam("attempt_id"))
    .values(closed_at=bindparam("at"))
)


def standing(connection: Connection, person_id: int, public_id: str) -> Sequence[Any]:
    """The person's attempt with its form and each answer in the order they were taken.

    Every row repeats the attempt, and which site rules are in force: ``site_profile`` and
    ``newest_site_rule``, for site rules are only ever added. One row with ``decision`` None
    where nothing is answered; none where the person has no such attempt.
    """
    given = {"public_id": public_id, "person_id": person_id}
    return _STANDING.ask(connection, given)


def place_in_set(connection: Connection, set_id: int, attempt_id: int) -> int:
    """Which attempt of its form it is, counted from 1 in the order they were opened."""
    before = select(func.count()).where(Attempt.set_id == set_id, Attempt.id <= attempt_id)
    return connection.execute(before).scalar_one()


def close(session: Session, attempt_id: int, at: datetime) -> None:
    session.connection().execute(_CLOSE, {"attempt_id": attempt_id, "at": at})
