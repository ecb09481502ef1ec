"""SQLite as this program needs it: durable answers, and never a write-ahead log that can corrupt.

SQLite 3.7.0 to 3.51.2 can lose data when two connections write and checkpoint at the same moment
in write-ahead-log mode; mended in 3.51.3, 3.50.7 and 3.44.6 (SQLite's page "Write-Ahead
Logging"). An older library gets the rollback journal, which is slower and sound.

One process must open a database through one library only: the file locks of two copies of SQLite
in one process do not see each other. So whoever needs a connection takes it from ``module()``.
"""

from __future__ import annotations

import os
import sqlite3
from contextlib import suppress
from pathlib import Path
from types import ModuleType
from typing import Any

from sqlalchemy import URL, Connection, Engine, create_engine, event, pool, text

try:
    import pysqlite3.dbapi2 as _pysqlite3
except ImportError:
    _pysqlite3 = None

_MENDED_BRANCHES = {(3, 50): 7, (3, 44): 6}
_MENDED_SINCE = (3, 51, 3)
_BUSY_TIMEOUT_MS = 10_000
_READERS = 16


def module() -> ModuleType:
    """The SQLite driver: the package that ships a current library, else Python's own."""
    return _pysqlite3 or sqlite3


def log_is_sound(version: tuple[int, ...]) -> bool:
    """Whether SQLite ``version`` (three numbers) has the write-ahead-log corruption mended."""
    mended = _MENDED_BRANCHES.get(version[:2])
    return version >= _MENDED_SINCE or (mended is not None and version[2] >= mended)


def journal_mode() -> str:
    """``wal`` where the linked library is sound, else ``delete`` (the rollback journal)."""
    return "wal" if log_is_sound(module().sqlite_version_info) else "delete"


def reading_engine(url: URL) -> Engine:
    """Connections that cannot write, each transaction deferred."""
    engine = create_engine(
        url, module=module(), pool_size=_READERS, max_overflow=_READERS, pool_timeout=10
    )
    _never_make_the_file(engine)
    _prepare_connections(engine, "BEGIN", "PRAGMA query_only = ON")
    return engine


def writing_engine(url: URL) -> Engine:
    """The one connection that writes, each transaction IMMEDIATE.

    A deferred transaction that reads and then writes fails under load, whatever the timeout.
    """
    engine = create_engine(url, module=module(), pool_size=1, max_overflow=0)
    _never_make_the_file(engine)
    _prepare_connections(engine, "BEGIN IMMEDIATE", "PRAGMA foreign_keys = ON")
    return engine


def migrating_engine(url: URL) -> Engine:
    """For changing tables: foreign keys off, since tables are made anew and renamed.

    Makes the file when there is none, readable by its owner alone; SQLite gives the log and the
    journal beside it the same rights.
    """
    _make_private_file(Path(str(url.database)))
    engine = create_engine(url, module=module(), poolclass=pool.NullPool)
    _prepare_connections(engine, "BEGIN IMMEDIATE", "PRAGMA foreign_keys = OFF")
    return engine


def set_journal_mode(engine: Engine) -> None:
    """Make the database file use ``journal_mode()``. The caller holds the writers' lock."""
    with engine.connect() as connection:
        raw = connection.connection.driver_connection
        assert raw is not None
        if raw.execute("PRAGMA journal_mode").fetchone()[0] != journal_mode():
            raw.execute(f"PRAGMA journal_mode = {journal_mode()}")


def broken_references(connection: Connection) -> list[Any]:
    """Rows whose foreign key points nowhere."""
    return list(connection.execute(text("PRAGMA foreign_key_check")))


def _make_private_file(path: Path) -> None:
    """Never opens a file that is there: closing it again would give up SQLite's locks on it."""
    with suppress(OSError):  # there already, or connecting says what is wrong
        os.close(os.open(path, os.O_RDWR | os.O_CREAT | os.O_EXCL, 0o600))


def _never_make_the_file(engine: Engine) -> None:
    """Only a migration makes a database: a misspelt name must not leave an empty file behind."""

    @event.listens_for(engine, "do_connect")
    def _connecting(_dialect: Any, _record: Any, where: Any, how: Any) -> None:
        where[0], how["uri"] = Path(where[0]).absolute().as_uri() + "?mode=rw", True


def _prepare_connections(engine: Engine, begin: str, *pragmas: str) -> None:
    @event.listens_for(engine, "connect")
    def _connected(raw: Any, _record: Any) -> None:
        raw.isolation_level = None  # the driver begins nothing by itself; `_begun` does
        for pragma in (
            f"PRAGMA busy_timeout = {_BUSY_TIMEOUT_MS}",
            "PRAGMA synchronous = FULL",
            *pragmas,
        ):
            raw.execute(pragma)

    @event.listens_for(engine, "begin")
    def _begun(connection: Connection) -> None:
        # past SQLAlchemy, whose own way of running a statement costs ten times as much
        connection.connection.driver_connection.execute(begin)
