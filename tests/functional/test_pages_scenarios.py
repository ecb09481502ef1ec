"""Scenarios without scripts: every kind of decision is asked, taken, answered and explained."""

from __future__ import annotations

import pytest

from tests.functional import sample_pages as sample
from tests.functional.page_client import Reader, reader, sample_app, services, text

__all__ = ["reader", "sample_app", "services"]


def places(*steps: str) -> dict[str, str]:
    """The form fields that put ``steps`` in this order."""
    return {f"place-{step}": str(place) for place, step in enumerate(steps, 1)}


RIGHT_ANSWERS = {
    "place": {"row": "b"},
    "mark": {"row": "corner"},
    "find": {"rows": ["lap", "can", "corner"]},
    "measure": {"value": "42"},
    "time": {"time": "13:20"},
    "order": places("preheat", "bond", "fill", "weld", "watch"),
    "go_stop": {"row": "unclosed"},
    "choose": {"row": "strip"},
}  # fmt: skip
WRONG_ANSWERS = {
    "place": {"row": "a"},
    "mark": {"row": "can"},
    "find": {"rows": ""},
    "measure": {"value": "140"},
    "time": {"time": "14:20"},
    "order": places("bond", "preheat", "fill", "weld", "watch"),
    "go_stop": {"row": "go"},
    "choose": {"row": "leave"},
}  # fmt: skip


@pytest.mark.parametrize("kind", sample.DECISIONS)
def test_a_scenario_shows_situation_drawing_question_and_title_block(
    reader: Reader, kind: str
) -> None:
    page = reader.read(f"/scenario/{kind}")
    decision = sample.DECISIONS[kind]
    assert text(page.h1) == "A third sheet beside a field lap"
    assert "The wall is 4.2 m long." in text(page.select_one(".brief"))
    assert decision.prompt in text(page.select_one("h2.note"))
    assert page.select_one(".figure svg title")
    for row in decision.rows:
        assert row.text in text(page.select_one("form.decide"))
    block = text(page.select_one(".title-block"))
    assert "lap-beside-lap 2 · 48 213" in block and "Site rules, north roof" in block
    assert "Stagger and clearance of laps" in block


@pytest.mark.parametrize("kind", sample.DECISIONS)
def test_a_right_answer_sent_by_a_plain_form_is_explained(
    reader: Reader, services, kind: str
) -> None:
    page = reader.answer(f"/scenario/{kind}", RIGHT_ANSWERS[kind])
    assert reader.path == f"/scenario/{kind}/{sample.DECISIONS[kind].id}"
    verdict = page.select_one(".verdict.right")
    assert "Right, because" in text(verdict)
    assert "110 mm" in text(verdict.select_one(".sum"))
    assert "common practice, no source" in text(verdict.select_one(".rules"))
    assert "Should be" not in text(verdict)
    assert len(services.answers) == 1


@pytest.mark.parametrize("kind", sample.DECISIONS)
def test_a_wrong_answer_says_what_was_given_and_what_should_be(reader: Reader, kind: str) -> None:
    page = reader.answer(f"/scenario/{kind}", WRONG_ANSWERS[kind])
    verdict = page.select_one(".verdict")
    assert "Not yet, because" in text(verdict)
    assert "Should be" in text(verdict)
    assert "What comes of it" in text(verdict)


def test_an_error_that_can_burn_somebody_says_so_and_gives_the_caution(reader: Reader) -> None:
    verdict = reader.answer("/scenario/go_stop", {"row": "go"}).select_one(".verdict")
    assert "critical" in verdict["class"]
    assert "can burn or kill somebody" in text(verdict)
    assert "hot-work rules of the place govern" in text(verdict.select_one(".caution"))


def test_an_error_that_only_leaks_does_not_shout(reader: Reader) -> None:
    verdict = reader.answer("/scenario/choose", {"row": "leave"}).select_one(".verdict")
    assert "critical" not in verdict["class"]
    assert "kill" not in text(verdict)


def test_the_caution_stands_on_the_page_before_a_decision_that_can_burn(reader: Reader) -> None:
    assert reader.read("/scenario/go_stop").select_one(".caution")
    assert not reader.read("/scenario/choose").select_one(".caution")


@pytest.mark.parametrize(
    ("kind", "fields", "said"),
    [
        ("measure", {"value": "40,5"}, "“40,5” cannot be taken. Wanted: one number in mm"),
        ("measure", {"value": ""}, "Nothing is filled in yet. Wanted: one number in mm"),
        ("choose", {}, "Nothing is filled in yet. Wanted: one of the answers"),
        (
            "order",
            {**places("weld", "fill", "bond", "watch"), "place-preheat": "4"},
            "each place once",
        ),
    ],
)  # fmt: skip
def test_what_cannot_be_taken_is_said_in_place_and_nothing_is_stored(
    reader: Reader, services, kind: str, fields: dict, said: str
) -> None:
    page = reader.answer(f"/scenario/{kind}", fields)
    assert reader.status == 422
    assert said in text(page.select_one("form.decide #problem"))
    assert not services.answers


def test_what_was_typed_stays_when_it_cannot_be_taken(reader: Reader) -> None:
    page = reader.answer("/scenario/measure", {"value": "40,5"})
    assert page.select_one("#value")["value"] == "40,5"
    assert page.select_one("#value")["aria-invalid"] == "true"
    places = {f"place-{step}": "3" for step in ("weld", "fill", "bond", "watch", "preheat")}
    page = reader.answer("/scenario/order", places)
    assert {s.select_one("option[selected]").text for s in page.select("select")} == {"3"}


def test_every_page_offers_a_new_key_and_refuses_a_made_up_one(reader: Reader, services) -> None:
    keys = [reader.read("/scenario/choose").select_one("[name=key]")["value"] for _ in range(2)]
    assert keys[0] != keys[1] and all(len(key) == 32 for key in keys)
    form = reader.page.select_one("form.decide")
    for bad in ("", "short", "a" * 65, "quote'" * 5):
        answered = reader.send(form, {"row": "strip", "key": bad}, Accept="application/json")
        assert (answered.status_code, answered.json["field"]) == (422, "key")
    assert not services.answers


def test_a_script_is_answered_with_the_way_onwards(reader: Reader, services) -> None:
    form = reader.read("/scenario/choose").select_one("form.decide")
    fields = {"row": "strip", "phone_at": "2026-11-25T07:40:10+01:00"}
    answered = reader.send(form, fields, Accept="application/json")
    assert answered.json == {"location": "/scenario/choose/remedy"}
    (stored,) = services.answers.values()
    assert stored == ("choose", "remedy", {"row": "strip"}, "2026-11-25T07:40:10+01:00")


def test_an_answer_sent_twice_is_stored_once_and_answered_the_same(
    reader: Reader, services
) -> None:
    form = reader.read("/scenario/choose").select_one("form.decide")
    first, again = (
        reader.send(form, {"row": "strip"}, Accept="application/json") for _ in range(2)
    )
    assert first.json == again.json
    assert (services.sent, len(services.answers)) == (2, 1)


def test_a_script_is_told_what_cannot_be_taken(reader: Reader) -> None:
    form = reader.read("/scenario/measure").select_one("form.decide")
    answered = reader.send(form, {"value": "4o"}, Accept="application/json")
    assert answered.status_code == 422
    assert answered.json["field"] == "value" and "“4o”" in answered.json["message"]


def test_a_second_answer_is_not_taken_and_the_page_says_whose_stands(
    reader: Reader, services
) -> None:
    form = reader.read("/scenario/choose").select_one("form.decide")
    reader.send(form, {"row": "leave"})
    again = reader.send(form, {"row": "strip", "key": "f" * 32})
    page = reader.read(again.location)
    assert "Your first answer stands." in text(page)
    assert [answer[2] for answer in services.answers.values()] == [{"row": "leave"}]


def test_after_the_first_decision_one_button_leads_to_the_next(reader: Reader) -> None:
    page = reader.answer("/scenario/two", {"row": "unclosed"})
    (onward,) = page.select(".rest .onward a")
    assert text(onward) == "Next decision"
    page = reader.read(onward["href"])
    assert "60 mm where 75 mm is asked" in text(page.select_one("h2.note"))
    assert "Decision 2 of 2" in text(page)
    page = reader.answer("/scenario/two", {"row": "strip"})
    assert text(page.select_one("form.onward button")) == "Next scenario"


def test_once_all_are_made_every_verdict_stands_on_the_page(reader: Reader) -> None:
    reader.answer("/scenario/two", {"row": "go"})
    reader.answer("/scenario/two", {"row": "strip"})
    page = reader.read("/scenario/two")
    assert [text(h) for h in page.select(".verdict .headline")] == [
        "Not yet, because",
        "Right, because",
    ]
    assert not page.select("form.decide")


def test_the_verdict_of_a_decision_that_waits_leads_back_to_it(reader: Reader) -> None:
    reader.read("/scenario/two/remedy")
    assert reader.path == "/scenario/two"


@pytest.mark.parametrize("path", ["/scenario/two/no-such", "/scenario/no-such"])
def test_an_unknown_scenario_or_decision_is_a_plain_page(reader: Reader, path: str) -> None:
    page = reader.read(path)
    assert reader.status == 404
    assert "Traceback" not in text(page) and page.select_one("nav")


def test_a_fixed_form_shows_no_verdict_on_the_way_and_is_labelled_practice(reader: Reader) -> None:
    page = reader.read("/prove/stagger")
    assert "never counts as evidence" in text(page)
    page = reader.read(reader.send(page.select_one("main form")).location)
    assert reader.path == "/scenario/form"
    assert "Practice form: this never counts as evidence." in text(page)
    page = reader.answer("/scenario/form", {"row": "go"})
    assert reader.path == "/scenario/form" and not page.select(".verdict")
    page = reader.answer("/scenario/form", {"row": "strip"})
    assert reader.path == "/form/s1/result"
    assert "Four of five scenarios were right." in text(page)
    assert "never counts as evidence" in text(page)


def test_a_form_left_open_can_be_gone_on_with(reader: Reader, services) -> None:
    services.open_set = "s1"
    page = reader.read("/prove/stagger")
    assert text(page.select_one(".onward a")) == "Go on with the form you left open"
    assert text(page.select_one(".onward button")) == "Begin a new form"


def test_in_inches_the_phone_offers_letters_for_the_fraction_stroke(
    reader: Reader, services
) -> None:
    assert reader.read("/scenario/measure").select_one("#value")["inputmode"] == "decimal"
    number = sample.replace(sample.DECISIONS["measure"].number, unit="in", step=None)
    decision = sample.replace(sample.DECISIONS["measure"], number=number)
    page = services.attempts["measure"]
    services.attempts["measure"] = sample.replace(page, decisions=(decision,), current=decision)
    assert reader.read("/scenario/measure").select_one("#value")["inputmode"] == "text"


def test_a_stranger_is_asked_to_sign_in_and_a_script_is_told_so(sample_app, services) -> None:
    client = sample_app.test_client()
    asked = client.get("/scenario/choose")
    assert asked.status_code == 303 and asked.location == "/sign-in?next=/scenario/choose"
    told = client.get("/scenario/choose", headers={"Accept": "application/json"})
    assert told.status_code == 401 and told.json["sign_in"] == "/sign-in"
