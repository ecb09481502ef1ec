"""Is the lap wide enough: as measured, and where a sheet that runs out of plumb tapers it.

Verdicts are reached in exact arithmetic on the numbers as they were written, so that a limit met
exactly is met. Lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Literal

from trainer.errors import InputError, MissingField
from trainer.roofing.contract import Calculator, Each, Field, Number, exact, length

Verdict = Literal["reject", "measure again", "accept"]
_WORST_FIRST: tuple[Verdict, ...] = ("reject", "measure again", "accept")


@dataclass(frozen=True)
class CoverStrip:
    """The strip that covers a lap too short, centred on the exposed edge."""

    width_mm: float
    past_ends_mm: float
    centred_on: Literal["exposed edge"] = "exposed edge"


def judge_reading(
    measured_mm: float | Fraction, required_mm: float, uncertainty_mm: float
) -> Verdict:
    """Guarded acceptance and guarded rejection of one reading against a least width.

    ``uncertainty_mm`` is the expanded uncertainty U of one reading, ≥ 0. accept: reading − U ≥
    required; reject: reading + U < required; else measure again. JCGM 106:2012, 8.3.2, 8.3.3.

    >>> judge_reading(77, 75, 2), judge_reading(76.9, 75, 2), judge_reading(72.9, 75, 2)
    ('accept', 'measure again', 'reject')
    """
    measured = _exactly(measured_mm)
    required, uncertainty = exact(required_mm), exact(uncertainty_mm)
    if measured - uncertainty >= required:
        return "accept"
    return "reject" if measured + uncertainty < required else "measure again"


def worst(verdicts: Sequence[Verdict]) -> Verdict:
    """The verdict that rules a lap read in several places; at least one verdict."""
    return min(verdicts, key=_WORST_FIRST.index)


def cover_strip(required_mm: float) -> CoverStrip:
    """A strip that gives the required lap to both sides of the exposed edge and past its ends."""
    return CoverStrip(width_mm=2 * required_mm, past_ends_mm=required_mm)


def hidden_lap_mm(sheet_mm: float, spacing_mm: float) -> Fraction:
    """The lap under a sheet whose exposed edge is ``spacing_mm`` from the next; < 0 for a gap."""
    return exact(sheet_mm) - exact(spacing_mm)


@dataclass(frozen=True)
class Taper:
    """A lap that changes evenly along the sheet. down_mm > 0, measured from the top mark.

    ``drift_mm_per_m`` is how much the sheet runs out of plumb; positive opens the lap downwards.
    """

    lap_top_mm: float
    down_mm: float
    drift_mm_per_m: float
    required_mm: float

    @property
    def lap_bottom_mm(self) -> Fraction:
        return exact(self.lap_top_mm) + exact(self.drift_mm_per_m) * exact(self.down_mm) / 1000

    @property
    def spare_top_mm(self) -> Fraction:
        """What the lap has over the required one at the top mark; negative where it is short."""
        return exact(self.lap_top_mm) - exact(self.required_mm)

    @property
    def ok(self) -> bool:
        """Whether both ends hold, and with them every place between."""
        return self.spare_top_mm >= 0 and self.lap_bottom_mm >= exact(self.required_mm)

    @property
    def fails_at_mm(self) -> Fraction | None:
        """Distance below the top mark from which the lap is short; 0 if at once, None if never."""
        if self.ok:
            return None
        if self.spare_top_mm < 0:
            return Fraction(0)
        return self.spare_top_mm * 1000 / -exact(self.drift_mm_per_m)

    @property
    def max_drift_mm_per_m(self) -> Fraction | None:
        """How far out of plumb the sheet may close the lap; None when the top is short already."""
        if self.spare_top_mm < 0:
            return None
        return self.spare_top_mm * 1000 / exact(self.down_mm)


def _exactly(value: float | Fraction) -> Fraction:
    return value if isinstance(value, Fraction) else exact(value)


def _readings(given: dict[str, Any]) -> list[Fraction]:
    """The laps as measured, or behind their spacing. Raises InputError for both or neither."""
    measured, sheet, spacing = given["measured_mm"], given["sheet_mm"], given["spacing_mm"]
    if measured is not None:
        for name in ("sheet_mm", "spacing_mm"):
            if given[name] is not None:
                raise InputError(name, given[name], "left out where measured_mm is given")
        return [exact(reading) for reading in measured]
    if sheet is None and spacing is None:
        raise MissingField("measured_mm", "a list of readings, or sheet_mm with spacing_mm")
    for name in ("sheet_mm", "spacing_mm"):
        if given[name] is None:
            raise MissingField(name, "given where measured_mm is not, sheet_mm with spacing_mm")
    return [hidden_lap_mm(sheet, between) for between in spacing]


def _compute_lap(given: dict[str, Any]) -> dict[str, Any]:
    readings = _readings(given)
    required = given["required_mm"]
    verdicts = [judge_reading(reading, required, given["uncertainty_mm"]) for reading in readings]
    overall = worst(verdicts)
    return {
        "readings": [
            {"measured_mm": reading, "verdict": verdict}
            for reading, verdict in zip(readings, verdicts, strict=True)
        ],
        "overall": overall,
        "cover_strip": vars(cover_strip(required)) if overall == "reject" else None,
    }


def _compute_drift(given: dict[str, Any]) -> dict[str, Any]:
    taper = Taper(**given)
    names = ("lap_bottom_mm", "ok", "fails_at_mm", "max_drift_mm_per_m")
    return {name: getattr(taper, name) for name in names}


LAP = Calculator(
    name="lap",
    summary="whether measured laps are wide enough, given how well they are measured",
    fields=(
        Field(
            "measured_mm",
            Each(length(), least=1),
            "widths as measured; or give sheet_mm and spacing_mm",
            optional=True,
        ),
        Field("sheet_mm", length(positive=True), "width of a sheet", optional=True),
        Field(
            "spacing_mm",
            Each(length(), least=1),
            "visible distance between neighbouring exposed edges: hidden lap = sheet − spacing",
            optional=True,
        ),
        Field("required_mm", length(), "least width of a lap"),
        Field("uncertainty_mm", length(), "expanded uncertainty U of one reading"),
    ),
    results={
        "readings": "measured_mm of each lap, and its verdict: accept, reject or measure again",
        "overall": "the worst of the verdicts",
        "cover_strip": "width_mm, past_ends_mm and centred_on where anything is rejected, or null",
    },
    sources=(
        "guarded acceptance and guarded rejection: JCGM 106:2012, The role of measurement "
        "uncertainty in conformity assessment, 8.3.2 and 8.3.3 (clauses from memory)",
        "cover strip twice the required lap wide and past both ends: common practice, no source",
    ),
    compute=_compute_lap,
    rules=(
        "accept: reading − U ≥ required. reject: reading + U < required. Else measure again.",
        "Overall: reject before measure again before accept.",
    ),
)

DRIFT = Calculator(
    name="drift",
    summary="how a lap tapers when the sheet runs out of plumb",
    fields=(
        Field("lap_top_mm", length(), "lap at the top mark"),
        Field("down_mm", length(positive=True), "along the sheet from the mark to its bottom edge"),
        Field("drift_mm_per_m", Number("mm/m"), "out of plumb; positive opens the lap downwards"),
        Field("required_mm", length(), "least width of a lap"),
    ),
    results={
        "lap_bottom_mm": "lap at the bottom edge; negative where the sheets have parted",
        "ok": "whether both ends hold",
        "fails_at_mm": "distance below the top mark where the lap falls short, null if never",
        "max_drift_mm_per_m": "most it may close the lap, null when the top is short already",
    },
    sources=("similar triangles: the lap changes evenly along a straight edge",),
    compute=_compute_drift,
    rules=("max_drift_mm_per_m counts towards closing: a drift of −max leaves the required lap.",),
)
