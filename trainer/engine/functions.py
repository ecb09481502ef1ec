"""The functions an expression may call: the same result on every machine, and a small one.

``sum`` and ``hypot`` round once, at the end, because Python's own differ from version to version.
What would be endless or enormous is refused with a ValueError.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Mapping
from typing import Any

MOST_ENTRIES = 2000
"""Entries of one value, and turns of all comprehensions in one evaluation."""

_DAY = 24 * 60
_CLOCK = re.compile(r"([01]?\d|2[0-4]):([0-5]\d)", re.ASCII)


def clock(minute: float) -> str:
    """Minutes after midnight as "HH:MM", a fraction dropped; 1440 is "24:00". Raises ValueError."""
    if not 0 <= minute <= _DAY:
        raise ValueError(f"{minute:g} is no minute of a day, 0 to {_DAY}")
    whole = math.floor(minute)
    return f"{whole // 60:02d}:{whole % 60:02d}"


def minute(text: str) -> int:
    """ "HH:MM" as minutes after midnight. Raises ValueError."""
    match = _CLOCK.fullmatch(text) if isinstance(text, str) else None
    if match is None or int(match[1]) * 60 + int(match[2]) > _DAY:
        raise ValueError(f"{text!r} is no time of day such as 16:05")
    return int(match[1]) * 60 + int(match[2])


def total(numbers: Iterable[float]) -> float:
    """The sum, whole where every number is."""
    parts = [number(part) for part in numbers]
    return sum(parts) if all(isinstance(part, int) for part in parts) else math.fsum(parts)


def hypotenuse(*sides: float) -> float:
    return math.sqrt(math.fsum(side * side for side in sides))


def sine(degrees: float) -> float:
    """To nine places, on which every machine's library agrees."""
    return round(math.sin(math.radians(degrees)), 9) + 0.0


def cosine(degrees: float) -> float:
    """To nine places, on which every machine's library agrees."""
    return round(math.cos(math.radians(degrees)), 9) + 0.0


def rounded(value: float, digits: int = 0) -> float:
    """To the nearest, halves to the even neighbour; whole without ``digits`` (0 to 9)."""
    if not isinstance(digits, int) or not 0 <= digits <= 9:
        raise ValueError("digits are 0 to 9")
    return round(value, digits) if digits else round(value)


def text(value: Any) -> str:
    """A number or a text as text; nothing else has one that is the same everywhere."""
    if value is not None and not isinstance(value, str | int | float):
        raise ValueError("only a number or a text can become a text")
    return str(value)


def numbers_up_to(*bounds: int) -> list[int]:
    """range(...) as a list of at most MOST_ENTRIES numbers."""
    counted = range(*bounds)
    if counted[MOST_ENTRIES:]:
        raise ValueError(f"range gives at most {MOST_ENTRIES} numbers")
    return list(counted)


def in_order(items: Iterable[Any], reverse: bool = False) -> list[Any]:
    return sorted(items, reverse=reverse)


def number(value: Any) -> float:
    """``value``, if it is a number. Raises ValueError."""
    if isinstance(value, int | float):
        return value
    raise ValueError(f"{value!r} is not a number")


def times(left: Any, right: Any) -> Any:
    """left * right for numbers alone: a list or a text times a number could fill any memory."""
    return number(left) * number(right)


def remainder(left: Any, right: Any) -> Any:
    """left % right for numbers alone: a text would be filled in, to any length."""
    return number(left) % number(right)


class Turns:
    """Counts the turns of all comprehensions in one evaluation."""

    def __init__(self) -> None:
        self.again()

    def again(self) -> None:
        """Begin a new evaluation."""
        self.left = MOST_ENTRIES

    def __call__(self, items: Any) -> Any:
        """``items``, to be gone through once. Raises ValueError when it becomes too many."""
        self.left -= len(items)
        if self.left < 0:
            raise ValueError(f"it goes through more than {MOST_ENTRIES} entries")
        return items


FUNCTIONS: Mapping[str, Callable[..., Any]] = {
    "abs": abs,
    "all": all,
    "any": any,
    "ceil": math.ceil,
    "clock": clock,
    "cos_deg": cosine,
    "enumerate": lambda items, start=0: list(enumerate(items, start)),
    "floor": math.floor,
    "hypot": hypotenuse,
    "len": len,
    "max": max,
    "min": min,
    "minute": minute,
    "range": numbers_up_to,
    "round": rounded,
    "sin_deg": sine,
    "sorted": in_order,
    "sqrt": math.sqrt,
    "str": text,
    "sum": total,
    "zip": lambda *lists: list(zip(*lists, strict=False)),
}

CALLABLE = frozenset(FUNCTIONS) | {"calc", "word", "join"}
"""What may be called: also a calculator, and in texts the shared words."""
