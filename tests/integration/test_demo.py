"""The demonstration: made by the program's own services, kept by a second run."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import timedelta

import pytest
from sqlalchemy import func, select

from trainer.records.database import Database
from trainer.records.tables import Answer, Attempt, LessonReading, Membership, Person
from trainer.services import accounts, rechecking
from trainer.services.demo import make_demo


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """The demonstration on a database of its own, with the parts it was made with."""
    from datetime import UTC, datetime

    from tests.conftest import CHEAP
    from trainer.app import make_parts
    from trainer.config import Settings
    from trainer.services.clock import StoppedClock

    folder = tmp_path_factory.mktemp("demo")
    settings = Settings(
        instance=folder, database=f"sqlite:///{folder / 'demo.db'}", secret="x" * 40, argon2=CHEAP
    )
    clock = StoppedClock(datetime(2026, 5, 6, 9, 0, tzinfo=UTC))
    parts = replace(make_parts(settings, clock), demo=True)
    assert make_demo(parts, settings.demo_password) is True
    yield parts
    parts.database.close()


def rows(database: Database, table) -> list:
    with database.reading() as session:
        return list(session.scalars(select(table)))


def test_twelve_workers_in_two_crews_and_those_who_look_after_them(made) -> None:
    roles = Counter(account.role for account in accounts.demo_accounts(made))
    assert roles["worker"] == 12 and roles["supervisor"] == 1
    assert roles["coordinator"] == 1 and roles["auditor"] == 1
    crews = {m.crew_id for m in rows(made.database, Membership)}
    assert len(crews) == 2


def test_three_months_of_history_that_lie_in_the_past(made) -> None:
    now = made.clock.now()
    answers = rows(made.database, Answer)
    assert len(answers) > 500
    first, last = min(a.server_at for a in answers), max(a.server_at for a in answers)
    assert last < now and now - first > timedelta(days=80)
    assert all(a.opened_at < now for a in rows(made.database, Attempt))
    assert 0.4 < sum(a.right for a in answers) / len(answers) < 0.9
    assert any(a.critical for a in answers)


def test_nobody_practises_a_unit_before_reading_its_lesson(made) -> None:
    read = {(r.person_id, r.unit): r.read_at for r in rows(made.database, LessonReading)}
    for attempt in rows(made.database, Attempt):
        assert read[attempt.person_id, attempt.unit] <= attempt.opened_at


def test_all_of_it_can_be_worked_out_again(made) -> None:
    assert [p for problems in rechecking.every(made) for p in problems] == []


def test_a_second_run_keeps_what_is_there(made) -> None:
    with made.database.reading() as session:
        before = session.scalar(select(func.count()).select_from(Person))
    assert make_demo(made, "whatever it may be, it is not used") is False
    assert len(rows(made.database, Person)) == before
