"""Scenarios of this site: families of the pack, drawn under the rules in force here.

A scenario is worked out from its family, version, seed and mode whenever it is needed; the last few
hundred are kept, since a page, its answer and the page after it ask for the same one.
"""

from __future__ import annotations

import time
from collections import OrderedDict
from collections.abc import Collection, Hashable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Protocol
from weakref import WeakKeyDictionary

from trainer.drawing import draw
from trainer.engine import solve
from trainer.engine.explain import Telling
from trainer.engine.measures import Units
from trainer.engine.solve import ENGINE_VERSION, Scenario
from trainer.engine.spec import Family
from trainer.pack.pack import Pack, load_pack
from trainer.records.database import Database, Session
from trainer.records.queries import people
from trainer.roofing.rulebook import InForce, SiteRule
from trainer.roofing.units import System
from trainer.services.person import SignedIn
from trainer.services.speech import speaker

_KEPT = 512
_LOOK_AGAIN_S = 2.0
_made: OrderedDict[tuple[object, ...], Scenario] = OrderedDict()
_in_force: dict[tuple[object, ...], InForce] = {}


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
        """The families that can be drawn here, of one unit or of all.

        A family is left out where the profile in force has no rule for it that may mark anybody.
        """
        every = self.pack.families.values() if unit is None else self.pack.families_of(unit)
        return [family for family in every if not solve.lacking(family, self.rules)]

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


def library(session: Session | None = None) -> Library:
    """The pack under the site's rules; without a database, under the rule book's own default."""
    pack = load_pack()
    profile, site_rules = _site(session)
    key = (pack.digest, profile, site_rules)
    if key not in _in_force:
        if len(_in_force) > 16:
            _in_force.clear()
        _in_force[key] = pack.book.in_force(profile, site_rules)
    return Library(pack, _in_force[key], key)


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


@dataclass(frozen=True)
class Put:
    """Where a worker put something: millimetres along the decision's axes."""

    at: tuple[float, ...]
    right: bool
    text: str

    def overlay(self, figure: Mapping[str, Any]) -> dict[str, Any]:
        """A note on the drawing, at that place in the figure's own coordinates."""
        x = self.at[0]
        places = {
            "parapet-section": [-x, 0],
            "wall-elevation": [x, figure.get("height_mm", 0)],
            "timeline": [x, 0],
        }
        at = places.get(figure["kind"], list(self.at))
        return {"type": "note", "at": at, "text": self.text, "ok": self.right}


def figure_of(
    telling: Telling,
    *,
    answered: Collection[str] = (),
    waiting: str = "",
    live: bool = False,
    states: dict[str, str] | None = None,
    yours: Put | None = None,
    name: str = "figure",
) -> str:
    """The scenario's drawing as SVG; ``live`` parts can be tapped."""
    data = without_nothing(telling.figure(answered, waiting))
    data["id"] = name
    data["parts_live"] = live
    same_drawing = data["kind"] == telling.scenario.figure["kind"]
    data["states"] = states if states and same_drawing else {}
    if yours:
        data.setdefault("after", []).append(yours.overlay(data))
    return draw(data, say=speaker(telling.language), length=telling.units.say_length)


def without_nothing(data: Any) -> Any:
    """Figure data without what holds nothing: a family says None for what is not there."""
    if isinstance(data, dict):
        return {key: without_nothing(part) for key, part in data.items() if part is not None}
    if isinstance(data, list):
        return [without_nothing(part) for part in data]
    return data
