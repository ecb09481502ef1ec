"""The database: who reads, who writes, and when it counts.

``reading()`` gives a session that cannot write. ``writing()`` gives the one session that can; it
commits when the block ends well and undoes everything when it does not. One intention, one block.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager, nullcontext
from pathlib import Path

from sqlalchemy import Connection, Engine, create_engine, make_url
from sqlalchemy.exc import DatabaseError, IntegrityError
from sqlalchemy.exc import TimeoutError as PoolTimeoutError
from sqlalchemy.orm import Session, sessionmaker

from trainer.errors import TrainerError
from trainer.records import sqlite
from trainer.records.lock import FairLock, LockFileProblem

_FAULTS = ("unable to open", "not a database", "malformed", "full", "could not connect")


class DatabaseBusy(TrainerError):
    """Too many want to write at once, or another program holds the database."""

    def __init__(self) -> None:
        super().__init__("The records are busy.", "Nothing was lost: wait a moment and try again.")


class DatabaseFault(TrainerError):
    """The database cannot be used at all."""

    def __init__(self, where: str, why: str) -> None:
        super().__init__(
            f"The database {where} cannot be used: {why}.",
            "Check the setting TRAINER_DATABASE and the space and rights of its folder.",
        )


class DatabaseMissing(TrainerError):
    """There is no database file where the setting says."""

    def __init__(self, where: str) -> None:
        super().__init__(
            f"The database {where} has not been made yet.",
            "Check the setting TRAINER_DATABASE, or make it. Run: trainer init",
        )


class DriverMissing(TrainerError):
    """The address asks for a database whose driver is not installed."""

    def __init__(self, driver: str) -> None:
        package = "psycopg[binary]" if driver == "psycopg" else driver
        super().__init__(
            f"The database's driver {driver} is not installed.",
            f'Install it beside the program: uv pip install "{package}"',
        )


class Database:
    """One database, opened on first use. Safe to share between threads and to fork."""

    def __init__(self, url: str) -> None:
        """``url``: ``sqlite:///FILE`` or a PostgreSQL address in SQLAlchemy's form.

        Raises DriverMissing when nothing is installed that speaks to it.
        """
        self.url = make_url(url)
        if self.is_sqlite:
            self._reader = sqlite.reading_engine(self.url)
            self._writer = sqlite.writing_engine(self.url)
            self._turn = FairLock(Path(f"{self.url.database}.lock"))
        else:
            self._reader = self._writer = self._server_engine(pool_pre_ping=True)
        self._reading = sessionmaker(self._reader, expire_on_commit=False)
        self._writing = sessionmaker(self._writer, expire_on_commit=False)

    @property
    def is_sqlite(self) -> bool:
        return self.url.get_backend_name() == "sqlite"

    @contextmanager
    def reading(self) -> Iterator[Session]:
        """A session on one consistent state of the records; what it writes is refused.

        What it loaded may still be read after the block.
        """
        with self.plainly(), self._reading() as session:
            yield session

    @contextmanager
    def asking(self) -> Iterator[Connection]:
        """As ``reading``, for one question of plain columns; half the cost of a session."""
        with self.plainly(), self._reader.connect() as connection:
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Session]:
        """The session of one intention: committed whole at the end of the block, or not at all.

        Raises DatabaseBusy when its turn does not come; IntegrityError passes through.
        """
        with self.plainly(), self.alone(), self._writing.begin() as session:
            yield session

    def alone(self) -> AbstractContextManager[None]:
        """The turn to write, in order of arrival; PostgreSQL needs none."""
        return self._turn.held() if self.is_sqlite else nullcontext()

    def prepare(self) -> None:
        """Set what the database file itself remembers: the journal mode."""
        if self.is_sqlite:
            with self.plainly(), self.alone():
                sqlite.set_journal_mode(self._writer)

    def migrating_engine(self) -> Engine:
        """An engine for changing tables; the caller disposes of it."""
        return sqlite.migrating_engine(self.url) if self.is_sqlite else self._server_engine()

    def _server_engine(self, **how: bool) -> Engine:
        try:
            return create_engine(self.url, **how)
        except ModuleNotFoundError as problem:
            raise DriverMissing(str(problem.name)) from None

    def close(self) -> None:
        """Give back every connection; the next use opens new ones."""
        self._reader.dispose()
        self._writer.dispose()

    @contextmanager
    def plainly(self) -> Iterator[None]:
        """What the driver says about the database as a whole, in our words."""
        try:
            yield
        except PoolTimeoutError:
            raise DatabaseBusy from None
        except LockFileProblem as problem:
            raise DatabaseFault(self._place, str(problem)) from None
        except (DatabaseError, sqlite.module().DatabaseError) as problem:
            why = str(getattr(problem, "orig", problem))
            if "locked" in why:
                raise DatabaseBusy from None
            if "unable to open" in why and self._has_only_its_folder:
                raise DatabaseMissing(self._place) from None
            if any(words in why for words in _FAULTS):
                raise DatabaseFault(self._place, why) from None
            raise

    @property
    def _has_only_its_folder(self) -> bool:
        file = Path(str(self.url.database))
        return self.is_sqlite and file.parent.is_dir() and not file.exists()

    @property
    def _place(self) -> str:
        return self.url.render_as_string()


__all__ = [
    "Database",
    "DatabaseBusy",
    "DatabaseFault",
    "DatabaseMissing",
    "DriverMissing",
    "IntegrityError",
    "Session",
]
