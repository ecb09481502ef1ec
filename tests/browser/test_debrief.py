"""Looking back in a real browser: from the end of the day, on a phone and at a desk."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import DESK, PHONE
from tests.browser.test_installation_by_hand import axe, begin, pack_at_hand

__all__ = ["axe", "pack_at_hand"]

pytestmark = pytest.mark.browser


def leave_at_once(page: Page) -> None:
    begin(page)
    page.get_by_role("link", name="Leave the roof …").click()
    page.get_by_role("button", name="Leave the roof").click()
    page.get_by_role("link", name="Look back, hour by hour").click()
    page.wait_for_url("**/debrief")


@pytest.mark.parametrize("size, scheme", [(PHONE, "light"), (DESK, "dark")])
def test_looking_back_is_reached_fits_and_can_be_read_by_everybody(
    open_page, axe, size, scheme
) -> None:
    page = open_page(size=size, color_scheme=scheme)
    leave_at_once(page)
    expect(page.locator("#verdict")).to_contain_text("Not yet")
    expect(page.get_by_role("status")).to_contain_text("The best day is being worked out.")
    expect(page.locator(".days svg:visible")).to_have_count(1)
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    found = axe.run(page)
    assert found.violations_count == 0, found.generate_report()


def test_the_page_comes_again_by_itself_without_scripts(open_page) -> None:
    page = open_page(java_script_enabled=False)
    leave_at_once(page)
    with page.expect_navigation(timeout=10_000):
        pass
    expect(page.get_by_role("link", name="Look again")).to_be_visible()
