"""Scenarios of this site: families of the pack, drawn under the rules in force here.

A scenario is worked out from its family, version, seed and mode whenever it is needed; the last few
hundred are kept, since a page, its answer and the page after it ask for the same one.
"""

from __future__ import annotations

import time
from collections import OrderedDict
from collections.abc import Hashable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Protocol
from weakref import WeakKeyDictionary

from trainer.engine import solve
from trainer.engine.explain import Telling
from trainer.engine.measures import Units
from trainer.engine.solve import ENGINE_VERSION, Scenario
from trainer.engine.spec import Family
from trainer.engine.unsound import UnsoundScenario
from trainer.engine.worked import compared, worked
from trainer.pack.pack import Pack, load_pack
from trainer.records.database import Database, Session
from trainer.records.queries import people
from trainer.roofing.rulebook import InForce, SiteRule
from trainer.roofing.units import System
from trainer.services.figures import Put, figure_flaws, figure_of, without_nothing
from trainer.services.person import SignedIn
from trainer.services.unfit import unfit

__all__ = [
    "Library",
    "Put",
    "checked_pack",
    "figure_of",
    "language_of",
    "library",
    "library_of",
    "units_of",
    "without_nothing",
]

_KEPT = 512
_LOOK_AGAIN_S = 2.0
_made: OrderedDict[tuple[object, ...], Scenario] = OrderedDict()
_in_force: dict[tuple[object, ...], tuple[InForce, Mapping[str, str]]] = {}
_examples: dict[tuple[object, ...], Scenario | None] = {}


class Drawn(Protocol):
    """What names a scenario: a stored attempt, or as much of its row."""

    @property
    def family(self) -> str: ...
    @property
    def family_version(self) -> int: ...
    @property
    def seed(self) -> int: ...
    @property
    def mode(self) -> str: ...


@dataclass(frozen=True)
class Library:
    """The pack and the rules in force on this site."""

    pack: Pack
    rules: InForce
    key: tuple[object, ...]
    """Names these rules, for what is kept."""
    left_out: Mapping[str, str] = field(default_factory=dict)
    """Families that these rules spoil, with a sentence that says why."""

    def make(self, family: str, seed: int, mode: str = "", version: int | None = None) -> Scenario:
        """The scenario, drawn anew or as kept. Raises InputError, UnsoundScenario."""
        spec = self.pack.family(family, version)
        key = (self.key, spec.id, spec.version, seed, mode, ENGINE_VERSION)
        made = _made.get(key)
        if made is None:
            made = _made[key] = solve.make(spec, seed, self.rules, mode)
            if len(_made) > _KEPT:
                _made.popitem(last=False)
        return made

    def families(self, unit: str | None = None) -> list[Family]:
        """The families that can be drawn here, of one unit or of all."""
        every = self.pack.families.values() if unit is None else self.pack.families_of(unit)
        return [family for family in every if self.draws(family)]

    def draws(self, family: Family) -> bool:
        """Whether the family is drawn here.

        It is not where the profile in force has no rule for it that may mark anybody, nor where the
        rules of the site spoil it.
        """
        return family.id not in self.left_out and not solve.lacking(family, self.rules)

    def families_to_prove(self, unit: str) -> list[Family]:
        """Those of a unit whose truth rests on more than the practice of the trade."""
        return [family for family in self.families(unit) if not family.practice_only]

    def example(self, family: Family) -> Scenario | None:
        """The family's example worked by hand, kept; None where it does not hold by these rules."""
        key = (self.key, family.id, family.version, ENGINE_VERSION)
        if key not in _examples:
            if len(_examples) > _KEPT:
                _examples.clear()
            _examples[key] = _agreeing(family, self.rules) if family.worked else None
        return _examples[key]

    def sentences(self, subjects: Iterable[str], units: Units) -> tuple[str, ...]:
        """A sentence for each rule in force on the subjects: value and where it is from."""
        system: System = "us" if units.length == "in" else "metric"
        known = [subject for subject in subjects if subject in self.rules.by_subject]
        return tuple(self.rules.sentence(subject, system) for subject in known)

    def of(self, attempt: Drawn) -> Scenario:
        """The scenario of a stored attempt, worked out again."""
        return self.make(attempt.family, attempt.seed, attempt.mode, attempt.family_version)

    def telling(self, scenario: Scenario, person: SignedIn | None = None) -> Telling:
        """The scenario in the person's language and units."""
        family = self.pack.family(scenario.family, scenario.version)
        return Telling(family, scenario, language_of(person), units_of(person))


def _agreeing(family: Family, rules: InForce) -> Scenario | None:
    """The example, if what was worked out by hand holds under ``rules`` too."""
    try:
        scenario = worked(family, rules)
    except UnsoundScenario:
        return None
    return None if any(compared(family, scenario)) else scenario


def checked_pack() -> Pack:
    """The pack as a site serves it: scenarios of every family were drawn, and their figures.

    Raises PackError with every problem of every file.
    """
    return load_pack(figure_check=figure_flaws)


def library(session: Session | None = None) -> Library:
    """The pack under the site's rules; without a database, under the rule book's own default.

    For a site its families have been tried; at the terminal they need not be whole to be looked at.
    Raises PackError.
    """
    pack = load_pack() if session is None else checked_pack()
    profile, site_rules = _site(session)
    key = (pack.digest, profile, site_rules)
    if key not in _in_force:
        if len(_in_force) > 16:
            _in_force.clear()
        rules = pack.book.in_force(profile, site_rules)
        _in_force[key] = (rules, unfit(pack, rules) if profile or site_rules else {})
    rules, left_out = _in_force[key]
    return Library(pack, rules, key, left_out)


@dataclass(frozen=True)
class _Kept:
    """A library, under which state of the site's rules, and until when its files are trusted."""

    shelf: Library
    site_rules: Hashable
    until: float


_of_database: WeakKeyDictionary[Database, _Kept] = WeakKeyDictionary()


def library_of(database: Database, site_rules: Hashable) -> Library:
    """The library of this site as ``site_rules`` has it: any value that changes with the rules.

    Kept while the rules stay; the files of the pack are looked at every two seconds at most.
    """
    kept = _of_database.get(database)
    if kept is None or kept.site_rules != site_rules or time.monotonic() > kept.until:
        with database.reading() as session:
            found = library(session)
        kept = _Kept(found, site_rules, time.monotonic() + _LOOK_AGAIN_S)
        _of_database[database] = kept
    return kept.shelf


def _site(session: Session | None) -> tuple[str | None, tuple[SiteRule, ...]]:
    site = people.site(session) if session else None
    if session is None or site is None:
        return None, ()
    rows = [row for row in people.site_rules(session) if row.value is not None]
    return site.profile, tuple(
        SiteRule(
            row.subject, row.value, row.unit, row.reason, str(row.person_id), row.set_at.date()
        )
        for row in rows
    )


def language_of(person: SignedIn | None) -> str:
    return (person.language if person else None) or "en"


def units_of(person: SignedIn | None) -> Units:
    if person is None:
        return Units()
    return Units(person.length_unit, person.temperature_unit.upper())
