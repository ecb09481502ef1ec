"""Questions asked on every page and every answer, made ready for SQLite's driver once.

SQLAlchemy needs five times as long to hand over a statement it knows and to wrap the rows as SQLite
needs to answer. So on SQLite its text, the types of its values and of its columns are kept, and the
driver is asked straight away. On any other database SQLAlchemy asks.
"""

from __future__ import annotations

from collections import namedtuple
from collections.abc import Callable, Mapping, Sequence
from functools import cached_property
from typing import Any

from sqlalchemy import Connection, Dialect, Select
from sqlalchemy.dialects import sqlite

_Change = Callable[[Any], Any]


class Question:
    """A statement of plain columns, in which every ``bindparam`` is given each time."""

    def __init__(self, statement: Select[Any]) -> None:
        self._statement = statement

    def ask(self, connection: Connection, given: Mapping[str, Any]) -> Sequence[Any]:
        """All rows, with the columns as attributes. Every value of the statement must be ``given``.

        On SQLite without a transaction around it: one statement sees one state of the records.
        """
        if connection.dialect.name != "sqlite":
            return connection.execute(self._statement, dict(given)).all()
        ready = self._on_sqlite
        raw = connection.connection.driver_connection
        assert raw is not None
        return [ready.row(found) for found in raw.execute(ready.text, ready.values(given))]

    @cached_property
    def _on_sqlite(self) -> _Ready:
        return _Ready(self._statement, sqlite.dialect(paramstyle="qmark"))


class _Ready:
    """A statement as SQLite's driver takes it; values and rows are changed as SQLAlchemy does."""

    def __init__(self, statement: Select[Any], dialect: Dialect) -> None:
        compiled = statement.compile(dialect=dialect)
        columns = statement.selected_columns
        self.text = str(compiled)
        binds = [compiled.binds[name] for name in compiled.positiontup or ()]
        self._own = [bind.value for bind in binds]
        asked = [(place, bind) for place, bind in enumerate(binds) if bind.required]
        self._asked = [(place, bind.key, _going_in(bind.type, dialect)) for place, bind in asked]
        self._columns = namedtuple("Row", columns.keys())  # type: ignore[misc]
        changes = [_coming_out(column.type, dialect) for column in columns]
        self._changes = [(place, change) for place, change in enumerate(changes) if change]

    def values(self, given: Mapping[str, Any]) -> list[Any]:
        """The values in the order in which the text wants them. KeyError where one is missing."""
        values = list(self._own)
        for place, name, change in self._asked:
            values[place] = change(given[name]) if change else given[name]
        return values

    def row(self, found: Sequence[Any]) -> Any:
        values = list(found)
        for place, change in self._changes:
            values[place] = change(values[place])
        return self._columns._make(values)


def _going_in(kind: Any, dialect: Dialect) -> _Change | None:
    change: _Change | None = kind.dialect_impl(dialect).bind_processor(dialect)
    return change


def _coming_out(kind: Any, dialect: Dialect) -> _Change | None:
    change: _Change | None = kind.dialect_impl(dialect).result_processor(dialect, None)
    return change
