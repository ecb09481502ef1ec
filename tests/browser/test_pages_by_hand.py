"""Decisions made on the drawing, by finger, key and button: the form sends what it shows."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from trainer.engine.measures import Units

pytestmark = pytest.mark.browser


def stored(services) -> dict:
    (answer,) = services.answers.values()
    return answer[2]


def send(page: Page) -> None:
    page.locator("form.decide button[type=submit]").click()
    page.wait_for_url("**/scenario/*/*")


def test_the_sheet_follows_a_finger_and_its_place_is_sent(open_page, services) -> None:
    page = open_page()
    page.goto("/scenario/place")
    expect(page.locator(".readout output")).to_have_text("2040 mm")
    sheet = page.locator(".movable")
    box = sheet.bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 10, y + 3, steps=4)
    page.mouse.up()
    # The drawing is 358 units wide on a screen of 390, at 10 mm a unit, in steps of 10 mm.
    moved = round(10 * 358 / page.locator(".figure svg").bounding_box()["width"]) * 10
    expect(page.locator(".readout output")).to_have_text(f"{2040 + moved} mm")
    assert sheet.bounding_box()["x"] == pytest.approx(box["x"] + 10, abs=1)
    send(page)
    assert stored(services) == {"x_mm": str(2040 + moved)}


def test_arrow_keys_and_nudges_move_it_one_step_and_never_past_its_end(open_page, services) -> None:
    page = open_page()
    page.goto("/scenario/place")
    sheet = page.get_by_role("slider", name="Left edge of the third sheet")
    sheet.press("ArrowRight")
    expect(sheet).to_have_attribute("aria-valuetext", "2050 mm")
    sheet.press("Shift+ArrowLeft")
    expect(sheet).to_have_attribute("aria-valuetext", "1950 mm")
    page.get_by_role("button", name="right").click()
    expect(page.locator(".readout output")).to_have_text("1960 mm")
    for _ in range(3):
        sheet.press("Shift+ArrowLeft")
    expect(page.locator(".readout output")).to_have_text("1800 mm")
    send(page)
    assert stored(services) == {"x_mm": "1800"}


def test_a_nudge_held_down_goes_on(open_page) -> None:
    page = open_page()
    page.goto("/scenario/place")
    nudge = page.get_by_role("button", name="right")
    nudge.scroll_into_view_if_needed()
    box = nudge.bounding_box()
    page.mouse.move(box["x"] + 10, box["y"] + 10)
    page.mouse.down()
    expect(page.locator(".readout output")).to_have_text(re.compile(r"20[89]0 mm|21\d0 mm"))
    page.mouse.up()
    said = page.locator(".readout output").text_content()
    page.wait_for_timeout(250)
    assert page.locator(".readout output").text_content() in (
        said,
        f"{int(said.split()[0]) + 10} mm",
    )


def test_a_row_from_the_list_takes_the_place_of_the_drawing(open_page, services) -> None:
    page = open_page()
    page.goto("/scenario/place")
    expect(page.locator("input[value=b]")).to_be_hidden()
    page.get_by_role("slider").press("ArrowRight")
    page.get_by_text("Answer from a list").click()
    page.locator("input[value=b]").check()
    expect(page.locator(".readout output")).to_have_text("–")
    send(page)
    assert stored(services) == {"row": "b"}


def test_moving_again_takes_the_place_of_the_row(open_page, services) -> None:
    page = open_page()
    page.goto("/scenario/place")
    page.get_by_text("Answer from a list").click()
    page.locator("input[value=b]").check()
    page.get_by_role("slider").press("ArrowRight")
    expect(page.locator("input[value=b]")).not_to_be_checked()
    send(page)
    assert stored(services) == {"x_mm": "2050"}


def test_parts_are_tapped_on_the_drawing_and_ticked_in_the_list(open_page, services) -> None:
    page = open_page()
    page.goto("/scenario/find")
    for part in ("lap", "can", "corner", "cylinder", "cylinder"):
        page.locator(f"[data-part={part}]").tap()
    expect(page.locator("[data-part=lap]")).to_have_attribute("aria-pressed", "true")
    expect(page.locator(".marked")).to_contain_text("The corner, not filled yet")
    expect(page.locator(".marked")).not_to_contain_text("cylinder")
    expect(page.locator("[data-part=cylinder]")).to_have_attribute("aria-pressed", "false")
    send(page)
    assert sorted(stored(services)["rows"]) == ["can", "corner", "lap"]


def test_a_part_is_pressed_by_key_and_only_one_is_marked(open_page, services) -> None:
    page = open_page()
    page.goto("/scenario/mark")
    page.get_by_role("button", name="primer").press("Enter")
    page.get_by_role("button", name="corner").press("Space")
    expect(page.locator("[data-part=can]")).to_have_attribute("aria-pressed", "false")
    send(page)
    assert stored(services) == {"row": "corner"}


def test_steps_are_moved_by_button_and_keep_the_focus(open_page, services) -> None:
    page = open_page()
    page.goto("/scenario/order")
    later = page.locator("[data-step=weld]").get_by_role("button", name="Later")
    later.focus()
    for _ in range(3):
        page.keyboard.press("Enter")
    expect(later).to_be_focused()
    send(page)
    assert stored(services) == {"order": "fill|bond|watch|weld|preheat"}


def test_steps_are_carried_by_their_grip(open_page, services) -> None:
    page = open_page()
    page.goto("/scenario/order")
    page.locator(".steps").scroll_into_view_if_needed()
    grip = page.locator("[data-step=preheat] .grip")
    grip.scroll_into_view_if_needed()
    start, top = grip.bounding_box(), page.locator("[data-step=weld]").bounding_box()
    x = start["x"] + 20
    page.mouse.move(x, start["y"] + 20)
    page.mouse.down()
    page.mouse.move(x, top["y"] + 2, steps=12)
    page.mouse.up()
    send(page)
    assert stored(services) == {"order": "preheat|weld|fill|bond|watch"}


def test_a_number_and_a_time_go_up_and_down_by_button(open_page, services) -> None:
    page = open_page()
    page.goto("/scenario/measure")
    for _ in range(8):
        page.get_by_role("button", name="More").click()
    expect(page.get_by_label("Your figure")).to_have_value("40")
    page.goto("/scenario/time")
    page.get_by_role("button", name="−5 min").click()
    expect(page.get_by_label("Time of day")).to_have_value("13:00")  # from the time that is named
    page.get_by_label("Time of day").fill("13:15")
    page.get_by_role("button", name="+5 min").click()
    expect(page.get_by_label("Time of day")).to_have_value("13:20")
    send(page)
    assert stored(services) == {"time": "13:20"}


def test_a_tapped_layer_leads_to_its_unit_and_shows_it(open_page) -> None:
    page = open_page()
    page.goto("/")
    page.locator("svg [data-part=flame]").tap()
    expect(page.locator("#unit-flame")).to_be_in_viewport()
    expect(page.locator("svg [data-part=flame]")).to_have_class("part is-chosen")


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_the_read_out_words_lengths_exactly_as_the_server_does(open_page, unit: str) -> None:
    page = open_page()
    page.goto("/")
    # The whole millimetres that things on a drawing move by, and the ends of four feet.
    lengths = [0, 1, -3, 13, 25, 60, 76, 100, 305, 1219, 1220, 1500, 2040, -2040, 4268]
    said = page.evaluate(
        "async ([lengths, unit]) => { const words = await import('/static/js/words.js');"
        " return lengths.map((mm) => words.sayLength(mm, unit)); }",
        [lengths, unit],
    )
    assert said == [Units(length=unit).say_length(mm) for mm in lengths]
