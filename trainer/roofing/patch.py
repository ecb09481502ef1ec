"""How large a patch has to be. Lengths are millimetres."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from trainer.roofing.contract import Calculator, Field, exact, length


@dataclass(frozen=True)
class Patch:
    """The least patch: as it lies on the sheet, along the defect's width and height."""

    width_mm: Fraction
    height_mm: Fraction


def least_patch(width_mm: float, height_mm: float, cover_mm: float) -> Patch:
    """A patch that laps a defect of this width and height by ``cover_mm`` on every side. All ≥ 0.

    >>> least_patch(120, 0, 100)
    Patch(width_mm=Fraction(320, 1), height_mm=Fraction(200, 1))
    """
    both_sides = 2 * exact(cover_mm)
    return Patch(exact(width_mm) + both_sides, exact(height_mm) + both_sides)


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    patch = least_patch(**given)
    return {"patch_width_mm": patch.width_mm, "patch_height_mm": patch.height_mm}


PATCH = Calculator(
    name="patch",
    summary="the least size of a patch over a blister, a fishmouth or a cut",
    fields=(
        Field("width_mm", length(), "width of the defect with every cut made in it, 0 for a cut"),
        Field("height_mm", length(), "its height, square to the width"),
        Field("cover_mm", length(), "how far the patch laps sound sheet on every side"),
    ),
    results={
        "patch_width_mm": "width of the least patch: width + 2 × cover",
        "patch_height_mm": "height of the least patch: height + 2 × cover",
    },
    sources=(
        "plane geometry",
        "a patch laps by at least 100 mm: NBS J41/630 (secondary source)",
    ),
    compute=_compute,
    rules=(
        "The patch is a rectangle that lies square to the defect, with the defect in its middle.",
    ),
)
