"""How much wall may be primed in one go, so that every sheet lands on primer dry and open.

Lengths in millimetres, durations in minutes; minute 0 is when priming starts. The schedule runs in
whole ticks of a minute, fine enough for every given value: "exactly in time" is decided exactly.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import lcm
from typing import Any

from trainer.errors import InputError
from trainer.roofing.contract import (
    Calculator,
    Field,
    Flag,
    Number,
    Record,
    count,
    exact,
    length,
    minutes,
)

MOST_SHEETS = 500


@dataclass(frozen=True)
class Break:
    """Nobody works from ``at_min`` for ``minutes``; primer goes on drying and ageing."""

    at_min: float
    minutes: float


@dataclass(frozen=True)
class Batch:
    """One go of priming and laying. side_lap_mm < sheet_mm; teams ≥ 1.

    With ``same_crew`` the crew that primes also lays, so that laying waits for the end of priming.
    """

    dry_min: float
    latest_min: float
    prime_min_per_m: float
    minutes_per_sheet: float
    teams: int
    same_crew: bool
    sheet_mm: float
    side_lap_mm: float
    pause: Break | None = None


@dataclass(frozen=True)
class SheetTimes:
    """When one sheet is begun and down, and how long before its primer closes, in minutes."""

    start_min: Fraction
    done_min: Fraction
    slack_min: Fraction


def largest_batch(batch: Batch) -> list[SheetTimes]:
    """The times of the most sheets (at most MOST_SHEETS) that all get down in time; [] for none.

    Halving the range is sound because a longer batch never helps: the primer under sheet k is begun
    at the same minute, priming ends no earlier, and every step from there (waiting, the break,
    laying) keeps order.
    """
    schedule = _Schedule(batch)
    sheets = bisect_left(range(1, MOST_SHEETS + 1), True, key=schedule.runs_late)
    return schedule.times(sheets)


def batch_times(batch: Batch, sheets: int) -> list[SheetTimes]:
    """The times of a batch of that many sheets, in time or not (then its slack is negative)."""
    return _Schedule(batch).times(sheets)


def batch_length_mm(batch: Batch, sheets: int) -> Fraction:
    """The wall that ``sheets`` cover: n (sheet − lap) + lap, 0 for none."""
    sheet, lap = exact(batch.sheet_mm), exact(batch.side_lap_mm)
    return sheets * (sheet - lap) + lap if sheets else Fraction(0)


class _Schedule:
    """A batch in whole ticks."""

    def __init__(self, batch: Batch) -> None:
        pause = batch.pause or Break(0, 0)
        per_mm = exact(batch.prime_min_per_m) / 1000
        sheet, lap = exact(batch.sheet_mm), exact(batch.side_lap_mm)
        durations = (
            exact(batch.dry_min),
            exact(batch.latest_min),
            exact(batch.minutes_per_sheet),
            exact(pause.at_min),
            exact(pause.minutes),
            per_mm * sheet,
            per_mm * (sheet - lap),
        )
        self.ticks = lcm(*(duration.denominator for duration in durations))
        ticks = [int(duration * self.ticks) for duration in durations]
        self.dry, self.latest, self.lay, self.pause_at, self.pause, self.sheet, self.pitch = ticks
        self.teams = batch.teams
        self.same_crew = batch.same_crew
        self.begin = self.resume(0)

    def resume(self, tick: int) -> int:
        """When work that could start at ``tick`` does start: after the break if that has begun."""
        pause_end = self.pause_at + self.pause
        return pause_end if self.pause_at <= tick < pause_end else tick

    def finish(self, start: int, work: int) -> int:
        """When work begun at ``start`` is done; a break interrupts it unless it ends just then."""
        end = start + work
        return end + self.pause if start < self.pause_at < end else end

    def primed(self, sheet: int) -> int:
        """When the whole stretch of a sheet (counted from 0) is primed."""
        return self.finish(self.begin, sheet * self.pitch + self.sheet)

    def first_primed(self, sheet: int) -> int:
        """When priming of a sheet's first millimetre begins; not before a break, but after it."""
        return self.resume(self.finish(self.begin, sheet * self.pitch))

    def run(self, sheets: int) -> Iterator[tuple[int, int, int]]:
        """Start, done and slack of each sheet.

        Sheets start in order and last equally long, so they end in order: the team that is free
        first is the one that laid the sheet ``teams`` before.
        """
        all_primed = self.primed(sheets - 1) if self.same_crew else 0
        done: list[int] = []
        for k in range(sheets):
            free = done[k - self.teams] if k >= self.teams else 0
            start = self.resume(max(self.primed(k) + self.dry, free, all_primed))
            done.append(self.finish(start, self.lay))
            yield start, done[k], self.first_primed(k) + self.latest - done[k]

    def runs_late(self, sheets: int) -> bool:
        return any(slack < 0 for _, _, slack in self.run(sheets))

    def times(self, sheets: int) -> list[SheetTimes]:
        return [
            SheetTimes(*(Fraction(tick, self.ticks) for tick in ticks))
            for ticks in self.run(sheets)
        ]


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    pause = Break(**given["break"]) if given["break"] else None
    names = [name for name in Batch.__dataclass_fields__ if name != "pause"]
    batch = Batch(**{name: given[name] for name in names}, pause=pause)
    if exact(batch.side_lap_mm) >= exact(batch.sheet_mm):
        raise InputError("side_lap_mm", batch.side_lap_mm, f"less than sheet_mm ({batch.sheet_mm})")
    timeline = largest_batch(batch)
    long = batch_length_mm(batch, len(timeline))
    area_m2 = long * exact(given["girth_mm"]) / 1_000_000
    return {
        "sheets": len(timeline),
        "capped": len(timeline) == MOST_SHEETS,
        "length_mm": long,
        "area_m2": area_m2,
        "litres": area_m2 / exact(given["coverage_m2_per_l"]),
        "timeline": [vars(times) for times in timeline],
    }


_BREAK = Record(
    (
        Field("at_min", minutes(), "minutes from the start of priming"),
        Field("minutes", minutes(), "how long nobody works"),
    )
)

PRIMER_BATCH = Calculator(
    name="primer-batch",
    summary="how much wall may be primed in one go before the sheets follow",
    fields=(
        Field("dry_min", minutes(), "drying time before a sheet may go on"),
        Field("latest_min", minutes(), "a sheet is down within this of priming its start"),
        Field("prime_min_per_m", Number("min/m", low=0), "time to prime a metre of wall"),
        Field("minutes_per_sheet", minutes(), "time to lay one sheet"),
        Field("teams", count(low=1), "teams that lay, each one sheet at a time"),
        Field("same_crew", Flag(), "the crew that primes also lays, after all priming"),
        Field("sheet_mm", length(positive=True), "width of a sheet along the wall"),
        Field("side_lap_mm", length(), "overlap of neighbouring sheets, less than sheet_mm"),
        Field("girth_mm", length(positive=True), "length of a sheet, from field to parapet top"),
        Field("coverage_m2_per_l", Number("m²/L", above=0), "area that a litre of primer covers"),
        Field("break", _BREAK, "a break in which nobody works", optional=True),
    ),
    results={
        "sheets": f"most sheets that all get down in time, 0 to {MOST_SHEETS}",
        "capped": f"true when sheets is {MOST_SHEETS}: there may be room for more",
        "length_mm": "wall to prime, n (sheet − lap) + lap; 0 for none",
        "area_m2": "area to prime, m²",
        "litres": "primer for it, litres",
        "timeline": "per sheet start_min, done_min, slack_min (left of its primer when down)",
    },
    sources=(
        "The data sheet of the primer gives dry_min, latest_min and coverage",
        "Prime no more than can be covered in time: common practice, no source",
    ),
    rules=(
        "Sheets are laid in order, the next by the team that is free first.",
        "Down exactly in time counts.",
        "A break interrupts work; drying and ageing go on. Work that would start when it begins"
        " waits for its end, work that ends then is finished.",
    ),
    compute=_compute,
)
