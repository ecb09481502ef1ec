"""Situations that are told twice, and cells that always draw the same."""

from __future__ import annotations

import difflib
import itertools
from collections.abc import Iterator, Mapping, Sequence

from trainer.services.content.finding import Finding
from trainer.services.content.sample import Sample, masked

LIKE = 0.8
"""Two families tell the same where this share of their words, in order, is the same."""
_WORTH_A_LOOK = 0.4
_DIFFERENT_OF_200 = 20


def same_again(sample: Sample) -> Iterator[Finding]:
    """Cells with fewer than 20 different scenarios among 200, or as great a share of fewer."""
    for mode in sample.family.modes:
        cell = sample.of(mode)
        different = len({str(taken.scenario.facts) for taken in cell})
        wanted = min(_DIFFERENT_OF_200, len(cell) * _DIFFERENT_OF_200 // 200)
        if different < wanted:
            said = (
                f"only {different} different scenarios among {len(cell)}; allowed: {wanted} or more"
            )
            yield Finding("alike", said, sample.family.id, mode=mode)


def situations(sample: Sample) -> list[str]:
    """The situations of a family without their numbers, each once."""
    told = (taken.said["metric"].situation for taken in sample.read)
    return sorted({masked(" ".join(texts)).lower() for texts in told})


def told_twice(by_family: Mapping[str, Sequence[str]]) -> Iterator[Finding]:
    """Families whose situations, without the numbers, read alike."""
    for (one, texts), (other, others) in itertools.combinations(by_family.items(), 2):
        found = max((likeness(a, b) for a in texts for b in others), default=0.0)
        if found > LIKE:
            text = f"its situation reads like that of {other} ({100 * found:.0f} % the same words)"
            yield Finding("alike", text, one)


def likeness(one: str, other: str) -> float:
    """Which share of the words stands in both texts in the same order: 0 to 1.

    Texts that share few runs of three words are not looked at further, and count as 0.
    """
    a, b = one.split(), other.split()
    threes, others = (set(zip(t, t[1:], t[2:], strict=False)) for t in (a, b))
    if len(threes & others) < _WORTH_A_LOOK * min(len(threes), len(others)):
        return 0.0
    return difflib.SequenceMatcher(None, a, b, autojunk=False).ratio()
