"""Installations for tests: opened, played by the book for a few decisions, looked at."""

from __future__ import annotations

from trainer.installation.foreman import Way, advise
from trainer.services.installations import store

JOB = "straight-wall"


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
