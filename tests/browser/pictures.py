"""Takes the pictures in docs/img from the real program: python -m tests.browser.pictures.

Makes the demonstration in a folder of its own, serves it on this machine alone, walks through it
in Chromium, and stops everything again.
"""

from __future__ import annotations

import logging
import shutil
import sys
import tempfile
import threading
from dataclasses import replace
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, Page, sync_playwright
from werkzeug.serving import make_server

from trainer.app import create_app, make_parts
from trainer.config import Settings
from trainer.services.demo import make_demo

IMAGES = Path(__file__).resolve().parents[2] / "docs" / "img"
PHONE = {"viewport": {"width": 390, "height": 844}, "has_touch": True, "is_mobile": True}
DESK = {"viewport": {"width": 1280, "height": 800}}
_LOOKS = 15
_DRAWS = 30
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"]


def main() -> int:
    chromium = shutil.which("chromium")
    if chromium is None:
        print("Pictures need Chromium on the path; on Debian: apt-get install chromium")
        return 2
    logging.getLogger("werkzeug").setLevel(logging.ERROR)
    IMAGES.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        settings = _settings(Path(folder))
        make_demo(make_parts(settings), settings.demo_password)
        server = make_server("127.0.0.1", 0, create_app(settings), threaded=True)
        threading.Thread(target=server.serve_forever, daemon=True).start()
        with sync_playwright() as play:
            browser = play.chromium.launch(executable_path=chromium, args=FLAGS)
            _take_all(browser, f"http://127.0.0.1:{server.server_port}", settings.demo_password)
            browser.close()
        server.shutdown()
    return 0


def _settings(folder: Path) -> Settings:
    loaded = Settings.load({"TRAINER_INSTANCE": str(folder)})
    return replace(loaded, demo=True, database=f"sqlite:///{folder / 'demo.db'}")


def _take_all(browser: Browser, address: str, password: str) -> None:
    phone = _signed_in(browser, PHONE, address, "teo", password)
    _take(phone, "home-phone")
    phone.goto(f"{address}/learn/set-out")
    _take(phone, "lesson-phone")
    for unit, name in (("flame", "scenario"), ("set-out", "measure")):
        _open_one_with_rows(phone, f"{address}/practise/{unit}")
        _take(phone, f"{name}-phone", whole=True)
        _answer(phone)
        _take(phone, f"{name}-answered-phone", whole=True)
    _installations(_signed_in(browser, PHONE, address, "ikram", password), address)
    desk = _signed_in(browser, DESK, address, "cormac", password)
    desk.goto(f"{address}/people")
    _take(desk, "people-desk")
    desk.get_by_role("link", name="Bram Ouwerkerk").first.click()
    desk.wait_for_load_state()
    _take(desk, "record-desk")


def _installations(phone: Page, address: str) -> None:
    """The day that Ikram left open, and the one she can look back on."""
    phone.goto(f"{address}/installations")
    phone.get_by_role("link", name="Go on").first.click()
    phone.wait_for_load_state()
    _take(phone, "installation-phone", whole=True)
    phone.goto(f"{address}/installations")
    phone.get_by_role("link", name="Last time").first.click()
    phone.wait_for_load_state()
    phone.get_by_role("link", name="Look back").first.click()
    for _ in range(_LOOKS):
        phone.wait_for_timeout(3000)
        if not phone.get_by_text("is being worked out").count():
            break
        phone.reload()
    _take(phone, "debrief-phone", whole=True)


def _signed_in(browser: Browser, device: dict[str, Any], address: str, who: str, word: str) -> Page:
    page = browser.new_context(**device).new_page()
    page.goto(address)
    page.fill("input[type=text]", who)
    page.fill("input[type=password]", word)
    page.click("main button[type=submit]")
    page.wait_for_load_state()
    return page


def _open_one_with_rows(page: Page, address: str) -> None:
    """Scenarios are drawn; take one whose first decision is answered from rows that stand open."""
    for _ in range(_DRAWS):
        page.goto(address)
        page.click("main button[type=submit]")
        page.wait_for_load_state()
        if page.locator("form.decide label:visible").count() > 1:
            return


def _answer(page: Page) -> None:
    """Choose the second row, as somebody might who has not thought it through."""
    page.locator("form.decide label:visible").nth(1).click()
    page.click("form.decide button[type=submit]")
    page.wait_for_timeout(800)


def _take(page: Page, name: str, whole: bool = False) -> None:
    page.screenshot(path=IMAGES / f"{name}.png", full_page=whole)
    print(f"docs/img/{name}.png")


if __name__ == "__main__":
    sys.exit(main())
