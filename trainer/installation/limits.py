"""The rules in force as the simulator asks for them: by subject, value and severity at hand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from trainer.roofing.rulebook import InForce

SUBJECTS = (
    "adhesive-lap-temperature", "cold-storage", "cold-storage-from", "combustibles-distance",
    "cylinder-to-burner", "defects-rejected", "dry-since-rain", "end-of-day-seal",
    "extinguisher-distance", "extinguisher-training", "film-preheat-distance", "fire-watch",
    "flame-free-band", "flame-to-unclosed", "guardrail-height", "gusset-cover", "lap-clearance",
    "lap-onto-field", "last-inspection", "lit-torch-left", "openings-covered", "permit-content",
    "primed-surfaces", "primer-ahead", "primer-never-after", "primer-touch-dry",
    "relative-humidity", "relaxing-time", "side-lap", "surface-above-dew-point", "t-joint-cut",
    "torch-to-combustible", "unprotected-edge-height", "watch-duties", "watchers-per-torch",
    "wet-primer-to-flame", "wet-surface", "wet-weather",
)  # fmt: skip
"""Every subject that the simulator can find something wrong about, or judge something by."""


@dataclass(frozen=True)
class Limit:
    """One rule in force: its value in the base unit (0 where it is in words) and its severity."""

    subject: str
    value: float
    severity: str


Limits = Mapping[str, Limit]


def limits_of(rules: InForce) -> dict[str, Limit]:
    """The limits in force that may grade; a subject without one finds nothing wrong."""
    found = {}
    for subject in SUBJECTS:
        if subject in rules.by_subject and rules.may_grade(subject):
            rule = rules.rule(subject)
            found[subject] = Limit(subject, rule.value or 0, rule.severity)
    return found


def value(limits: Limits, subject: str, otherwise: float = 0) -> float:
    """The value in force, or ``otherwise`` where no rule on the subject is."""
    limit = limits.get(subject)
    return otherwise if limit is None else limit.value
