"""What a person and a script see when something goes wrong."""

from __future__ import annotations

import pytest

from trainer.errors import InputError, TrainerError
from trainer.services import refusals

JSON = {"Accept": "application/json"}


@pytest.fixture
def fails_with(app, signed_in):
    """fails_with(error) → the signed-in worker's answer from a page that raises it."""
    waiting = []

    @app.get("/fails")
    def fails():
        raise waiting.pop()

    worker = signed_in("ana")

    def visit(error: Exception, **headers: str):
        app.config["PROPAGATE_EXCEPTIONS"] = False
        waiting.append(error)
        return worker.visit("/fails", headers=headers)

    return visit


@pytest.mark.parametrize(
    ("error", "status", "heading"),
    [
        (InputError("lap_mm", "60,5", "a number (mm)"), 422, "lap_mm: got"),
        (refusals.NotAllowed("scenario.play"), 403, "You may not do this."),
        (refusals.NotFound("scenario"), 404, "There is no such scenario here."),
        (refusals.Conflict("Somebody was first."), 409, "Somebody was first."),
        (refusals.TooManyAtOnce(), 429, "Many people are signing in."),
        (refusals.DatabaseBusy(), 503, "The records are busy."),
        (TrainerError("Family x is broken.", "Run: trainer scenario check"), 500, "Family x"),
        (ZeroDivisionError("swordfish"), 500, "Something went wrong on our side."),
    ],
)
def test_a_page_says_what_happened_and_what_to_do(fails_with, error, status, heading):
    worker = fails_with(error)
    assert worker.status == status
    assert worker.heading.startswith(heading)
    assert worker.page.select_one("header nav")
    assert "swordfish" not in worker.response.text
    assert "Traceback" not in worker.response.text


def test_a_script_gets_the_same_words(fails_with):
    worker = fails_with(InputError("lap_mm", "60,5", "a number (mm)"), **JSON)
    assert worker.response.json == {
        "message": 'lap_mm: got "60,5"; allowed: a number (mm)',
        "field": "lap_mm",
    }
    busy = fails_with(refusals.DatabaseBusy(), **JSON).response
    assert (busy.status_code, busy.headers["Retry-After"]) == (503, "5")


def test_a_failure_can_be_found_again_in_the_log(fails_with, caplog):
    worker = fails_with(ZeroDivisionError("swordfish"))
    reference = worker.words.partition("Reference: ")[2].split()[0]
    assert reference in caplog.text
    assert "swordfish" in caplog.text


def test_the_error_page_survives_what_it_reports(app, worker, monkeypatch):
    app.config["PROPAGATE_EXCEPTIONS"] = False
    monkeypatch.setattr("trainer.web.errors.render_template", lambda *_, **__: 1 / 0)
    answer = worker.client.get("/no-such-page")
    assert answer.status_code == 404
    assert "There is no such page." in answer.text


@pytest.mark.parametrize(
    ("method", "path", "status"),
    [
        ("get", "/no-such-page", 404),
        ("get", "/static/../../pyproject.toml", 404),
        ("get", "/static/%2e%2e/%2e%2e/pyproject.toml", 404),
        ("get", "/%00", 404),
        ("get", "/<script>alert(1)</script>", 404),
        ("delete", "/settings", 405),
        ("put", "/sign-in", 405),
    ],
)
def test_strange_addresses_get_a_plain_page(worker, method, path, status):
    answer = getattr(worker.client, method)(path)
    assert answer.status_code == status
    assert "<script>alert" not in answer.text


def test_a_method_that_is_not_taken_says_which_are(worker):
    allowed = worker.client.delete("/settings").headers["Allow"]
    assert set(allowed.split(", ")) == {"GET", "HEAD", "OPTIONS", "POST"}


def test_too_much_is_refused(worker):
    worker.visit("/settings").submit("Keep these settings", ground="x" * 2_000_000)
    assert (worker.status, worker.heading) == (413, "What you sent is too large.")


@pytest.mark.parametrize("cookie", ["x", "a.b.c", "eyJ0b2tlbiI6MX0.x.y", "\u00e9" * 40, "." * 4000])
def test_a_broken_cookie_is_no_cookie(client, cookie):
    client.set_cookie("trainer", cookie)
    assert client.get("/settings").status_code == 303


@pytest.mark.parametrize("token", [5, None, ["x"], {"a": 1}])
def test_a_cookie_of_another_shape_is_no_session(client, token):
    with client.session_transaction() as session:
        session["token"] = token
    assert client.get("/settings").status_code == 303


def test_bytes_that_are_no_text_are_taken_as_a_wrong_name(visitor):
    visitor.visit("/sign-in")
    token = visitor.page.find("input", {"name": "csrf_token"})["value"]
    body = b"csrf_token=" + token.encode() + b"&name=%ff%fe&password=%c3%28"
    answer = visitor.client.post(
        "/sign-in", data=body, content_type="application/x-www-form-urlencoded"
    )
    assert answer.status_code == 401
