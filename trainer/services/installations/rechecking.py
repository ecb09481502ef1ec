"""Every stored installation, worked out again from its job, its limits and its decisions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from trainer.errors import TrainerError
from trainer.installation.run import decide
from trainer.installation.state import State, begin
from trainer.records.database import Session
from trainer.records.queries import installations as queries
from trainer.records.tables import Installation, canonical
from trainer.services.installations.replaying import Drawn, digest, drawn_from, outcome_of


def count(session: Session) -> int:
    """How many installations are stored."""
    return queries.count(session)


def every(session: Session) -> Iterator[list[str]]:
    """For each stored installation in order, what comes out differently now; empty is good."""
    for row in queries.every(session):
        rows = queries.decisions(session.connection(), row.id)
        yield [f"installation {row.public_id}: {text}" for text in differences(row, rows)]


def differences(row: Installation, steps: Sequence[Any]) -> list[str]:
    """What comes out differently when an installation is worked out again; empty when nothing.

    ``steps``: all its decisions in the order they were taken, those taken back too: each is taken
    again from the state it was taken in.
    """
    try:
        drawn = drawn_from(row.job_text, row.limits)
    except TrainerError as error:
        return [f"its job cannot be read: {error}"]
    found: list[str] = []
    last = _again(drawn, steps, found)
    if last is not None:
        found += _outcome_differences(row, drawn, last)
    return found


def _again(drawn: Drawn, steps: Sequence[Any], found: list[str]) -> State | None:
    """The last state that stands; None where the rest cannot be worked out."""
    standing = [begin(drawn.job)]
    for step in steps:
        if not 0 < step.number <= len(standing):
            found.append(f"decision {step.number}: a decision before it is missing")
            return None
        try:
            state = decide(drawn.job, drawn.limits, standing[step.number - 1], step.decision)
        except TrainerError as error:
            found.append(f"decision {step.number}: was taken, now refused: {error}")
            return None
        if digest(state) != step.state_digest:
            found.append(f"decision {step.number}: leads to another state than stored")
        standing[step.number :] = [state]
    kept = max((step.number for step in steps if step.taken_back_at is None), default=0)
    return standing[kept]


def _outcome_differences(row: Installation, drawn: Drawn, last: State) -> Iterator[str]:
    if (row.closed_at is None) != (last.ended is None):
        yield "stored as closed, now not at its end" if row.closed_at else "now at its end, open"
        return
    now = outcome_of(drawn.job, last) if last.ended is not None else None
    if canonical(now) != canonical(row.outcome):
        yield f"outcome: stored {canonical(row.outcome)}, now {canonical(now)}"
