"""A reader of pages: fetches, parses, fills in and sends forms, without scripts."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup, Tag
from flask import Flask

from tests.functional import sample_site
from tests.functional.sample_site import SampleServices


class Reader:
    """One signed-in person's browser without scripts; ``page`` is the last page read."""

    def __init__(self, app: Flask, name: str) -> None:
        self.client = app.test_client()
        sample_site.sign_in(self.client, name)
        self.page = BeautifulSoup("", "html.parser")
        self.status = 0
        self.path = ""

    def read(self, path: str) -> BeautifulSoup:
        """The page at ``path``, after any redirects."""
        return self._keep(self.client.get(path, follow_redirects=True))

    def send(self, form: Tag, fields: dict[str, Any] | None = None, **headers: str) -> Any:
        """Send ``form`` with its hidden fields and ``fields``; no redirect is followed."""
        hidden = {
            i["name"]: i.get("value", "") for i in form.select("input[type=hidden]:not([disabled])")
        }
        return self.client.post(form["action"], data={**hidden, **(fields or {})}, headers=headers)

    def answer(self, path: str, fields: dict[str, Any]) -> BeautifulSoup:
        """Open a scenario, answer its decision with ``fields``, and read what comes of it."""
        answered = self.send(self.read(path).select_one("form.decide"), fields)
        return self.read(answered.location) if answered.status_code == 303 else self._keep(answered)

    def _keep(self, response: Any) -> BeautifulSoup:
        self.status, self.path = response.status_code, response.request.path
        self.page = BeautifulSoup(response.data, "html.parser")
        return self.page


def text(tag: Tag | None) -> str:
    """The words of ``tag`` with single spaces; empty for none."""
    return " ".join(tag.get_text(" ").split()) if tag else ""


@pytest.fixture(scope="module")
def sample_app(tmp_path_factory: pytest.TempPathFactory) -> Flask:
    folder: Path = tmp_path_factory.mktemp("site")
    return sample_site.sample_app(folder)


@pytest.fixture
def services() -> Iterator[SampleServices]:
    with pytest.MonkeyPatch.context() as patch:
        yield sample_site.stand_in(patch)


@pytest.fixture
def reader(sample_app: Flask, services: SampleServices) -> Reader:
    """The worker Rena, signed in."""
    return Reader(sample_app, "rena")
