"""The edge of every calculator: fields that check once, so that the arithmetic can trust its types.

A calculator takes one mapping of named inputs and gives one mapping of named results, the same for
a person at a terminal, a page and a worked solution. Lengths are millimetres, durations minutes,
angles degrees, temperatures degrees Celsius. Numbers are rounded to 0.01 at the very end; every
verdict is decided before that.
"""

from __future__ import annotations

import json
import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from trainer.errors import InputError, MissingField, shown
from trainer.roofing.kinds import (
    Choice,
    Each,
    Either,
    Flag,
    Kind,
    Nullable,
    Number,
    Pair,
    Text,
    count,
    exact,
    is_finite,
    length,
    minutes,
)

__all__ = [
    "Calculator",
    "Choice",
    "Each",
    "Either",
    "Field",
    "Flag",
    "Inputs",
    "Kind",
    "Nullable",
    "Number",
    "Pair",
    "Record",
    "RuleValue",
    "Text",
    "check_fields",
    "count",
    "exact",
    "length",
    "minutes",
    "no_rule",
    "read_json",
    "rounded",
]

Inputs = Mapping[str, Any]
RuleValue = Callable[[str], float]
"""Gives the value of a rule in force, by its id in the rule book."""


_NOT_GIVEN = object()
_MOST_DIGITS = 300  # about as many as a float can stand for
_LONGEST_NAME = 60


@dataclass(frozen=True)
class Field:
    """One named input: its kind, what it means, and what stands in when it is left out.

    ``default`` is a value, ``default_rule`` the id of the rule in the rule book whose value stands
    in; with ``only_with`` it does so only where that other field is given, and is null otherwise.
    """

    name: str
    kind: Kind
    meaning: str
    default: Any = _NOT_GIVEN
    default_rule: str = ""
    optional: bool = False
    only_with: str = ""

    @property
    def required(self) -> bool:
        return not (self.optional or self.default_rule or self.default is not _NOT_GIVEN)

    @property
    def inner_fields(self) -> tuple[Field, ...]:
        """The fields of the object, or of each object in the list, that this field holds."""
        kind = self.kind.inner if isinstance(self.kind, Each) else self.kind
        return kind.fields if isinstance(kind, Record) else ()

    def when_absent(self, rule_value: RuleValue, given: Mapping[str, Any]) -> Any:
        if self.only_with and self.only_with not in given:
            return None
        if self.default_rule:
            return rule_value(self.default_rule)
        return None if self.optional else self.default


@dataclass(frozen=True)
class Record(Kind):
    """One object with named fields; unknown and missing names are refused."""

    fields: tuple[Field, ...]

    def describe(self) -> str:
        names = ", ".join(f.name if f.required else f"{f.name} (optional)" for f in self.fields)
        return f"an object with {names}"

    def read(self, name: str, value: Any) -> dict[str, Any]:
        if not isinstance(value, Mapping):
            raise self.refuse(name, value)
        return check_fields(self.fields, value, no_rule, prefix=f"{name}.")


@dataclass(frozen=True)
class Calculator:
    """One subject of the trade: its fields, its results in words, its sources, its arithmetic.

    ``compute`` gets the checked fields and returns results that are not yet rounded. ``results``
    says what each result is, ``sources`` where the formula or rule comes from, ``rules`` what the
    calculator holds to, a sentence each.
    """

    name: str
    summary: str
    fields: tuple[Field, ...]
    results: Mapping[str, str]
    sources: tuple[str, ...]
    compute: Callable[[dict[str, Any]], dict[str, Any]]
    rules: tuple[str, ...] = field(default=())

    def __call__(self, inputs: Any, rule_value: RuleValue | None = None) -> dict[str, Any]:
        """Check, compute and round. Raises InputError naming field, value and what is allowed."""
        if not isinstance(inputs, Mapping):
            raise InputError("input", inputs, "one JSON object")
        checked = check_fields(self.fields, inputs, rule_value or no_rule)
        try:
            results = {key: rounded(value) for key, value in self.compute(checked).items()}
            finite = all(is_finite(number) for _, number in _numbers("", results))
        except OverflowError:
            finite = False
        if not finite:
            raise _too_extreme(inputs)
        return results


def _too_extreme(inputs: Inputs) -> InputError:
    """The refusal of inputs so large or small that a result leaves the range of numbers."""
    name, value = max(_numbers("", inputs), key=lambda entry: _magnitude(entry[1]))
    return InputError(name, value, "a number near enough to 1 that every result is finite")


def _magnitude(number: float) -> float:
    return abs(math.log10(abs(number))) if number else 0.0


def _numbers(name: str, value: Any) -> Iterator[tuple[str, float]]:
    """Every number in ``value`` with the name of its place."""
    if isinstance(value, Mapping):
        for key, part in value.items():
            yield from _numbers(f"{name}.{key}" if name else key, part)
    elif isinstance(value, list | tuple):
        for i, part in enumerate(value):
            yield from _numbers(f"{name}[{i}]", part)
    elif isinstance(value, int | float) and not isinstance(value, bool):
        yield name, value


def no_rule(rule_id: str) -> float:
    """Stands in where no rule book is at hand: a default from it cannot be had."""
    raise MissingField(rule_id, "a value, or a rule book that holds this rule")


def check_fields(
    fields: Sequence[Field], given: Mapping[str, Any], rule_value: RuleValue, prefix: str = ""
) -> dict[str, Any]:
    """Every field's checked value by name; InputError for the first that cannot be taken."""
    known = {f.name for f in fields}
    for name in given:
        if name not in known:
            unknown = f"{prefix}{_shown_name(name)}"
            raise InputError(unknown, given[name], f"no such field; {_names(fields)}")
    checked = {}
    for f in fields:
        if f.name in given:
            checked[f.name] = f.kind.read(f"{prefix}{f.name}", given[f.name])
        elif f.required:
            raise MissingField(f"{prefix}{f.name}", f.kind.describe())
        else:
            checked[f.name] = f.when_absent(rule_value, given)
    return checked


def _shown_name(name: Any) -> str:
    """A name that somebody made up, fit for a message: never empty, never endless."""
    if not isinstance(name, str) or not name.strip():
        return shown(name)
    return name if len(name) <= _LONGEST_NAME else name[: _LONGEST_NAME - 1] + "…"


def _names(fields: Sequence[Field]) -> str:
    return "fields are " + ", ".join(f.name for f in fields)


def rounded(value: Any) -> Any:
    """``value`` with every fraction in it rounded to 0.01 and negative zero made plain."""
    if isinstance(value, float | Fraction):
        return round(float(value), 2) + 0.0
    if isinstance(value, Mapping):
        return {key: rounded(part) for key, part in value.items()}
    if isinstance(value, list | tuple):
        return [rounded(part) for part in value]
    return value


def read_json(text: str) -> Any:
    """``text`` as JSON, no key twice. Raises InputError on "input", or on the key given twice.

    NaN, Infinity and numbers as large pass here: the field they stand in refuses them by its name.
    """
    try:
        return json.loads(text, object_pairs_hook=_one_of_each, parse_int=_whole_number)
    except InputError:
        raise
    except RecursionError:
        raise InputError("input", text, "JSON that is not nested so deeply") from None
    except ValueError as error:
        raise InputError("input", text, f"one JSON object ({error})") from None


def _one_of_each(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    made: dict[str, Any] = {}
    for key, value in pairs:
        if key in made:
            raise InputError(_shown_name(key), value, "each field once")
        made[key] = value
    return made


def _whole_number(digits: str) -> float:
    return int(digits) if len(digits) <= _MOST_DIGITS else float(digits)
