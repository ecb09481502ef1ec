"""The small language in which a family states its values: arithmetic, comparison, lists, no more.

What it may say is in ``syntax``, what it may call in ``functions``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from trainer.engine.functions import FUNCTIONS, Turns, remainder, times
from trainer.engine.syntax import REMAINDER, TIMES, TURNS, ExpressionError, Reading, Scope, read
from trainer.errors import TrainerError

__all__ = ["Expression", "ExpressionError", "Scope", "scope_of"]


@dataclass(frozen=True)
class Expression:
    """One expression, read and checked on first use, compiled on first evaluation."""

    source: str

    @cached_property
    def reading(self) -> Reading:
        """What it says. Raises ExpressionError when it cannot be read."""
        return read(self.source)

    def value(self, scope: Scope) -> Any:
        """The value under ``scope`` (made by :func:`scope_of`). Raises ExpressionError."""
        reading = self.reading
        try:
            return reading.value(scope)
        except TrainerError as error:
            reason = error.message.rstrip(".")
        except Exception as error:
            reason = _in_plain_words(error)
        raise ExpressionError(self.source, reason)


def _in_plain_words(error: Exception) -> str:
    match error:
        case NameError():
            return f"nothing here is called {error.name}"
        case KeyError():
            return f"there is no entry {error.args[0]!r}"
        case ZeroDivisionError():
            return "it divides by zero"
        case _:
            return str(error) or type(error).__name__


_EVERYWHERE: Scope = {
    "__builtins__": {},
    **FUNCTIONS,
    TIMES: times,
    REMAINDER: remainder,
}


def scope_of(*layers: Mapping[str, Any]) -> Scope:
    """The functions and the given names, later layers over earlier ones."""
    scope = {**_EVERYWHERE, TURNS: Turns()}
    for layer in layers:
        scope.update(layer)
    return scope
