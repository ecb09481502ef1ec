"""Every family of the pack through its pages without scripts: asked, answered, explained."""

from __future__ import annotations

from typing import Any

import html5lib
import pytest
from bs4 import BeautifulSoup
from sqlalchemy import select

from tests.functional.page_client import Reader, sample_app, text
from tests.functional.sample_site import PASSWORD
from trainer.engine.solve import Decision
from trainer.pack.pack import load_pack
from trainer.records.tables import Attempt
from trainer.services import attempts, learning, sessions
from trainer.services.scenarios import Library, library

__all__ = ["sample_app"]

FAMILIES = sorted(load_pack().families)


@pytest.fixture
def rena(sample_app) -> Reader:
    return Reader(sample_app, "rena")


def opened(app, family: str) -> tuple[str, Library, Attempt]:
    """A scenario of ``family`` put before Rena."""
    parts = app.extensions["trainer"]
    token = sessions.sign_in(parts, "rena", PASSWORD)
    person = sessions.signed_in(parts, token)
    with parts.database.writing() as session:
        shelf = library(session)
        attempt = attempts.open_attempt(session, parts, person, shelf, family, seed=7)
        return attempt.public_id, shelf, attempt


def fields_of(decision: Decision, form: BeautifulSoup) -> dict[str, Any]:
    """The right answer as the form's fields."""
    right = learning.right_response(decision)
    if "order" in right:
        return {f"place-{step}": str(place) for place, step in enumerate(right["order"], 1)}
    if "minute" in right:
        return {"time": f"{right['minute'] // 60:02d}:{right['minute'] % 60:02d}"}
    if right.get("rows") == []:
        return {"rows": ""}  # the row that says: nothing here is wrong
    if "value" in right:
        in_metres = 1000 if decision.unit == "m" else 1
        return {"value": str(right["value"] / in_metres)}
    return right


@pytest.mark.parametrize("family", FAMILIES)
def test_every_family_is_worked_through_and_every_right_answer_is_explained(
    sample_app, rena: Reader, family: str
) -> None:
    attempt_id, shelf, attempt = opened(sample_app, family)
    for decision in shelf.of(attempt).decisions:
        page = rena.read(f"/scenario/{attempt_id}")
        html5lib.HTMLParser(strict=True).parse(str(page))
        assert page.select_one(".figure svg title") and page.select_one("form.decide")
        form = page.select_one("form.decide")
        answered = rena.send(form, fields_of(decision, form))
        page = rena.read(answered.location)
        assert "Right, because" in text(page.select_one(".verdict.right")), decision.id
        assert len(text(page.select_one(".because"))) > 10
    page = rena.read(f"/scenario/{attempt_id}")
    assert text(page.select_one("form.onward button")) == "Next scenario"
    with sample_app.extensions["trainer"].database.reading() as session:
        stored = session.scalars(select(Attempt).where(Attempt.public_id == attempt_id)).one()
        assert stored.closed_at is not None


def test_the_way_in_shows_the_eight_units_and_each_layer_leads_to_one(rena: Reader) -> None:
    page = rena.read("/")
    units = {unit["id"] for unit in page.select("li.unit")}
    led_to = {part["href"].removeprefix("#") for part in page.select(".figure svg a[href]")}
    assert len(units) == 8 and led_to == units


def test_every_unit_has_its_lesson_and_its_practice(rena: Reader) -> None:
    ids = [unit["data-unit"] for unit in rena.read("/").select("li.unit")]
    for unit in ids:
        page = rena.read(f"/learn/{unit}")
        assert rena.status == 200 and page.select("article.lesson section"), unit
        page = rena.read(f"/practise/{unit}")
        assert "/scenario/" in rena.send(page.select_one("main form")).location


def test_a_time_that_is_none_is_sent_back_with_what_is_wanted(sample_app, rena: Reader) -> None:
    """Through the real services: said in place, what was typed kept, nothing stored."""
    attempt_id, shelf, attempt = opened(sample_app, "watch-end")
    decision = shelf.of(attempt).decisions[0]
    page = rena.answer(f"/scenario/{attempt_id}", {"time": "25:99"})
    assert rena.status == 422 and decision.kind == "time"
    assert "“25:99” cannot be taken." in text(page.select_one("#problem"))
    assert page.select_one("#time")["value"] == "25:99"


def test_sending_off_nothing_is_asked_again_and_not_taken_as_nothing_wrong(
    sample_app, rena: Reader
) -> None:
    attempt_id, _, _ = opened(sample_app, "what-can-burn")
    form = rena.read(f"/scenario/{attempt_id}").select_one("form.decide")
    refused = rena.send(form, {})
    assert refused.status_code == 422
    assert "nothing is wrong" in refused.get_data(as_text=True)


def test_the_coordinator_opens_a_workers_scenario_as_it_was_answered(
    sample_app, rena: Reader
) -> None:
    attempt_id, shelf, attempt = opened(sample_app, "chalk-line")
    for _ in shelf.of(attempt).decisions:
        form = rena.read(f"/scenario/{attempt_id}").select_one("form.decide")
        decision = next(
            d for d in shelf.of(attempt).decisions if form["action"].endswith(f"/{d.id}")
        )
        rena.send(form, fields_of(decision, form))
    kim = Reader(sample_app, "kim")
    person = kim.read("/people").find("a", string="Rena")["href"]
    line = kim.read(person).select_one(f'a[href$="/scenario/{attempt_id}"]')
    page = kim.read(line["href"])
    html5lib.HTMLParser(strict=True).parse(str(page))
    assert "As Rena answered it." in text(page.main) and not page.select("form.decide")
    assert len(page.select(".verdict.right")) == len(shelf.of(attempt).decisions)
