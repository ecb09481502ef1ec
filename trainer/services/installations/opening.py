"""Opening an installation: a job drawn, and stored with all that is needed to replay it."""

from __future__ import annotations

import secrets
from typing import Any

from trainer.errors import InputError
from trainer.installation import SIMULATOR_VERSION
from trainer.installation.job import Job
from trainer.installation.limits import Limits, limits_of
from trainer.pack.jobs import clear_mm_of
from trainer.records.database import Session
from trainer.records.queries import installations as queries
from trainer.records.tables import INSTALLATION_PURPOSES, Installation, canonical
from trainer.services.installations import jobs
from trainer.services.installations.replaying import limits_as_plain
from trainer.services.parts import Parts
from trainer.services.permissions import require
from trainer.services.person import SignedIn
from trainer.services.scenarios import Library, language_of, library

_SEEDS = 2**31


def open_installation(
    parts: Parts,
    person: SignedIn,
    job_id: str,
    *,
    purpose: str = "practise",
    seed: int | None = None,
) -> str:
    """Draw a job and put it before the person; its public id.

    To prove, the one left open goes on: nobody draws until they like what they see. To practise,
    one in which nothing is decided yet is taken again. Raises InputError for a purpose, seed or
    job that is not there, NotFound for a job that is not offered to this person, NotAllowed.
    """
    require(person, "installation.play")
    if purpose not in INSTALLATION_PURPOSES:
        raise InputError("purpose", purpose, ", ".join(INSTALLATION_PURPOSES))
    chosen = secrets.randbelow(_SEEDS) if seed is None else _checked_seed(seed)
    with parts.database.reading() as session:
        shelf = library(session)
        source = jobs.source_for(session, parts, person, shelf, job_id)
    limits = limits_of(shelf.rules)
    job = source.draw(chosen, clear_mm_of(shelf.rules), language_of(person))
    row = _row(parts, person, shelf, source, job, limits, chosen, purpose)
    with parts.database.writing() as session:
        waiting = queries.left_open(session, person.id, job_id, purpose)
        if waiting is not None and _goes_on(session, waiting, row, seed):
            return waiting.public_id
        opened = Installation(**row)
        session.add(opened)
        session.flush()
        return opened.public_id


def _checked_seed(seed: int) -> int:
    if isinstance(seed, bool) or not isinstance(seed, int) or not 0 <= seed < 2**63:
        raise InputError("seed", seed, "a whole number from 0 to 2^63 − 1")
    return seed


def _row(
    parts: Parts,
    person: SignedIn,
    shelf: Library,
    source: jobs.Source,
    job: Job,
    limits: Limits,
    seed: int,
    purpose: str,
) -> dict[str, Any]:
    return {
        "person_id": person.id,
        "purpose": purpose,
        "source": source.kind,
        "job": source.id,
        "job_version": source.version,
        "job_text": dict(job.plain),
        "seed": seed,
        "limits": limits_as_plain(limits),
        "rulebook_version": shelf.pack.book.version,
        "profile": shelf.rules.profile,
        "pack_digest": shelf.pack.digest,
        "simulator_version": SIMULATOR_VERSION,
        "opened_at": parts.clock.now(),
    }


def _goes_on(
    session: Session, waiting: Installation, row: dict[str, Any], seed: int | None
) -> bool:
    """Whether an open one is gone on with rather than another opened beside it."""
    if waiting.purpose == "prove":
        return True
    same = ("job_version", "limits", "simulator_version", *(() if seed is None else ("seed",)))
    if any(canonical(getattr(waiting, name)) != canonical(row[name]) for name in same):
        return False
    return queries.last_decision(session, waiting.id) == 0
