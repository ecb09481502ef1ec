"""Misconceptions: a mistake behind every wrong answer, and none that nobody can make."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from trainer.engine.spec import Family
from trainer.services.content.finding import Finding
from trainer.services.content.sample import Sample


def mistakes(sample: Sample) -> Iterator[Finding]:
    """Wrong answers that say nothing about whoever gives them, each once."""
    seen = set()
    for taken, decision, name, marked, _ in sample.answered:
        nameless = not marked.right and not marked.misconception
        if nameless and (decision.id, name) not in seen:
            seen.add((decision.id, name))
            where = decision.id, taken.scenario.mode, taken.scenario.seed
            text = f"the wrong answer {name} has no misconception"
            yield Finding("mistakes", text, sample.family.id, *where)
    yield from _no_temptation(sample.family)


def _no_temptation(family: Family) -> Iterator[Finding]:
    for decision in family.decisions:
        if decision.kind in ("measure", "time", "order", "mark", "find") and not decision.options:
            text = "names no mistake behind any wrong answer (options)"
            yield Finding("mistakes", text, family.id, decision.id)


def never_made(misconceptions: Collection[str], families: Iterable[Family]) -> Iterator[Finding]:
    """Misconceptions that no family uses."""
    used = {o.misconception for f in families for d in f.decisions for o in d.options}
    for name in sorted(set(misconceptions) - used):
        yield Finding("mistakes", f"the misconception {name} is used by no family")
