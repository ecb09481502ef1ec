"""A whole installation in a real browser: tapped on the drawing, decided, stepped back, left."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import DESK, PHONE
from tests.browser.test_pages_axe import TARGETS, THUMB
from trainer.services.scenarios import checked_pack

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module", autouse=True)
def pack_at_hand(address: str) -> None:
    """Jobs come from the real pack; reading it for the first time outlasts a page's patience."""
    checked_pack()


@pytest.fixture
def axe():
    return pytest.importorskip("axe_playwright_python.sync_playwright").Axe()


def begin(page: Page, job: str = "A straight wall") -> None:
    page.goto("/installations")
    page.get_by_role("button", name=f"Practise: {job}", exact=True).click()
    page.wait_for_url("**/installation/*")


def do(page: Page, option: str) -> None:
    """Open an option and take it, after whatever was filled in."""
    chosen = page.locator("details.option", has_text=option)
    if chosen.get_attribute("open") is None:
        chosen.locator("summary").click()
    with page.expect_navigation():
        chosen.get_by_role("button", name="Do it").click()


def test_a_tap_on_the_drawing_leads_to_what_can_be_done_there(open_page) -> None:
    page = open_page()
    begin(page)
    # a stretch may go on in the next row: any piece of it will do
    page.locator('.figure .part[data-part="stretch-A-1"] .hit').first.tap()
    page.wait_for_url("**place=stretch-A-1**")
    expect(page.locator("#here h2")).to_contain_text("Wall A, ")
    do(page, "Prime wall A from here to there")
    expect(page.locator(".crew")).to_contain_text("Dana primes wall A")
    assert "place=stretch-A-1" in page.url and "since=0-0" in page.url


def test_time_passes_findings_are_said_and_one_steps_back(open_page) -> None:
    page = open_page()
    begin(page)
    page.get_by_role("link", name="Torch and gas").click()
    do(page, "Light the torch at a spot")
    page.get_by_role("button", name="Wait until somebody is done").click()
    expect(page.locator(".found")).to_contain_text("no permit is open")
    expect(page.locator(".found .rule").first).to_contain_text("permit")
    expect(page.locator(".news")).to_contain_text("Dana has lit the torch")
    page.get_by_role("button", name="Step back").click()
    expect(page.get_by_role("status").filter(has_text="Taken back")).to_be_visible()
    expect(page.locator(".crew")).to_contain_text("Dana lights the torch")


def test_what_cannot_be_read_is_said_in_place_and_stays(open_page) -> None:
    page = open_page()
    begin(page)
    page.get_by_role("link", name="Whole wall").click()
    chosen = page.locator("details.option", has_text="Snap the line")
    chosen.locator("summary").click()
    field = chosen.get_by_label("How far from the wall’s face")
    field.fill("ten")
    chosen.get_by_role("button", name="Do it").click()
    expect(chosen.locator(".problem")).to_contain_text("“ten” cannot be taken")
    expect(field).to_have_value("ten")
    expect(field).to_have_attribute("aria-invalid", "true")
    field.fill("120")
    do(page, "Snap the line")
    expect(page.locator(".crew")).to_contain_text("snaps the line 120 mm from wall A")


def test_a_decision_without_signal_waits_on_the_phone_and_is_taken_once(open_page) -> None:
    page = open_page()
    begin(page)
    page.get_by_role("link", name="Permit", exact=True).click()
    page.context.set_offline(True)
    chosen = page.locator("details.option", has_text="Open the hot-work permit")
    chosen.locator("summary").click()
    chosen.get_by_role("button", name="Do it").click()
    expect(page.locator("#waiting")).to_contain_text("kept on this phone")
    page.context.set_offline(False)
    expect(page.locator(".crew")).to_contain_text("Dana opens the permit", timeout=25000)


def test_one_tap_goes_on_with_the_same_work_and_a_place_stays_near_the_drawing(open_page) -> None:
    page = open_page()
    begin(page)
    page.locator('.figure .part[data-part="wall-A"]').first.tap()
    page.wait_for_url("**place=wall-A**")
    top = "document.querySelector('{}').getBoundingClientRect()"
    page.wait_for_function(f"{top.format('#here')}.top < innerHeight / 2")
    assert page.evaluate(f"{top.format('.figure')}.bottom") > 60, "the drawing is still in sight"
    do(page, "Look behind and below")
    page.get_by_role("button", name="Wait until somebody is done").click()
    with page.expect_navigation():
        page.locator(".nexts").get_by_role("button", name="Dana probes wall A").click()
    expect(page.locator(".crew")).to_contain_text("Dana probes wall A, until")


def test_leaving_is_asked_once_more_and_ends_the_day(open_page) -> None:
    page = open_page(size=DESK)
    begin(page)
    page.get_by_role("link", name=re.compile("Leave the roof")).click()
    expect(page.locator("main")).to_contain_text("Wall A is not set out")
    with page.expect_navigation():
        page.get_by_role("button", name="Leave the roof").click()
    expect(page.locator(".verdict")).to_contain_text("the job is not finished")


@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
@pytest.mark.parametrize("ground", ["light", "dark"])
def test_axe_finds_nothing_and_every_target_is_a_thumb_high(open_page, axe, size, ground) -> None:
    page = open_page("kim", size, color_scheme=ground)
    begin(page, "Two walls and an inside corner")
    first = page.url.partition("?")[0]
    views = ("?place=wall-A", "?place=torch&view=plan", "?place=corner-0", "/leave")
    before = ("/installations", "/installations/inside-corner/prove")
    for path in (*before, *(first + view for view in views)):
        page.goto(path)
        assert_sound(page, axe, size)
    page.goto(f"{first}?place=wall-A")
    do(page, "Probe wall A")
    page.get_by_role("button", name="Wait until somebody is done").click()
    expect(page.locator(".nexts")).to_contain_text("looks behind and below wall A")
    assert_sound(page, axe, size)
    page.goto(f"{first}/leave")
    with page.expect_navigation():
        page.get_by_role("button", name="Leave the roof").click()
    assert_sound(page, axe, size)


def assert_sound(page: Page, axe, size: dict) -> None:
    """Nothing for axe to find, nothing wider than the screen, every target a thumb high."""
    page.evaluate("document.querySelectorAll('details').forEach((d) => { d.open = true })")
    results = axe.run(page)
    assert not results.violations_count, results.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth") <= size["viewport"]["width"]
    assert not [found for found in page.evaluate(TARGETS) if found[1] < THUMB - 0.5]
