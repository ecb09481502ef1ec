"""What is left of a height when the surface it stands on is raised by new layers. Millimetres."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from trainer.errors import InputError
from trainer.roofing.contract import Calculator, Each, Field, exact, length


@dataclass(frozen=True)
class FinishHeight:
    """``height_mm`` above the finished surface, ``added_mm`` below it, ``short_mm`` ≥ 0."""

    added_mm: Fraction
    height_mm: Fraction
    short_mm: Fraction

    @property
    def ok(self) -> bool:
        return not self.short_mm


def finish_height(height_mm: float, layers_mm: Sequence[float], required_mm: float) -> FinishHeight:
    """The height above the finished surface: height less the sum of the layers. All ≥ 0.

    Raises InputError on ``layers_mm`` when they come higher than the height: the surface would bury
    what is measured, and no height is left to speak of.

    >>> finish_height(1050, [60, 20], 950).ok
    True
    """
    added = sum((exact(layer) for layer in layers_mm), Fraction(0))
    left = exact(height_mm) - added
    if left < 0:
        allowed = f"layers that add up to height_mm ({height_mm}) at most"
        raise InputError("layers_mm", list(layers_mm), allowed)
    return FinishHeight(added, left, max(Fraction(0), exact(required_mm) - left))


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    found = finish_height(**given)
    return {
        "added_mm": found.added_mm,
        "height_mm": found.height_mm,
        "ok": found.ok,
        "short_mm": found.short_mm,
    }


FINISH_HEIGHT = Calculator(
    name="finish-height",
    summary="what is left of an upstand or parapet when new layers raise the roof",
    fields=(
        Field("height_mm", length(), "height above the surface as it is before"),
        Field("layers_mm", Each(length()), "thickness of each layer put on after; ≤ height in sum"),
        Field("required_mm", length(), "least height above the finished surface"),
    ),
    results={
        "added_mm": "thickness of all new layers",
        "height_mm": "height above the finished surface: height less all layers",
        "ok": "whether the height left is at least what is required",
        "short_mm": "how much it falls short, 0 when it does not",
    },
    sources=(
        "counting",
        "the height counts from the finished working level: reading of 29 CFR 1926.502(b)(1) and "
        "(3) (secondary source)",
    ),
    compute=_compute,
    rules=(
        "A height of exactly what is required is enough.",
        "Layers that come higher than the height are refused; a height of 0 may be left.",
    ),
)
