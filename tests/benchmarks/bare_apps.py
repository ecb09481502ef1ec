"""What the program is measured against: bare Flask on the same server and the same SQLite."""

from __future__ import annotations

import os
import threading

from flask import Flask, request

from trainer.records import sqlite


def floor() -> Flask:
    """One raw INSERT, committed as durably as an answer; and a page of as many bytes as asked."""
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

    @app.get("/page/<int:size>")
    def page(size: int) -> str:
        return "x" * size

    return app
