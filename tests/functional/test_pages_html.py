"""Every page read by a strict parser (the rules of the HTML standard, by html5lib)."""

from __future__ import annotations

import html5lib
import pytest

from tests.functional.page_client import Reader, sample_app, services, text
from tests.functional.sample_site import PAGES

__all__ = ["sample_app", "services"]


@pytest.fixture
def coordinator(sample_app, services) -> Reader:
    return Reader(sample_app, "kim")


@pytest.mark.parametrize("name", PAGES)
def test_every_page_parses_without_a_single_error(coordinator: Reader, name: str) -> None:
    answered = coordinator.client.get(PAGES[name])
    html5lib.HTMLParser(strict=True).parse(answered.get_data(as_text=True))


@pytest.mark.parametrize("name", PAGES)
def test_every_page_has_one_heading_a_title_a_language_and_no_id_twice(
    coordinator: Reader, name: str
) -> None:
    page = coordinator.read(PAGES[name])
    assert len(page.select("h1")) == 1
    assert text(page.title).endswith("· Parapet") and len(text(page.title)) > len("· Parapet")
    assert page.html["lang"] == "en"
    ids = [tag["id"] for tag in page.select("[id]")]
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("name", PAGES)
def test_no_page_needs_what_the_content_policy_forbids(coordinator: Reader, name: str) -> None:
    page = coordinator.read(PAGES[name])
    assert not page.select("style, [style]")
    assert all(script.get("src", "").startswith("/scripts/") for script in page.select("script"))
    handlers = [name for tag in page.find_all(True) for name in tag.attrs if name.startswith("on")]
    assert not handlers


@pytest.mark.parametrize("name", PAGES)
def test_every_form_that_changes_something_carries_its_token(
    coordinator: Reader, name: str
) -> None:
    for form in coordinator.read(PAGES[name]).select("form[method=post]"):
        assert form.select_one("[name=csrf_token]")["value"]


def test_scripts_may_be_kept_until_one_of_them_changes(coordinator: Reader) -> None:
    address = coordinator.read("/").select_one("script[type=module]")["src"]
    kept = coordinator.client.get(address)
    assert kept.mimetype == "text/javascript"
    assert kept.cache_control.immutable and kept.cache_control.max_age > 0
    beside = coordinator.client.get(address.replace("main.js", "store.js"))
    assert beside.status_code == 200 and beside.cache_control.immutable
    old = coordinator.client.get("/scripts/000000000000/main.js")
    assert old.data == kept.data and not old.cache_control.immutable
    assert coordinator.client.get(address.replace("main.js", "nothing.js")).status_code == 404


def test_a_form_without_its_token_is_refused(coordinator: Reader) -> None:
    fields = {"row": "strip", "key": "a" * 32, "kind": "choose"}
    assert coordinator.client.post("/scenario/choose/remedy", data=fields).status_code == 400
