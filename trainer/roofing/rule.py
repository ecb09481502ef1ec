"""One limit of the trade: what it limits, in which words and units, from where, how well known.

Values come out in the base unit of their dimension (mm, min, °C, K, L/m² and so on). A limit that
is stated in two systems keeps both statements, so that 3 in stays 76.2 mm and never becomes 75.
"""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Literal

from trainer.roofing.units import System, base_unit, converted, unit_named

COMMON_PRACTICE = "common practice, no source"

Direction = Literal["at least", "at most"]
Severity = Literal["critical", "quality"]
Status = Literal["read", "secondary", "from memory"]


@dataclass(frozen=True)
class Statement:
    """A limit in one unit, as its source states it. Raises InputError for an unknown unit."""

    value: float
    unit: str

    def __post_init__(self) -> None:
        unit_named(self.unit)

    @property
    def exact(self) -> Fraction:
        """The value in the base unit of its dimension."""
        return unit_named(self.unit).to_base(self.value)

    def __str__(self) -> str:
        return unit_named(self.unit).say(self.value)


@dataclass(frozen=True)
class Source:
    """Where a limit was found: document, edition, section."""

    document: str
    edition: str = ""
    section: str = ""

    def __str__(self) -> str:
        return ", ".join(part for part in (self.document, self.edition, self.section) if part)


@dataclass(frozen=True)
class Subject:
    """What is limited: the same direction, dimension, purpose and severity for all its rules."""

    id: str
    name: str
    direction: Direction
    dimension: str
    guards: str
    severity: Severity


@dataclass(frozen=True)
class SiteRule:
    """One person's decision for one site: this value for this subject, because of this reason."""

    subject: str
    value: float
    unit: str
    reason: str
    person: str
    date: datetime.date

    def __str__(self) -> str:
        return f"site rule of {self.person}, {self.date.isoformat()}, because {self.reason}"


@dataclass(frozen=True)
class Rule:
    """One limit. ``statements`` is empty where the source gives no number, only ``in_words``.

    ``follows`` names the rule whose time runs first (monitoring after a fire watch).
    ``jurisdiction`` is where it is law. ``site`` and ``replaces`` are set on a site rule in force.
    """

    id: str
    about: Subject
    statements: tuple[Statement, ...]
    source: Source
    status: Status
    in_words: str = ""
    jurisdiction: str | None = None
    note: str = ""
    follows: str | None = None
    confirmed_by: str | None = None
    confirmed_on: datetime.date | None = None
    site: SiteRule | None = None
    replaces: tuple[Rule, ...] = ()

    @property
    def subject(self) -> str:
        return self.about.id

    @property
    def name(self) -> str:
        return self.about.name

    @property
    def direction(self) -> Direction:
        return self.about.direction

    @property
    def guards(self) -> str:
        return self.about.guards

    @property
    def severity(self) -> Severity:
        return self.about.severity

    @property
    def unit(self) -> str:
        """The base unit in which ``value``, ``low`` and ``high`` are given."""
        return base_unit(self.about.dimension)

    @cached_property
    def low(self) -> float | None:
        """The lowest of the statements in the base unit; None where there is no number."""
        return min((float(s.exact) for s in self.statements), default=None)

    @cached_property
    def high(self) -> float | None:
        """The highest of the statements in the base unit; None where there is no number."""
        return max((float(s.exact) for s in self.statements), default=None)

    @cached_property
    def value(self) -> float | None:
        """The strictest statement in the base unit: meeting it meets all of them."""
        return self.high if self.direction == "at least" else self.low

    @property
    def may_grade(self) -> bool:
        """Whether anybody may be marked by it: read, read second-hand, or confirmed by a person."""
        return self.status != "from memory" or bool(self.confirmed_by and self.confirmed_on)

    @cached_property
    def source_text(self) -> str:
        return str(self.site or self.source)

    def say(self, system: System = "metric", *, easily: bool = False) -> str:
        """The limit in a worker's units: "100 mm", "4 in". A conversion errs to the strict side.

        ``easily`` says long lengths and durations as people do: "9.144 m" and "2 h", not "9144 mm"
        and "120 min". What the source states is in ``statements``.
        """
        if not self.statements:
            return self.in_words
        for statement in self.statements:
            unit = unit_named(statement.unit)
            if unit.system in (system, ""):
                return unit.say_easily(statement.value) if easily else str(statement)
        up = self.direction == "at least"
        stated = max(self.statements, key=lambda s: s.exact if up else -s.exact)
        return converted(stated.exact, self.about.dimension, system, up=up, easily=easily)

    def sentence(self, system: System = "metric") -> str:
        """Which value, and from where, for a person: one sentence."""
        limit = (
            f"{self.direction} {self.say(system, easily=True)}"
            if self.statements
            else self.in_words
        )
        name = self.name[:1].upper() + self.name[1:]
        return f"{name}: {limit}; {self.source_text}{self._standing(system)}."

    def _standing(self, system: System) -> str:
        if self.site:
            replaced = ((r.say(system, easily=True), r.source) for r in self.replaces)
            return "".join(f"; in place of {limit} ({source})" for limit, source in replaced)
        law = f"; law in {self.jurisdiction}" if self.jurisdiction else ""
        if self.status != "from memory":
            return law
        if self.may_grade:
            return f"{law}; confirmed by {self.confirmed_by}, {self.confirmed_on}"
        return f"{law}; from memory, marks nobody until a person confirms it"
