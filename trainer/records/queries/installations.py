"""Questions about installations, their decisions, and the jobs made on this site."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, and_, bindparam, func, or_, select, update
from sqlalchemy.orm import Session

from trainer.records.queries.people import in_force
from trainer.records.queries.prepared import Question
from trainer.records.tables import (
    Crew,
    Installation,
    InstallationDecision,
    Membership,
    Site,
    SiteJob,
    SiteRule,
)

_AT_A_TIME = 200

# asked on every page and every decision; the drawn job, which is long, only where it is not kept
_STANDING = Question(
    select(
        Installation.id,
        Installation.public_id,
        Installation.person_id,
        Installation.purpose,
        Installation.source,
        Installation.job,
        Installation.job_version,
        Installation.seed,
        Installation.rulebook_version,
        Installation.profile,
        Installation.pack_digest,
        Installation.simulator_version,
        Installation.opened_at,
        Installation.closed_at,
        Installation.outcome,
        Installation.best,
        select(Site.profile).order_by(Site.id).limit(1).scalar_subquery().label("site_profile"),
        select(func.max(SiteRule.id)).scalar_subquery().label("newest_site_rule"),
    ).where(
        Installation.public_id == bindparam("public_id"),
        Installation.person_id == bindparam("person_id"),
    )
)
_DRAWN = Question(
    select(Installation.job_text, Installation.limits).where(Installation.id == bindparam("id"))
)
_DECISIONS = Question(
    select(
        InstallationDecision.id,
        InstallationDecision.number,
        InstallationDecision.key,
        InstallationDecision.decision,
        InstallationDecision.state_digest,
        InstallationDecision.server_at,
        InstallationDecision.taken_back_at,
        InstallationDecision.taken_back_key,
    )
    .where(InstallationDecision.installation_id == bindparam("id"))
    .order_by(InstallationDecision.id)
)
_HOLD = (
    select(Installation.id).where(Installation.id == bindparam("installation")).with_for_update()
)
_LAST = (
    select(InstallationDecision.id)
    .where(
        InstallationDecision.installation_id == bindparam("installation"),
        InstallationDecision.taken_back_at.is_(None),
    )
    .order_by(InstallationDecision.number.desc())
    .limit(1)
)


def standing(connection: Connection, person_id: int, public_id: str) -> Any | None:
    """The person's installation, without its drawn job; None where they have none of that id."""
    rows = _STANDING.ask(connection, {"public_id": public_id, "person_id": person_id})
    return rows[0] if rows else None


def drawn(connection: Connection, installation_id: int) -> Any:
    """``job_text`` and ``limits`` of an installation."""
    return _DRAWN.ask(connection, {"id": installation_id})[0]


def decisions(connection: Connection, installation_id: int) -> Sequence[Any]:
    """Every decision in the order they were taken, those taken back too."""
    return _DECISIONS.ask(connection, {"id": installation_id})


def last_decision(session: Session, installation_id: int) -> int:
    """The row of the last decision that stands, 0 for none.

    Holds the installation until the transaction ends, so that what is last stays last: on SQLite
    whoever writes holds everything anyway.
    """
    connection = session.connection()
    if connection.dialect.name != "sqlite":
        connection.execute(_HOLD, {"installation": installation_id})
    return connection.scalar(_LAST, {"installation": installation_id}) or 0


def key_used(session: Session, key: str) -> bool:
    """Whether any decision was sent, or taken back, under this key."""
    used = or_(InstallationDecision.key == key, InstallationDecision.taken_back_key == key)
    return session.scalar(select(InstallationDecision.id).where(used).limit(1)) is not None


def take_back(session: Session, decision_id: int, key: str, at: datetime) -> None:
    session.execute(
        update(InstallationDecision)
        .where(InstallationDecision.id == decision_id)
        .values(taken_back_at=at, taken_back_key=key)
    )


def close(session: Session, installation_id: int, at: datetime, outcome: dict[str, Any]) -> None:
    session.execute(
        update(Installation)
        .where(Installation.id == installation_id)
        .values(closed_at=at, outcome=outcome)
    )


def keep_best(session: Session, installation_id: int, best: dict[str, Any]) -> None:
    session.execute(
        update(Installation).where(Installation.id == installation_id).values(best=best)
    )


def newest(session: Session, person_id: int, *, is_open: bool) -> dict[str, Row[Any]]:
    """Per job the installation opened last, of those still open or of those closed.

    Columns: public_id, purpose, job, opened_at, closed_at, outcome.
    """
    state = Installation.closed_at.is_(None) if is_open else Installation.closed_at.is_not(None)
    mine = and_(Installation.person_id == person_id, state)
    latest = select(func.max(Installation.id)).where(mine).group_by(Installation.job)
    rows = session.execute(
        select(
            Installation.public_id,
            Installation.purpose,
            Installation.job,
            Installation.opened_at,
            Installation.closed_at,
            Installation.outcome,
        ).where(Installation.id.in_(latest))
    )
    return {row.job: row for row in rows}


def left_open(session: Session, person_id: int, job: str, purpose: str) -> Installation | None:
    """The person's installation of a job opened last for that purpose, if it is still open."""
    return session.scalar(
        select(Installation)
        .where(
            Installation.person_id == person_id,
            Installation.job == job,
            Installation.purpose == purpose,
            Installation.closed_at.is_(None),
        )
        .order_by(Installation.id.desc())
        .limit(1)
    )


def of_person(
    session: Session, person_id: int, limit: int, before: datetime | None = None
) -> Sequence[Row[Any]]:
    """A person's installations, newest first; ``before`` gives the next page."""
    wanted = select(
        Installation.public_id,
        Installation.purpose,
        Installation.source,
        Installation.job,
        Installation.opened_at,
        Installation.closed_at,
        Installation.outcome,
    ).where(Installation.person_id == person_id)
    if before is not None:
        wanted = wanted.where(Installation.opened_at < before)
    return session.execute(
        wanted.order_by(Installation.opened_at.desc(), Installation.id.desc()).limit(limit)
    ).all()


def count(session: Session) -> int:
    return session.scalar(select(func.count()).select_from(Installation)) or 0


def every(session: Session) -> Iterator[Installation]:
    """All installations in order of opening, a few hundred in memory at a time."""
    wanted = select(Installation).order_by(Installation.id)
    yield from session.scalars(wanted.execution_options(yield_per=_AT_A_TIME))


def installation(session: Session, public_id: str) -> Installation | None:
    return session.scalar(select(Installation).where(Installation.public_id == public_id))


def owner(session: Session, public_id: str) -> int | None:
    """The row of the person whose installation this is."""
    return session.scalar(select(Installation.person_id).where(Installation.public_id == public_id))


# ---- jobs made on this site


def site_job(session: Session, public_id: str) -> SiteJob | None:
    return session.scalar(select(SiteJob).where(SiteJob.public_id == public_id))


def handed_to(session: Session, person_id: int, at: datetime) -> Sequence[SiteJob]:
    """The jobs handed out to the person's crews or to everybody, the newest last."""
    crews = select(Membership.crew_id).where(
        Membership.person_id == person_id, in_force(Membership, at)
    )
    return session.scalars(
        select(SiteJob)
        .where(
            SiteJob.handed_at.is_not(None),
            SiteJob.withdrawn_at.is_(None),
            or_(SiteJob.crew_id.is_(None), SiteJob.crew_id.in_(crews)),
        )
        .order_by(SiteJob.handed_at, SiteJob.id)
    ).all()


def made_by(session: Session, person_id: int) -> Sequence[Row[Any]]:
    """The jobs a person made, newest first: public_id, name, crew, made_at, handed_at,
    withdrawn_at."""
    return session.execute(
        select(
            SiteJob.public_id,
            SiteJob.name,
            Crew.name.label("crew"),
            SiteJob.made_at,
            SiteJob.handed_at,
            SiteJob.withdrawn_at,
        )
        .outerjoin(Crew, Crew.id == SiteJob.crew_id)
        .where(SiteJob.person_id == person_id)
        .order_by(SiteJob.id.desc())
    ).all()


def led_crews(session: Session, person_id: int, at: datetime) -> Sequence[Crew]:
    """The crews a person leads at that moment, by name."""
    return session.scalars(
        select(Crew)
        .join(Membership, Membership.crew_id == Crew.id)
        .where(
            Membership.person_id == person_id,
            Membership.leads.is_(True),
            in_force(Membership, at),
        )
        .order_by(Crew.name)
    ).all()


def crew(session: Session, public_id: str) -> Crew | None:
    return session.scalar(select(Crew).where(Crew.public_id == public_id))


def crews(session: Session) -> Sequence[Crew]:
    """Every crew, by name."""
    return session.scalars(select(Crew).order_by(Crew.name)).all()
