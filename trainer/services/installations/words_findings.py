"""Findings in words: what is wrong, with its sum, and the rule behind it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from trainer.installation.job import Job
from trainer.installation.state import Decision, Finding, State
from trainer.roofing.rulebook import InForce
from trainer.roofing.units import unit_named
from trainer.services.installations import words, words_findings_flame, words_findings_work
from trainer.services.installations.words import Voice, capital
from trainer.services.installations.words_decisions import decided


@dataclass(frozen=True)
class FindingLine:
    """A finding, worded. ``text`` holds the sum; ``rule`` the limit and where it is from."""

    text: str
    rule: str
    since: str
    cause: str
    """The decision that caused it, in words; empty before the first."""
    critical: bool
    over: bool
    """Whether it has been put right since."""


@dataclass(frozen=True)
class Found:
    """What one rule found: its sentence once, every finding under it."""

    rule: str
    critical: bool
    lines: tuple[FindingLine, ...]


def by_rule(lines: Sequence[FindingLine]) -> tuple[Found, ...]:
    """Findings under their rules: those that can hurt somebody first, then in order of time."""
    rules = dict.fromkeys(line.rule for line in lines)
    groups = [tuple(line for line in lines if line.rule == rule) for rule in rules]
    found = [Found(group[0].rule, group[0].critical, group) for group in groups]
    return tuple(sorted(found, key=lambda group: not group.critical))


@dataclass(frozen=True)
class Telling:
    """What a finding is worded from."""

    voice: Voice
    job: Job
    state: State
    rules: InForce

    @property
    def say(self) -> Callable[[str], str]:
        return self.voice.say

    def limit(
        self, subject: str, required: float, say: Callable[[float], str]
    ) -> tuple[str, float]:
        """A limit as the worker's source states it, and its value in the base unit.

        ``required`` is what was held against the state; where that is not the rule's own value
        (the data sheet asks for more), it is said as ``say`` says it.
        """
        rule = self.rules.rule(subject) if subject in self.rules.by_subject else None
        if rule is None or rule.value is None or abs(rule.value - required) > 1e-6:
            return say(required), required
        own = [s for s in rule.statements if unit_named(s.unit).system in (self.voice.system, "")]
        value = float(own[0].exact) if own else required
        return words.unbroken(rule.say(self.voice.system, easily=True)), value

    def short(
        self, subject: str, actual: float, required: float, say: Callable[[float], str]
    ) -> dict[str, str]:
        """The three numbers of a sum: what is, what is asked, what is missing between them."""
        text, value = self.limit(subject, required, say)
        if abs(value - actual) < 1e-6 or (value - actual) * (required - actual) < 0:
            text, value = say(required), required  # between the two statements of one limit
        return {"actual": say(actual), "limit": text, "gap": say(abs(value - actual))}

    def length(self, subject: str, actual: float, required: float) -> dict[str, str]:
        return self.short(subject, actual, required, self.voice.reach)

    def place(self, place: str) -> str:
        """Where a finding is, in words: "sheet 3 of wall A", "the lap of sheets 1 and 2"."""
        voice, job = self.voice, self.job
        kind, _, rest = place.partition(" ")
        if kind == "lap":
            return words.lap_name(voice, self.state, rest)
        if kind == "wall":
            return words.wall_name(voice, rest)
        if kind == "primer":
            return words.coat_stretch(voice, self.state, int(rest)) or voice.say("the primer")
        if place.startswith("corner-") and ":" not in place:
            return words.corner_name(voice, job, int(place.removeprefix("corner-")))
        return words.sheet_name(voice, job, place) if ":" in place else place


Worder = Callable[[Telling, str, dict[str, Any]], str]


def sentence(telling: Telling, finding: Finding) -> str:
    """What is wrong, with its sum: "Lap of …: 60 mm; the rule asks 75 mm: 15 mm short."."""
    worder = _worder(finding.subject)
    if worder is None:
        name = telling.rules.rule(finding.subject).name
        return telling.say("Not as the rule asks: %(rule)s.") % {"rule": name}
    return capital(worder(telling, finding.place, finding.facts))


def _worder(subject: str) -> Worder | None:
    found: Worder | None = words_findings_flame.WORDERS.get(subject)
    return found or words_findings_work.WORDERS.get(subject)


def line(telling: Telling, finding: Finding, decisions: Sequence[Decision]) -> FindingLine:
    """A finding with its rule, its time and the decision that caused it."""
    cause = ""
    if 0 < finding.cause <= len(decisions):
        told = decided(telling.voice, telling.job, telling.state, decisions[finding.cause - 1])
        cause = telling.say("Decision %(n)d: %(told)s") % {"n": finding.cause, "told": told}
    return FindingLine(
        text=sentence(telling, finding),
        rule=telling.rules.sentence(finding.subject, telling.voice.system),
        since=_since(telling.voice, finding),
        cause=cause,
        critical=finding.severity == "critical",
        over=finding.until is not None,
    )


def _since(voice: Voice, finding: Finding) -> str:
    if finding.until is None:
        return voice.say("Since %(time)s") % {"time": voice.clock(finding.at)}
    times = {"from": voice.clock(finding.at), "to": voice.clock(finding.until)}
    return voice.say("%(from)s to %(to)s") % times
