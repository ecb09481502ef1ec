"""The demonstration's whole installations, played through and stored as a person's would be."""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from trainer.installation import SIMULATOR_VERSION
from trainer.installation.job import Job
from trainer.installation.limits import Limits, limits_of
from trainer.installation.play import Adviser, by_the_book, carelessly
from trainer.installation.run import decide
from trainer.installation.state import Decision, State, begin
from trainer.pack.demo import DemoInstallation
from trainer.pack.jobs import clear_mm_of
from trainer.records.database import Session
from trainer.records.tables import Installation, InstallationDecision
from trainer.services.installations.replaying import digest, limits_as_plain, outcome_of
from trainer.services.person import SignedIn
from trainer.services.scenarios import Library, language_of

_BEGAN_AT = timedelta(hours=12, minutes=5)
_PER_DECISION = timedelta(seconds=11)


@dataclass
class InstallationHistory:
    """Writes the installations of invented people into one session."""

    session: Session
    shelf: Library
    now: datetime

    def write(self, made: DemoInstallation, person: SignedIn) -> None:
        """One installation, decision by decision, some days ago."""
        limits = limits_of(self.shelf.rules)
        spec = self.shelf.pack.jobs[made.job]
        job = spec.drawn(made.seed, clear_mm_of(self.shelf.rules), language_of(person))
        morning = self.now.replace(hour=0, minute=0, second=0, microsecond=0)
        at = morning - timedelta(days=made.days_ago) + _BEGAN_AT
        row = self._row(made, person, spec.version, job, limits, at)
        self.session.add(row)
        self.session.flush()
        self._decide(made, row, job, limits, at)

    def _row(
        self,
        made: DemoInstallation,
        person: SignedIn,
        version: int,
        job: Job,
        limits: Limits,
        at: datetime,
    ) -> Installation:
        return Installation(
            person_id=person.id,
            purpose=made.purpose,
            source="pack",
            job=made.job,
            job_version=version,
            job_text=dict(job.plain),
            seed=made.seed,
            limits=limits_as_plain(limits),
            rulebook_version=self.shelf.pack.book.version,
            profile=self.shelf.rules.profile,
            pack_digest=self.shelf.pack.digest,
            simulator_version=SIMULATOR_VERSION,
            opened_at=at,
        )

    def _decide(
        self, made: DemoInstallation, row: Installation, job: Job, limits: Limits, at: datetime
    ) -> None:
        chance = random.Random(f"demo {made.sign_in} {made.job} {made.seed}")
        advise = _with_slips(_adviser(made, job, limits), made.slips)
        state = begin(job)
        while state.ended is None and state.n < (made.decisions or 10**6):
            decision = advise(state)
            state = decide(job, limits, state, decision)
            at += _PER_DECISION * (0.5 + chance.random())
            self.session.add(
                InstallationDecision(
                    installation_id=row.id,
                    number=state.n,
                    key=f"{chance.getrandbits(128):032x}",
                    decision=decision,
                    state_digest=digest(state),
                    server_at=at,
                )
            )
        if state.ended is not None:
            row.closed_at, row.outcome = at, outcome_of(job, state)


def _adviser(made: DemoInstallation, job: Job, limits: Limits) -> Adviser:
    return carelessly(job, limits) if made.by == "careless" else by_the_book(job, limits)


def _with_slips(
    advise: Adviser, slips: tuple[Mapping[str, Any], ...]
) -> Callable[[State], Decision]:
    """The same advice, but the first decision of a kind has some fields changed."""
    waiting = list(slips)

    def advised(state: State) -> Decision:
        decision = advise(state)
        slip = next((s for s in waiting if s["do"] == decision["do"]), None)
        if slip is None:
            return decision
        waiting.remove(slip)
        return {**decision, **slip}

    return advised
