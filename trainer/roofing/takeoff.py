"""Sheets, rolls, gussets and primer for a job: what to bring up to the roof.

Quotients that are rounded up are exact: every length counts as the decimal it was written as, so
19.85 m of wall never costs a sheet more because a binary fraction fell on the wrong side.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import Any

from trainer.errors import InputError
from trainer.roofing.contract import Calculator, Each, Field, Number, count, exact, length

_MM2_PER_M2 = 1_000_000


@dataclass(frozen=True)
class Job:
    """Straight walls and corners. Millimetres, and m² per litre of primer; all lengths > 0.

    0 ≤ side_lap_mm < sheet_mm; girth_mm ≤ roll_mm; a roll is as wide as a sheet. Raises InputError
    for lengths that do not fit together.
    """

    walls: Sequence[float]
    girth_mm: float
    sheet_mm: float
    side_lap_mm: float
    roll_mm: float
    inside_corners: int
    outside_corners: int
    sheets_per_corner: int
    gussets_per_corner: int
    coverage_m2_per_l: float

    def __post_init__(self) -> None:
        if self.girth_mm > self.roll_mm:
            raise InputError("girth_mm", self.girth_mm, f"> 0 and ≤ roll_mm ({self.roll_mm})")
        if self.side_lap_mm >= self.sheet_mm:
            allowed = f"≥ 0 and < sheet_mm ({self.sheet_mm})"
            raise InputError("side_lap_mm", self.side_lap_mm, allowed)

    @property
    def corners(self) -> int:
        return self.inside_corners + self.outside_corners

    @property
    def sheets(self) -> int:
        """Fewest sheets for every wall, a lower bound where laps must clear others; and corners."""
        walls = sum(fewest_sheets(wall, self.sheet_mm, self.side_lap_mm) for wall in self.walls)
        return walls + self.corners * self.sheets_per_corner

    @property
    def strips_per_roll(self) -> int:
        """Whole strips of one girth that a roll gives, at least 1."""
        return floor(exact(self.roll_mm) / exact(self.girth_mm))

    @property
    def rolls(self) -> int:
        return -(-self.sheets // self.strips_per_roll)

    @property
    def gussets(self) -> int:
        return self.corners * self.gussets_per_corner

    @property
    def primer_l(self) -> Fraction:
        """Litres for the walls over the whole girth; corners lie within it."""
        walls = sum(map(exact, self.walls), Fraction(0))
        return walls * exact(self.girth_mm) / _MM2_PER_M2 / exact(self.coverage_m2_per_l)

    @property
    def offcut_pct(self) -> Fraction:
        """Roll length bought and not used, in percent of what was bought; 0 for no rolls."""
        if not self.rolls:
            return Fraction(0)
        used = self.sheets * exact(self.girth_mm) / (self.rolls * exact(self.roll_mm))
        return 100 * (1 - used)


def fewest_sheets(wall_mm: float, sheet_mm: float, side_lap_mm: float) -> int:
    """Fewest sheets that cover a wall, neighbours overlapping by the side lap.

    ⌈(wall − lap) / (sheet − lap)⌉, at least 1. Millimetres; wall > 0, 0 ≤ side lap < sheet.

    >>> fewest_sheets(20_000, 1000, 75), fewest_sheets(10_250, 1000, 75)
    (22, 11)
    """
    lap = exact(side_lap_mm)
    return max(1, ceil((exact(wall_mm) - lap) / (exact(sheet_mm) - lap)))


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    job = Job(**given)
    names = ("sheets", "strips_per_roll", "rolls", "gussets", "primer_l", "offcut_pct")
    return {name: getattr(job, name) for name in names}


TAKEOFF = Calculator(
    name="takeoff",
    summary="sheets, rolls, gussets and primer for a job",
    fields=(
        Field("walls", Each(length(positive=True)), "length of each straight wall"),
        Field("girth_mm", length(positive=True), "length of one sheet; ≤ roll_mm"),
        Field("sheet_mm", length(positive=True), "width of a sheet and of a roll"),
        Field("side_lap_mm", length(), "overlap of neighbouring sheets; < sheet_mm"),
        Field("roll_mm", length(positive=True), "length of a roll"),
        Field("inside_corners", count(), "number of inside corners"),
        Field("outside_corners", count(), "number of outside corners"),
        Field("sheets_per_corner", count(), "sheets for each corner, over those of the walls"),
        Field("gussets_per_corner", count(), "reinforcing gussets for each corner"),
        Field("coverage_m2_per_l", Number("m²/L", above=0), "area one litre of primer covers"),
    ),
    results={
        "sheets": "fewest sheets for the walls (a lower bound where laps must clear others), and "
        "for the corners",
        "strips_per_roll": "whole sheets a roll gives, each one girth long",
        "rolls": "rolls to buy",
        "gussets": "gussets to cut",
        "primer_l": "litres of primer: sum of walls × girth ÷ coverage",
        "offcut_pct": "roll length bought and not used, in percent of what was bought",
    },
    sources=(
        "pieces in a row: ⌈(length − lap) / (width − lap)⌉, by counting",
        "coverage of primer: the product's data sheet; for comparison UFGS 07550, 3.2.4, asks for "
        "3 L per 10 m²",
    ),
    compute=_compute,
    rules=("Every quotient that is rounded up or down is exact.",),
)
