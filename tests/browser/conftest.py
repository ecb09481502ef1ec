"""A real Chromium in front of the real program with invented scenarios (tests/functional)."""

from __future__ import annotations

import logging
import shutil
import threading
from collections.abc import Callable, Iterator

import pytest
from flask import Flask
from werkzeug.serving import make_server

from tests.functional import sample_site
from tests.functional.sample_site import SampleServices

NAMES = ("chromium", "chromium-browser", "google-chrome")
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"]
PHONE = {"viewport": {"width": 390, "height": 844}, "has_touch": True, "is_mobile": True}
DESK = {"viewport": {"width": 1280, "height": 800}}


@pytest.fixture(autouse=True)
def quiet(nothing_elsewhere) -> None:
    """No page of a test leaves work in the background."""


@pytest.fixture(scope="session")
def chromium() -> Iterator:
    path = next(filter(None, map(shutil.which, NAMES)), None)
    if path is None:
        pytest.skip("needs Chromium on the path; on Debian: apt-get install chromium")
    play = pytest.importorskip("playwright.sync_api").sync_playwright().start()
    browser = play.chromium.launch(executable_path=path, args=FLAGS)
    yield browser
    browser.close()
    play.stop()


@pytest.fixture(scope="session")
def sample_app(tmp_path_factory: pytest.TempPathFactory) -> Flask:
    return sample_site.sample_app(tmp_path_factory.mktemp("site"))


@pytest.fixture(scope="session")
def address(sample_app: Flask) -> Iterator[str]:
    """Where the program listens."""
    logging.getLogger("werkzeug").setLevel(logging.ERROR)
    server = make_server("127.0.0.1", 0, sample_app, threaded=True)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    thread.join()


@pytest.fixture
def services() -> Iterator[SampleServices]:
    with pytest.MonkeyPatch.context() as patch:
        yield sample_site.stand_in(patch)


@pytest.fixture(scope="session")
def cookies(chromium, address: str) -> Callable[[str], dict]:
    """cookies("rena") → the storage state of a browser in which she has signed in."""
    kept: dict[str, dict] = {}

    def of(name: str) -> dict:
        if name not in kept:
            context = chromium.new_context(base_url=address)
            sign_in(context.new_page(), name)
            kept[name] = context.storage_state()
            context.close()
        return kept[name]

    return of


def sign_in(page, name: str) -> None:
    page.goto("/sign-in")
    page.get_by_label("Sign-in name").fill(name)
    page.get_by_label("Password").fill(sample_site.PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url(lambda url: "sign-in" not in url)


@pytest.fixture
def open_page(chromium, address: str, cookies, services) -> Iterator[Callable]:
    """open_page("rena", size=PHONE, …) → a page of a browser of its own, that person signed in.

    Fails the test when a page reports an error on its console.
    """
    contexts, complaints = [], []

    def open_one(name: str = "rena", size: dict = PHONE, **more):
        state = cookies(name) if name else None
        context = chromium.new_context(base_url=address, storage_state=state, **size, **more)
        contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.set_default_timeout(5000)
        return page

    yield open_one
    for context in contexts:
        context.close()
    assert not complaints
