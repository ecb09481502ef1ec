"""Questions about the jobs that people made on this site, what they are drawn from included."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from trainer.records.tables import Crew, SiteJob


def specs_by(session: Session, person_id: int) -> dict[str, Mapping[str, Any]]:
    """What each job that a person made is drawn from, by public id."""
    wanted = select(SiteJob.public_id, SiteJob.spec).where(SiteJob.person_id == person_id)
    return {row.public_id: row.spec for row in session.execute(wanted)}


def crew_name(session: Session, job: SiteJob) -> str:
    """The crew a job was handed to; "" where it is for everybody or for nobody yet."""
    wanted = select(Crew.name).where(Crew.id == job.crew_id)
    return session.scalar(wanted) or ""
