"""Is a family whole? Every name known, every calculator there, every answer worded.

Finds all problems at once; each says where in the family it lies, so that a reader can name the
line.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from trainer.engine.expression import Expression
from trainer.engine.flaws import (
    OWN_NAMES,
    RULE_ENTRIES,
    Flaw,
    Known,
    Path,
    expression_flaws,
    input_faults,
    taken,
)
from trainer.engine.spec import Draw, Family, MarginSpec, Mode
from trainer.engine.validate_decisions import decision_flaws
from trainer.engine.validate_words import words_flaws
from trainer.engine.validate_worked import worked_flaws
from trainer.errors import InputError
from trainer.roofing.calculators import calculator
from trainer.roofing.rule import Subject
from trainer.roofing.units import base_unit

_SUFFIXES = {"mm": "mm", "min": "min", "°C": "c", "K": "k", "%": "pct"}
"""How the name of a value ends that is compared with a rule of that unit."""


def flaws(family: Family, subjects: Mapping[str, Subject] | None) -> tuple[Flaw, ...]:
    """Everything wrong with ``family``.

    ``subjects`` are those the rule book knows, None where it could not be read.
    """
    return tuple(_Inspection(family, subjects).run())


class _Inspection:
    def __init__(self, family: Family, subjects: Mapping[str, Subject] | None) -> None:
        self.family, self.subjects = family, subjects
        self.names: dict[str, tuple[str, ...] | None] = dict.fromkeys(OWN_NAMES)
        self.names["margin"] = None
        self.before: dict[str, Known] = {}
        """What is known where each value is drawn."""

    @property
    def known(self) -> Known:
        return Known(dict(self.names))

    def run(self) -> Iterator[Flaw]:
        yield from self._rules()
        yield from self._values()
        for mode in self.family.modes.values():
            yield from self._mode(("modes", mode.id), mode)
        yield from self._judges()
        yield from self._margins()
        yield from self._figure()
        yield from decision_flaws(self.family, self.known)
        yield from words_flaws(self.family, self.known)
        for name, expression in self.family.features.items():
            yield from expression_flaws(("features", name), expression, self.known)
        yield from worked_flaws(self.family)

    def _rules(self) -> Iterator[Flaw]:
        for name, subject in self.family.rules.items():
            yield from self._take(("rules", name), name, RULE_ENTRIES)
            if self.subjects is not None and subject not in self.subjects:
                yield Flaw(("rules", name), f'the rule book has no subject "{subject}"')

    def _take(self, path: Path, name: str, entries: tuple[str, ...] | None) -> Iterator[Flaw]:
        """Gives a name of the family its meaning."""
        if reason := taken(name, self.names):
            yield Flaw(path, reason)
        self.names[name] = entries

    def _values(self) -> Iterator[Flaw]:
        names = tuple(self.family.values)
        for place, (name, draw) in enumerate(self.family.values.items()):
            later = frozenset(names[place:])
            drawn = {key: part for key, part in self.names.items() if key != "margin"}
            self.before[name] = Known(drawn, later | {"margin"})
            yield from _draw_flaws(("values", name), draw, self.before[name])
            yield from self._take(("values", name), name, None)

    def _mode(self, path: Path, mode: Mode) -> Iterator[Flaw]:
        for name, draw in mode.values.items():
            where = (*path, "values", name)
            if name in self.before:
                yield from _draw_flaws(where, draw, self.before[name])
            else:
                yield Flaw(where, f"the family has no value {name}")
        yield from self._margin_range((*path, "margin"), mode)

    def _margin_range(self, path: Path, mode: Mode) -> Iterator[Flaw]:
        draws = {**self.family.values, **mode.values}
        if not all(draw.ways for draw in draws.values()):
            return  # one could not be read, and it may be the very one
        at_margin = [name for name, draw in draws.items() if draw.at_margin]
        spec = self.family.margin
        if mode.margin is None:
            if at_margin and spec is not None:
                yield Flaw(path[:-1], f"it draws no margin, but {at_margin[0]} lies at one")
            return
        if spec is None:
            yield Flaw(path, "it draws a margin, but the family does not say of what")
        elif not at_margin:
            yield Flaw(path, "it draws a margin, but no value lies at it")
        elif not spec.about_uncertainty and mode.margin[0] < 1 and mode.margin[1] > -1:
            yield Flaw(
                path,
                f"{mode.margin[0]:g} to {mode.margin[1]:g} reaches within one tolerance of the"
                " limit, where nobody can tell; allowed: wholly from 1 up, or wholly from -1 down",
            )

    def _judges(self) -> Iterator[Flaw]:
        for judge in self.family.judges:
            path: Path = ("judge", judge.id)
            for name, expression in judge.inputs.items():
                yield from expression_flaws((*path, "inputs", name), expression, self.known)
            for fault in input_faults(judge.calculator, judge.inputs):
                yield Flaw((*path, "calculator"), f"it {fault}")
            yield from self._take(path, judge.id, _results(judge.calculator))

    def _margins(self) -> Iterator[Flaw]:
        at_margin = [name for name, draw in self.family.values.items() if draw.at_margin]
        if self.family.margin is not None:
            known = self.before[at_margin[0]] if at_margin else self.known
            yield from self._margin(("margin",), self.family.margin, known)
        elif at_margin:
            yield Flaw(("values", at_margin[0]), "the family does not say at what margin")
        for place, spec in enumerate(self.family.clear_of):
            yield from self._margin(("clear_of", place), spec, self.known)

    def _margin(self, path: Path, spec: MarginSpec, known: Known) -> Iterator[Flaw]:
        if spec.value not in self.family.values:
            yield Flaw((*path, "of"), f"the family has no value {spec.value}")
        if bool(spec.rule) == bool(spec.limit) or bool(spec.limit) != bool(spec.direction):
            yield Flaw(path, "the limit is either a rule, or a formula with a direction")
        for key in ("tolerance", "limit"):
            yield from expression_flaws((*path, key), getattr(spec, key), known)
        if spec.rule and spec.rule not in self.family.rules:
            yield Flaw((*path, "rule"), f"the family names no rule {spec.rule}")
        elif spec.rule:
            yield from self._unit((*path, "of"), spec)

    def _unit(self, path: Path, spec: MarginSpec) -> Iterator[Flaw]:
        """A value in minutes cannot lie at a margin from a rule in millimetres."""
        subject = (self.subjects or {}).get(self.family.rules[spec.rule])
        unit = base_unit(subject.dimension) if subject else ""
        suffix = _SUFFIXES.get(unit)
        if suffix and not spec.value.endswith(f"_{suffix}"):
            message = f"{spec.value} is measured against a rule in {unit}; allowed: a name that"
            yield Flaw(path, f"{message} ends in _{suffix}")

    def _figure(self) -> Iterator[Flaw]:
        yield from self._data(("figure",), self.family.figure)
        decisions = {spec.id for spec in self.family.decisions}
        for key in ("live", "after"):
            gained: Mapping[str, Any] = getattr(self.family, key)
            yield from self._data((key,), gained)
            for decision_id in sorted(gained.keys() - decisions):
                yield Flaw((key, decision_id), "no decision has this name")

    def _data(self, path: Path, data: Any) -> Iterator[Flaw]:
        """Formulas and labels in the data of a figure."""
        if isinstance(data, Expression):
            yield from expression_flaws(path, data, self.known)
        elif isinstance(data, str) and data.startswith("@"):
            for language, words in self.family.words.items():
                if data[1:] not in words.labels:
                    yield Flaw(path, f'the words in "{language}" have no label {data[1:]}')
        elif isinstance(data, Mapping):
            for key, part in data.items():
                yield from self._data((*path, key), part)
        elif isinstance(data, list | tuple):
            for index, part in enumerate(data):
                yield from self._data((*path, index), part)


def _draw_flaws(path: Path, draw: Draw, known: Known) -> Iterator[Flaw]:
    if draw.ways > 1:
        yield Flaw(path, "it is drawn either from … to …, or as one_of a list")
    if draw.formula is not None:
        yield from expression_flaws(path, draw.formula, known)
    for key, expression in (("from", draw.low), ("to", draw.high), ("one_of", draw.one_of),
                            ("take", draw.take)):  # fmt: skip
        yield from expression_flaws((*path, key), expression, known)


def _results(name: str) -> tuple[str, ...] | None:
    """The results of a calculator; None where there is no such calculator."""
    try:
        return tuple(calculator(name).results)
    except InputError:
        return None
