"""Reading, writing and taking turns on one real SQLite file."""

from __future__ import annotations

import multiprocessing
import threading
import time

import pytest
from sqlalchemy import func, select, text
from sqlalchemy.exc import IntegrityError, OperationalError

from trainer.records import sqlite
from trainer.records.database import Database, DatabaseBusy, DatabaseFault
from trainer.records.tables import Answer, Attempt, Crew, Membership


def _crews(database) -> list[str]:
    with database.reading() as session:
        return list(session.scalars(select(Crew.name).order_by(Crew.id)))


def test_a_block_that_ends_well_is_kept_and_another_is_not(database):
    with database.writing() as session:
        session.add(Crew(name="North"))
    with pytest.raises(LookupError), database.writing() as session:
        session.add(Crew(name="South"))
        session.flush()
        raise LookupError
    assert _crews(database) == ["North"]


def test_a_reading_session_cannot_write(database):
    with pytest.raises(OperationalError, match="readonly"), database.reading() as session:
        session.add(Crew(name="North"))
        session.flush()
    assert _crews(database) == []


def test_what_was_read_can_be_used_after_the_block(database):
    with database.writing() as session:
        session.add(Crew(name="North"))
    with database.reading() as session:
        crew = session.scalar(select(Crew))
    assert crew.name == "North"


def test_a_reader_sees_one_state_while_others_write(database):
    with database.reading() as session:
        before = session.scalar(select(func.count()).select_from(Crew))
        with database.writing() as writing:
            writing.add(Crew(name="North"))
        assert session.scalar(select(func.count()).select_from(Crew)) == before
    assert _crews(database) == ["North"]


def test_writing_inside_writing_is_refused_at_once(database):
    with (
        database.writing(),
        pytest.raises(RuntimeError, match="wait for itself"),
        database.writing(),
    ):
        pass
    with database.writing() as session:
        session.add(Crew(name="North"))


def test_references_are_enforced(database):
    with pytest.raises(IntegrityError), database.writing() as session:
        session.add(Membership(person_id=99, crew_id=99, leads=False, starts_at=_now()))


def test_answers_are_durable_and_the_log_is_used_only_where_sound(database):
    for block in (database.reading, database.writing):
        with block() as session:
            assert session.scalar(text("PRAGMA synchronous")) == 2  # FULL
            assert session.scalar(text("PRAGMA journal_mode")) == sqlite.journal_mode()


def test_an_unsound_library_goes_back_to_the_rollback_journal(database, monkeypatch):
    monkeypatch.setattr(sqlite, "log_is_sound", lambda _: False)
    database.close()
    database.prepare()
    with database.writing() as session:
        session.add(Crew(name="North"))
        assert session.scalar(text("PRAGMA journal_mode")) == "delete"
    assert _crews(database) == ["North"]


def test_another_program_holding_the_file_is_told_plainly(database, settings, monkeypatch):
    monkeypatch.setattr(sqlite, "_BUSY_TIMEOUT_MS", 50)
    database.close()
    intruder = sqlite.module().connect(settings.instance / "trainer.db", isolation_level=None)
    intruder.execute("BEGIN IMMEDIATE")
    with pytest.raises(DatabaseBusy, match="Nothing was lost"), database.writing() as session:
        session.add(Crew(name="North"))
    intruder.execute("ROLLBACK")
    intruder.close()
    with database.writing() as session:
        session.add(Crew(name="North"))
    assert _crews(database) == ["North"]


def test_a_place_that_does_not_exist_is_named(tmp_path):
    database = Database(f"sqlite:///{tmp_path / 'nowhere' / 'x.db'}")
    for block in (database.reading, database.writing):
        with pytest.raises(DatabaseFault, match="nowhere"), block() as session:
            session.execute(text("SELECT 1"))


def test_a_file_that_is_no_database_is_named(tmp_path):
    (tmp_path / "x.db").write_bytes(b"my holiday pictures" * 400)
    database = Database(f"sqlite:///{tmp_path / 'x.db'}")
    with pytest.raises(DatabaseFault, match="not a database"):
        database.prepare()


def test_an_outbox_key_is_taken_once(database, rows, sign_in):
    ana = sign_in("ana")
    with database.writing() as session:
        session.add(attempt := rows.attempt(ana.id))
        session.flush()
        session.add(rows.answer(attempt, "key-of-this-answer"))
    with pytest.raises(IntegrityError, match=r"answers\.key"), database.writing() as session:
        attempt = session.scalar(select(Attempt))
        session.add(rows.answer(attempt, "key-of-this-answer", decision="another"))
    with pytest.raises(IntegrityError, match="decision"), database.writing() as session:
        attempt = session.scalar(select(Attempt))
        session.add(rows.answer(attempt, "another-key-for-it"))
    with database.reading() as session:
        assert session.scalar(select(func.count()).select_from(Answer)) == 1


@pytest.mark.parametrize("role", ["foreman", "Worker", ""])
def test_only_the_words_of_the_grid_are_roles(database, role, sign_in):
    from trainer.records.tables import RoleGrant

    ana = sign_in("ana")
    with pytest.raises(IntegrityError), database.writing() as session:
        session.add(RoleGrant(person_id=ana.id, role=role, starts_at=_now()))


def _now():
    from datetime import UTC, datetime

    return datetime.now(UTC)


def _write(url: str, threads: int, each: int, name: str) -> list[str]:
    """``threads`` × ``each`` read-then-write transactions; returns what went wrong."""
    database, wrong = Database(url), []

    def work(thread: int) -> None:
        for turn in range(each):
            try:
                with database.writing() as session:
                    session.scalar(select(func.count()).select_from(Crew))
                    session.add(Crew(name=f"{name}-{thread}-{turn}"))
            except Exception as problem:
                wrong.append(repr(problem))

    workers = [threading.Thread(target=work, args=(n,)) for n in range(threads)]
    for worker in workers:
        worker.start()
    for worker in workers:
        worker.join()
    database.close()
    return wrong


def test_sixteen_threads_write_and_nobody_is_locked_out(database, settings):
    assert _write(settings.database, threads=16, each=15, name="t") == []
    assert len(_crews(database)) == 16 * 15


def test_eight_processes_write_and_nobody_is_locked_out(database, settings):
    context = multiprocessing.get_context("spawn")
    with context.Pool(8) as pool:
        jobs = [(settings.database, 2, 10, f"p{n}") for n in range(8)]
        assert pool.starmap(_write, jobs) == [[]] * 8
    assert len(_crews(database)) == 8 * 2 * 10


def test_turns_are_taken_in_order_of_arrival(database):
    order, threads = [], []

    def write(number: int) -> None:
        with database.writing():
            order.append(number)

    with database.writing():
        for number in range(8):
            threads.append(threading.Thread(target=write, args=(number,)))
            threads[-1].start()
            time.sleep(0.03)  # each is surely waiting before the next arrives
    for thread in threads:
        thread.join()
    assert order == list(range(8))
