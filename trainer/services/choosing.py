"""Which scenario comes next in practice: what went wrong comes back, what went right waits."""

from __future__ import annotations

import random
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from trainer.engine.spec import Family


@dataclass(frozen=True)
class Seen:
    """One scenario practised: which cell it was, and whether anything in it went wrong."""

    family: str
    mode: str
    right: bool
    critical: bool = False


Cell = tuple[str, str]
_FADES = 0.85
"""How much less the scenario before counts than the one after it."""
_CROWD = 40
"""From so many cells on, urgency grows with their number: among two hundred, a cell four times as
likely as the rest would still hardly ever be met."""


def cell_weights(families: Iterable[Family], seen: Sequence[Seen]) -> dict[Cell, float]:
    """A weight for every family × fault mode, from what was seen, newest first.

    A cell answered wrongly comes back soon, but not at once; a critical error comes back sooner; a
    cell answered rightly rests. Every cell keeps some weight, so that nothing is never asked.
    """
    weights = {
        (family.id, mode.id): mode.weight for family in families for mode in family.modes.values()
    }
    crowd = max(1.0, len(weights) / _CROWD)
    for age, past in enumerate(seen):
        fade = _FADES**age
        for cell in weights:
            if cell[0] == past.family:
                weights[cell] *= _factor(past, cell[1], fade, crowd)
    if seen and len(weights) > 1:
        weights.pop((seen[0].family, seen[0].mode), None)
    return weights


def _factor(past: Seen, mode: str, fade: float, crowd: float) -> float:
    if past.right:
        return 1 - 0.6 * fade if past.mode == mode else 1 - 0.2 * fade
    urgency = (4 if past.critical else 2.5) * crowd
    return 1 + urgency * fade if past.mode == mode else 1 + 0.6 * urgency * fade


def next_cell(
    families: Iterable[Family], seen: Sequence[Seen], chance: random.Random | None = None
) -> Cell:
    """The family and mode to practise next, by weight."""
    weights = cell_weights(families, seen)
    source = chance or random.SystemRandom()
    return source.choices(list(weights), list(weights.values()))[0]
