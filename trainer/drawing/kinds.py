"""What one field of a figure may hold: lengths, points, words, records made into value types.

Plain values are taken at once; anything odd is read again, slowly, by the kinds of
trainer.roofing.contract, which say what is wrong and what is allowed.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from trainer.errors import InputError
from trainer.roofing.contract import Choice, Each, Field, Kind, Number, Pair, Record, no_rule


@dataclass(frozen=True)
class Bounded(Number):
    """A number between two ends, both given; plain values are taken at once."""

    def read(self, name: str, value: Any) -> float:
        low, high = self.above if self.low is None else self.low, self.high
        if type(value) in _PLAIN and low < value < high and not self.whole:
            plain: float = value
            return plain
        return super().read(name, value)


_PLAIN = (int, float)
_FAR = 1_000_000.0
COORD = Bounded("mm", low=-1_000_000, high=1_000_000)
SIZE = Bounded("mm", above=0, high=1_000_000)
AMOUNT = Bounded("mm", low=0, high=1_000_000)
THICKNESS = Bounded("mm", above=0, high=2000)
REACH = Bounded("mm", low=0, high=5000)


@dataclass(frozen=True)
class Place(Pair):
    """A point [x, y] in millimetres; plain values are taken at once."""

    def read(self, name: str, value: Any) -> tuple[float, float]:
        if type(value) in (list, tuple) and len(value) == 2:
            x, y = value
            if type(x) in _PLAIN and type(y) in _PLAIN and -_FAR < x < _FAR and -_FAR < y < _FAR:
                return (x, y)
        pair: tuple[float, float] = super().read(name, value)
        return pair


@dataclass(frozen=True)
class Many(Each):
    """A list; entries that fit are taken without naming each."""

    def read(self, name: str, value: Any) -> list[Any]:
        if type(value) is list and self.least <= len(value) <= (self.most or _MOST):
            read = self.inner.read
            try:
                return [read(name, entry) for entry in value]
            except InputError:
                pass  # read again, entry by entry, for a message that names it
        return super().read(name, value)


_MOST = 1000
POINT = Place(COORD)
LINE = Many(POINT, least=2, most=60)
SHAPE = Many(POINT, least=3, most=60)
STATE = Choice(("open", "closed", "welded"))
AGE = Choice(("wet", "dry", "dead"))


Reader = Callable[[str, Any], Any]


@dataclass(frozen=True)
class Value(Record):
    """A record made into a value type; ``renamed`` where a field's name is a word of Python."""

    make: Callable[..., Any] = dict
    renamed: Mapping[str, str] = field(default_factory=dict)

    def read(self, name: str, value: Any) -> Any:
        try:
            return self.make(**self._quick(value))
        except (InputError, LookupError, AttributeError):
            checked = super().read(name, value)  # the same again, for a message with the full name
        return self.make(**{self.renamed.get(key, key): part for key, part in checked.items()})

    def _quick(self, value: Any) -> dict[str, Any]:
        """What is given, read, over what stands in for the rest; LookupError if it does not fit."""
        readers, absent, required = self._plan
        made = absent.copy()
        for key, part in value.items():
            attribute, read = readers[key]
            made[attribute] = read(key, part)
        if not required <= made.keys():
            raise LookupError
        return made

    @cached_property
    def _plan(self) -> tuple[dict[str, tuple[str, Reader]], dict[str, Any], frozenset[str]]:
        names = {f.name: self.renamed.get(f.name, f.name) for f in self.fields}
        readers: dict[str, tuple[str, Reader]] = {
            f.name: (names[f.name], f.kind.read) for f in self.fields
        }
        absent = {names[f.name]: f.when_absent(no_rule, {}) for f in self.fields if not f.required}
        return readers, absent, frozenset(names[f.name] for f in self.fields if f.required)


@dataclass(frozen=True)
class Named(Kind):
    """An object of any names, every value of the inner kind."""

    inner: Kind

    def describe(self) -> str:
        return f"an object of part ids, each with {self.inner.describe()}"

    def read(self, name: str, value: Any) -> dict[str, Any]:
        if not isinstance(value, Mapping) or not all(isinstance(key, str) for key in value):
            raise self.refuse(name, value)
        return {key: self.inner.read(f"{name}.{key}", part) for key, part in value.items()}


@dataclass(frozen=True)
class Words(Kind):
    """Text that may be empty: an empty label is no label."""

    def describe(self) -> str:
        return "text, empty for none"

    def read(self, name: str, value: Any) -> str:
        if not isinstance(value, str):
            raise self.refuse(name, value)
        return value


@dataclass(frozen=True)
class Ident(Kind):
    """An id: a letter, then letters, digits, "-" and "_"."""

    def describe(self) -> str:
        return 'a letter, then letters, digits, "-" and "_", at most 64'

    def read(self, name: str, value: Any) -> str:
        if not isinstance(value, str) or not _IDENT.fullmatch(value):
            raise self.refuse(name, value)
        return value


_IDENT = re.compile(r"[A-Za-z][A-Za-z0-9_-]{0,63}")


@dataclass(frozen=True)
class Range:
    """How far a movable thing may be moved along one axis, in the figure's own unit."""

    low: float
    high: float
    step: float


RANGE = Value(
    (
        Field("min", COORD, "least value"),
        Field("max", COORD, "greatest value"),
        Field("step", SIZE, "how far one press of a key moves it", default=10),
    ),
    make=Range,
    renamed={"min": "low", "max": "high"},
)
