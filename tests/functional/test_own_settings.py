"""One's own settings, and what they do to the page."""

from __future__ import annotations

import pytest


def test_settings_show_what_is_kept_and_keep_what_is_chosen(worker):
    worker.visit("/settings")
    assert _chosen(worker) == {
        "length_unit": "mm", "temperature_unit": "c", "ground": "auto", "language": "en",
    }  # fmt: skip
    worker.submit("Keep these settings", length_unit="in", temperature_unit="f", ground="dark")
    assert "Your settings are kept." in worker.words
    assert _chosen(worker)["length_unit"] == "in"
    assert _chosen(worker)["temperature_unit"] == "f"
    assert worker.page.html["data-ground"] == "dark"
    assert "Your settings are kept." not in worker.visit("/settings").words


@pytest.mark.parametrize(
    ("field", "value"), [("length_unit", "cubits"), ("ground", ""), ("language", "xx")]
)
def test_what_is_not_offered_is_refused_in_place(worker, field, value):
    worker.visit("/settings").submit("Keep these settings", **{field: value})
    assert worker.status == 422
    assert worker.problems
    assert worker.visit("/settings").page.html["data-ground"] == "auto"


def test_the_language_of_the_page_is_named(worker):
    assert worker.visit("/settings").page.html["lang"] == "en"


def test_an_unknown_language_falls_back(visitor):
    visitor.visit("/sign-in", headers={"Accept-Language": "xx-YY, ;q=, de;q=0.4"})
    assert (visitor.status, visitor.page.html["lang"]) == (200, "en")


def _chosen(visitor) -> dict[str, str]:
    return {tag["name"]: tag["value"] for tag in visitor.page.select("input[checked]")}
