"""Is a lap welded right: how wide a bead of bitumen was squeezed out along it. Millimetres."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

from trainer.errors import InputError
from trainer.roofing.contract import Calculator, Each, Field, Nullable, exact, length

Verdict = Literal["cold", "too hot", "measure again", "right"]
_WORST_FIRST: tuple[Verdict, ...] = ("cold", "too hot", "measure again", "right")


@dataclass(frozen=True)
class Bead:
    """What a bead has to be: at least ``least_mm``, at most ``most_mm`` unless that is None.

    ``uncertainty_mm`` is the expanded uncertainty U of one reading. All ≥ 0. Raises InputError on
    "most_mm" when it is less than least_mm.
    """

    least_mm: float
    most_mm: float | None
    uncertainty_mm: float

    def __post_init__(self) -> None:
        if self.most_mm is not None and self.most_mm < self.least_mm:
            allowed = f"≥ least_mm ({self.least_mm}), or null"
            raise InputError("most_mm", self.most_mm, allowed)

    def judge(self, measured_mm: float) -> Verdict:
        """Guarded acceptance and guarded rejection of one reading. JCGM 106:2012, 8.3.2, 8.3.3.

        >>> bead = Bead(6, 10, 1)
        >>> [bead.judge(reading) for reading in (4.9, 5, 7, 9, 11, 11.1)]
        ['cold', 'measure again', 'right', 'right', 'measure again', 'too hot']
        """
        uncertainty = exact(self.uncertainty_mm)
        low, high = exact(measured_mm) - uncertainty, exact(measured_mm) + uncertainty
        if high < exact(self.least_mm):
            return "cold"
        if self.most_mm is not None and low > exact(self.most_mm):
            return "too hot"
        narrow_enough = self.most_mm is None or high <= exact(self.most_mm)
        return "right" if low >= exact(self.least_mm) and narrow_enough else "measure again"


def worst(verdicts: Sequence[Verdict]) -> Verdict:
    """The verdict that rules a lap read in several places; at least one verdict."""
    return min(verdicts, key=_WORST_FIRST.index)


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    bead = Bead(given["least_mm"], given["most_mm"], given["uncertainty_mm"])
    verdicts = [bead.judge(reading) for reading in given["readings_mm"]]
    return {
        "readings": [
            {"measured_mm": reading, "verdict": verdict}
            for reading, verdict in zip(given["readings_mm"], verdicts, strict=True)
        ],
        "overall": worst(verdicts),
    }


BLEED_OUT = Calculator(
    name="bleed-out",
    summary="whether the bead along a welded lap shows too little heat, or too much",
    fields=(
        Field("readings_mm", Each(length(), least=1), "width of the bead as measured, 0 for none"),
        Field("least_mm", length(), "least width of the bead"),
        Field(
            "most_mm", Nullable(length()), "greatest width of the bead; ≥ least_mm", default=None
        ),
        Field("uncertainty_mm", length(), "expanded uncertainty U of one reading"),
    ),
    results={
        "readings": "measured_mm of each place, and its verdict: cold, too hot, measure again or "
        "right",
        "overall": "the worst of the verdicts",
    },
    sources=(
        "a bead of at least 6 mm (1/4 in): UIHC 07550 (a hospital owner's standard), page 12",
        "a greatest width: common practice, no source",
        "guarded acceptance and guarded rejection: JCGM 106:2012, The role of measurement "
        "uncertainty in conformity assessment, 8.3.2 and 8.3.3 (clauses from memory)",
    ),
    compute=_compute,
    rules=(
        "cold: reading + U < least. too hot: reading − U > most. right: reading − U ≥ least and "
        "reading + U ≤ most. Else measure again.",
        "Without most_mm nothing is too hot.",
        "Overall: cold before too hot before measure again before right.",
    ),
)
