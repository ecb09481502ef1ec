"""Files of the pack: plain values, and complaints with file, line, field and what is allowed."""

import json

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from trainer.pack.positions import Document, PackError, parse, problems, read, where
from trainer.pack.schema import Shape

RULES = """\
version: "1"
rules:
  - id: lap
    value: 75
    unit: mm
  - id: age
    value: 120
    unit: min
"""
SCHEMA = {
    "type": "object",
    "required": ["version", "rules"],
    "additionalProperties": False,
    "properties": {
        "version": {"type": "string"},
        "rules": {
            "type": "array",
            "minItems": 1,
            "items": {
                "type": "object",
                "required": ["id", "value", "unit"],
                "additionalProperties": False,
                "properties": {
                    "id": {"type": "string", "pattern": "^[a-z-]+$", "description": "a name"},
                    "value": {"type": "number", "exclusiveMinimum": 0},
                    "unit": {"enum": ["mm", "min"]},
                    "when": {"anyOf": [{"type": "number"}, {"type": "null"}]},
                },
            },
        },
    },
}


def complaints(text, schema=SCHEMA):
    return [str(problem) for problem in problems(parse(text, "pack/rules.yaml"), schema)]


def refusal(text):
    with pytest.raises(PackError) as refused:
        parse(text, "pack/rules.yaml")
    (problem,) = refused.value.problems
    return str(problem)


def test_a_sound_file_gives_its_value_and_no_complaint():
    document = parse(RULES, "pack/rules.yaml")
    assert document.value["rules"][1] == {"id": "age", "value": 120, "unit": "min"}
    assert problems(document, SCHEMA) == []


@pytest.mark.parametrize(
    ("steps", "line"),
    [
        ((), 1),
        (("rules",), 2),
        (("rules", 0), 3),
        (("rules", 1), 6),
        (("rules", 1, "unit"), 8),
        (("rules", 1, "missing"), 6),
        (("rules", 9, "unit"), 2),
        (("version", "deeper"), 1),
    ],
)
def test_the_line_of_a_value_or_of_the_nearest_thing_around_it(steps, line):
    assert parse(RULES, "f").line(steps) == line


def test_a_wrong_unit_names_file_line_field_value_and_what_is_allowed():
    assert complaints(RULES.replace("unit: min", "unit: cm")) == [
        'pack/rules.yaml:8: rules[1].unit: got "cm"; allowed: "mm" or "min"'
    ]


@pytest.mark.parametrize("written", ["98,5", '"98,5"', "'98,5'"])
def test_a_number_with_a_comma_is_shown_with_its_point(written):
    assert complaints(RULES.replace("75", written)) == [
        'pack/rules.yaml:4: rules[0].value: got "98,5"; allowed: a number > 0, with a point: 98.5'
    ]


def test_a_comma_inside_braces_is_found_though_yaml_reads_two_fields():
    text = 'version: "1"\nrules: [{id: lap, value: 98,5, unit: mm}]\n'
    assert complaints(text) == [
        "pack/rules.yaml:2: rules[0].value: got 98,5; allowed: a number with a point: 98.5"
    ]


def test_all_problems_of_a_file_come_at_once_in_the_order_of_its_lines():
    text = """\
rules:
  - id: Lap
    value: -1
    unit: mm
    unit: cm
  - id: age
    valu: 3
    unit: min
    when: soon
"""
    assert complaints(text) == [
        "pack/rules.yaml:1: version: missing; allowed: a text",
        'pack/rules.yaml:2: rules[0].id: got "Lap"; allowed: a name',
        "pack/rules.yaml:3: rules[0].value: got -1; allowed: a number > 0",
        "pack/rules.yaml:5: rules[0].unit: given twice; allowed: each field once",
        'pack/rules.yaml:5: rules[0].unit: got "cm"; allowed: "mm" or "min"',
        "pack/rules.yaml:6: rules[1].value: missing; allowed: a number > 0",
        "pack/rules.yaml:7: rules[1].valu: no such field; "
        "allowed: id, value, unit, when (did you mean value?)",
        'pack/rules.yaml:9: rules[1].when: got "soon"; allowed: a number or null',
    ]


def test_a_doubled_field_is_refused_even_without_a_schema():
    document = parse("a: 1\nb: 2\na: 3\n", "f")
    with pytest.raises(PackError, match="f:3: a: given twice"):
        _ = document.value


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "pack/rules.yaml:1: got null; allowed: a block of fields"),
        ("- 1\n", "pack/rules.yaml:1: got [1]; allowed: a block of fields"),
    ],
)
def test_a_file_of_another_kind(text, said):
    assert complaints(text) == [said]


@pytest.mark.parametrize(
    ("text", "line", "advice"),
    [
        ("a: b: c\n", 1, 'put a text that holds ": " in quotes'),
        ("a:\n\tb: 1\n", 2, "indent with spaces"),
        ("a: @b\n", 1, "at '@'"),
        ("a: 'b\n", 2, "a quote is opened and not closed"),
        ("a: 1\n b: 2\n", 2, "not readable as YAML"),
        ("a: *b\n", 1, "a text that begins with * stands in quotes"),
        ("a: [1, 2\nb: 3\n", 2, "not readable as YAML"),
        ("a: 1\n---\nb: 2\n", 2, "another document"),
        ("a: \x07\n", 1, "not readable as YAML"),
        ("[" * 5000, 1, "nesting"),
    ],
)
def test_what_is_no_yaml_is_said_plainly_with_its_line(text, line, advice):
    said = refusal(text)
    assert said.startswith(f"pack/rules.yaml:{line}: not readable as YAML: ")
    assert advice in said
    assert "\n" not in said


def test_a_structure_that_refers_to_itself():
    assert refusal("a: &a [*a]\n") == ("pack/rules.yaml: nested too deeply, or refers to itself")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("a: !!set {b}\n", "f:1: a: got the tag tag:yaml.org,2002:set; allowed: plain values"),
        ("a: !thing b\n", "f:1: a: got the tag !thing"),
        ("a: !!int word\n", 'f:1: a: got "word"; allowed: a plain value'),
        ("a: 1e999\n", 'f:1: a: got "1e999"; allowed: a plain value of sensible size'),
        ("3: b\n", 'f:1: 3: got "3" as a field name; allowed: a text'),
        ("[a]: b\n", "f:1: ?: got a list or block as a field name; allowed: a text"),
        ("a: &x {b: 1}\nc:\n  <<: *x\n", "f:3: c.<<: merge keys are not read"),
    ],
)
def test_what_yaml_allows_and_the_pack_does_not(text, said):
    with pytest.raises(PackError) as refused:
        _ = parse(text, "f").value
    assert str(refused.value).startswith(said)


def test_scalars_are_read_as_yaml_1_2_reads_them():
    text = (
        "no: on\nat: 12:30\nday: 2026-03-04\nten: 010\nhalf: .5\nlot: 1_000\nnan: .nan\nyes: true\n"
    )
    assert parse(text, "f").value == {
        "no": "on",
        "at": "12:30",
        "day": "2026-03-04",
        "ten": 10,
        "half": 0.5,
        "lot": "1_000",
        "nan": ".nan",
        "yes": True,
    }


def test_files_that_cannot_be_read(tmp_path):
    with pytest.raises(PackError, match=r"gone\.yaml: cannot be read: no such file"):
        read(tmp_path / "gone.yaml")
    (tmp_path / "latin.yaml").write_bytes(b"a: 1\nb: caf\xe9\n")
    with pytest.raises(PackError, match=r"latin\.yaml:2: not UTF-8"):
        read(tmp_path / "latin.yaml")
    with pytest.raises(PackError, match="cannot be read"):
        read(tmp_path)


def test_a_byte_order_mark_is_no_part_of_the_first_field(tmp_path):
    (tmp_path / "marked.yaml").write_bytes(b"\xef\xbb\xbfa: 1\n")
    assert read(tmp_path / "marked.yaml").value == {"a": 1}


def test_the_form_that_was_meant_is_the_one_complained_about():
    kinds = {
        "oneOf": [
            {
                "type": "object",
                "required": ["kind", "step"],
                "properties": {"kind": {"const": "place"}, "step": {"type": "number"}},
            },
            {
                "type": "object",
                "required": ["kind", "unit"],
                "properties": {"kind": {"const": "measure"}, "unit": {"enum": ["mm"]}},
            },
        ]
    }
    assert complaints("kind: measure\nunit: cm\n", kinds) == [
        'pack/rules.yaml:2: unit: got "cm"; allowed: "mm"'
    ]
    assert complaints("kind: place\n", kinds) == [
        "pack/rules.yaml:1: step: missing; allowed: a number"
    ]


def test_names_references_and_pairs_that_a_schema_asks_for():
    schema = {
        "type": "object",
        "definitions": {"number": {"type": "number", "description": "a length in mm"}},
        "propertyNames": {"pattern": "^[a-z_]+$", "description": "small letters"},
        "properties": {"low": {"$ref": "#/definitions/number"}},
        "dependencies": {"low": ["high"]},
    }
    assert complaints("low: x\nHigh: 2\n", schema) == [
        'pack/rules.yaml:1: low: got "x"; allowed: a length in mm',
        "pack/rules.yaml:1: high: missing; allowed: a value",
        'pack/rules.yaml:2: High: got "High"; allowed: small letters',
    ]


def test_where_is_written_as_a_person_writes_it():
    assert where(("rules", 3, "unit")) == "rules[3].unit"
    assert where(("a\nb",)) == r"a\nb"


plain = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-9999, 9999)
    | st.text("abc:,#é'\"-[]{} \n", max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text("abno", min_size=1), inner),
    max_leaves=12,
)


@given(plain)
def test_what_pyyaml_writes_is_read_back_unchanged(value):
    assert parse(yaml.safe_dump(value, allow_unicode=True), "f").value == value


@given(plain)
def test_json_is_yaml_and_is_read_as_json_reads_it(value):
    assert parse(json.dumps(value), "f").value == value


@given(plain)
def test_a_shape_complains_exactly_where_the_schema_library_does(value):
    """Checked against jsonschema, whichever code passed the value."""
    from jsonschema import Draft7Validator

    schema = {
        "anyOf": [
            {"type": ["null", "integer", "boolean"]},
            {"type": "string", "maxLength": 5},
            {"type": "array", "items": {"type": "integer"}, "maxItems": 2},
            {"type": "object", "properties": {"a": {"minimum": 0}}, "required": ["a"]},
        ]
    }
    document = Document("f", "", value)
    assert bool(Shape(schema).complaints(document.content)) is not Draft7Validator(schema).is_valid(
        value
    )
