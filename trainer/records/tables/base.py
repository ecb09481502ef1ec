"""What all tables share: names of constraints, times in UTC, canonical JSON, public ids."""

from __future__ import annotations

import json
import secrets
from datetime import UTC, datetime
from typing import Annotated, Any

from sqlalchemy import DateTime, Dialect, ForeignKey, MetaData, String, Text
from sqlalchemy.orm import DeclarativeBase, mapped_column
from sqlalchemy.types import TypeDecorator

_CONSTRAINT_NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s",
    "pk": "pk_%(table_name)s",
}


class Base(DeclarativeBase):
    metadata = MetaData(naming_convention=_CONSTRAINT_NAMES)


class UtcDateTime(TypeDecorator[datetime]):
    """A moment. Goes in with any time zone, comes out in UTC; one without a zone is refused."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError(f"a moment needs its time zone, got {value.isoformat()}")
        moment = value.astimezone(UTC)
        return moment.replace(tzinfo=None) if dialect.name == "sqlite" else moment

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


class CanonicalJson(TypeDecorator[Any]):
    """JSON kept as one canonical text (sorted keys, no spaces): equal values, equal bytes."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: Any, dialect: Dialect) -> str | None:
        return None if value is None else canonical(value)

    def process_result_value(self, value: str | None, dialect: Dialect) -> Any:
        return None if value is None else json.loads(value)


def canonical(value: Any) -> str:
    """``value`` as JSON text; ValueError for NaN, infinities and what JSON does not know."""
    return json.dumps(
        value, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False
    )


def new_public_id() -> str:
    """A name for use in addresses that nobody can guess: 72 random bits, 12 characters."""
    return secrets.token_urlsafe(9)


Id = Annotated[int, mapped_column(primary_key=True)]
PublicId = Annotated[str, mapped_column(String(32), unique=True, default=new_public_id)]
Moment = Annotated[datetime, mapped_column(UtcDateTime)]
PersonId = Annotated[int, mapped_column(ForeignKey("people.id"))]


def one_of(column: str, words: tuple[str, ...]) -> str:
    """The SQL of a check that ``column`` holds one of a closed set of words."""
    return f"{column} IN ({', '.join(repr(word) for word in words)})"
