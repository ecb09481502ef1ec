"""How an installation stands: its row, its job, the decisions, and the state they led to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from trainer.installation.job import Job
from trainer.installation.limits import Limits
from trainer.installation.state import Decision, State
from trainer.records.queries import installations as queries
from trainer.services.installations.replaying import (
    drawn_from,
    keep_drawn,
    kept_drawn,
    state_after,
)
from trainer.services.parts import Parts
from trainer.services.permissions import require_for
from trainer.services.person import SignedIn
from trainer.services.refusals import NotFound
from trainer.services.scenarios import Library, library_of


@dataclass(frozen=True)
class Standing:
    """How an installation stands. ``row`` has the columns of its table but for the drawn job.

    ``steps`` are all rows of decisions in the order they were taken, those taken back too.
    ``state`` is kept for others: it is never changed. ``shelf``: the rules in force today, for
    their words; what counts here are ``limits``.
    """

    row: Any
    job: Job
    limits: Limits
    state: State
    steps: Sequence[Any]
    shelf: Library

    @property
    def standing_steps(self) -> tuple[Any, ...]:
        """The rows of the decisions that stand, in order."""
        return tuple(step for step in self.steps if step.taken_back_at is None)

    @property
    def decisions(self) -> tuple[Decision, ...]:
        """The decisions that stand, in order: number 1 first."""
        return tuple(step.decision for step in self.standing_steps)

    @property
    def number(self) -> int:
        """How many decisions stand."""
        return self.state.n

    @property
    def purpose(self) -> str:
        return str(self.row.purpose)

    @property
    def ended(self) -> bool:
        return self.state.ended is not None


def own(parts: Parts, person: SignedIn, public_id: str) -> Standing:
    """The person's own installation. Raises NotFound for any other: nobody learns it exists."""
    return standing_of(parts, person.id, public_id)


def others(parts: Parts, person: SignedIn, public_id: str) -> Standing:
    """Somebody's installation, for who may see their record. Raises NotFound, NotAllowed."""
    with parts.database.reading() as session:
        whose = queries.owner(session, public_id)
        if whose is None:
            raise NotFound("installation")
        require_for(session, parts.clock, person, "scenario.view_others_history", whose)
    return standing_of(parts, whose, public_id)


def standing_of(parts: Parts, owner_id: int, public_id: str) -> Standing:
    """An installation of the person with that row id; who may see it, the caller has asked."""
    with parts.database.asking() as connection:
        row = queries.standing(connection, owner_id, public_id)
        if row is None:
            raise NotFound("installation")
        steps = queries.decisions(connection, row.id)
        drawn = kept_drawn(public_id)
        if drawn is None:
            text = queries.drawn(connection, row.id)
            drawn = drawn_from(text.job_text, text.limits)
            keep_drawn(public_id, drawn)
    shelf = library_of(parts.database, (row.site_profile, row.newest_site_rule))
    stand = [step for step in steps if step.taken_back_at is None]
    state = state_after(public_id, drawn, stand)
    return Standing(row, drawn.job, drawn.limits, state, steps, shelf)
