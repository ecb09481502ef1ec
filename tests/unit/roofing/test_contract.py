"""The edge of the calculators: what each kind takes, what it refuses and how it says so."""

import math
from fractions import Fraction

import pytest

from trainer.errors import InputError, MissingField
from trainer.roofing.contract import (
    Calculator,
    Choice,
    Each,
    Either,
    Field,
    Flag,
    Nullable,
    Number,
    Pair,
    Record,
    Text,
    check_fields,
    count,
    exact,
    length,
    read_json,
    rounded,
)

NOT_NUMBERS = [
    True,
    False,
    "12",
    "",
    None,
    [],
    [1],
    {},
    {"value": 1},
    math.nan,
    math.inf,
    -math.inf,
    10**400,
    -(10**400),
]


@pytest.mark.parametrize("value", NOT_NUMBERS, ids=lambda value: repr(value)[:12])
@pytest.mark.parametrize("kind", [Number(), Number("mm", low=0, high=9), count(), length()])
def test_number_refuses_what_is_no_finite_number(kind, value):
    with pytest.raises(InputError) as refused:
        kind.read("width_mm", value)
    assert refused.value.field == "width_mm"
    assert str(refused.value).startswith("width_mm: got ")
    assert kind.describe() in str(refused.value)


@pytest.mark.parametrize(
    ("kind", "inside", "outside"),
    [
        (Number("°C", low=-45, high=60), [-45, 60, 60.0, -0.0], [-45.001, 60.001]),
        (Number("%", above=0, high=100), [5e-324, 100], [0, -0.0, 100.5]),
        (Number("°", low=90, below=180), [90, 179.999], [89.9, 180]),
        (length(), [0, 0.25], [-0.25]),
        (length(positive=True), [0.25], [0]),
        (length(whole=True, high=1_000_000), [0, 1000.0, 1_000_000], [0.5, 1_000_001]),
        (count(low=1), [1, 2.0, 10**20], [0, 1.5]),
    ],
)
def test_number_keeps_its_ends(kind, inside, outside):
    assert [kind.read("n", value) for value in inside] == inside
    for value in outside:
        with pytest.raises(InputError):
            kind.read("n", value)


def test_one_huge_number_is_one_however_it_is_written():
    assert Number().read("n", 10**300) == Number().read("n", 1e300)
    assert Number().read("n", 2**53 - 1) == 2**53 - 1


def test_whole_number_written_as_a_fraction_comes_back_whole():
    value = count().read("sheets", 1000.0)
    assert (value, type(value)) == (1000, int)


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        (Number("°C", low=-45, high=60), "a number ≥ -45 and ≤ 60 (°C)"),
        (length(whole=True, high=1_000_000), "a whole number ≥ 0 and ≤ 1000000 (mm)"),
        (Number("km/h", low=4.8), "a number ≥ 4.8 (km/h)"),
        (Number(), "a number"),
        (Choice(("wet", "dry")), '"wet" or "dry"'),
        (Nullable(Flag()), "true or false, or null"),
        (Each(Number(), least=1, most=3), "a list of 1 or more, at most 3; each entry a number"),
        (Pair(Number(), "[from, to]", ordered=True), "[from, to]: two entries, first ≤ second"),
    ],
)
def test_kind_says_in_plain_words_what_it_allows(kind, words):
    assert kind.describe().startswith(words)


@pytest.mark.parametrize(
    ("kind", "value", "field"),
    [
        (Flag(), 1, "f"),
        (Flag(), "true", "f"),
        (Choice(("wet", "dry")), "damp", "f"),
        (Choice(("wet", "dry")), ["wet"], "f"),
        (Text(), "  ", "f"),
        (Text(), 5, "f"),
        (Nullable(Number()), "5", "f"),
        (Nullable(Each(Number())), [1, "5"], "f[1]"),
        (Each(Number()), {"0": 1}, "f"),
        (Each(Number()), "12", "f"),
        (Each(Number(), least=1), [], "f"),
        (Each(Number(), most=1), [1, 2], "f"),
        (Each(Each(Number())), [[1], [2, None]], "f[1][1]"),
        (Pair(Number()), [1], "f"),
        (Pair(Number()), [1, 2, 3], "f"),
        (Pair(Number(), ordered=True), [2, 1], "f"),
        (Pair(Number()), [1, True], "f[1]"),
        (Either((Number(), Pair(Number()))), "1", "f"),
        (Either((Number(), Pair(Number()))), [1, "2"], "f[1]"),
        (Either((Pair(Number()), Pair(Pair(Number())))), [1, True], "f[1]"),
        (Either((Pair(Number()), Pair(Pair(Number())))), [[0, 0], [1]], "f[1]"),
        (Either((Pair(Number()), Pair(Pair(Number())))), [[0, 0], [1, None]], "f[1][1]"),
        (Either((Pair(Number()), Pair(Pair(Number())))), [1, 2, 3], "f"),
        (Record((Field("at", Number(), "when"),)), {"at": "x"}, "f.at"),
        (Record((Field("at", Number(), "when"),)), {"at": 1, "on": 2}, "f.on"),
        (Record((Field("at", Number(), "when"),)), {}, "f.at"),
        (Record((Field("at", Number(), "when"),)), [1], "f"),
    ],
)
def test_refusal_names_the_innermost_place(kind, value, field):
    with pytest.raises(InputError) as refused:
        kind.read("f", value)
    assert refused.value.field == field


FIELDS = (
    Field("wide", Number(), "how wide"),
    Field("over", Number(), "how far over", 0),
    Field("note", Text(), "a note", optional=True),
    Field("least", Number(), "the least", default_rule="least-width", only_with="over"),
)


def test_fields_left_out_take_their_default_or_null():
    checked = check_fields(FIELDS, {"wide": 5}, pytest.fail)
    assert checked == {"wide": 5, "over": 0, "note": None, "least": None}


def test_rule_book_is_asked_only_where_its_value_is_needed():
    asked = []
    checked = check_fields(FIELDS, {"wide": 5, "over": 1}, lambda rule: asked.append(rule) or 75)
    assert (checked["least"], asked) == (75, ["least-width"])
    assert check_fields(FIELDS, {"wide": 5, "over": 1, "least": 3}, pytest.fail)["least"] == 3


def test_missing_and_unknown_fields_are_named():
    with pytest.raises(MissingField, match=r"^wide: missing; allowed: a number"):
        check_fields(FIELDS, {}, pytest.fail)
    with pytest.raises(
        InputError, match=r"^wdie: got 5; allowed: no such field; fields are wide, "
    ):
        check_fields(FIELDS, {"wdie": 5}, pytest.fail)
    with pytest.raises(InputError, match=r'^"": got 5; '):
        check_fields(FIELDS, {"": 5}, pytest.fail)
    with pytest.raises(InputError, match=r"^x{59}…: got 5; "):
        check_fields(FIELDS, {"x" * 10**6: 5}, pytest.fail)
    with pytest.raises(InputError, match=r"^note: got null"):
        check_fields(FIELDS, {"wide": 1, "note": None}, pytest.fail)


def square(fields):
    return Calculator(
        "square",
        "a square",
        fields,
        {"area": "area"},
        (),
        lambda given: {"area": given["side"] ** 2},
    )


def test_calculator_takes_one_object_and_rounds_at_the_end():
    side = square((Field("side", Number("mm"), "side"),))
    assert side({"side": 1.117}) == {"area": 1.25}
    for inputs in (None, [], "x", 5, [("side", 1)]):
        with pytest.raises(InputError, match=r"^input: "):
            side(inputs)


@pytest.mark.parametrize("side", [1e200, 10**200, -1e300])
def test_result_beyond_every_number_is_refused_by_the_field_that_drives_it(side):
    with pytest.raises(InputError, match=r"^side: got .*finite"):
        square((Field("side", Number("mm"), "side"),))({"side": side})


def test_rounding_reaches_every_depth_and_leaves_no_negative_zero():
    value = {"a": [0.126, (-0.001, 7)], "b": {"c": Fraction(1, 3)}, "d": None, "e": True, "f": "x"}
    assert rounded(value) == {
        "a": [0.13, [0.0, 7]],
        "b": {"c": 0.33},
        "d": None,
        "e": True,
        "f": "x",
    }
    assert math.copysign(1, rounded(-0.001)) == 1


def test_decimals_are_taken_as_they_were_written():
    assert exact(0.1) + exact(0.2) == exact(0.3)
    assert exact(1e300) == 10**300
    assert exact(7) == 7


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("", "input"),
        ("   ", "input"),
        ("{", "input"),
        ("{'a': 1}", "input"),
        ('{"a": 1,}', "input"),
        ('{"a": 01}', "input"),
        ('{"a": 1} {"a": 2}', "input"),
        ("[" * 200_000, "input"),
        ('{"a": 1, "a": 1}', "a"),
        ('{"a": {"b": 1, "b": 2}}', "b"),
        ('{"": 1, "": 1}', '""'),
        ('{"line\\nbreak": 1, "line\\nbreak": 1}', "line\\nbreak"),
    ],
    ids=lambda text: repr(text)[:16],
)
def test_text_that_is_not_one_json_object_is_refused_on_one_line(text, field):
    with pytest.raises(InputError) as refused:
        read_json(text)
    assert refused.value.field == field
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize("number", ["NaN", "Infinity", "-Infinity", "1e999", "9" * 5000])
def test_number_no_float_can_hold_is_refused_by_its_own_field(number):
    with pytest.raises(InputError, match=r"^side: got "):
        square((Field("side", Number(), "side"),))(read_json(f'{{"side": {number}}}'))
