"""The outbox: an answer waits on the phone until the server has taken it, and is taken once."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, Route, expect

from tests.browser.conftest import sign_in

pytestmark = pytest.mark.browser

KEPT = "kept on this phone and will be sent when there is signal"


def waiting(page: Page) -> int:
    return page.evaluate("Object.keys(localStorage).filter((k) => k.startsWith('outbox:')).length")


def choose(page: Page, row: str = "strip") -> None:
    page.goto("/scenario/choose")
    page.locator(f"input[value={row}]").check()


def send(page: Page) -> None:
    page.get_by_role("button", name="That is what I do").click()


def test_with_signal_the_answer_goes_at_once_and_nothing_stays(open_page, services) -> None:
    page = open_page()
    choose(page)
    send(page)
    page.wait_for_url("**/scenario/choose/remedy")
    assert (len(services.answers), services.sent, waiting(page)) == (1, 1, 0)
    ((_, _, response, phone_at),) = services.answers.values()
    assert response == {"row": "strip"}
    assert phone_at[10] == "T" and phone_at[19] in "+-"


def test_without_signal_it_waits_and_goes_by_itself_when_signal_is_back(
    open_page, services
) -> None:
    page = open_page()
    choose(page)
    page.context.set_offline(True)
    send(page)
    expect(page.get_by_role("status")).to_contain_text(KEPT)
    expect(page.get_by_role("button", name="That is what I do")).to_be_disabled()
    assert (services.sent, waiting(page)) == (0, 1)
    page.context.set_offline(False)
    page.wait_for_url("**/scenario/choose/remedy")
    assert (len(services.answers), waiting(page)) == (1, 0)


def test_an_answer_whose_receipt_was_lost_is_sent_again_and_stored_once(
    open_page, services
) -> None:
    page = open_page()
    choose(page)

    def lose_the_receipt(route: Route) -> None:
        route.fetch()
        route.abort("connectionreset")

    page.route("**/scenario/choose/remedy", lose_the_receipt, times=1)
    send(page)
    expect(page.get_by_role("status")).to_contain_text(KEPT)
    assert (len(services.answers), waiting(page)) == (1, 1)
    page.goto("/")
    expect(page.get_by_role("status")).to_contain_text("has been sent")
    assert (len(services.answers), services.sent, waiting(page)) == (1, 2, 0)
    page.get_by_role("link", name="See it").click()
    page.wait_for_url("**/scenario/choose/remedy")


def test_a_double_tap_is_one_answer(open_page, services) -> None:
    page = open_page()
    choose(page)
    page.get_by_role("button", name="That is what I do").dblclick()
    page.wait_for_url("**/scenario/choose/remedy")
    assert services.sent == 1


def test_a_server_that_fails_for_a_moment_loses_nothing(open_page, services) -> None:
    page = open_page()
    choose(page)
    page.route(
        "**/scenario/choose/remedy", lambda route: route.fulfill(status=503, body="busy"), times=1
    )
    send(page)
    expect(page.get_by_role("status")).to_contain_text(KEPT)
    page.reload()
    page.wait_for_url("**/scenario/choose/remedy")
    assert (len(services.answers), waiting(page)) == (1, 0)


def test_an_ended_session_asks_to_sign_in_and_sends_after_that(open_page, services) -> None:
    page = open_page()
    choose(page)
    page.context.clear_cookies()
    send(page)
    expect(page.get_by_role("status")).to_contain_text("Please sign in again.")
    page.get_by_role("link", name="Sign in").click()
    expect(page.get_by_role("status")).to_contain_text("Please sign in again.")
    assert (services.sent, waiting(page)) == (0, 1)
    page.get_by_label("Sign-in name").fill("rena")
    page.get_by_label("Password").fill("tar kettle north corner")
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url("**/scenario/choose/remedy")
    assert (len(services.answers), waiting(page)) == (1, 0)


def test_another_persons_answer_is_never_sent_as_mine(open_page, services) -> None:
    page = open_page()
    choose(page)
    page.context.set_offline(True)
    send(page)
    expect(page.get_by_role("status")).to_contain_text(KEPT)
    page.context.clear_cookies()
    page.route("**/scenario/**", lambda route: route.abort())
    page.context.set_offline(False)
    page.unroute("**/scenario/**")
    sign_in(page, "sol")
    page.goto("/record")
    page.wait_for_load_state("networkidle")
    assert (services.sent, waiting(page)) == (0, 1)


def test_what_the_server_refuses_is_said_in_place_and_can_be_mended(open_page, services) -> None:
    page = open_page()
    page.goto("/scenario/measure")
    page.get_by_label("Your figure").fill("40,5")
    page.get_by_role("button", name="That is my figure").click()
    expect(page.get_by_role("alert")).to_contain_text("“40,5” cannot be taken.")
    expect(page.get_by_label("Your figure")).to_have_value("40,5")
    assert waiting(page) == 0
    page.get_by_label("Your figure").fill("40.5")
    page.get_by_role("button", name="That is my figure").click()
    page.wait_for_url("**/scenario/measure/clear")
    assert len(services.answers) == 1


def test_a_page_left_open_until_its_token_died_still_sends(open_page, services) -> None:
    page = open_page()
    choose(page)
    page.evaluate("document.querySelector('meta[name=csrf-token]').content = 'old'")
    send(page)
    page.wait_for_url("**/scenario/choose/remedy")
    assert len(services.answers) == 1


def test_a_browser_that_keeps_nothing_sends_the_plain_form(open_page, services) -> None:
    page = open_page()
    page.add_init_script("Storage.prototype.setItem = () => { throw new DOMException('full'); }")
    choose(page)
    send(page)
    page.wait_for_url("**/scenario/choose/remedy")
    assert len(services.answers) == 1
