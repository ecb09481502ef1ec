"""What a family states about itself: its features, and an example worked by hand that holds."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.engine.features import features
from trainer.engine.solve import Rules
from trainer.engine.spec import Family
from trainer.engine.unsound import UnsoundScenario
from trainer.engine.worked import disagreements
from trainer.services.content.finding import Finding
from trainer.services.content.sample import Sample

_SEEDS = 2
"""Seeds of each mode whose features are worked out: the chance of a guess takes its time."""


def stated(sample: Sample) -> Iterator[Finding]:
    """Features missing or no numbers, the worked example missing or not as the core has it."""
    yield from _features(sample)
    yield from _worked(sample)


def _features(sample: Sample) -> Iterator[Finding]:
    family = sample.family
    if not family.features:
        yield Finding("stated", "it has no features: block", family.id)
        return
    seen = set()
    few = (taken for mode in family.modes for taken in sample.of(mode)[:_SEEDS])
    for taken in few:
        try:
            features(family, taken.scenario)
        except UnsoundScenario as error:
            if error.reason not in seen:
                seen.add(error.reason)
                mode, seed = taken.scenario.mode, taken.scenario.seed
                yield Finding("stated", error.reason, family.id, mode=mode, seed=seed)


def _worked(sample: Sample) -> Iterator[Finding]:
    family = sample.family
    if family.worked is None:
        yield Finding("stated", "it has no worked: example", family.id)
        return
    for text in example_faults(family, sample.shelf.rules):
        yield Finding("stated", f"worked example: {text}", family.id, mode=family.worked.mode)


def example_faults(family: Family, rules: Rules) -> list[str]:
    """Where the example worked by hand does not hold, or why no scenario can be made of it."""
    try:
        return disagreements(family, rules)
    except UnsoundScenario as error:
        return [error.reason]
