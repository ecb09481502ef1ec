"""The short form of a real wall, filled in and sent as a browser without scripts would."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from bs4 import Tag

from tests.functional.conftest import Visitor

Press = Callable[..., Visitor]

ONE = {
    "name": "Yard wall",
    "walls-0-length": "3000",
    "walls-0-height": "400",
    "walls-0-field_laps": "700, 1700",
}
TWO = {
    **ONE,
    "walls-0-corner": "inside",
    "walls-1-length": "2.5 m",
    "walls-1-height": "400",
    "walls-1-behind-0-what": "foam",
}


def typed(form: Tag) -> dict[str, str]:
    """What stands in a form, as a browser would send it."""
    found = {}
    for tag in form.select("input[name], textarea[name], select[name]"):
        if tag.get("type") == "radio" and not tag.has_attr("checked"):
            continue
        found[tag["name"]] = _value(tag)
    return found


def _value(tag: Tag) -> str:
    if tag.name == "textarea":
        return tag.get_text().removeprefix("\n").strip()
    if tag.name == "select":
        return (tag.select_one("option[selected]") or tag.option)["value"]
    return tag.get("value", "")


@pytest.fixture
def press() -> Press:
    """press(visitor, "Make the job", name="…") fills in that button's form and presses it."""

    def pressed(visitor: Visitor, words: str, /, **fields: str) -> Visitor:
        buttons = visitor.page.select("main button:not([aria-hidden])")
        button = next(b for b in buttons if b.get_text(" ", strip=True).startswith(words))
        form = button.find_parent("form")
        sent = {**typed(form), **fields}
        if button.get("name"):
            sent[button["name"]] = button["value"]
        return visitor.post(button.get("formaction", form["action"]).partition("#")[0], sent)

    return pressed


@pytest.fixture
def greta(signed_in) -> Visitor:
    return signed_in("greta", roles=("supervisor", "worker"), crew="East")


@pytest.fixture
def cormac(signed_in) -> Visitor:
    return signed_in("cormac", roles=("coordinator",))


@pytest.fixture
def make(press) -> Press:
    """make(visitor, **fields) → the visitor after sending a form with those walls."""

    def made(visitor: Visitor, /, **fields: str) -> Visitor:
        visitor.visit("/jobs/new")
        for _ in range(sum(name.endswith("-length") for name in fields) - 1):
            press(visitor, "Add the next wall")
        return press(visitor, "Make the job", **fields)

    return made


def problem_at(visitor: Visitor, field: str) -> str:
    tag = visitor.page.find(id=f"{field}-problem")
    return " ".join(tag.get_text(" ").split()) if tag else ""


def typed_token(visitor: Visitor) -> dict[str, str]:
    page = visitor.visit("/settings").page
    return {"csrf_token": page.select_one("[name=csrf_token]")["value"], **ONE}
