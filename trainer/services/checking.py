"""The whole check of the pack: every cell drawn with many seeds, and its content measured."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import asdict, dataclass
from itertools import groupby
from typing import Any

from trainer.services import catalogue
from trainer.services.content import alike, checks, ease
from trainer.services.content.counts import Counts, counts, table
from trainer.services.content.finding import GROUPS, Finding
from trainer.services.content.sample import Sample, Taken, try_to_take
from trainer.services.scenarios import Library, library

KINDS = ("draws", "content")
"""What can be checked alone: that draws are sound, or what the content is worth."""


@dataclass(frozen=True)
class Report:
    """What was found: ``unsound`` draws, ``findings`` about the content, numbers of the pack."""

    drawn: int
    unsound: tuple[str, ...]
    findings: tuple[Finding, ...]
    counts: Counts
    reading: dict[str, dict[str, float]]

    @property
    def clean(self) -> bool:
        return not self.unsound and not self.findings

    def plain(self) -> dict[str, Any]:
        """As JSON-able data."""
        return {
            "drawn": self.drawn,
            "unsound": list(self.unsound),
            "findings": [finding.plain() for finding in self.findings],
            "counts": {**asdict(self.counts), "by_hand": round(self.counts.by_hand, 3)},
            "reading": self.reading,
        }

    def lines(self) -> Iterator[str]:
        """As lines to read: what is unsound, what is found by group, the numbers."""
        yield from self.unsound
        by_group = sorted(self.findings, key=lambda finding: list(GROUPS).index(finding.group))
        for group, found in groupby(by_group, key=lambda finding: finding.group):
            several = list(found)
            yield f"\n{GROUPS[group]} ({group}): {len(several)}"
            yield from (f"  {finding}" for finding in several)
        yield from ("", *table(self.counts), "")


def check(
    only: str = "", seeds: int = 200, what: str = "", after_cell: Callable[[], None] | None = None
) -> Report:
    """Draw every cell (of the family ``only``) and measure what was drawn.

    ``what`` is one of KINDS, or empty for both; ``after_cell`` is called after each cell. What
    shows only in the whole pack is left out where one family is asked for. Raises InputError.
    """
    shelf = library()
    names = dict.fromkeys(family for family, _ in catalogue.cells(only))
    checking = _Checking(shelf, seeds, what, after_cell or (lambda: None))
    for name in names:
        checking.family(name)
    if what != "draws" and not only:
        checking.findings += checks.of_the_pack(shelf.pack, checking.situations)
    return checking.report()


class _Checking:
    """The check as it goes on, family by family: only one family's scenarios are held at a time."""

    def __init__(
        self, shelf: Library, seeds: int, what: str, after_cell: Callable[[], None]
    ) -> None:
        self.shelf, self.seeds, self.what, self.after_cell = shelf, seeds, what, after_cell
        self.drawn = 0
        self.unsound: list[str] = []
        self.findings: list[Finding] = []
        self.situations: dict[str, list[str]] = {}
        self.reading: dict[str, dict[str, float]] = {}

    def family(self, name: str) -> None:
        spec = self.shelf.pack.family(name)
        taken: list[Taken] = []
        for mode in spec.modes:
            taken += self._cell(name, mode)
            self.after_cell()
        if self.what != "draws" and taken:
            sample = Sample(self.shelf, spec, tuple(taken))
            self.findings += checks.of_a_family(sample)
            self.situations[name] = alike.situations(sample)
            self.reading[name] = ease.figures(sample)

    def _cell(self, name: str, mode: str) -> list[Taken]:
        self.drawn += self.seeds
        draws = self.what != "content"
        self.unsound += catalogue.unsound(name, mode, self.seeds) if draws else ()
        if self.what == "draws":
            return []
        spec = self.shelf.pack.family(name)
        taken = (try_to_take(self.shelf, spec, mode, seed) for seed in range(self.seeds))
        return [one for one in taken if one]

    def report(self) -> Report:
        return Report(
            self.drawn,
            tuple(self.unsound),
            tuple(self.findings),
            counts(self.shelf.pack),
            self.reading,
        )
