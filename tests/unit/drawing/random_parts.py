"""What every figure at random is made with."""

from __future__ import annotations

from random import Random
from typing import Any

Figure = dict[str, Any]


def maybe(chance: Random, share: float, **fields: Any) -> Figure:
    """The fields, or none of them."""
    return fields if chance.random() < share else {}
