"""The gallery in Chromium: it opens without an error and shows its drawings, narrow and wide."""

from __future__ import annotations

from pathlib import Path

import pytest

from trainer.services.gallery import write_gallery

pytestmark = pytest.mark.browser
STATIC = Path(__file__).parents[2] / "static"


@pytest.mark.parametrize("width", [390, 1280])
def test_a_page_opens_and_every_drawing_has_its_room(chromium, tmp_path, width):
    made = write_gallery(tmp_path, STATIC, "chalk-line", 1)
    page = chromium.new_page(viewport={"width": width, "height": 900})
    errors: list[str] = []
    page.on("console", lambda said: errors.append(said.text) if said.type == "error" else None)
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.on("requestfailed", lambda request: errors.append(request.url))
    page.goto(made.index.as_uri())
    page.get_by_role("link", name="Set-out").click()
    page.wait_for_load_state()
    assert errors == []
    assert page.locator("svg").count() == 2 * made.figures
    box = page.locator("svg").first.bounding_box()
    assert box["width"] > 180 and box["height"] > 100
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    grounds = [
        page.locator(f"[data-ground={name}]").first.evaluate("e => getComputedStyle(e).background")
        for name in ("light", "dark")
    ]
    assert grounds[0] != grounds[1]
    page.close()
