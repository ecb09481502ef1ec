"""Questions about the site, its people, crews and roles."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import ColumnElement, and_, func, or_, select
from sqlalchemy.orm import Session, aliased

from trainer.records.tables import Crew, Membership, Person, RoleGrant, Site, SiteRule

# asked on every answer, so built once: building a statement costs more than running it
_SITE = select(Site).order_by(Site.id).limit(1)
_SITE_RULES = (
    select(SiteRule)
    .where(SiteRule.id.in_(select(func.max(SiteRule.id)).group_by(SiteRule.subject)))
    .order_by(SiteRule.subject)
)


def site(session: Session) -> Site | None:
    return session.scalar(_SITE)


def site_rules(session: Session) -> Sequence[SiteRule]:
    """The latest row of every subject, also where it says that the rule book holds again."""
    return session.scalars(_SITE_RULES).all()


def person(session: Session, public_id: str) -> Person | None:
    return session.scalar(select(Person).where(Person.public_id == public_id))


def crew_named(session: Session, name: str) -> Crew | None:
    return session.scalar(select(Crew).where(Crew.name == name))


def roles(session: Session, person_id: int, at: datetime) -> frozenset[str]:
    """The roles the person holds at that moment."""
    held = select(RoleGrant.role).where(RoleGrant.person_id == person_id, in_force(RoleGrant, at))
    return frozenset(session.scalars(held))


def led_people(session: Session, leader_id: int, at: datetime) -> Sequence[Person]:
    """Everyone on the crews this person leads at that moment, by name."""
    return session.scalars(
        select(Person).where(Person.id.in_(led_ids(leader_id, at))).order_by(Person.name)
    ).all()


def leads(session: Session, leader_id: int, person_id: int, at: datetime) -> bool:
    """Whether the person is, at that moment, on a crew that the leader leads."""
    led = led_ids(leader_id, at)
    found = session.scalar(select(Person.id).where(Person.id == person_id, Person.id.in_(led)))
    return found is not None


def in_force(table: Any, at: datetime) -> ColumnElement[bool]:
    """A row with ``starts_at`` and ``ends_at`` holds at that moment (end not included)."""
    return and_(table.starts_at <= at, or_(table.ends_at.is_(None), table.ends_at > at))


def led_ids(leader_id: int, at: datetime) -> Any:
    led = aliased(Membership)
    mine = select(led.crew_id).where(
        led.person_id == leader_id, led.leads.is_(True), in_force(led, at)
    )
    return select(Membership.person_id).where(
        Membership.crew_id.in_(mine), in_force(Membership, at)
    )
