"""Every component alone, drawn from its own example: it parses, and it says what it was given."""

from __future__ import annotations

from pathlib import Path

import html5lib
import pytest
from bs4 import BeautifulSoup
from flask import Flask, render_template
from flask_wtf import FlaskForm
from werkzeug.datastructures import MultiDict
from wtforms import RadioField, StringField
from wtforms.fields.choices import SelectChoice

from tests.functional.page_client import sample_app, text

__all__ = ["sample_app"]

TEMPLATES = Path(__file__).parents[2] / "trainer" / "web" / "templates"
EXAMPLES = sorted(path.stem for path in (TEMPLATES / "examples").glob("*.html"))


class ExampleForm(FlaskForm):
    name = StringField("Name")
    length_unit = RadioField(
        "Lengths", choices=[SelectChoice("mm", "Millimetres"), SelectChoice("in", "Inches")]
    )


def drawn(app: Flask, name: str) -> str:
    with app.test_request_context("/sign-in"):
        app.preprocess_request()
        given = {"typed": MultiDict(), "form": ExampleForm()}
        example = render_template(f"examples/{name}.html", **given)
    return f"<!doctype html><title>{name}</title>{example}"


@pytest.mark.parametrize("name", EXAMPLES)
def test_an_example_parses_without_a_single_error(sample_app: Flask, name: str) -> None:
    html5lib.HTMLParser(strict=True).parse(drawn(sample_app, name))


@pytest.mark.parametrize("name", EXAMPLES)
def test_an_example_shows_something_to_read(sample_app: Flask, name: str) -> None:
    assert len(text(BeautifulSoup(drawn(sample_app, name), "html.parser"))) > len(name) + 5


def test_a_sum_is_set_on_its_equals_sign(sample_app: Flask) -> None:
    lines = BeautifulSoup(drawn(sample_app, "sum"), "html.parser").select_one(".sum").select("p")
    assert [text(line.select_one(".result")) for line in lines] == [
        "= 2 000 mm",
        "= 40 mm",
        "= 60 mm short",
    ]


def test_many_terms_stand_in_a_column_and_words_above_their_line(sample_app: Flask) -> None:
    named, column = (
        BeautifulSoup(drawn(sample_app, "sum"), "html.parser").select(".sum")[1].select("p")
    )
    assert text(named.select_one(".label")) == "slope of the cant:"
    assert text(named.select_one(".term")) == "75 mm × 1.414"
    terms = [text(term) for term in column.select(".term")]
    assert terms == ["field 120 mm", "+ slope 106 mm", "+ top 240 mm"]
    assert text(column) == "field 120 mm + slope 106 mm + top 240 mm = 466 mm"


def test_what_people_write_is_text_and_never_markup(sample_app: Flask) -> None:
    with sample_app.test_request_context("/sign-in"):
        sample_app.preprocess_request()
        page = render_template(
            "error.html", status=404, message="<b>bold</b>", advice="<script>x</script>"
        )
    assert "<b>bold" not in page and "<script>x" not in page
