"""What can be wrong with one expression or text of a family, before anything is drawn."""

from __future__ import annotations

import difflib
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from trainer.engine.expression import Expression, ExpressionError
from trainer.engine.functions import CALLABLE
from trainer.engine.syntax import Call, Reading
from trainer.engine.template import Passage, Template
from trainer.errors import InputError
from trainer.roofing.calculators import calculator

Path = tuple[str | int, ...]
OWN_NAMES = frozenset({"mode", "margin"})
RULE_ENTRIES = ("id", "value", "low", "high", "unit", "direction", "says", "source")
_WORD_FUNCTIONS = ("word", "join")


@dataclass(frozen=True)
class Flaw:
    """What is wrong, and where: a path into the family's file."""

    path: Path
    message: str


@dataclass(frozen=True)
class Known:
    """What an expression may use at one place of a family.

    ``names`` maps each name to the entries it is known to have, None where they are not known.
    ``later`` are names that exist, but only further on. In a text the shared words may be used too;
    ``terms`` are these by sort and key, None where they are not known.
    """

    names: Mapping[str, tuple[str, ...] | None]
    later: frozenset[str] = frozenset()
    in_text: bool = False
    terms: Mapping[str, Mapping[str, str]] | None = None

    def also(self, names: Iterable[str]) -> Known:
        """With more names, whose entries are not known and hide those of an earlier name."""
        return replace(self, names={**self.names, **dict.fromkeys(names)})

    def in_texts(self, terms: Mapping[str, Mapping[str, str]] | None) -> Known:
        names = {
            name: (*RULE_ENTRIES, "own") if entries == RULE_ENTRIES else entries
            for name, entries in self.names.items()
        }
        return replace(self, names=names, in_text=True, terms=terms)


def taken(name: str, known: Collection[str]) -> str:
    """Why a family may not give that name to something of its own; empty where it may."""
    if name in CALLABLE:
        return f"{name} is a function; choose another name"
    if name in OWN_NAMES or name in known:
        return f"the name {name} is taken; choose another"
    return ""


def expression_flaws(path: Path, expression: Expression | None, known: Known) -> Iterator[Flaw]:
    """Everything that can be told to be wrong with an expression without its values."""
    if expression is None:
        return
    try:
        reading = expression.reading
    except ExpressionError as error:
        yield Flaw(path, error.message)
        return
    said = f'"{expression.source}"'
    yield from (Flaw(path, f"{said} {reason}") for reason in _name_faults(reading, known))
    for call in reading.calls:
        yield from (Flaw(path, f"{said} {reason}") for reason in _call_faults(call, known))


def template_flaws(path: Path, text: Template, known: Known) -> Iterator[Flaw]:
    try:
        expressions = text.expressions
    except ExpressionError as error:
        yield Flaw(path, error.message)
        return
    for expression in expressions:
        yield from expression_flaws(path, expression, known)


def passage_flaws(path: Path, passage: Passage, known: Known) -> Iterator[Flaw]:
    for place, (condition, text) in enumerate(passage.parts):
        yield from expression_flaws((*path, place, "if"), condition, known)
        yield from template_flaws((*path, place), text, known)


def _name_faults(reading: Reading, known: Known) -> Iterator[str]:
    for name in sorted(reading.names - known.names.keys()):
        if name in known.later:
            yield f"uses {name}, which comes only later"
        else:
            yield f"uses the unknown name {name}{_perhaps(name, known.names)}"
    for name, entry in sorted(reading.entries):
        entries = known.names.get(name)
        if entries is not None and entry not in entries:
            yield f"asks {name} for {entry}{_perhaps(entry, entries)}; it has {_listed(entries)}"


def _call_faults(call: Call, known: Known) -> Iterator[str]:
    if call.function == "calc":
        yield from _calculator_faults(call)
    elif call.function in _WORD_FUNCTIONS and not known.in_text:
        yield f"uses {call.function}(…), which is there for texts only"
    elif call.function in _WORD_FUNCTIONS and known.terms is not None:
        yield from _word_faults(call, known.terms)


def _calculator_faults(call: Call) -> Iterator[str]:
    if not call.constants or not isinstance(call.constants[0], str):
        yield 'does not name the calculator it calls: calc("lap", …)'
        return
    yield from input_faults(call.constants[0], call.keywords)


def input_faults(name: str, given: Collection[str]) -> Iterator[str]:
    """What is wrong with asking the calculator ``name`` with the fields ``given``."""
    try:
        fields = {f.name: f for f in calculator(name).fields}
    except InputError as error:
        yield f'names no calculator with "{name}"; {error.allowed}'
        return
    for unknown in sorted(set(given) - fields.keys()):
        yield f"gives {name} the unknown field {unknown}; it takes {_listed(fields)}"
    for missing in (f.name for f in fields.values() if f.required and f.name not in given):
        yield f"does not give {name} the field {missing}"


def _word_faults(call: Call, terms: Mapping[str, Mapping[str, str]]) -> Iterator[str]:
    sort, *keys = call.constants or (None,)
    if isinstance(sort, str) and sort not in terms:
        yield f'looks for words of the unknown sort "{sort}"{_perhaps(sort, terms)}'
    elif isinstance(sort, str) and call.function == "word":
        for key in keys:
            if key not in terms[sort]:
                yield f'looks for the unknown word "{key}" of the sort "{sort}"'


def _perhaps(name: str, known: Iterable[str]) -> str:
    near = difflib.get_close_matches(name, list(known), n=1)
    return f" (did you mean {near[0]}?)" if near else ""


def _listed(names: Iterable[str]) -> str:
    return ", ".join(names)
