"""Do the flashing laps that are laid keep clear of the field laps?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from trainer.roofing.bands import BAND, Band, clear_distance, in_mm, whole_parts
from trainer.roofing.contract import Calculator, Each, Field, length


@dataclass(frozen=True)
class TooClose:
    """A flashing lap nearer to a field lap than asked, by their indices; negative: they overlap."""

    flashing: int
    field: int
    clear_mm: float | Fraction


@dataclass(frozen=True)
class Stagger:
    """The verdict on all pairs. ``min_clear_mm`` is None where there is no pair."""

    min_clear_mm: float | Fraction | None
    too_close: tuple[TooClose, ...]

    @property
    def ok(self) -> bool:
        return not self.too_close


def judge(field_laps: Sequence[Band], flashing_laps: Sequence[Band], clear_mm: float) -> Stagger:
    """Every flashing lap against every field lap; a clear distance of exactly clear_mm will do.

    Bands are millimetres along the wall, from ≤ to, in any order; clear_mm ≥ 0.
    """
    edges = [edge for band in (*field_laps, *flashing_laps) for edge in band]
    (asked, *parts), per_mm = whole_parts([clear_mm, *edges])
    bands = list(zip(parts[::2], parts[1::2], strict=True))
    field, flashing = bands[: len(field_laps)], bands[len(field_laps) :]
    clears = [[clear_distance(lap, other) for other in field] for lap in flashing]
    return Stagger(
        min_clear_mm=in_mm(min(map(min, clears)), per_mm) if field and flashing else None,
        too_close=tuple(
            TooClose(i, k, in_mm(clear, per_mm))
            for i, row in enumerate(clears)
            for k, clear in enumerate(row)
            if clear < asked
        ),
    )


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    verdict = judge(**given)
    return {
        "ok": verdict.ok,
        "min_clear_mm": verdict.min_clear_mm,
        "too_close": [vars(pair) for pair in verdict.too_close],
    }


STAGGER = Calculator(
    name="stagger",
    summary="whether laps already laid keep clear of each other",
    fields=(
        Field("field_laps", Each(BAND), "bands of the laps laid on the field, along the wall"),
        Field("flashing_laps", Each(BAND), "bands of the laps of the flashing sheets"),
        Field("clear_mm", length(), "least clear distance between two bands"),
    ),
    results={
        "ok": "whether every flashing lap keeps clear of every field lap",
        "min_clear_mm": "the smallest clear distance, null when either list is empty",
        "too_close": "flashing and field index and clear_mm of each pair nearer than asked",
    },
    sources=(
        "flashing laps offset from field laps: RP-2025 (French trade rules, January 2025), "
        "7.2.4.1, which gives no distance",
        "a distance of 100 mm (4 in): common practice, no source",
    ),
    compute=_compute,
    rules=(
        "Clear distance: the gap between the nearest edges of two bands, negative when they "
        "overlap.",
        "A clear distance of exactly clear_mm is enough.",
    ),
)
