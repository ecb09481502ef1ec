"""How long a bitumen burn is cooled: first aid by the clock, until whoever treats it takes over.

Durations in minutes, times as Moments.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from trainer.roofing.clock import (
    Moment,
    Time,
    check_not_before,
    check_same_form,
    must_wait_for,
    result_time,
)
from trainer.roofing.contract import Calculator, Field, minutes


@dataclass(frozen=True)
class Cooling:
    """Running water on a burn since ``since``, without a break; to last ``cool_min`` minutes."""

    since: Moment
    cool_min: float

    @property
    def until(self) -> Moment:
        return self.since.after(self.cool_min)

    def minutes_left(self, now: Moment) -> Fraction:
        """Minutes of cooling still to come; negative when it has gone on longer."""
        return self.until.since(now)


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    cooling, now = Cooling(given["cooling_since"], given["cool_min"]), given["now"]
    check_same_form([("cooling_since", cooling.since), ("now", now)])
    check_not_before("now", now, "cooling_since", cooling.since)
    left = cooling.minutes_left(now)
    cause = ("cool_min", cooling.cool_min)
    return {
        "cool_until": result_time("cool_until", cooling.until, must_wait_for, cause),
        "minutes_left": left,
        "enough": left <= 0,
    }


BURN_COOLING = Calculator(
    name="burn-cooling",
    summary="how long a bitumen burn still stays under running water",
    fields=(
        Field("cooling_since", Time(), "since when water runs over the burn without a break"),
        Field("now", Time(), "the moment to judge, at or after cooling_since"),
        Field("cool_min", minutes(positive=True), "least time of cooling"),
    ),
    results={
        "cool_until": "when it has been cooled for that long, rounded up",
        "minutes_left": "minutes to that, negative once past",
        "enough": "whether it has been cooled for that long at now",
    },
    sources=(
        "20 min of cool running water, bitumen left on the skin: Victorian Adult Burns Service"
        " (read)",
        "At least 20 min: Eurobitume burns card; Cornell LRP citing the Asphalt Institute (read)",
    ),
    rules=(
        "Call for help first; cool until they take over, and no shorter than this.",
        "After a break the time counts anew: the program's own, on the safe side.",
        "The bitumen stays on the skin; only medical staff take it off.",
    ),
    compute=_compute,
)
