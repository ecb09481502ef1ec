"""The site, its crews, the people on them and what each may do."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import CheckConstraint, ForeignKey, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from trainer.records.tables.base import Base, Id, Moment, PersonId, PublicId, UtcDateTime, one_of

ROLES = ("worker", "supervisor", "coordinator", "auditor", "administrator")
LENGTH_UNITS = ("mm", "in")
TEMPERATURE_UNITS = ("c", "f")
GROUNDS = ("auto", "light", "dark")


class Site(Base):
    """The roof site this installation of the program serves: one row.

    ``profile`` names the rule-book profile in force; None is the rule book's own default.
    """

    __tablename__ = "sites"

    id: Mapped[Id]
    name: Mapped[str] = mapped_column(String(120))
    time_zone: Mapped[str] = mapped_column(String(64))
    profile: Mapped[str | None] = mapped_column(String(64))


class SiteRule(Base):
    """A value that overrides the rule book on this site; the latest row of a subject counts.

    ``value`` is None where the rule book holds again.
    """

    __tablename__ = "site_rules"
    __table_args__ = (Index(None, "subject", "set_at"),)

    id: Mapped[Id]
    subject: Mapped[str] = mapped_column(String(80))
    value: Mapped[float | None]
    unit: Mapped[str] = mapped_column(String(16))
    reason: Mapped[str] = mapped_column(String(500))
    person_id: Mapped[PersonId]
    set_at: Mapped[Moment]


class Crew(Base):
    __tablename__ = "crews"

    id: Mapped[Id]
    public_id: Mapped[PublicId]
    name: Mapped[str] = mapped_column(String(120), unique=True)


class Person(Base):
    """Anyone with a record here, and how they like to read it."""

    __tablename__ = "people"
    __table_args__ = (
        CheckConstraint(one_of("length_unit", LENGTH_UNITS), "length_unit"),
        CheckConstraint(one_of("temperature_unit", TEMPERATURE_UNITS), "temperature_unit"),
        CheckConstraint(one_of("ground", GROUNDS), "ground"),
    )

    id: Mapped[Id]
    public_id: Mapped[PublicId]
    name: Mapped[str] = mapped_column(String(120), index=True)
    language: Mapped[str | None] = mapped_column(String(16))
    length_unit: Mapped[str] = mapped_column(String(2), default="mm")
    temperature_unit: Mapped[str] = mapped_column(String(1), default="c")
    ground: Mapped[str] = mapped_column(String(5), default="auto")
    created_at: Mapped[Moment]


class Membership(Base):
    """A person on a crew from one moment up to, not including, another.

    ``leads``: runs the crew (a supervisor's scope) rather than works in it.
    """

    __tablename__ = "memberships"
    __table_args__ = (
        Index(None, "person_id", "crew_id", "starts_at", "ends_at", "leads"),
        Index(None, "crew_id", "person_id", "starts_at", "ends_at", "leads"),
        CheckConstraint("ends_at > starts_at", "period"),
    )

    id: Mapped[Id]
    person_id: Mapped[PersonId]
    crew_id: Mapped[int] = mapped_column(ForeignKey("crews.id"))
    leads: Mapped[bool]
    starts_at: Mapped[Moment]
    ends_at: Mapped[datetime | None] = mapped_column(UtcDateTime)


class RoleGrant(Base):
    """A role a person holds from one moment up to, not including, another."""

    __tablename__ = "role_grants"
    __table_args__ = (
        Index(None, "person_id", "role", "starts_at", "ends_at"),
        CheckConstraint(one_of("role", ROLES), "role"),
        CheckConstraint("ends_at > starts_at", "period"),
    )

    id: Mapped[Id]
    person_id: Mapped[PersonId]
    role: Mapped[str] = mapped_column(String(16))
    starts_at: Mapped[Moment]
    ends_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
