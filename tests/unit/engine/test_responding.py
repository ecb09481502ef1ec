"""What a form or a phone sends, read into a response; shape only."""

import math

import pytest

from tests.unit.engine.samples import family, scenario
from trainer.engine.mark import mark
from trainer.engine.measures import Units
from trainer.engine.respond import read_response
from trainer.errors import InputError, MissingField

MADE = scenario(7, "wide")
US = Units("in", "F")


def read(decision, units=None, **raw):
    return read_response(MADE.decision(decision), raw, units or Units())


@pytest.mark.parametrize(
    ("decision", "raw", "response"),
    [
        ("take", {"row": "keep-it"}, {"row": "keep-it"}),
        ("go", {"row": "go", "key": "x"}, {"row": "go"}),
        ("worst", {"row": "left"}, {"row": "left"}),
        ("every", {"rows": ["left", "right"]}, {"rows": ["left", "right"]}),
        ("every", {"rows": "left"}, {"rows": ["left"]}),
        ("every", {"rows": ["", "left"]}, {"rows": ["left"]}),
        ("every", {"rows": []}, {"rows": []}),
        ("every", {"rows": [""]}, {"rows": []}),
        ("put", {"x_mm": "120.5", "y_mm": "90"}, {"x_mm": 120.5, "y_mm": 90}),
        ("put", {"x_mm": 120, "y_mm": 90}, {"x_mm": 120, "y_mm": 90}),
        ("put", {"x_mm": "", "y_mm": "", "row": "near"}, {"row": "near"}),
        ("put", {"row": "near"}, {"row": "near"}),
        ("much", {"value": "832.5"}, {"value": 832.5}),
        ("much", {"value": " 832.5 mm "}, {"value": 832.5}),
        ("much", {"value": 832}, {"value": 832}),
        ("until", {"time": "12:00"}, {"minute": 720}),
        ("until", {"minute": 720}, {"minute": 720}),
        ("row", {"order": "roll|press laps"}, {"order": ["roll", "press laps"]}),
        ("row", {"order": ["roll"]}, {"order": ["roll"]}),
        (
            "row",
            {"place-roll": "2", "place-press laps": "3", "place-bond bottom": "1"},
            {"order": ["bond bottom", "roll", "press laps"]},
        ),
    ],
)
def test_what_is_read(decision, raw, response):
    assert read(decision, **raw) == response


def test_inches_are_read_where_the_worker_uses_them():
    assert read("much", US, value="2 3/8")["value"] == pytest.approx(60.325)
    assert read("much", US, value="2 ft 8 3/4 in")["value"] == pytest.approx(831.85)


@pytest.mark.parametrize(
    ("decision", "raw", "field"),
    [
        ("take", {}, "row"),
        ("take", {"row": ""}, "row"),
        ("take", {"row": 5}, "row"),
        ("take", {"row": ["a"]}, "row"),
        ("every", {}, "rows"),
        ("every", {"rows": 5}, "rows"),
        ("every", {"rows": [5]}, "rows"),
        ("every", {"rows": {"a": 1}}, "rows"),
        ("put", {"x_mm": "1"}, "y_mm"),
        ("put", {"y_mm": "1"}, "x_mm"),
        ("put", {"x_mm": "a lot", "y_mm": "1"}, "x_mm"),
        ("put", {"x_mm": "1,5", "y_mm": "1"}, "x_mm"),
        ("put", {"x_mm": [1], "y_mm": "1"}, "x_mm"),
        ("put", {}, "row"),
        ("much", {}, "value"),
        ("much", {"value": ""}, "value"),
        ("much", {"value": "98,5"}, "value"),
        ("much", {"value": "nan"}, "value"),
        ("much", {"value": "2 3/8"}, "value"),
        ("much", {"value": True}, "value"),
        ("much", {"value": [5]}, "value"),
        ("until", {}, "time"),
        ("until", {"time": "noon"}, "time"),
        ("until", {"time": "24:00"}, "time"),
        ("until", {"time": 720}, "time"),
        ("until", {"minute": True}, "time"),
        ("row", {}, "place-roll"),
        ("row", {"order": 5}, "order"),
        ("row", {"order": {"a": 1}}, "order"),
    ],
)
def test_what_is_refused_names_the_field(decision, raw, field):
    with pytest.raises(InputError) as refused:
        read(decision, **raw)
    assert refused.value.field == field and refused.value.allowed
    assert len(str(refused.value).splitlines()) == 1


@pytest.mark.parametrize("raw", [None, [], "row=go", 5])
def test_what_is_no_form(raw):
    with pytest.raises(InputError, match="response: got"):
        read_response(MADE.decision("go"), raw, Units())


ORDER = {"place-roll": "2", "place-press laps": "3", "place-bond bottom": "1"}


@pytest.mark.parametrize(
    ("name", "text", "reason"),
    [
        ("place-roll", "", "missing"),
        ("place-roll", "0", "a place from 1 to 3"),
        ("place-roll", "4", "a place from 1 to 3"),
        ("place-roll", "-1", "a place from 1 to 3"),
        ("place-roll", "two", "a place from 1 to 3"),
        ("place-roll", "²", "a place from 1 to 3"),
        ("place-roll", "9" * 5000, "a place from 1 to 3"),
    ],
)
def test_places_typed_by_hand(name, text, reason):
    with pytest.raises(InputError, match=reason) as refused:
        read("row", **{**ORDER, name: text})
    assert refused.value.field == name


def test_no_place_is_given_twice():
    with pytest.raises(InputError, match=r"each place once; .* already has it"):
        read("row", **{**ORDER, "place-roll": "3"})


def test_a_missing_answer_is_told_apart_from_a_wrong_one():
    with pytest.raises(MissingField, match="row: missing; allowed: one of the answers"):
        read("go")


@pytest.mark.parametrize("value", [math.nan, math.inf])
def test_numbers_that_are_none_are_refused_when_they_are_marked(value):
    response = read("much", value=value)
    with pytest.raises(InputError, match="value: got"):
        mark(family(), MADE, "much", response)


@pytest.mark.parametrize("text", ["-5", "99999999", "100001"])
def test_a_length_no_roof_has_is_asked_again(text):
    with pytest.raises(InputError) as refused:
        read("much", value=text)
    assert refused.value.field == "value" and "from 0 to 100 m" in refused.value.allowed
