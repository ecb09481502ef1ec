"""Every stored mark, worked out again from what was stored with it."""

from __future__ import annotations

from collections.abc import Iterator

from sqlalchemy import func, select

from trainer.errors import TrainerError
from trainer.records.database import Session
from trainer.records.queries import attempts
from trainer.records.tables import Attempt
from trainer.services.attempts import differences
from trainer.services.parts import Parts
from trainer.services.scenarios import Library, library


def count(parts: Parts) -> int:
    """How many scenarios are stored."""
    with parts.database.reading() as session:
        return session.scalar(select(func.count()).select_from(Attempt)) or 0


def every(parts: Parts) -> Iterator[list[str]]:
    """For each stored scenario in order, what comes out differently now; an empty list is good."""
    with parts.database.reading() as session:
        shelf = library(session)
        for attempt in attempts.every_attempt(session):
            yield [
                f"scenario {attempt.public_id}: {text}" for text in _one(session, shelf, attempt)
            ]


def _one(session: Session, shelf: Library, attempt: Attempt) -> list[str]:
    try:
        return differences(shelf, attempt, attempts.answers_of(session, attempt.id))
    except TrainerError as error:  # the family or version is gone from the pack
        return [str(error)]
