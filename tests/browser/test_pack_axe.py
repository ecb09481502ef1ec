"""Every family and lesson of the real pack through axe-core: asked, answered, read by the desk."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.browser.conftest import DESK, PHONE
from tests.functional.sample_site import PASSWORD
from tests.functional.test_pages_of_the_pack import FAMILIES, opened
from trainer.pack.pack import load_pack
from trainer.services import attempts, sessions
from trainer.services.content.answers import wrong_responses
from trainer.services.learning import right_response

pytestmark = pytest.mark.browser


def some_that_show_everything() -> list[str]:
    """A few families that together have every decision on every kind of drawing the pack has."""
    shown = {
        name: {(family.figure["kind"], decision.kind) for decision in family.decisions}
        for name, family in load_pack().families.items()
    }
    left, chosen = set().union(*shown.values()), []
    while left:
        chosen.append(max(shown, key=lambda name: len(shown[name] & left)))
        left -= shown[chosen[-1]]
    return chosen


FEW = some_that_show_everything()
EVERY_FAMILY = [
    pytest.param(name, marks=[] if name in FEW else pytest.mark.long) for name in FAMILIES
]
UNITS = ("hazards", "primer", "set-out", "placing", "laps", "corners", "flame", "fire-watch")


@pytest.fixture
def axe():
    return pytest.importorskip("axe_playwright_python.sync_playwright").Axe()


@pytest.fixture
def real_page(chromium, address: str, cookies) -> Iterator:
    """real_page("rena", PHONE) → a page on the program's own services."""
    contexts = []

    def open_one(name: str, size: dict):
        context = chromium.new_context(base_url=address, storage_state=cookies(name), **size)
        contexts.append(context)
        return context.new_page()

    yield open_one
    for context in contexts:
        context.close()


def answered_by_rena(app, attempt_id: str, decisions, wrong: bool) -> None:
    parts = app.extensions["trainer"]
    rena = sessions.signed_in(parts, sessions.sign_in(parts, "rena", PASSWORD))
    for place, decision in enumerate(decisions):
        response = right_response(decision)
        if wrong:
            response = next((r for _, r in wrong_responses(decision)), response)
        key = f"{attempt_id}{place:020d}".replace("=", "x")
        attempts.answer(parts, rena, attempt_id, decision.id, response, key)


@pytest.mark.parametrize("family", EVERY_FAMILY)
def test_axe_finds_nothing_in_a_family(sample_app, real_page, axe, family: str) -> None:
    attempt_id, shelf, attempt = opened(sample_app, family)
    decisions = shelf.of(attempt).decisions
    phone = real_page("rena", PHONE)
    paths = [f"/scenario/{attempt_id}"]
    found = []
    phone.goto(paths[0])
    found.append(axe.run(phone))
    answered_by_rena(sample_app, attempt_id, decisions, wrong=True)
    for path in (*paths, *(f"/scenario/{attempt_id}/{d.id}" for d in decisions)):
        phone.goto(path)
        found.append(axe.run(phone))
        assert phone.evaluate("document.documentElement.scrollWidth <= innerWidth"), path
    desk = real_page("kim", DESK)
    desk.goto("/people")
    desk.get_by_role("link", name="Rena").first.click()
    desk.locator(f'a[href$="/scenario/{attempt_id}"]').click()
    desk.wait_for_load_state()
    found.append(axe.run(desk))
    assert not [r.generate_report() for r in found if r.violations_count]


@pytest.mark.parametrize("unit", UNITS)
def test_axe_finds_nothing_in_a_lesson(real_page, axe, unit: str) -> None:
    phone = real_page("rena", PHONE)
    phone.goto(f"/learn/{unit}")
    result = axe.run(phone)
    assert not result.violations_count, result.generate_report()
    assert phone.evaluate("document.documentElement.scrollWidth <= innerWidth")


@pytest.mark.parametrize("family", EVERY_FAMILY)
def test_axe_finds_nothing_in_an_example_worked_by_hand(
    sample_app, real_page, axe, family: str
) -> None:
    attempt_id, _, _ = opened(sample_app, family)
    phone = real_page("rena", PHONE)
    phone.goto(f"/scenario/{attempt_id}")
    summary = phone.locator("details#example summary")
    assert summary.count(), "the family has no example, or its rules are not in force"
    assert summary.bounding_box()["height"] >= 44
    summary.click()
    folded = axe.run(phone)
    phone.locator("details#example a").click()
    phone.wait_for_url("**/example?**")
    assert phone.locator("article.lesson svg").count()
    page = axe.run(phone)
    assert not [r.generate_report() for r in (folded, page) if r.violations_count]
    assert phone.evaluate("document.documentElement.scrollWidth <= innerWidth")
