"""How much there is: families, cells by unit, and which kinds of decision."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from trainer.pack.pack import Pack
from trainer.services.content.finding import Finding

CELLS_IN_A_UNIT = 12
"""Families times fault modes that a unit has at least, so that nobody meets the same twice."""
DONE_BY_HAND = ("place", "mark", "measure", "time", "order")
"""Kinds of decision whose answer is not read off a list."""
SHARE_BY_HAND = 0.5


@dataclass(frozen=True)
class Counts:
    """Families and cells by unit; decisions of all families by kind."""

    families: dict[str, int]
    cells: dict[str, int]
    kinds: dict[str, int]

    @property
    def by_hand(self) -> float:
        """The share of decisions that are placed, marked, measured, timed or put in order."""
        every = sum(self.kinds.values())
        return sum(self.kinds.get(kind, 0) for kind in DONE_BY_HAND) / every if every else 0.0


def counts(pack: Pack) -> Counts:
    """The numbers of the whole pack, newest versions only."""
    families = pack.families.values()
    return Counts(
        {unit: sum(f.unit == unit for f in families) for unit in pack.units},
        {unit: sum(len(f.modes) for f in families if f.unit == unit) for unit in pack.units},
        dict(Counter(d.kind for f in families for d in f.decisions).most_common()),
    )


def too_few(found: Counts) -> Iterator[Finding]:
    """Units with fewer than twelve cells, and too many decisions that are read off a list."""
    for unit, cells in found.cells.items():
        if cells < CELLS_IN_A_UNIT:
            text = f"unit {unit}: {cells} cells (family × fault mode)"
            yield Finding("counts", f"{text}; allowed: {CELLS_IN_A_UNIT} or more")
    if found.by_hand < SHARE_BY_HAND:
        share = f"{100 * found.by_hand:.0f} % of the decisions are {', '.join(DONE_BY_HAND)}"
        yield Finding("counts", f"{share}; allowed: {100 * SHARE_BY_HAND:.0f} % or more")


def table(found: Counts) -> list[str]:
    """The numbers as a short table, line by line."""
    lines = [f"{'unit':<12}{'families':>9}{'cells':>7}"]
    lines += [f"{u:<12}{n:>9}{found.cells[u]:>7}" for u, n in found.families.items()]
    total = f"{'all':<12}{sum(found.families.values()):>9}{sum(found.cells.values()):>7}"
    kinds = ", ".join(f"{kind} {n}" for kind, n in found.kinds.items())
    hand = f"{100 * found.by_hand:.0f} % {', '.join(DONE_BY_HAND)}"
    return [*lines, total, f"decisions: {kinds}; {hand}"]
