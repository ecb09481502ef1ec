"""What the program is measured against, and the program with its storing of an answer laid bare."""

from __future__ import annotations

import os
import threading

from flask import Flask, request

PASSWORD = "gravel stops the bucket slide"


def floor() -> Flask:
    """Bare Flask: one raw INSERT of the same size, committed as durably, on the same library."""
    from trainer.records import sqlite

    app, local = Flask("floor"), threading.local()

    def connection():
        if not hasattr(local, "connection"):
            local.connection = sqlite.module().connect(os.environ["FLOOR_DATABASE"], timeout=30)
            local.connection.isolation_level = None
            local.connection.execute(f"PRAGMA journal_mode = {sqlite.journal_mode()}")
            local.connection.execute("PRAGMA synchronous = FULL")
        return local.connection

    connection().execute("CREATE TABLE IF NOT EXISTS kept (id INTEGER PRIMARY KEY, body TEXT)")

    @app.post("/answer")
    def answer() -> str:
        base = connection()
        base.execute("BEGIN IMMEDIATE")
        base.execute("INSERT INTO kept (body) VALUES (?)", (request.form["body"],))
        base.execute("COMMIT")
        return "kept"

    return app


def ours() -> Flask:
    """The program with one more page: it stores an answer and leaves out what marks it.

    Session, form token, the turn to write, the tables with their indexes and the durable commit
    are those of every answer. One worker, "ana", has one attempt.
    """
    from trainer.app import create_app, make_parts
    from trainer.config import Settings
    from trainer.services import accounts
    from trainer.services.site import make_ready

    settings = Settings.load()
    parts = make_parts(settings)
    make_ready(parts.database, "Mill Street", "UTC")
    new = accounts.NewPerson("Ana", "ana", PASSWORD, must_change_password=False)
    accounts.add_person(parts, new)
    attempt_id = _attempt(parts)
    app = create_app(settings)

    @app.post("/answer")
    def answer() -> str:
        _store(attempt_id, request.form["key"], request.form["body"])
        return "kept"

    return app


def _attempt(parts) -> int:
    from trainer.records.tables import Attempt

    with parts.database.writing() as session:
        attempt = Attempt(
            person_id=1, purpose="practise", unit="laps", family="short-lap", family_version=1,
            rulebook_version="1", profile="plain", pack_digest="0" * 64, engine_version=1, seed=1,
            mode="clean", margin=1.0, facts={"lap_mm": 60}, opened_at=parts.clock.now(),
        )  # fmt: skip
        session.add(attempt)
        session.flush()
        return attempt.id


def _store(attempt_id: int, key: str, body: str) -> None:
    from trainer.records.insert import insert_row
    from trainer.records.tables import Answer
    from trainer.web.session import current_person, parts

    person, clock = current_person(), parts().clock
    with parts().database.writing() as session:
        insert_row(
            session, Answer, key=key, attempt_id=attempt_id, person_id=person.id, unit="laps",
            family="short-lap", decision=key, response={"row": "b"}, right=True, critical=False,
            score=1.0, mark={"because": body}, server_at=clock.now(), language="en",
            length_unit=person.length_unit, temperature_unit=person.temperature_unit,
        )  # fmt: skip
