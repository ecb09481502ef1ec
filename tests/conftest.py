"""What many tests start from: a stopped clock, a migrated database, the app, people."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path

import pytest

from trainer.config import Argon2Cost, Settings

PASSWORD = "gravel stops the bucket slide"
CHEAP = Argon2Cost(memory_kib=8, passes=1, lanes=1)


@pytest.fixture
def clock():
    """Monday 4 May 2026, 12:00 UTC, 8 in the morning in Toronto; moves when told to."""
    from trainer.services.clock import StoppedClock

    return StoppedClock(datetime(2026, 5, 4, 12, 0, tzinfo=UTC))


@pytest.fixture(scope="session")
def migrated_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A database at the newest revision with its site, made once and copied for every test."""
    from trainer.records.database import Database
    from trainer.services.site import make_ready

    path = tmp_path_factory.mktemp("migrated") / "trainer.db"
    database = Database(f"sqlite:///{path}")
    make_ready(database, "Mill Street", "America/Toronto")
    database.close()
    return path


@pytest.fixture
def settings(tmp_path: Path, migrated_file: Path) -> Settings:
    """Settings of a test's own instance folder, with a migrated database and cheap passwords."""
    shutil.copy(migrated_file, tmp_path / "trainer.db")
    return Settings(
        instance=tmp_path,
        database=f"sqlite:///{tmp_path / 'trainer.db'}",
        secret="a secret for tests, long enough to be one",
        argon2=CHEAP,
    )


@pytest.fixture
def parts(settings: Settings, clock) -> Iterator:
    """What services work with, on the test's own database and clock."""
    from trainer.app import make_parts

    made = make_parts(settings, clock)
    yield made
    made.database.close()


@pytest.fixture
def database(parts):
    return parts.database


@pytest.fixture
def add_person(parts) -> Callable[..., str]:
    """add_person("Ana Ruiz", "ana", roles=("supervisor",), crew="North") → public id."""
    from trainer.services import accounts

    def add(name: str, sign_in_name: str, **more) -> str:
        new = {"password": PASSWORD, "must_change_password": False} | more
        return accounts.add_person(parts, accounts.NewPerson(name, sign_in_name, **new))

    return add


@pytest.fixture
def sign_in(parts, add_person) -> Callable[..., object]:
    """sign_in("ana") → that person as services see them, signed in; added first when new."""
    from trainer.services import sessions
    from trainer.services.refusals import Conflict

    def person(sign_in_name: str, **more):
        with suppress(Conflict):
            add_person(sign_in_name.title(), sign_in_name, **more)
        token = sessions.sign_in(parts, sign_in_name, PASSWORD)
        return sessions.signed_in(parts, token)

    return person


@pytest.fixture(scope="session")
def compiled_templates(tmp_path_factory: pytest.TempPathFactory):
    """Templates compiled once for all the apps that tests make."""
    from jinja2 import FileSystemBytecodeCache

    return FileSystemBytecodeCache(str(tmp_path_factory.mktemp("templates")))


@pytest.fixture
def app(settings: Settings, parts, clock, compiled_templates):
    from trainer.app import create_app

    made = create_app(settings, clock)
    made.jinja_env.bytecode_cache = compiled_templates
    made.testing = True
    yield made
    made.extensions["trainer"].database.close()


@pytest.fixture
def client(app):
    return app.test_client()


@pytest.fixture
def nothing_elsewhere(monkeypatch) -> None:
    """Nothing is worked out in another process: pages say that it is being worked out."""
    from trainer.services.installations import looking_back

    class Resting:
        def ask(self, *_) -> bool:
            return True

    monkeypatch.setattr(looking_back, "elsewhere", Resting())


@pytest.hookimpl(hookwrapper=True)
def pytest_runtest_makereport(item: pytest.Item) -> Iterator[None]:
    """Where everything must run (TRAINER_TESTS_MUST_RUN), a skipped test has failed."""
    outcome = yield
    report = outcome.get_result()
    if report.skipped and "TRAINER_TESTS_MUST_RUN" in os.environ:
        report.outcome = "failed"
        report.longrepr = f"skipped, but everything must run here: {report.longrepr}"
