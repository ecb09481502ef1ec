"""Texts with values in them: ``The primer is {age_min} old.``

What stands between braces is an expression, and how it is said follows from its name: ``_mm`` a
length, ``_at`` a time of day … or from a word after a bar: ``{x|clock}``. A passage is a list of
texts, each perhaps with a condition; those whose condition holds are said in order.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from trainer.engine.expression import Expression, ExpressionError, Scope
from trainer.engine.measures import Units, say_clock, say_duration, say_number

Say = Callable[[Units, Any], str]

FORMATS: Mapping[str, Say] = {
    "mm": lambda units, value: units.say_length(value),
    "m": lambda units, value: units.say_distance(value),
    "min": lambda _, value: say_duration(value),
    "at": lambda _, value: say_clock(value),
    "c": lambda units, value: units.say_temperature(value),
    "k": lambda units, value: units.say_difference(value),
    "pct": lambda _, value: f"{say_number(value)} %",
    "l": lambda _, value: f"{say_number(value)} l",
    "limit": lambda units, rule: units.say_limit(rule),
    "n": lambda _, value: say_number(value),
    "text": lambda _, value: _text(value),
}

_BRACES = re.compile(r"\{([^{}]*)\}")
_SUFFIX = re.compile(r"_(mm|min|at|c|k|pct|l)$")


@dataclass(frozen=True)
class Template:
    """One text. ``say`` puts the values in."""

    source: str

    @cached_property
    def _pieces(self) -> tuple[str | tuple[Expression, str], ...]:
        pieces: list[str | tuple[Expression, str]] = []
        for place, part in enumerate(_BRACES.split(self.source)):
            if place % 2:
                pieces.append(_slot(part))
            elif "{" in part or "}" in part:
                raise ExpressionError(self.source, "a brace in it has no partner")
            else:
                pieces.append(part)
        return tuple(pieces)

    @property
    def expressions(self) -> tuple[Expression, ...]:
        """What stands between its braces. Raises ExpressionError."""
        return tuple(p[0] for p in self._pieces if not isinstance(p, str))

    def say(self, scope: Scope, units: Units) -> str:
        """The text with its values, in the worker's units. Raises ExpressionError."""
        return "".join(
            piece if isinstance(piece, str) else _said(*piece, scope, units)
            for piece in self._pieces
        )


def _slot(inside: str) -> tuple[Expression, str]:
    """The expression in a pair of braces and how it is said."""
    source, _, form = inside.rpartition("|")
    if not source:
        source, form = inside, ""
    match = _SUFFIX.search(source.strip())
    form = form.strip() or (match[1] if match else "")
    if form and form not in FORMATS:
        raise ExpressionError(
            inside, f"{form} is no way to say a value; there are {', '.join(FORMATS)}"
        )
    return Expression(source), form


def _said(expression: Expression, form: str, scope: Scope, units: Units) -> str:
    value = expression.value(scope)
    if not form:
        form = "text" if isinstance(value, str) else "n"
    try:
        return FORMATS[form](units, value)
    except (TypeError, ValueError, KeyError, OverflowError):
        raise ExpressionError(expression.source, f"{value!r} cannot be said as {form}") from None


def _text(value: Any) -> str:
    if not isinstance(value, str):
        raise TypeError(value)
    return value


@dataclass(frozen=True)
class Passage:
    """Sentences with conditions: each ``(condition or None, template)``."""

    parts: tuple[tuple[Expression | None, Template], ...] = ()

    def __bool__(self) -> bool:
        return bool(self.parts)

    def say(self, scope: Scope, units: Units) -> tuple[str, ...]:
        """Those texts whose condition holds, in order, empty ones left out.

        Raises ExpressionError.
        """
        said = (
            text.say(scope, units)
            for condition, text in self.parts
            if condition is None or condition.value(scope)
        )
        return tuple(filter(None, said))
