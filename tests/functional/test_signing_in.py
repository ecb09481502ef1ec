"""Signing in and out through the pages, and losing nothing when a session ends in the middle."""

from __future__ import annotations

from datetime import timedelta

import pytest

from trainer.services.refusals import TooManyAtOnce

PASSWORD = "gravel stops the bucket slide"
MID_SCENARIO = {"row": "b", "key": "0123456789abcdef", "note": 'torch "off" <br> & away'}


@pytest.fixture
def answers(app):
    """A page with a form, /work, which keeps the answers it is sent."""
    from flask import render_template_string, request

    taken = []

    @app.get("/work")
    def ask() -> str:
        form = (
            '{% extends "base.html" %}{% block content %}<h1>Work</h1>'
            '<form method="post" action="/work?step=2">'
            '<input type="hidden" name="csrf_token" value="{{ csrf_token() }}">'
            "<button>Answer</button></form>{% endblock %}"
        )
        return render_template_string(form)

    @app.post("/work")
    def take() -> str:
        taken.append({**request.form.to_dict(), **request.args.to_dict()})
        return "<main>taken</main>"

    return taken


def _without_token(answer: dict[str, str]) -> dict[str, str]:
    return {name: value for name, value in answer.items() if name != "csrf_token"}


def test_in_and_out_again(visitor, add_person):
    add_person("Ana Ruiz", "ana")
    visitor.visit("/settings")
    assert visitor.path == "/sign-in"
    visitor.submit("Sign in", name="Ana ", password=PASSWORD)
    assert (visitor.path, visitor.heading) == ("/settings", "Settings")
    visitor.submit("Sign out")
    assert visitor.path == "/sign-in"
    assert visitor.visit("/settings").path == "/sign-in"


def test_a_copied_cookie_is_worth_nothing_after_signing_out(app, signed_in):
    ana = signed_in("ana")
    cookie = ana.client.get_cookie("trainer")
    ana.visit("/settings").submit("Sign out")
    thief = app.test_client()
    thief.set_cookie("trainer", cookie.value)
    assert thief.get("/settings").status_code == 303


def test_the_session_is_a_new_one_after_signing_in(visitor, add_person):
    add_person("Ana", "ana")
    visitor.visit("/sign-in?next=/settings")
    before = visitor.page.select_one("meta[name=csrf-token]")["content"]
    cookie = visitor.client.get_cookie("trainer").value
    visitor.submit("Sign in", name="ana", password=PASSWORD)
    after = visitor.page.select_one("meta[name=csrf-token]")["content"]
    assert before.partition(".")[0] != after.partition(".")[0]
    assert cookie != visitor.client.get_cookie("trainer").value


@pytest.mark.parametrize(
    ("name", "password"),
    [("ana", "wrong"), ("nobody", PASSWORD), ("ana'--", "x"), ("ana\u202e", PASSWORD)],
)
def test_wrong_is_said_in_place_and_the_name_stays(visitor, add_person, name, password):
    add_person("Ana", "ana")
    visitor.visit("/sign-in").submit("Sign in", name=name, password=password)
    assert visitor.status == 401
    assert visitor.problems == ["Name and password do not belong together."]
    assert visitor.page.find("input", {"name": "name"})["value"] == name
    assert not visitor.page.find("input", {"name": "password"}).get("value")


def test_having_to_wait_is_said_with_the_sites_own_time(visitor, add_person):
    add_person("Ana", "ana")
    for _ in range(5):
        visitor.visit("/sign-in").submit("Sign in", name="ana", password="wrong")
    assert visitor.problems[0].endswith("The next try counts from 8:00:30\u202fAM on.")


def test_too_many_at_once_keeps_what_was_typed(visitor, add_person, monkeypatch):
    def full(*_) -> None:
        raise TooManyAtOnce

    monkeypatch.setattr("trainer.services.sessions.sign_in", full)
    visitor.sign_in("ana")
    assert visitor.status == 429
    assert "Wait a few seconds" in visitor.problems[0]


def test_empty_fields_are_named(visitor):
    visitor.visit("/sign-in").submit("Sign in")
    assert (visitor.status, visitor.problems) == (422, ["Fill this in.", "Fill this in."])


@pytest.mark.parametrize(
    "wanted",
    [
        "https://elsewhere.example/",
        "//elsewhere.example/",
        "/\\elsewhere.example/",
        "javascript:alert(1)",
        "settings",
        "/settings\r\nX: y",
    ],
)
def test_nobody_is_led_off_the_site(client, visitor, add_person, wanted):
    add_person("Ana", "ana")
    visitor.visit("/sign-in", query_string={"next": wanted})
    fields = {tag["name"]: tag["value"] for tag in visitor.page.select("main input[value]")}
    sent = {**fields, "next": wanted, "name": "ana", "password": PASSWORD}
    assert client.post("/sign-in", data=sent).location == "/"


def test_an_answer_sent_after_the_session_ended_waits_for_its_sender(answers, clock, signed_in):
    ana = signed_in("ana").visit("/work")
    clock.forward(timedelta(hours=13))
    ana.submit("Answer", **MID_SCENARIO)
    assert (ana.status, ana.heading) == (401, "Your session has ended")
    assert "What you just sent is kept" in ana.words
    ana.submit("Sign in", name="ana", password="wrong")
    ana.submit("Sign in", name="ana", password=PASSWORD)
    assert ana.heading == "You are signed in. One thing still waits."
    assert answers == []
    ana.submit("Send it now")
    assert [_without_token(answer) for answer in answers] == [{**MID_SCENARIO, "step": "2"}]


def test_an_answer_sent_without_any_cookie_waits_as_well(answers, signed_in):
    ana = signed_in("ana").visit("/work")
    ana.client.delete_cookie("trainer")
    ana.submit("Answer", **MID_SCENARIO).submit("Sign in", name="ana", password=PASSWORD)
    ana.submit("Send it now")
    assert [_without_token(answer) for answer in answers] == [{**MID_SCENARIO, "step": "2"}]


def test_an_answer_from_a_page_that_grew_old_is_one_press_away(answers, signed_in):
    ana = signed_in("ana").visit("/work")
    old = ana.page
    ana.visit("/settings").submit("Sign out").sign_in("ana")
    ana.page = old
    ana.submit("Answer", **MID_SCENARIO)
    assert (ana.status, ana.heading) == (400, "That page had grown old. Nothing is lost.")
    ana.submit("Send it now")
    assert [_without_token(answer) for answer in answers] == [{**MID_SCENARIO, "step": "2"}]


@pytest.mark.parametrize("origin", ["https://elsewhere.example", "null", ""])
def test_a_form_of_another_site_gets_no_button_here(answers, signed_in, origin):
    ana = signed_in("ana").visit("/work")
    ana.post("/work", MID_SCENARIO, headers={"Origin": origin})
    assert (ana.status, ana.heading) == (400, "This page is too old.")
    ana.client.delete_cookie("trainer")
    ana.post("/work", MID_SCENARIO, headers={"Origin": origin})
    assert ana.status == 401
    assert ana.page.find("input", {"name": "carried"})["value"] == ""
    assert answers == []


def test_what_is_carried_cannot_be_made_up(visitor, add_person):
    add_person("Ana", "ana")
    made_up = '["/work", [["row", "b"]]]'
    visitor.visit("/sign-in?next=/settings")
    visitor.submit("Sign in", name="ana", password=PASSWORD, carried=made_up)
    assert visitor.path == "/settings"


def test_a_password_is_never_carried(app, signed_in, clock):
    ana = signed_in("ana").visit("/password")
    clock.forward(timedelta(hours=13))
    ana.submit(
        "Use the new password", password=PASSWORD, new_password="swordfish swordfish", again="x"
    )
    from trainer.web import carried

    with app.test_request_context():
        kept = carried.unpacked(ana.page.find("input", {"name": "carried"})["value"])
    assert kept is None


def test_a_script_is_told_to_sign_in_and_where(answers, client):
    sent = client.post("/work", data=MID_SCENARIO, headers={"Accept": "application/json"})
    assert sent.status_code == 401
    assert sent.json["sign_in"] == "/sign-in"
    assert "what you answered is kept" in sent.json["message"]


def test_a_script_with_an_old_token_is_told_so(answers, signed_in):
    ana = signed_in("ana")
    headers = {"Accept": "application/json", "X-CSRFToken": "old"}
    sent = ana.client.post("/work", data=MID_SCENARIO, headers=headers)
    assert (sent.status_code, answers) == (400, [])
    assert "too old" in sent.json["message"]


def test_a_first_password_must_be_changed_before_anything_else(signed_in):
    ana = signed_in("ana", must_change_password=True)
    assert (ana.path, ana.heading) == ("/password", "Choose your own password")
    assert ana.page.select_one("[autocomplete=username]")["value"] == "ana"
    ana.submit("Use the new password", password=PASSWORD, new_password="short", again="other")
    assert ana.problems == ["This is not the same as above."]
    ana.submit("Use the new password", password=PASSWORD, new_password="short", again="short")
    assert ana.problems == ["This needs at least 15 characters."]
    new = "seven dry rollers"
    ana.submit("Use the new password", password=PASSWORD, new_password=new, again=new)
    assert (ana.path, ana.problems) == ("/settings", [])


def test_a_demonstration_lists_its_people_and_signs_in_at_a_touch(
    settings, clock, add_person, visitor_of
):
    from dataclasses import replace

    from trainer.app import create_app

    add_person("Ana Ruiz", "ana", demo=True, password=settings.demo_password)
    add_person("Real Person", "real")
    visitor = visitor_of(create_app(replace(settings, demo=True), clock))
    visitor.visit("/sign-in?next=/settings")
    ids = [tag["id"] for tag in visitor.page.select("[id]")]
    assert len(ids) == len(set(ids))
    assert "Real Person" not in visitor.words
    visitor.submit("Ana Ruiz, worker")
    assert visitor.path == "/settings"
