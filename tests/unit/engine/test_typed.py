"""What a worker types: read where it means one thing, refused with what is allowed elsewhere."""

import pytest

from trainer.engine.measures import Units
from trainer.engine.typed import read_clock, read_inches, read_number
from trainer.errors import InputError


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("60", 60),
        (" 60 mm ", 60),
        ("60mm", 60),
        ("98.5", 98.5),
        (".5", 0.5),
        ("5.", 5),
        ("-3", -3),
        ("−3", -3),
        ("+3", 3),
        ("007", 7),
    ],
)
def test_numbers(text, number):
    assert read_number("value", text, "mm") == number


NO_NUMBER = ["", " ", "mm", "sixty", "60 cm", "60 in", "6 0", "1e3", "nan", "inf", "--3", "6.5.4"]


@pytest.mark.parametrize("text", [*NO_NUMBER, "9" * 400, "0x10", "1_000", "٣", "60 mm mm", "½"])
def test_what_is_no_number(text):
    with pytest.raises(InputError) as refused:
        read_number("value", text, "mm")
    assert refused.value.field == "value" and refused.value.value == text
    assert "one number in mm, such as 98.5 (a point, no comma)" in str(refused.value)


def test_a_comma_is_refused_with_the_point():
    with pytest.raises(InputError, match="a point, no comma"):
        Units().read_length("value", "98,5")
    with pytest.raises(InputError, match="2 3/8"):
        Units("in").read_length("value", "2,5")


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("2", 2),
        ("2.5", 2.5),
        ("2 3/8", 2.375),
        ("2-3/8", 2.375),
        ("2  3/8 in", 2.375),
        ('2 3/8"', 2.375),
        ("3/8", 0.375),
        ("23/8", 2.875),
        ("12 in", 12),
        ("4 ft", 48),
        ("4 ft 2 3/8 in", 50.375),
        ("4'2\"", 50),
        ("4' 2 3/8\"", 50.375),
        ("4ft-2in", 50),
        ("-2 3/8", -2.375),
        ("−1 5/8 in", -1.625),
    ],
)
def test_inches(text, inches):
    assert read_inches("value", text) == inches


@pytest.mark.parametrize(
    "text",
    [
        "",
        "in",
        "ft",
        "2 3/0",
        "3/0",
        "1 2",
        "2,5",
        "60 mm",
        "2.5 3/8",
        "4' -2",
        "9" * 20,
        "2 3/8 8",
    ],
)
def test_what_is_no_length_in_inches(text):
    with pytest.raises(InputError, match="one length in inches"):
        read_inches("value", text)


@pytest.mark.parametrize(
    ("text", "minute"),
    [("16:05", 965), ("16.05", 965), ("1605", 965), ("7:30", 450), ("00:00", 0), ("23:59", 1439)],
)
def test_times(text, minute):
    assert read_clock("time", text) == minute


@pytest.mark.parametrize("text", ["24:00", "16:60", "noon", "16", "", "16:5", "-1:00", "1 605"])
def test_what_is_no_time(text):
    with pytest.raises(InputError, match="a time of day such as 16:05"):
        read_clock("time", text)


def test_fahrenheit():
    assert Units(temperature="F").read_temperature("value", "54.5") == pytest.approx(12.5)
    assert Units(temperature="F").read_difference("value", "5.4 °F") == pytest.approx(3)
