"""A visitor: reads pages as a person does, fills in their forms and presses their buttons."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from bs4 import BeautifulSoup, Tag

PASSWORD = "gravel stops the bucket slide"
OUR_PAGES = "http://localhost"


@pytest.fixture(autouse=True)
def quiet(nothing_elsewhere) -> None:
    """No page of a test leaves work in the background."""


class Visitor:
    """One browser. After every step ``response`` is the answer and ``page`` its parsed HTML."""

    def __init__(self, client) -> None:
        self.client = client
        self.response = None
        self.page = BeautifulSoup("", "html5lib")

    def visit(self, path: str, **more) -> Visitor:
        return self._read(self.client.get(path, follow_redirects=True, **more))

    def submit(self, button: str, /, **fields: str) -> Visitor:
        """Press the button with these words, its form filled in with ``fields``."""
        form = self._form_of(button)
        return self.post(form["action"], {**_filled_in(form), **fields})

    def post(self, path: str, fields: dict[str, str], **more) -> Visitor:
        """Send fields as a browser would from one of our own pages."""
        headers = {"Origin": OUR_PAGES} | more.pop("headers", {})
        sent = self.client.post(path, data=fields, headers=headers, follow_redirects=True, **more)
        return self._read(sent)

    def sign_in(self, name: str, password: str = PASSWORD) -> Visitor:
        """Sign in, and be on the settings page."""
        self.visit("/sign-in?next=/settings")
        return self.submit("Sign in", name=name, password=password)

    @property
    def status(self) -> int:
        return self.response.status_code

    @property
    def path(self) -> str:
        return self.response.request.path

    @property
    def heading(self) -> str:
        return self.page.h1.get_text(" ", strip=True)

    @property
    def words(self) -> str:
        return " ".join(self.page.main.get_text(" ", strip=True).split())

    @property
    def problems(self) -> list[str]:
        """What the page says is wrong, beside the fields."""
        return [tag.get_text(" ", strip=True) for tag in self.page.select(".problem")]

    def _read(self, response) -> Visitor:
        self.response = response
        self.page = BeautifulSoup(response.data, "html5lib")
        return self

    def _form_of(self, button: str) -> Tag:
        for tag in self.page.select("main form button, header form button"):
            if tag.get_text(" ", strip=True) == button:
                return tag.find_parent("form")
        raise AssertionError(f"no button {button!r} on {self.path}")


def _filled_in(form: Tag) -> dict[str, str]:
    fields = {}
    for tag in form.select("input[name]"):
        chosen = tag.get("type") not in ("radio", "checkbox") or tag.has_attr("checked")
        if chosen:
            fields[tag["name"]] = tag.get("value", "")
    return fields


@pytest.fixture
def visitor(client) -> Visitor:
    return Visitor(client)


@pytest.fixture
def visitor_of() -> Callable[..., Visitor]:
    """visitor_of(app) → a browser in front of another app."""
    return lambda app: Visitor(app.test_client())


@pytest.fixture
def signed_in(app, add_person) -> Callable[..., Visitor]:
    """signed_in("ana", roles=…) → a browser of its own in which that new person is signed in."""

    def visit(sign_in_name: str, **more) -> Visitor:
        add_person(sign_in_name.title(), sign_in_name, **more)
        return Visitor(app.test_client()).sign_in(sign_in_name)

    return visit


@pytest.fixture
def worker(signed_in) -> Visitor:
    """A worker of crew North, signed in."""
    return signed_in("ana", crew="North")
