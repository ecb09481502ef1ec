"""Scenarios right up to the limit: a tolerance away on either side, and at the ends of a range."""

from __future__ import annotations

import math
from collections.abc import Iterator

from trainer.engine import solve
from trainer.engine.scenario import Scenario
from trainer.engine.spec import Mode
from trainer.engine.unsound import UnsoundScenario
from trainer.services.content.finding import Finding
from trainer.services.content.sample import Sample

SEEDS = 10
"""Seeds tried at every margin."""
_HAIR = 1e-3


def margins(sample: Sample) -> Iterator[Finding]:
    """Modes that are unsound, or do not come out, at exactly the margin that is asked of them."""
    for mode in sample.family.modes.values():
        if mode.margin is not None and not solve.lacking(sample.family, sample.shelf.rules):
            for asked in margins_of(mode):
                yield from _at(sample, mode, asked)


def margins_of(mode: Mode) -> list[float]:
    """A tolerance on the mode's side of the limit, and both ends of its range."""
    low, high = mode.margin or (1, 1)
    return sorted({math.copysign(1, low), low, high}, key=abs)


def _at(sample: Sample, mode: Mode, asked: float) -> Iterator[Finding]:
    """What goes wrong at one margin: the first of each kind."""
    seen = set()
    for seed in range(SEEDS):
        kind, text = _problem(sample, mode, asked, seed)
        if kind and kind not in seen:
            seen.add(kind)
            said = f"at a margin of {asked:+g}: {text}"
            yield Finding("margins", said, sample.family.id, mode=mode.id, seed=seed)


def _problem(sample: Sample, mode: Mode, asked: float, seed: int) -> tuple[str, str]:
    try:
        made = solve.make(sample.family, seed, sample.shelf.rules, mode.id, asked)
    except UnsoundScenario as error:
        return "unsound", error.reason
    off = abs((made.margin or 0) - asked)
    allowed = _step(sample, made)
    if off > allowed + _HAIR:
        return "off", f"it comes out at {made.margin:+g}; allowed: {allowed:.3g} off, one step"
    return "", ""


def _step(sample: Sample, made: Scenario) -> float:
    """One step of the grid, in tolerances."""
    spec = sample.family.margin
    assert spec is not None
    return float(spec.step / spec.tolerance.value(made.scope()))
