"""A reproducible source of chance.

Its numbers come from Python's Mersenne Twister through ``Random.random`` alone, whose sequence the
language guarantees for every version and machine (docs.python.org, module random, "Notes on
Reproducibility").
"""

from __future__ import annotations

import hashlib
import math
import random
from collections.abc import Sequence
from typing import TypeVar

from trainer.engine.plain import exact

Item = TypeVar("Item")


class Hat:
    """Chance named by what it is for: the same name draws the same things."""

    def __init__(self, *name: object) -> None:
        digest = hashlib.sha256("\x1f".join(map(str, name)).encode()).digest()
        self._random = random.Random(int.from_bytes(digest, "big"))

    def index(self, size: int) -> int:
        """A whole number from 0 to ``size`` − 1, evenly. Raises ValueError when there is none."""
        if size < 1:
            raise ValueError("there is nothing to draw from")
        return int(self._random.random() * size)

    def pick(self, items: Sequence[Item]) -> Item:
        return items[self.index(len(items))]

    def sample(self, items: Sequence[Item], size: int | None = None) -> list[Item]:
        """``size`` of the items (all by default) in drawn order, none twice. Raises ValueError."""
        count = len(items) if size is None else size
        if not 0 <= count <= len(items):
            raise ValueError(f"{count} cannot be taken from {len(items)}")
        left = list(items)
        return [left.pop(self.index(len(left))) for _ in range(count)]

    def on_grid(self, low: float, high: float, step: float) -> float:
        """A value low, low + step, … not above high, evenly. Raises ValueError when high < low."""
        if not low <= high:
            raise ValueError(f"from {low:g} to {high:g} there is nothing")
        steps = math.floor((high - low) / step + 1e-9)
        value: float = exact(low + step * self.index(steps + 1))
        return value

    def by_weight(self, items: Sequence[tuple[Item, float]]) -> Item:
        """One of the items, each as often as its weight asks for."""
        left = self._random.random() * math.fsum(weight for _, weight in items)
        for item, weight in items:
            left -= weight
            if left < 0:
                return item
        return items[-1][0]
