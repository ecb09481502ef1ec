"""Journeys without a mouse and without scripts: nobody is left behind."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import DESK, sign_in

pytestmark = pytest.mark.browser


OUTLINE = """() => {
  const at = document.activeElement;
  const style = getComputedStyle(at.closest('.row') ?? at);
  return [style.outlineStyle, at.tagName, at.className, at.textContent.slice(0, 40)];
}"""
"""How what has the focus is outlined; a row is outlined whole."""


def tab_to(page: Page, selector: str, most: int = 80) -> None:
    """Press Tab until the focus is on what ``selector`` names."""
    for _ in range(most):
        page.keyboard.press("Tab")
        if page.evaluate("(s) => document.activeElement?.matches(s) ?? false", selector):
            return
    raise AssertionError(f"{selector} is not reached by Tab on {page.url}")


def test_from_the_way_in_to_the_verdict_by_keyboard_alone(open_page, services) -> None:
    page = open_page(size=DESK)
    page.goto("/")
    tab_to(page, ".skip")
    page.keyboard.press("Enter")
    tab_to(page, "svg a[data-part=stagger]")
    page.keyboard.press("Enter")
    tab_to(page, "#unit-stagger button.verb")
    page.keyboard.press("Enter")
    page.wait_for_url("**/scenario/place")
    tab_to(page, ".movable")
    for _ in range(7):
        page.keyboard.press("ArrowRight")
    tab_to(page, "form.decide button[type=submit]")
    page.keyboard.press("Enter")
    page.wait_for_url("**/scenario/place/edge")
    expect(page.locator(".verdict")).to_contain_text("Right, because")
    tab_to(page, ".onward .go")
    page.keyboard.press("Enter")
    page.wait_for_url("**/scenario/place")


@pytest.mark.parametrize(
    ("kind", "keys"),
    [
        ("choose", ["Space"]),
        ("go_stop", ["Space"]),
        ("mark", ["Space"]),
        ("find", ["Space"]),
    ],
)
def test_every_list_is_answered_by_keyboard(
    open_page, services, kind: str, keys: list[str]
) -> None:
    page = open_page(size=DESK)
    page.goto(f"/scenario/{kind}")
    if kind in ("mark", "find"):
        tab_to(page, ".listed summary")
        page.keyboard.press("Enter")
    tab_to(page, ".row input")
    for key in keys:
        page.keyboard.press(key)
    tab_to(page, "form.decide button[type=submit]")
    page.keyboard.press("Enter")
    page.wait_for_url(f"**/scenario/{kind}/*")
    assert len(services.answers) == 1


def test_the_focus_is_always_to_be_seen(open_page) -> None:
    page = open_page(size=DESK)
    for path in ("/scenario/place", "/scenario/choose", "/people"):
        page.goto(path)
        page.keyboard.press("Tab")
        while (seen := page.evaluate(OUTLINE))[1] != "BODY":
            assert seen[0] != "none", seen
            page.keyboard.press("Tab")


def test_without_scripts_the_whole_way_is_plain_forms(open_page, services) -> None:
    page = open_page(name="", java_script_enabled=False)
    sign_in(page, "rena")
    page.locator("svg a[data-part=stagger]").click()
    expect(page.locator("#unit-stagger")).to_be_in_viewport()
    page.locator("#unit-stagger").get_by_role("button", name="Practise").click()
    assert page.url.endswith("/scenario/place")
    expect(page.locator(".by-hand")).to_be_hidden()
    page.get_by_label("At 2 110 mm").check()
    page.get_by_role("button", name="It goes here").click()
    expect(page.locator(".verdict")).to_contain_text("Right, because")
    page.get_by_role("button", name="Next scenario").click()
    assert len(services.answers) == 1


def test_without_scripts_steps_get_their_places_by_number(open_page, services) -> None:
    page = open_page(java_script_enabled=False)
    page.goto("/scenario/order")
    expect(page.get_by_role("button", name="Later").first).to_be_hidden()
    for place, step in enumerate(("preheat", "bond", "fill", "weld", "watch"), 1):
        page.locator(f"[name=place-{step}]").select_option(str(place))
    page.get_by_role("button", name="In this order").click()
    expect(page.locator(".verdict")).to_contain_text("Right, because")


def test_without_scripts_everything_wrong_is_ticked(open_page, services) -> None:
    page = open_page(java_script_enabled=False)
    page.goto("/scenario/find")
    for words in ("still open", "without a lid", "not filled yet"):
        page.get_by_label(words).check()
    page.get_by_role("button", name="That is all of it").click()
    expect(page.locator(".verdict")).to_contain_text("Right, because")


def test_without_scripts_a_second_tap_is_one_answer(open_page, services) -> None:
    page = open_page(java_script_enabled=False)
    page.goto("/scenario/choose")
    page.locator("input[value=strip]").check()
    page.get_by_role("button", name="That is what I do").dblclick()
    expect(page.locator(".verdict")).to_be_visible()
    assert len(services.answers) == 1


def test_in_forced_colours_the_choice_is_still_to_be_seen(open_page) -> None:
    page = open_page(forced_colors="active")
    page.goto("/scenario/choose")
    page.locator("input[value=strip]").check()
    shown = page.evaluate(
        "getComputedStyle(document.querySelector('input[value=strip]'), '::before').width"
    )
    assert shown != "auto"


def test_a_page_prints_on_white(open_page) -> None:
    page = open_page(color_scheme="dark")
    page.goto("/record")
    page.emulate_media(media="print")
    assert (
        page.evaluate("getComputedStyle(document.documentElement).backgroundColor")
        == "rgb(255, 255, 255)"
    )
