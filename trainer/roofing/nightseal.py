"""When sealing the open edge must begin, so that the roof is tight before the rain or the night.

Lengths of edge in metres, durations in minutes, times as Moments. Fetching what seals is done once;
after it everybody seals, each an equal share.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from trainer.errors import InputError, MissingField
from trainer.roofing.clock import Moment, Time, check_same_form, must_not_pass, result_time
from trainer.roofing.contract import Calculator, Field, Number, count, exact, minutes


@dataclass(frozen=True)
class Seal:
    """Sealing an open edge of ``open_m`` metres; people ≥ 1, nothing negative."""

    open_m: float
    seal_min_per_m: float
    people: int
    fetch_min: float

    @property
    def minutes(self) -> Fraction:
        """From laying down the last sheet to tight: fetch + edge × pace ÷ people."""
        sealing = exact(self.open_m) * exact(self.seal_min_per_m) / self.people
        return exact(self.fetch_min) + sealing

    def start_by(self, tight_by: Moment) -> Moment:
        """The last moment to begin for a roof that is tight at ``tight_by``."""
        return tight_by.after(-self.minutes)


def sheets_in(minutes_left: Fraction, minutes_per_sheet: float) -> int:
    """Whole sheets that are down within ``minutes_left``, one after the other; 0 where none is.

    ``minutes_per_sheet`` > 0. A sheet that is down exactly in time counts.
    """
    return max(0, math.floor(minutes_left / exact(minutes_per_sheet)))


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    _check_together(given)
    seal = Seal(**{name: given[name] for name in Seal.__dataclass_fields__})
    start_by = seal.start_by(given["tight_by"])
    results = {
        "seal_min": seal.minutes,
        "start_by": result_time(
            "start_by", start_by, must_not_pass, ("tight_by", must_not_pass(given["tight_by"]))
        ),
    }
    if given["now"] is None:
        return results
    left = start_by.since(given["now"])
    sheets = sheets_in(left, given["minutes_per_sheet"])
    return results | {"minutes_left": left, "sheets_before": sheets}


def _check_together(given: dict[str, Any]) -> None:
    now, per_sheet = given["now"], given["minutes_per_sheet"]
    if now is None and per_sheet is None:
        return
    if now is None:
        raise InputError("minutes_per_sheet", per_sheet, "together with now, or neither")
    if per_sheet is None:
        raise MissingField("minutes_per_sheet", "a number > 0 (min), as now is given")
    check_same_form([("tight_by", given["tight_by"]), ("now", now)])


NIGHT_SEAL = Calculator(
    name="night-seal",
    summary="by when to begin sealing the open edge, and how many sheets still fit before",
    fields=(
        Field("tight_by", Time(), "when the roof must be tight: rain, dark, end of work"),
        Field("open_m", Number("m", low=0), "length of all edges that are open"),
        Field("seal_min_per_m", Number("min/m", low=0), "time for one person to seal a metre"),
        Field("people", count(low=1), "how many seal"),
        Field("fetch_min", minutes(), "time to fetch and set up, before anybody seals"),
        Field("now", Time(), "the moment to judge (with minutes_per_sheet)", optional=True),
        Field(
            "minutes_per_sheet",
            minutes(positive=True),
            "time to lay one more sheet (with now)",
            optional=True,
        ),
    ),
    results={
        "seal_min": "from beginning to tight: fetch_min + open_m × seal_min_per_m ÷ people",
        "start_by": "last moment to begin, rounded down",
        "minutes_left": "with now: minutes to start_by, negative once past",
        "sheets_before": "with now: whole sheets that still fit before start_by, 0 if none",
    },
    sources=(
        "Sealed whenever work stops or rain is near: UFGS 07550, 3.4 (read)",
        "How long a metre takes: the crew's own pace, no source",
    ),
    rules=(
        "A sheet more is taken not to lengthen the open edge; where it does, give the longer edge.",
        "Everybody seals at the same pace; fetching is not shared out.",
        "Begun exactly at start_by is in time.",
    ),
    compute=_compute,
)
