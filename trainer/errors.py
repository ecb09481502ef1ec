"""What went wrong, and what to do next: one exception for each failed intention.

Nothing in the program imports less than this module, so every part can raise and read these.
"""

from __future__ import annotations

import json
from typing import Any

_LONGEST_VALUE = 60


class TrainerError(Exception):
    """Base of every error a person may see.

    ``message`` says what went wrong in one plain sentence, ``advice`` what to do about it.
    """

    def __init__(self, message: str, advice: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.advice = advice

    def __str__(self) -> str:
        return f"{self.message} {self.advice}".strip()


class InputError(TrainerError):
    """A value that cannot be taken: names the field, the value and what is allowed, on one line."""

    def __init__(self, field: str, value: Any, allowed: str) -> None:
        self.field = one_line(field)
        self.value = value
        self.allowed = one_line(allowed)  # it may list names that somebody else made up
        super().__init__(f"{self.field}: got {shown(value)}; allowed: {self.allowed}")


class MissingField(InputError):
    """A required field that was not given."""

    def __init__(self, field: str, allowed: str) -> None:
        super().__init__(field, None, allowed)
        self.args = (f"{self.field}: missing; allowed: {self.allowed}",)
        self.message = self.args[0]


def shown(value: Any) -> str:
    """``value`` as short JSON on one line, for a message."""
    try:
        text = json.dumps(value, ensure_ascii=False, default=repr)
    except (ValueError, RecursionError):  # a structure that refers to itself
        text = repr(type(value).__name__)
    text = one_line(text)
    return text if len(text) <= _LONGEST_VALUE else text[: _LONGEST_VALUE - 1] + "…"


def one_line(text: str) -> str:
    """``text`` with every control character and line break written out."""
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in text)
