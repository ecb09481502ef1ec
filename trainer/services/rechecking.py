"""Every stored mark and installation, worked out again from what was stored with it."""

from __future__ import annotations

from collections.abc import Iterator

from sqlalchemy import func, select

from trainer.errors import TrainerError
from trainer.records.database import Session
from trainer.records.queries import attempts
from trainer.records.tables import Attempt
from trainer.services.attempts import differences
from trainer.services.installations import rechecking as installations
from trainer.services.parts import Parts
from trainer.services.scenarios import Library, library


def count(parts: Parts) -> int:
    """How many scenarios and installations are stored."""
    with parts.database.reading() as session:
        scenarios = session.scalar(select(func.count()).select_from(Attempt)) or 0
        return scenarios + installations.count(session)


def every(parts: Parts) -> Iterator[list[str]]:
    """For each stored scenario, then each installation, what comes out differently now.

    An empty list is good.
    """
    with parts.database.reading() as session:
        shelf = library(session)
        for attempt in attempts.every_attempt(session):
            yield [
                f"scenario {attempt.public_id}: {text}" for text in _one(session, shelf, attempt)
            ]
        yield from installations.every(session)


def _one(session: Session, shelf: Library, attempt: Attempt) -> list[str]:
    try:
        return differences(shelf, attempt, attempts.answers_of(session, attempt.id))
    except TrainerError as error:  # the family or version is gone from the pack
        return [str(error)]
