"""Installations for tests: opened, played by the book for a few decisions, looked at."""

from __future__ import annotations

import pytest
from sqlalchemy import func, select

from trainer.installation.foreman import Way, advise
from trainer.records.tables import Installation
from trainer.services.installations import store

JOB = "straight-wall"
WAIT = {"do": "wait", "minutes": 5}
LOOK = {"do": "look", "who": "dana", "wall": "A"}


def key(number: int) -> str:
    return f"{number:032x}"


def next_by_the_book(standing: store.Standing):
    return advise(standing.job, standing.limits, standing.state, Way())


def decide_by_the_book(parts, person, public_id: str, how_many: int = 2000) -> store.Standing:
    """Take so many decisions of a good foreman, or all up to the end; how it stands then."""
    standing = store.own(parts, person, public_id)
    for _ in range(how_many):
        if standing.ended:
            break
        sent = key(10_000 * standing.row.id + len(standing.steps) + 1)
        decision = next_by_the_book(standing)
        store.take(parts, person, public_id, standing.number, decision, sent)
        standing = store.own(parts, person, public_id)
    return standing


@pytest.fixture
def ana(sign_in):
    return sign_in("ana", crew="North")


@pytest.fixture
def opened(parts, ana) -> str:
    return store.open_installation(parts, ana, JOB, seed=3)


@pytest.fixture
def proving(parts, ana) -> str:
    return store.open_installation(parts, ana, JOB, purpose="prove", seed=3)


def row_of(parts, public_id: str) -> Installation:
    with parts.database.reading() as session:
        return session.scalars(
            select(Installation).where(Installation.public_id == public_id)
        ).one()


def count(parts, table) -> int:
    with parts.database.reading() as session:
        return session.scalar(select(func.count()).select_from(table))
