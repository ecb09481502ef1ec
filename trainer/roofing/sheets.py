"""Set out one straight wall between its corner sheets so that laps keep clear of field laps.

Whole millimetres along the wall; field laps and the clear distance may be fractions and count as
the decimals they were written as. Neighbouring sheets overlap by exactly the side lap, so a layout
is the list of its lap starts: each of its sheets takes the next lap start further by its width less
the side lap, the first from 0, the last to the wall's end less the side lap.

The best layout is found exactly, over unions of intervals: one pass for the fewest sheets and the
fewest narrower than full (``reach``), one back for all the ways that have both, then the largest
smallest clear distance among them by halving (``gaps``).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Any

from trainer.errors import InputError
from trainer.roofing.bands import BAND, Band, in_mm
from trainer.roofing.contract import Calculator, Each, Field, Number, length
from trainer.roofing.gaps import Gaps, any_way, clearest_way
from trainer.roofing.reach import Steps, best_ways, furthest, holds, layers_from_start

LONGEST_WALL_MM = 1_000_000


@dataclass(frozen=True)
class Wall:
    """One straight wall. wall_mm > 0; side_lap_mm ≥ 1; 2 side laps ≤ min_sheet_mm ≤ sheet_mm.

    Raises InputError for widths that do not fit together.
    """

    wall_mm: int
    sheet_mm: int
    side_lap_mm: int
    min_sheet_mm: int
    field_laps: Sequence[Band]
    clear_mm: float

    def __post_init__(self) -> None:
        least, full = 2 * self.side_lap_mm, self.sheet_mm
        if self.side_lap_mm >= full:
            raise InputError("side_lap_mm", self.side_lap_mm, f"< sheet_mm ({full})")
        if not least <= self.min_sheet_mm <= full:
            allowed = f"≥ 2 × side_lap_mm ({least}) and ≤ sheet_mm ({full})"
            raise InputError("min_sheet_mm", self.min_sheet_mm, allowed)

    @property
    def end(self) -> int:
        """Where a lap would start that the wall's end closes."""
        return self.wall_mm - self.side_lap_mm

    @property
    def steps(self) -> Steps:
        return Steps(self.min_sheet_mm - self.side_lap_mm, self.sheet_mm - self.side_lap_mm)


@dataclass(frozen=True)
class Sheet:
    """One sheet: where it begins along the wall and how wide it is, in millimetres."""

    from_mm: int
    width_mm: int


@dataclass(frozen=True)
class Layout:
    """A best layout. ``trimmed`` counts sheets narrower than full.

    ``min_clear_mm`` is the smallest clear distance, None without field laps or without laps.
    """

    sheets: tuple[Sheet, ...]
    laps: tuple[tuple[int, int], ...]
    trimmed: int
    min_clear_mm: float | Fraction | None


@dataclass(frozen=True)
class Stuck:
    """No layout: ``stuck_mm`` is the furthest legal lap start legal sheets reach, 0 if none."""

    stuck_mm: int
    why: str


def set_out(wall: Wall) -> Layout | Stuck:
    """A best layout of the wall, or how far legal sheets get and why no further."""
    if wall.wall_mm <= wall.sheet_mm:
        return _laid(wall, [], None)
    lap, end, steps = wall.side_lap_mm, wall.end, wall.steps
    gaps = Gaps.between(wall.field_laps, wall.clear_mm, lap, (steps.least, end - 1))
    layers = layers_from_start([*gaps.starts, (end, end)], steps, end)
    if not holds(layers[-1], end):
        return _stuck(wall, max(furthest(layer) for layer in layers))
    layers = best_ways(layers, steps, end)
    if not wall.field_laps:
        return _laid(wall, any_way(gaps, layers, steps)[0], None)
    starts, clear = clearest_way(gaps, layers, steps)
    return _laid(wall, starts, in_mm(clear, gaps.per_mm))


def _laid(wall: Wall, starts: list[int], clear: float | Fraction | None) -> Layout:
    lap = wall.side_lap_mm
    bounds = pairwise([0, *starts, wall.end])
    sheets = tuple(Sheet(start, following + lap - start) for start, following in bounds)
    return Layout(
        sheets=sheets,
        laps=tuple((start, start + lap) for start in starts),
        trimmed=sum(sheet.width_mm < wall.sheet_mm for sheet in sheets),
        min_clear_mm=clear,
    )


def _stuck(wall: Wall, place: int) -> Stuck:
    least, full = wall.steps
    if wall.end // least < -(-wall.end // full):
        why = (
            f"No number of sheets from {wall.min_sheet_mm} to {wall.sheet_mm} mm wide "
            f"makes up {wall.wall_mm} mm."
        )
    elif place + least > wall.end:
        why = (
            f"Field laps leave no way to the end: past the furthest lap, at {place} mm, the rest "
            f"is {wall.wall_mm - place} mm, narrower than the narrowest sheet."
        )
    else:
        why = (
            f"Every lap start from {place + least} to {place + full} mm comes nearer than "
            f"{wall.clear_mm:.10g} mm to a field lap."
        )
    return Stuck(place, why)


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    result = set_out(Wall(**given))
    if isinstance(result, Stuck):
        return {"feasible": False, "why": result.why, "stuck_mm": result.stuck_mm}
    return {
        "feasible": True,
        "sheet_count": len(result.sheets),
        "trimmed": result.trimmed,
        "min_clear_mm": result.min_clear_mm,
        "sheets": [vars(sheet) for sheet in result.sheets],
        "laps": result.laps,
    }


_RESULTS: Mapping[str, str] = {
    "feasible": "whether legal sheets make up the wall",
    "sheet_count": "how many sheets, the fewest",
    "trimmed": "how many are narrower than full, the fewest with so many sheets",
    "min_clear_mm": "smallest clear distance, the largest with both; null without any lap pair",
    "sheets": "from_mm and width_mm of each sheet",
    "laps": "the band [from, to] of each lap",
    "why": "instead of the rest, when not feasible: what stands in the way",
    "stuck_mm": "and the furthest legal lap start that legal sheets from 0 can reach, 0 if none",
}

SHEETS = Calculator(
    name="sheets",
    summary="set out one straight wall so that laps keep clear of field laps",
    fields=(
        Field(
            "wall_mm",
            length(positive=True, whole=True, high=LONGEST_WALL_MM),
            "length of the wall between its corner sheets",
        ),
        Field("sheet_mm", length(positive=True, whole=True), "width of a full sheet"),
        Field(
            "side_lap_mm",
            Number("mm", low=1, whole=True),
            "overlap of neighbours, exact at every lap; < sheet_mm",
        ),
        Field(
            "min_sheet_mm",
            Number("mm", low=2, whole=True),
            "narrowest sheet: ≥ 2 × side_lap_mm and ≤ sheet_mm",
        ),
        Field("field_laps", Each(BAND), "bands of laps already laid; any order, may overlap"),
        Field("clear_mm", length(), "least clear distance, any laying tolerance included"),
    ),
    results=_RESULTS,
    sources=(
        "flashing laps offset from field laps: RP-2025 (French trade rules, January 2025), "
        "7.2.4.1, which gives no distance",
        "a distance of 100 mm (4 in): common practice, no source",
        "order of the objective: this program's own",
    ),
    compute=_compute,
    rules=(
        "Sheets cover 0 to wall_mm; a wall no wider than one sheet takes one, however narrow.",
        "Laps start on whole millimetres; a clear distance of exactly clear_mm is enough.",
        "Any layout that is best in this order may be given: fewest sheets, fewest narrower than "
        "full, largest smallest clear distance.",
    ),
)
