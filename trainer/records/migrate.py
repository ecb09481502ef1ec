"""Bring the tables to a revision, up or down, all of it or nothing."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.util.exc import CommandError
from sqlalchemy import Connection

from trainer.errors import TrainerError
from trainer.records import sqlite
from trainer.records.database import Database

_MIGRATIONS = Path(__file__).parent / "migrations"


def upgrade(database: Database, revision: str = "head") -> None:
    """Run the migrations up to ``revision`` in one transaction; does nothing when already there."""
    _run(database, command.upgrade, revision)
    database.prepare()


def downgrade(database: Database, revision: str) -> None:
    """Undo the migrations down to ``revision`` (``base`` for none) in one transaction."""
    _run(database, command.downgrade, revision)


def config(connection: Connection | None = None) -> Config:
    """Alembic's configuration, found from the package wherever it is installed."""
    settings = Config()
    settings.set_main_option("script_location", str(_MIGRATIONS).replace("%", "%%"))
    settings.attributes["connection"] = connection
    return settings


def _run(database: Database, action: Callable[[Config, str], None], revision: str) -> None:
    database.close()
    engine = database.migrating_engine()
    try:
        with database.plainly(), database.alone(), engine.begin() as connection:
            _act(action, config(connection), revision)
            _refuse_broken_references(database, connection)
    finally:
        engine.dispose()


def _act(action: Callable[[Config, str], None], settings: Config, revision: str) -> None:
    try:
        action(settings, revision)
    except CommandError as problem:
        advice = "The database is newer than this program, or from another: use a newer program."
        raise TrainerError(f"{problem}.", advice) from None


def _refuse_broken_references(database: Database, connection: Connection) -> None:
    broken = sqlite.broken_references(connection) if database.is_sqlite else []
    if broken:
        table = broken[0][0]
        raise TrainerError(f"The migration would leave rows of {table} that refer to nothing.")
