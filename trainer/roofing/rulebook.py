"""The rule book: which limits there are, which of them are in force on a site, what was used.

A *subject* is what is limited ("side-lap"); a *rule* is one published or practised limit on it.
Rules that contradict each other stand side by side, a *profile* says which are in force, a *site
rule* overrides them with reason, person and date.
"""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import TypeVar

from trainer.errors import InputError, MissingField
from trainer.roofing.rule import (
    COMMON_PRACTICE,
    Direction,
    Rule,
    Severity,
    SiteRule,
    Source,
    Statement,
    Status,
    Subject,
)
from trainer.roofing.units import System, unit_named

__all__ = [
    "COMMON_PRACTICE",
    "Direction",
    "InForce",
    "Profile",
    "Rule",
    "RuleBook",
    "Severity",
    "SiteRule",
    "Source",
    "Statement",
    "Status",
    "Subject",
    "Used",
]

_T = TypeVar("_T")


@dataclass(frozen=True)
class Profile:
    """Which rules are in force, by subject. A subject that is not named has no rule in force."""

    id: str
    name: str
    note: str
    rules: Mapping[str, tuple[str, ...]]


@dataclass(frozen=True)
class RuleBook:
    """All rules, in one version; ``default`` is the profile of a site that chose none."""

    version: str
    subjects: Mapping[str, Subject]
    rules: Mapping[str, Rule]
    profiles: Mapping[str, Profile]
    default: str

    def subject(self, subject: str) -> Subject:
        return _found("subject", subject, self.subjects)

    def rule(self, rule_id: str) -> Rule:
        return _found("rule", rule_id, self.rules)

    def profile(self, profile: str | None = None) -> Profile:
        return _found("profile", self.default if profile is None else profile, self.profiles)

    def competing(self, subject: str) -> tuple[Rule, ...]:
        """Every rule on one subject, whether in force or not."""
        known = self.subject(subject).id
        return tuple(rule for rule in self.rules.values() if rule.subject == known)

    def in_force(self, profile: str | None = None, site_rules: Iterable[SiteRule] = ()) -> InForce:
        """The rules of a profile, with the site's own put over them.

        Raises InputError for an unknown profile or subject, and for a site rule that is incomplete,
        of a wrong unit, given twice, or looser than a law in force.
        """
        chosen = self.profile(profile)
        rules = {s: tuple(self.rule(r) for r in ids) for s, ids in chosen.rules.items()}
        seen: set[str] = set()
        for site in site_rules:
            if site.subject in seen:
                raise InputError("site_rules", site.subject, "one site rule for a subject")
            seen.add(site.subject)
            subject = self.subject(site.subject)
            rules[subject.id] = _overridden(subject, site, rules.get(subject.id, ()))
        return InForce(self.version, chosen.id, rules)


@dataclass(frozen=True)
class InForce:
    """The rules that hold on one site: what every calculation takes its limits from."""

    book_version: str
    profile: str
    by_subject: Mapping[str, tuple[Rule, ...]]

    def rules(self, subject: str) -> tuple[Rule, ...]:
        """All rules in force on a subject. Raises InputError, listing subjects that have one."""
        return _found(f"subject in profile {self.profile}", subject, self.by_subject)

    def rule(self, subject: str) -> Rule:
        """The governing rule: the strictest; one without a number only when none has any."""
        rules = self.rules(subject)
        numbered = [rule for rule in rules if rule.value is not None] or list(rules[:1])
        sign = 1 if rules[0].direction == "at least" else -1
        return max(numbered, key=lambda rule: sign * (rule.value or 0))

    def value(self, subject: str) -> float:
        """The strictest value in force, in the base unit. InputError where no rule has a number."""
        rule = self.rule(subject)
        if rule.value is None:
            raise InputError(
                subject, None, f'a rule with a number; {rule.id} says "{rule.in_words}"'
            )
        return rule.value

    def following(self, rule: Rule) -> tuple[Rule, ...]:
        """The rules in force whose time runs after ``rule``, or after one that it replaces."""
        first = {rule.id, *(r.id for r in rule.replaces)}
        return tuple(r for rules in self.by_subject.values() for r in rules if r.follows in first)

    def may_grade(self, subject: str) -> bool:
        """Whether a mark may rest on this subject: every rule in force on it may grade."""
        return all(rule.may_grade for rule in self.rules(subject))

    def sentence(self, subject: str, system: System = "metric") -> str:
        """Which value governs a subject, and from where."""
        return self.rule(subject).sentence(system)

    def used(self) -> Used:
        """A reader of values that remembers what it was asked for."""
        return Used(self)


class Used:
    """Gives values like :meth:`InForce.value` and keeps the rules it gave, in order, each once."""

    def __init__(self, in_force: InForce) -> None:
        self._in_force = in_force
        self._rules: dict[str, Rule] = {}

    def __call__(self, subject: str) -> float:
        value = self._in_force.value(subject)
        self._rules[subject] = self._in_force.rule(subject)
        return value

    @property
    def rules(self) -> tuple[Rule, ...]:
        return tuple(self._rules.values())

    def sentences(self, system: System = "metric") -> tuple[str, ...]:
        """What a computation used and from where, a sentence a rule."""
        return tuple(rule.sentence(system) for rule in self.rules)


def _found(field: str, key: str, known: Mapping[str, _T]) -> _T:
    if not isinstance(key, str) or key not in known:
        raise InputError(field, key, "one of " + ", ".join(known))
    return known[key]


def _overridden(subject: Subject, site: SiteRule, rules: tuple[Rule, ...]) -> tuple[Rule, ...]:
    """A site rule in place of every rule with a number; words such as "until fire is no longer
    possible" stay, since no number can stand for them."""
    made = _site_rule(subject, site)
    replaced = [rule for rule in rules if rule.statements]
    for law in replaced:
        _refuse_looser(made, law)
    follows = next((rule.follows for rule in replaced if rule.follows), None)
    made = replace(made, replaces=tuple(replaced), follows=follows)
    return (made, *(rule for rule in rules if not rule.statements))


def _site_rule(subject: Subject, site: SiteRule) -> Rule:
    unit_named(site.unit, "unit", subject.dimension)
    _check_number(site.value, signed=subject.dimension == "temperature")
    for field, text in (("reason", site.reason), ("person", site.person)):
        if not isinstance(text, str) or not text.strip():
            raise MissingField(field, "text, not empty: a site rule says who decided it and why")
    if not isinstance(site.date, datetime.date) or isinstance(site.date, datetime.datetime):
        raise InputError("date", site.date, "the day it was decided")
    statement = Statement(site.value, site.unit)
    return Rule(
        f"site-rule-{subject.id}", subject, (statement,), Source(str(site)), "read", site=site
    )


def _check_number(value: object, *, signed: bool) -> None:
    good = isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)
    if not good or (not signed and value <= 0):  # type: ignore[operator]
        raise InputError("value", value, "a number" if signed else "a number above 0")


def _refuse_looser(site: Rule, law: Rule) -> None:
    if law.jurisdiction is None or site.value is None or law.low is None or law.high is None:
        return
    loose = site.value < law.low if law.direction == "at least" else site.value > law.high
    if loose:
        limit = " or ".join(str(s) for s in law.statements)
        where = f"{law.source}, law in {law.jurisdiction}"
        raise InputError("value", site.say(), f"{law.direction} {limit} ({where}), or stricter")
