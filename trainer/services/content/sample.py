"""The scenarios of a family, drawn once for all checks, with what is said in both unit systems."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from trainer.engine.explain import Explanation, Telling
from trainer.engine.mark import Mark
from trainer.engine.measures import Units
from trainer.engine.scenario import Decision, Scenario
from trainer.engine.spec import Family
from trainer.errors import TrainerError
from trainer.services.content.answers import explained
from trainer.services.scenarios import Library

SYSTEMS = {"metric": Units(), "inches": Units("in", "F")}
READ_PER_MODE = 10
"""Seeds of each fault mode whose texts are read for their words; more say the same again."""

_VALUE = re.compile(r"[\d−][\d.,:/ ]*")

Rows = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Said:
    """The texts of a scenario in one unit system: rows and prompts by decision."""

    situation: tuple[str, ...]
    prompts: Mapping[str, str]
    rows: Mapping[str, Rows]


@dataclass(frozen=True)
class Taken:
    """One scenario of the sample; ``said`` by unit system."""

    scenario: Scenario
    said: Mapping[str, Said]


@dataclass(frozen=True)
class Sample:
    """As many scenarios of every fault mode of a family."""

    shelf: Library
    family: Family
    taken: tuple[Taken, ...]

    def of(self, mode: str) -> list[Taken]:
        return [taken for taken in self.taken if taken.scenario.mode == mode]

    @cached_property
    def weighted(self) -> list[Taken]:
        """The sample in the proportions in which fault modes are drawn."""
        modes = self.family.modes.values()
        most = max(mode.weight for mode in modes)
        cells = [(self.of(mode.id), mode.weight / most) for mode in modes]
        return [taken for cell, share in cells for taken in cell[: round(len(cell) * share)]]

    @cached_property
    def read(self) -> list[Taken]:
        """A few scenarios of every fault mode, for what is read and not counted."""
        return [taken for mode in self.family.modes for taken in self.of(mode)[:READ_PER_MODE]]

    def decisions(self) -> Iterator[tuple[str, list[tuple[Taken, Decision]]]]:
        """Each decision, by id, where the weighted sample asks it."""
        for spec in self.family.decisions:
            asked = [
                (taken, decision)
                for taken in self.weighted
                for decision in taken.scenario.decisions
                if decision.id == spec.id
            ]
            if asked:
                yield spec.id, asked

    def telling(self, taken: Taken) -> Telling:
        return Telling(self.family, taken.scenario)

    @cached_property
    def answered(self) -> list[tuple[Taken, Decision, str, Mark, Explanation]]:
        """Every answer that is named in the scenarios that are read, marked and explained."""
        return [
            (taken, decision, *given)
            for taken in self.read
            for decision in taken.scenario.decisions
            for given in explained(self.telling(taken), decision)
        ]

    def reasons(self) -> Iterator[tuple[Taken, Decision, str]]:
        """Why each answer is right or not and what it leads to, in the scenarios that are read."""
        for taken, decision, _, _, told in self.answered:
            yield from ((taken, decision, text) for text in (*told.because, *told.leads_to))


def take(shelf: Library, family: Family, scenario: Scenario) -> Taken:
    """A scenario with its texts in both unit systems."""
    return Taken(
        scenario,
        {name: _said(Telling(family, scenario, "en", u)) for name, u in SYSTEMS.items()},
    )


def _said(telling: Telling) -> Said:
    decisions = telling.scenario.decisions
    return Said(
        telling.situation,
        {decision.id: telling.prompt(decision) for decision in decisions},
        {decision.id: telling.rows(decision) for decision in decisions},
    )


def sample(shelf: Library, family: Family, seeds: int) -> Sample:
    """``seeds`` scenarios of every fault mode. What cannot be drawn or said is left out."""
    return Sample(shelf, family, tuple(_drawn(shelf, family, seeds)))


def _drawn(shelf: Library, family: Family, seeds: int) -> Iterator[Taken]:
    for mode in family.modes:
        for seed in range(seeds):
            if taken := try_to_take(shelf, family, mode, seed):
                yield taken


def try_to_take(shelf: Library, family: Family, mode: str, seed: int) -> Taken | None:
    """One scenario with its texts; None where it is unsound, which the draws report."""
    try:
        return take(shelf, family, shelf.make(family.id, seed, mode, family.version))
    except TrainerError:
        return None


def masked(text: str) -> str:
    """The text with a sign in place of every number."""
    return _VALUE.sub("# ", text).strip()
