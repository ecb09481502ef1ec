"""What an installation showed of each unit of competency, and what contradicted it.

Worked out on demand from the job, its last state and the decisions: nothing of it is stored.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from trainer.engine.spec import Family
from trainer.installation.limits import SUBJECTS
from trainer.installation.state import Decision, Finding, State

UNIT_OF_ACTION: Mapping[str, str] = {
    "look": "hazards", "ask": "hazards", "cover": "hazards", "clear": "hazards",
    "rail": "hazards", "open permit": "hazards", "move extinguisher": "hazards",
    "measure": "primer", "probe": "primer", "touch": "primer", "dry": "primer",
    "prime": "primer", "close cans": "primer",
    "snap": "set-out", "set out": "set-out", "cut": "set-out",
    "check rolls": "placing", "fetch warm rolls": "placing", "lay": "placing",
    "roll": "placing", "strip": "placing", "seal": "placing",
    "preheat": "laps", "weld": "laps", "bag film": "laps",
    "lay corner": "corners", "roll corner": "corners", "trim": "corners", "fill": "corners",
    "gusset": "corners", "strip corner": "corners",
    "light": "flame", "put out": "flame", "move gas": "flame", "change gas": "flame",
    "watch": "fire-watch", "end watch": "fire-watch", "last look": "fire-watch",
    "close permit": "fire-watch",
}  # fmt: skip
"""The unit that a decision of each kind belongs to; lunch, waiting and the like belong to none."""

UNIT_OF_SUBJECT: Mapping[str, str] = {
    "dry-since-rain": "primer", "primer-touch-dry": "primer", "relative-humidity": "primer",
    "wet-weather": "primer",
    "relaxing-time": "placing", "end-of-day-seal": "placing", "t-joint-cut": "corners",
    "film-preheat-distance": "flame", "lit-torch-left": "flame", "flame-free-band": "hazards",
    "torch-to-combustible": "hazards", "extinguisher-training": "hazards",
    "watch-duties": "fire-watch", "watchers-per-torch": "fire-watch",
}  # fmt: skip
"""Units of subjects that no family's rules name, name in passing, or name for other work."""


@dataclass(frozen=True)
class Contradiction:
    """A decision that went against a unit, and the finding it caused."""

    number: int
    finding: Finding


@dataclass(frozen=True)
class UnitEvidence:
    """What one installation says of one unit. Numbers are those of decisions, from 1.

    ``showed``: decisions of the unit's kinds that were carried out and caused no finding at all;
    the same thing done at the same place again shows nothing new.
    """

    unit: str
    showed: tuple[int, ...]
    contradicted: tuple[Contradiction, ...]

    @property
    def critical(self) -> bool:
        """Whether any of it could have hurt somebody."""
        return any(part.finding.severity == "critical" for part in self.contradicted)


def units_of_subjects(families: Iterable[Family]) -> dict[str, str]:
    """The unit of every subject that can be found wrong.

    It is the unit in which most families name the subject in their rules, of equals the first.
    """
    named: dict[str, Counter[str]] = defaultdict(Counter)
    for family in families:
        for subject in dict.fromkeys(family.rules.values()):
            named[subject][family.unit] += 1
    found = {s: named[s].most_common(1)[0][0] for s in SUBJECTS if s in named}
    return {**found, **UNIT_OF_SUBJECT}


def evidence(
    state: State, decisions: Sequence[Decision], unit_of: Mapping[str, str], units: Iterable[str]
) -> tuple[UnitEvidence, ...]:
    """What a finished installation says, a row for each of ``units`` in their order.

    ``decisions`` are those that stand, number 1 first; ``unit_of``: see ``units_of_subjects``. A
    decision whose work was dropped or broken off before anything was done shows nothing.
    """
    against: dict[str, list[Contradiction]] = defaultdict(list)
    for finding in state.findings:
        unit = unit_of_finding(finding, unit_of)
        against[unit].append(Contradiction(finding.cause, finding))
    showed = _shown(state, decisions)
    return tuple(UnitEvidence(u, tuple(showed[u]), tuple(against[u])) for u in units)


def unit_of_finding(finding: Finding, unit_of: Mapping[str, str]) -> str:
    """The unit a finding goes against; a lap left on its film is no fault of placing."""
    if finding.subject == "defects-rejected" and finding.facts.get("film"):
        return "laps"
    return unit_of.get(finding.subject, "")


def _shown(state: State, decisions: Sequence[Decision]) -> dict[str, list[int]]:
    done = {entry["n"] for entry in state.log if entry["kind"] == "done"}
    wrong = {finding.cause for finding in state.findings}
    showed: dict[str, list[int]] = defaultdict(list)
    known = set()
    for number, decision in enumerate(decisions, start=1):
        what = _what(decision)
        if number in done and number not in wrong and what not in known:
            known.add(what)
            showed[UNIT_OF_ACTION.get(decision["do"], "")].append(number)
    return showed


def _what(decision: Decision) -> str:
    """What is done where, whoever does it."""
    return repr(sorted((k, v) for k, v in decision.items() if k not in ("who", "with")))
