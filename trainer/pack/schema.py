"""A JSON Schema (draft 7), and its complaints in plain words: the value got and what is allowed.

A ``description`` in a schema says what is allowed there; without one the words are made from its
keywords. Good files are passed by compiled code where ``fastjsonschema`` is installed, so that
``jsonschema``, which finds every fault, is imported only when there is one.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Iterator, Mapping
from functools import cached_property
from typing import Any

from trainer.errors import shown
from trainer.pack.yaml_values import Complaint, Steps

ValidationError = Any
"""jsonschema's; its fields hold whatever the schema and the file hold."""

_TYPES = {
    "number": "a number",
    "integer": "a whole number",
    "string": "a text",
    "boolean": "true or false",
    "array": "a list",
    "object": "a block of fields",
    "null": "null",
}
_NUMBER_WITH_COMMA = re.compile(r"[-+]?\d+,\d+")


class Shape:
    """What a file must look like: a JSON Schema (draft 7), made ready for many files."""

    def __init__(self, schema: Mapping[str, Any]) -> None:
        self.schema = schema

    def complaints(self, value: Any) -> list[Complaint]:
        """Everything in ``value`` that the schema does not allow, each once."""
        if self._passes(value):
            return []
        errors = self._validator.iter_errors(value)
        return list(dict.fromkeys(c for error in errors for c in self._said(error)))

    def _passes(self, value: Any) -> bool:
        return self._quick is not None and self._quick(value)

    @cached_property
    def _quick(self) -> Callable[[Any], bool] | None:
        return _compiled(self.schema)

    @cached_property
    def _validator(self) -> Any:
        from jsonschema import Draft7Validator  # a tenth of a second: only for files with faults

        return Draft7Validator(self.schema)

    def _said(self, error: ValidationError) -> Iterator[Complaint]:
        steps = tuple(error.absolute_path)
        match error.validator:
            case "required":
                yield from self._missing(steps, error.validator_value, error)
            case "dependencies":
                for name, needed in error.validator_value.items():
                    if name in error.instance:
                        yield from self._missing(steps, needed, error)
            case "additionalProperties":
                yield from _unknown(steps, error)
            case "anyOf" | "oneOf" if error.context:
                yield from self._nearest(error)
            case _:
                yield self._refused(steps, error)

    def _missing(
        self, steps: Steps, names: list[str], error: ValidationError
    ) -> Iterator[Complaint]:
        fields = error.schema.get("properties", {})
        for name in names:
            if name not in error.instance:
                yield (*steps, name), f"missing; allowed: {self.allowed(fields.get(name, {}))}"

    def _nearest(self, error: ValidationError) -> Iterator[Complaint]:
        """Of several forms, the faults of the one that was most likely meant."""
        forms: dict[Any, list[ValidationError]] = {}
        for inner in error.context:
            forms.setdefault(inner.schema_path[0], []).append(inner)
        meant = [faults for faults in forms.values() if not any(_other_form(f) for f in faults)]
        if not meant:  # no form even begins to fit
            yield self._refused(tuple(error.absolute_path), error)
            return
        for fault in min(meant, key=_unlikelihood):
            yield from self._said(fault)

    def _refused(self, steps: Steps, error: ValidationError) -> Complaint:
        got, allowed = error.instance, self.allowed(error.schema)
        if "propertyNames" in error.absolute_schema_path:
            steps = (*steps, got)
        if isinstance(got, str) and "number" in allowed and _NUMBER_WITH_COMMA.fullmatch(got):
            allowed += f", with a point: {got.replace(',', '.')}"
        return steps, f"got {shown(got)}; allowed: {allowed}"

    def allowed(self, schema: Any) -> str:
        """What a schema allows, in words."""
        if not isinstance(schema, Mapping):
            return "nothing here"
        if "$ref" in schema:
            return self.allowed(self._referred(schema["$ref"]))
        if "description" in schema:
            return str(schema["description"])
        for word in ("anyOf", "oneOf"):
            if word in schema:
                return " or ".join(self.allowed(form) for form in schema[word])
        return _in_words(schema)

    def _referred(self, pointer: str) -> Any:
        part: Any = self.schema
        for step in pointer.removeprefix("#/").split("/"):
            part = part[step]
        return part


def _other_form(fault: ValidationError) -> bool:
    """Whether a fault says that the value is of another kind altogether."""
    return not fault.path and fault.validator in ("type", "const", "enum")


def _unlikelihood(faults: list[ValidationError]) -> tuple[int, int]:
    """How little a form was meant: a wrong name of the form weighs more than any other fault."""
    return sum(fault.validator in ("const", "enum") for fault in faults), len(faults)


def _compiled(schema: Mapping[str, Any]) -> Callable[[Any], bool] | None:
    try:
        import fastjsonschema  # type: ignore[import-not-found, unused-ignore]
    except ImportError:
        return None
    check = fastjsonschema.compile(schema, use_default=False, use_formats=False)

    def passes(value: Any) -> bool:
        try:
            check(value)
        except fastjsonschema.JsonSchemaValueException:
            return False
        return True

    return passes


def _unknown(steps: Steps, error: ValidationError) -> Iterator[Complaint]:
    known = list(error.schema.get("properties", {}))
    patterns = error.schema.get("patternProperties", {})
    for name in error.instance:
        if name not in known and not any(re.search(p, name) for p in patterns):
            near = difflib.get_close_matches(name, known, n=1)
            hint = f" (did you mean {near[0]}?)" if near else ""
            yield (*steps, name), f"no such field; allowed: {', '.join(known)}{hint}"


def _in_words(schema: Mapping[str, Any]) -> str:
    if "const" in schema:
        return shown(schema["const"])
    if "enum" in schema:
        return " or ".join(shown(word) for word in schema["enum"])
    types = schema.get("type", [])
    noun = " or ".join(_TYPES[t] for t in ([types] if isinstance(types, str) else types))
    return " ".join([noun or "a value", *_bounds(schema)])


def _bounds(schema: Mapping[str, Any]) -> Iterator[str]:
    for word, said in (
        ("minimum", "≥ {}"),
        ("exclusiveMinimum", "> {}"),
        ("maximum", "≤ {}"),
        ("exclusiveMaximum", "< {}"),
        ("minItems", "of {} or more entries"),
        ("maxItems", "of at most {} entries"),
        ("minProperties", "of {} or more"),
        ("minLength", "of {} or more characters"),
        ("maxLength", "of at most {} characters"),
        ("pattern", "of the form {}"),
    ):
        if word in schema:
            yield said.format(schema[word])
    if schema.get("uniqueItems"):
        yield "with each entry once"
