"""Findings: what the rule book sees wrong, written down once, with its minute and its cause."""

from __future__ import annotations

from collections.abc import Collection

from trainer.installation.checks import Check, Look, checks
from trainer.installation.job import Job
from trainer.installation.limits import Limits
from trainer.installation.state import Finding, State

_checks: tuple[Check, ...] = ()


def every_check() -> tuple[Check, ...]:
    """All checks, gathered once."""
    global _checks
    if not _checks:
        _checks = checks()
    return _checks


def bring_up_to_date(job: Job, limits: Limits, state: State, touched: Collection[str]) -> None:
    """Let every check look whose result can have changed; begin and end findings."""
    look = Look(job, state, limits)
    for check in every_check():
        if not check.on.isdisjoint(touched):
            _note(look, check)


def _note(look: Look, check: Check) -> None:
    state, limits = look.state, look.limits
    prefix = f"{check.name}|"
    seen = set()
    for fact in check.find(look):
        limit = limits.get(fact.subject)
        if limit is None:
            continue
        key = f"{prefix}{fact.subject}|{fact.place}"
        seen.add(key)
        if key not in state.standing:
            state.standing[key] = len(state.findings)
            state.findings.append(
                Finding(fact.subject, fact.place, limit.severity, state.now, fact.cause, fact.facts)
            )
    over = [key for key in state.standing if key.startswith(prefix) and key not in seen]
    for key in over:
        state.findings[state.standing.pop(key)].until = state.now
