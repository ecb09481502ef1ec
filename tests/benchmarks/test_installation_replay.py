"""Replay of stored installations: goal, a thousand cost ten times a hundred, not more.

Installations of one job with ten decisions each, worked out again with every digest compared.
Run with ``pytest tests/benchmarks/test_installation_replay.py --benchmark-enable -s``.
"""

from __future__ import annotations

import statistics
import time

import pytest
from sqlalchemy import insert, select

from trainer.installation.foreman import Way, advise
from trainer.records.tables import Installation, InstallationDecision
from trainer.services import rechecking
from trainer.services.installations import store

FEW, MANY, ROUNDS = 100, 1000, 3


@pytest.fixture
def one(parts, sign_in) -> str:
    ana = sign_in("ana")
    opened = store.open_installation(parts, ana, "straight-wall", seed=3)
    for number in range(10):
        standing = store.own(parts, ana, opened)
        decision = advise(standing.job, standing.limits, standing.state, Way())
        store.take(parts, ana, opened, number, decision, f"{number:032x}")
    return opened


def copied(parts, public_id: str, until: int) -> None:
    """The installation again and again, until there are so many."""
    with parts.database.writing() as session:
        row = session.execute(
            select(Installation.__table__).where(Installation.public_id == public_id)
        ).one()
        steps = session.execute(
            select(InstallationDecision.__table__).where(
                InstallationDecision.installation_id == row.id
            )
        ).all()
        for number in range(rechecking.installations.count(session), until):
            new = {**row._asdict(), "id": None, "public_id": f"copy-{number}"}
            made = session.execute(insert(Installation.__table__).values(**new))
            (copy_id,) = made.inserted_primary_key
            for step in steps:
                own = {"id": None, "installation_id": copy_id, "key": f"{step.key}-{number}"}
                session.execute(
                    insert(InstallationDecision.__table__).values(**{**step._asdict(), **own})
                )


def seconds(parts) -> float:
    began = time.process_time()
    assert not any(rechecking.every(parts))
    return time.process_time() - began


def test_replay(parts, one, report) -> None:
    copied(parts, one, FEW)
    few = statistics.median(seconds(parts) for _ in range(ROUNDS))
    copied(parts, one, MANY)
    many = statistics.median(seconds(parts) for _ in range(ROUNDS))
    assert rechecking.count(parts) == MANY
    report(thousand_to_hundred=many / few, one_ms=1e3 * many / MANY)
