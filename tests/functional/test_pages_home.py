"""The way in, the lessons, the records: what stands there and where it leads."""

from __future__ import annotations

import pytest

from tests.functional import sample_pages as sample
from tests.functional.page_client import Reader, reader, sample_app, services, text

__all__ = ["reader", "sample_app", "services"]


def test_every_layer_of_the_section_leads_to_its_unit(reader: Reader) -> None:
    page = reader.read("/")
    parts = page.select(".figure svg a[data-part]")
    assert [part["data-part"] for part in parts] == list(sample.UNITS)
    for part in parts:
        assert page.select_one(part["href"]), part["href"]


def test_every_unit_is_a_sentence_with_its_three_verbs(reader: Reader) -> None:
    page = reader.read("/")
    units = page.select("ol.units > li")
    assert [text(unit.h3).split(" ", 1)[1] for unit in units] == list(sample.UNITS.values())
    for unit, name in zip(units, sample.UNITS.values(), strict=True):
        verbs = unit.select(".verb")
        assert [text(verb) for verb in verbs] == ["Learn", "Practise", "Prove"]
        assert [verb["aria-label"] for verb in verbs] == [
            f"Learn: {name}", f"Practise: {name}", f"Prove: {name}"
        ]  # fmt: skip


def test_a_unit_that_can_burn_or_drop_people_says_so_in_words(reader: Reader) -> None:
    page = reader.read("/")
    warned = {u["data-unit"] for u in page.select("li.unit") if "burn people" in text(u)}
    assert warned == sample.CRITICAL


def test_standing_is_always_a_word_beside_the_mark(reader: Reader) -> None:
    for standing in reader.read("/").select(".standing"):
        assert standing.select_one("svg.mark") and len(text(standing)) > 5


def test_the_next_step_opens_practice_by_a_form(reader: Reader) -> None:
    form = reader.read("/").select_one(".next-step form")
    assert (form["method"], form["action"]) == ("post", "/practise/stagger")
    assert reader.send(form).location == "/scenario/place"


def test_a_link_to_practice_opens_nothing_by_itself(reader: Reader) -> None:
    page = reader.read("/practise/stagger")
    assert reader.path == "/practise/stagger"
    assert text(page.select_one("main form button")) == "Open a scenario"
    assert reader.read("/practise/no-such") and reader.status == 404


def test_a_lesson_shows_drawing_sum_caution_and_rule(reader: Reader) -> None:
    page = reader.read("/learn/stagger")
    assert text(page.h1) == sample.lesson().title
    assert "2 100 mm" in text(page.select_one(".sum"))
    assert page.select_one(".plate svg") and page.select_one(".caution")
    assert "common practice, no source" in text(page.select_one(".rules"))


@pytest.mark.parametrize(
    ("then", "location"), [("practise", "/scenario/place"), ("home", "/#unit-stagger")]
)
def test_a_lesson_read_is_kept_and_leads_on(
    reader: Reader, services, then: str, location: str
) -> None:
    form = reader.read("/learn/stagger").select_one("main form")
    assert reader.send(form, {"then": then}).location == location
    assert services.read == ["stagger"]


def test_every_page_defers_to_codes_data_sheet_and_a_named_person(reader: Reader) -> None:
    for path in ("/", "/learn/stagger", "/scenario/place", "/record", "/prove/stagger"):
        words = text(reader.read(path).select_one("footer"))
        assert (
            "Local codes" in words and "data sheet" in words and "a named person decides" in words
        )


def test_my_record_says_what_it_is_what_keeps_going_wrong_and_what_was_done(reader: Reader) -> None:
    page = reader.read("/record")
    assert "not who may work alone on a roof" in text(page)
    assert "torches beside corners that are not closed" in text(page.select_one(".watch"))
    outcomes = page.select(".outcome")
    assert [o["class"][1] for o in outcomes] == ["right", "critical", "not-yet"]
    assert all(o.svg and text(o) for o in outcomes)
    earlier = page.select_one(".pair .onward a")
    assert earlier["href"] == "/record?before=2026-11-23T11:58:00%2B00:00"
    assert "Nothing yet." in text(reader.read(earlier["href"]))


def test_a_supervisor_sees_the_crew_by_name_and_finds_one_person(sample_app, services) -> None:
    reader = Reader(sample_app, "sol")
    page = reader.read("/people")
    assert text(page.h1) == "Crew"
    assert [text(h) for h in page.select("section h2")] == ["Crew North", "Crew South"]
    page = reader.read("/people?text=sanna")
    assert [text(a) for a in page.select(".people a")] == ["Sanna Lindqvist"]
    assert page.select_one("#text")["value"] == "sanna"
    assert "Nobody here is called “zz”." in text(reader.read("/people?text=zz"))


@pytest.mark.parametrize(
    ("name", "ways"),
    [
        ("rena", ["Parapet", "My record", "Settings", "Sign out"]),
        ("sol", ["Parapet", "My record", "Crew", "Jobs", "Settings", "Sign out"]),
        ("kim", ["Parapet", "My record", "People", "Jobs", "Settings", "Sign out"]),
        ("aud", ["People", "Settings", "Sign out"]),
    ],
)
def test_the_way_about_holds_what_a_person_may_see(
    sample_app, services, name: str, ways: list[str]
) -> None:
    page = Reader(sample_app, name).read("/")
    assert [text(way) for way in page.select("nav li")] == ways


def test_an_auditor_begins_at_the_people(sample_app, services) -> None:
    reader = Reader(sample_app, "aud")
    reader.read("/")
    assert reader.path == "/people"
