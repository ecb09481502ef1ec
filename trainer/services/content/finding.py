"""What a check of the content finds, in words that the writer of a family can act on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, dataclass
from typing import Any

GROUPS = {
    "reading": "hard to read",
    "length": "too long for a phone",
    "words": "words to change",
    "guess": "can be guessed",
    "alike": "too much alike",
    "margins": "not sound up to the limit",
    "mistakes": "wrong answers without a mistake behind them",
    "stated": "features or worked example",
    "sums": "sums that do not add up",
    "counts": "numbers of the pack",
}
"""Every group of findings, with its heading."""


@dataclass(frozen=True)
class Finding:
    """One thing to mend: where it applies with family, decision, fault mode and seed."""

    group: str
    text: str
    family: str = ""
    decision: str = ""
    mode: str = ""
    seed: int | None = None

    def __str__(self) -> str:
        where = ", ".join(self._where())
        return f"{where}: {self.text}" if where else self.text

    def _where(self) -> Iterator[str]:
        yield from filter(None, (self.family, self.mode))
        if self.seed is not None:
            yield f"seed {self.seed}"
        if self.decision:
            yield f"decision {self.decision}"

    def plain(self) -> dict[str, Any]:
        """As JSON-able data."""
        return asdict(self)
