"""Lists of workers, and the crews they are on."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import ColumnElement, Row, and_, func, or_, select
from sqlalchemy.orm import Session

from trainer.records.queries.people import in_force, led_ids
from trainer.records.tables import Crew, Membership, Person, RoleGrant


def crew_of(session: Session, person_id: int, at: datetime) -> str | None:
    """The name of the crew a person is on at that moment."""
    return session.scalar(
        select(Crew.name)
        .join(Membership, Membership.crew_id == Crew.id)
        .where(Membership.person_id == person_id, in_force(Membership, at))
        .order_by(Membership.starts_at.desc())
        .limit(1)
    )


def listed(
    session: Session, at: datetime, text: str = "", leader_id: int | None = None
) -> Sequence[Row[Any]]:
    """Workers by name: id, public_id, name, crew; with ``leader_id`` only those on their crews.

    ``text`` is looked for in the name and in the names of all crews the person is on, in any case.
    """
    crew = (
        select(Membership.person_id, func.min(Crew.name).label("crew"))
        .join(Crew, Crew.id == Membership.crew_id)
        .where(in_force(Membership, at))
        .group_by(Membership.person_id)
        .subquery()
    )
    wanted = (
        select(Person.id, Person.public_id, Person.name, crew.c.crew)
        .outerjoin(crew, crew.c.person_id == Person.id)
        .join(
            RoleGrant,
            and_(
                RoleGrant.person_id == Person.id,
                RoleGrant.role == "worker",
                in_force(RoleGrant, at),
            ),
        )
        .order_by(Person.name)
    )
    if text:
        wanted = wanted.where(_name_or_crew_has(text, at))
    if leader_id is not None:
        wanted = wanted.where(Person.id.in_(led_ids(leader_id, at)))
    return session.execute(wanted).all()


def _name_or_crew_has(text: str, at: datetime) -> ColumnElement[bool]:
    on_crew = (
        select(Membership.person_id)
        .join(Crew, Crew.id == Membership.crew_id)
        .where(in_force(Membership, at), Crew.name.icontains(text, autoescape=True))
    )
    return or_(Person.name.icontains(text, autoescape=True), Person.id.in_(on_crew))
