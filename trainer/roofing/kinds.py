"""What one field of a calculator may hold: numbers with their ends, words, lists, pairs.

Each kind reads one value and returns it checked, or refuses it with an InputError that names the
field, the value and what is allowed.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from trainer.errors import InputError, TrainerError

_FIRST_INEXACT = 2**53


class Kind:
    """What one field may hold. ``read`` returns the checked value or raises InputError."""

    def describe(self) -> str:
        raise TrainerError(f"{type(self).__name__} does not say what it allows.")

    def read(self, name: str, value: Any) -> Any:
        raise TrainerError(f"{type(self).__name__} does not read values.")

    def refuse(self, name: str, value: Any) -> InputError:
        return InputError(name, value, self.describe())


@dataclass(frozen=True)
class Number(Kind):
    """A finite number, ``low`` to ``high`` (either end may be open), in ``unit``."""

    unit: str = ""
    low: float | None = None
    high: float | None = None
    above: float | None = None
    below: float | None = None
    whole: bool = False

    def describe(self) -> str:
        bounds = [
            f"{sign} {_plain(limit)}"
            for sign, limit in (
                (">", self.above),
                ("≥", self.low),
                ("≤", self.high),
                ("<", self.below),
            )
            if limit is not None
        ]
        noun = "a whole number" if self.whole else "a number"
        unit = f" ({self.unit})" if self.unit else ""
        return f"{noun} {' and '.join(bounds)}".rstrip() + unit

    def read(self, name: str, value: Any) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise self.refuse(name, value)
        if not is_finite(value):
            raise InputError(name, value, f"{self.describe()}; input has no NaN and no Infinity")
        if not self._inside(value) or (self.whole and value != int(value)):
            raise self.refuse(name, value)
        if self.whole:
            return int(value)
        # 10**300 and 1e300 are one number to whoever wrote them, and must compare as one
        return value if abs(value) < _FIRST_INEXACT else float(value)

    def _inside(self, value: float) -> bool:
        return (
            (self.low is None or value >= self.low)
            and (self.high is None or value <= self.high)
            and (self.above is None or value > self.above)
            and (self.below is None or value < self.below)
        )


def is_finite(value: float) -> bool:
    """Whether ``value`` is a number that a float can hold."""
    try:
        return math.isfinite(value)
    except OverflowError:  # an integer beyond every float
        return False


def _plain(limit: float) -> str:
    """``limit`` without an exponent or a needless decimal point: 1000000, -45, 4.8."""
    return str(int(limit)) if limit == int(limit) else str(limit)


def exact(value: float) -> Fraction:
    """``value`` as the decimal it was written as, so that a limit met exactly is met.

    >>> exact(0.1) + exact(0.2) == exact(0.3)
    True
    """
    return Fraction(value) if isinstance(value, int) else Fraction(float.__repr__(value))


def length(*, positive: bool = False, whole: bool = False, high: float | None = None) -> Number:
    """A length in millimetres: ≥ 0, or > 0 where nothing can be that small."""
    return _amount("mm", positive, whole, high)


def minutes(*, positive: bool = False) -> Number:
    """A duration in minutes, ≥ 0."""
    return _amount("min", positive, False, None)


def count(*, low: int = 0) -> Number:
    """A whole number of things."""
    return Number(low=low, whole=True)


def _amount(unit: str, positive: bool, whole: bool, high: float | None) -> Number:
    if positive:
        return Number(unit, above=0, high=high, whole=whole)
    return Number(unit, low=0, high=high, whole=whole)


@dataclass(frozen=True)
class Choice(Kind):
    """One of a few words."""

    words: tuple[str, ...]

    def describe(self) -> str:
        return " or ".join(f'"{word}"' for word in self.words)

    def read(self, name: str, value: Any) -> str:
        if not isinstance(value, str) or value not in self.words:
            raise self.refuse(name, value)
        return value


@dataclass(frozen=True)
class Flag(Kind):
    """true or false."""

    def describe(self) -> str:
        return "true or false"

    def read(self, name: str, value: Any) -> bool:
        if not isinstance(value, bool):
            raise self.refuse(name, value)
        return value


@dataclass(frozen=True)
class Text(Kind):
    """A name or a sentence, not empty."""

    what: str = "text, not empty"

    def describe(self) -> str:
        return self.what

    def read(self, name: str, value: Any) -> str:
        if not isinstance(value, str) or not value.strip():
            raise self.refuse(name, value)
        return value


@dataclass(frozen=True)
class Nullable(Kind):
    """The inner kind, or null."""

    inner: Kind

    def describe(self) -> str:
        return f"{self.inner.describe()}, or null"

    def read(self, name: str, value: Any) -> Any:
        if value is None:
            return None
        try:
            return self.inner.read(name, value)
        except InputError as error:
            if error.field == name:
                raise self.refuse(name, value) from None
            raise


@dataclass(frozen=True)
class Each(Kind):
    """A list whose every entry is of the inner kind, ``least`` to ``most`` entries."""

    inner: Kind
    least: int = 0
    most: int | None = None

    def describe(self) -> str:
        size = f" of {self.least} or more" if self.least else ""
        limit = f", at most {self.most}" if self.most is not None else ""
        return f"a list{size}{limit}; each entry {self.inner.describe()}"

    def read(self, name: str, value: Any) -> list[Any]:
        if not isinstance(value, list | tuple) or len(value) < self.least:
            raise self.refuse(name, value)
        if self.most is not None and len(value) > self.most:
            raise self.refuse(name, value)
        return [self.inner.read(f"{name}[{i}]", entry) for i, entry in enumerate(value)]


@dataclass(frozen=True)
class Pair(Kind):
    """A list of exactly two entries of the inner kind: a point, a band, a segment.

    With ``ordered`` the first may not be greater than the second.
    """

    inner: Kind
    what: str = "[x, y]"
    ordered: bool = False

    def describe(self) -> str:
        order = ", first ≤ second" if self.ordered else ""
        return f"{self.what}: two entries{order}, each {self.inner.describe()}"

    def read(self, name: str, value: Any) -> tuple[Any, Any]:
        if not isinstance(value, list | tuple) or len(value) != 2:
            raise self.refuse(name, value)
        first, second = (self.inner.read(f"{name}[{i}]", part) for i, part in enumerate(value))
        if self.ordered and first > second:
            raise self.refuse(name, value)
        return first, second


def _place(path: str) -> list[int]:
    """The list positions of a path such as "[2][0].at", which sort in reading order."""
    return [int(position) for position in re.findall(r"\[(\d+)\]", path)]


@dataclass(frozen=True)
class Either(Kind):
    """The first of the kinds that takes the value.

    When none does, the place is named where the kind that got furthest into the value gave up.
    """

    kinds: tuple[Kind, ...]

    def describe(self) -> str:
        return " or ".join(kind.describe() for kind in self.kinds)

    def read(self, name: str, value: Any) -> Any:
        refusals = []
        for kind in self.kinds:
            try:
                return kind.read(name, value)
            except InputError as error:
                refusals.append(error)
        furthest = max(refusals, key=lambda error: _place(error.field.removeprefix(name)))
        raise self.refuse(name, value) if furthest.field == name else furthest
