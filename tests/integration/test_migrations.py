"""Migrations: one head, both ways with rows, and the same tables as the models."""

from __future__ import annotations

from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import inspect, select

from trainer.errors import TrainerError
from trainer.records import migrate, schema
from trainer.records.database import Database, DatabaseMissing
from trainer.records.tables import Base

TABLES = sorted(Base.metadata.tables)


@pytest.fixture
def empty(tmp_path):
    database = Database(f"sqlite:///{tmp_path / 'new.db'}")
    yield database
    database.close()


def _tables(database) -> set[str]:
    with database.reading() as session:
        return set(inspect(session.connection()).get_table_names()) - {"alembic_version"}


def _rows(database) -> dict[str, list]:
    with database.reading() as session:
        return {
            name: [tuple(row) for row in session.execute(select(table))]
            for name, table in Base.metadata.tables.items()
        }


def test_one_head_and_the_program_knows_it():
    assert ScriptDirectory.from_config(migrate.config()).get_heads() == [schema.REVISION]


def test_up_down_and_up_again_with_rows(empty, rows):
    migrate.upgrade(empty)
    with empty.writing() as session:
        rows.fill_every_table(session)
    before = _rows(empty)
    assert all(before.values())
    migrate.upgrade(empty)
    assert _rows(empty) == before
    migrate.downgrade(empty, "base")
    assert _tables(empty) == set()
    migrate.upgrade(empty)
    assert _tables(empty) == set(TABLES)
    assert not any(_rows(empty).values())


def test_models_and_migrations_make_the_same_tables(database):
    with database.reading() as session:
        context = MigrationContext.configure(session.connection(), opts={"compare_type": True})
        assert compare_metadata(context, Base.metadata) == []


@pytest.mark.parametrize("table", TABLES)
def test_models_and_migrations_make_the_same_checks(table, database, empty):
    engine = empty.migrating_engine()
    Base.metadata.create_all(engine)

    def checks(of: Database) -> dict[str, str]:
        with of.reading() as session:
            found = inspect(session.connection()).get_check_constraints(table)
        return {check["name"]: check["sqltext"] for check in found}

    assert checks(database) == checks(empty)
    engine.dispose()


def test_a_database_that_is_not_there_says_what_to_run_and_is_not_made(empty):
    with pytest.raises(DatabaseMissing, match=r"not been made yet.*Run: trainer init"):
        schema.require_current(empty)
    assert not Path(empty.url.database).exists()


def test_an_empty_database_says_what_to_run(empty):
    Path(empty.url.database).touch()
    with pytest.raises(schema.SchemaMismatch, match=r"has no tables yet.*Run: trainer init"):
        schema.require_current(empty)


def test_a_newer_database_is_not_touched(database):
    with database.writing() as session:
        session.connection().exec_driver_sql("UPDATE alembic_version SET version_num = '9999'")
    with pytest.raises(schema.SchemaMismatch, match="is at revision 9999"):
        schema.require_current(database)
    with pytest.raises(TrainerError, match="newer"):
        migrate.upgrade(database)


def test_a_migration_that_fails_leaves_nothing_behind(empty, monkeypatch):
    monkeypatch.setattr(
        "trainer.records.sqlite.broken_references", lambda _: [("answers", 1, "people", 0)]
    )
    with pytest.raises(TrainerError, match="answers that refer to nothing"):
        migrate.upgrade(empty)
    assert _tables(empty) == set()
    assert schema.found_revision(empty) is None
