"""Whether the database has the tables this program needs, told without loading Alembic."""

from __future__ import annotations

from sqlalchemy import inspect, text

from trainer.errors import TrainerError
from trainer.records.database import Database

REVISION = "0002"
"""The newest migration; a test holds it against the migrations folder."""


class SchemaMismatch(TrainerError):
    """The database is older or newer than the program."""

    def __init__(self, found: str | None) -> None:
        has = f"is at revision {found}" if found else "has no tables yet"
        super().__init__(f"The database {has}; this program needs {REVISION}.", "Run: trainer init")


def found_revision(database: Database) -> str | None:
    """The revision the database is at, or None for an empty one."""
    with database.reading() as session:
        if not inspect(session.connection()).has_table("alembic_version"):
            return None
        return session.scalar(text("SELECT version_num FROM alembic_version"))


def require_current(database: Database) -> None:
    """Raise SchemaMismatch unless the database is at REVISION."""
    found = found_revision(database)
    if found != REVISION:
        raise SchemaMismatch(found)
