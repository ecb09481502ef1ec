"""Whether a self-adhesive roll and the wall are warm enough to lay now.

Temperatures in degrees Celsius, storage in hours, times as Moments.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from trainer.roofing.clock import (
    Moment,
    Time,
    check_not_before,
    check_same_form,
    must_wait_for,
    result_time,
)
from trainer.roofing.contract import Calculator, Field, Nullable, Number, exact


@dataclass(frozen=True)
class Roll:
    """A roll kept at ``stored_c``, then from ``inside_since`` in a dry heated space.

    ``inside_since`` is None for a roll that never was. A roll that was kept below ``cold_from_c``
    needs ``storage_h`` hours in there.
    """

    stored_c: float
    cold_from_c: float
    storage_h: float
    inside_since: Moment | None = None

    @property
    def was_cold(self) -> bool:
        return exact(self.stored_c) < exact(self.cold_from_c)

    def ready_at(self, now: Moment) -> Moment | None:
        """When it may be laid; None for a cold roll that nobody brought in.

        A roll that was not cold may be laid at once: when it came in, or ``now``.
        """
        if not self.was_cold:
            return self.inside_since or now
        if self.inside_since is None:
            return None
        return self.inside_since.after(exact(self.storage_h) * 60)


def is_warm_enough(surface_c: float, least_c: float) -> bool:
    """Whether a wall of ``surface_c`` may be covered; exactly the least is enough."""
    return exact(surface_c) >= exact(least_c)


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    roll = Roll(**{name: given[name] for name in Roll.__dataclass_fields__})
    now = given["now"]
    _check_times(roll, now)
    ready_at = roll.ready_at(now)
    grounds = ["roll cold"] * (ready_at is None or now < ready_at)
    if not is_warm_enough(given["surface_c"], given["surface_least_c"]):
        grounds.append("wall cold")
    cause = ("storage_h", roll.storage_h)
    return {
        "ready": not grounds,
        "ready_at": ready_at and result_time("ready_at", ready_at, must_wait_for, cause),
        "grounds": grounds,
    }


def _check_times(roll: Roll, now: Moment) -> None:
    if roll.inside_since is not None:
        check_same_form([("inside_since", roll.inside_since), ("now", now)])
        check_not_before("now", now, "inside_since", roll.inside_since)


_TEMPERATURE = Number("°C", low=-60, high=100)

COLD_ROLL = Calculator(
    name="cold-roll",
    summary="whether a roll from the cold and the wall are warm enough to lay now",
    fields=(
        Field(
            "inside_since",
            Nullable(Time()),
            "since when the roll lies in a dry heated space; null if it never did",
            optional=True,
        ),
        Field("now", Time(), "the moment to judge, at or after inside_since"),
        Field("storage_h", Number("h", low=0), "hours a cold roll needs in there"),
        Field("stored_c", _TEMPERATURE, "temperature the roll was kept at before"),
        Field("cold_from_c", _TEMPERATURE, "a roll kept below this is cold"),
        Field("surface_c", _TEMPERATURE, "temperature of the wall"),
        Field("surface_least_c", _TEMPERATURE, "least temperature of the wall"),
    ),
    results={
        "ready": "whether the roll may go on this wall now",
        "ready_at": "when the roll may be laid, rounded up; null for a cold one nobody brought in",
        "grounds": '"roll cold", "wall cold", in this order; empty when ready',
    },
    sources=(
        "24 h in a dry heated space where sheets are laid below 10 °C: ARMA, cold-weather"
        " recommendations (read)",
        "Wall at least 2 °C: NF DTU 43.4 P1-1, 9.3.1 (secondary source); adhesive laps above 5 °C:"
        " RP-2025, 6.2.3.2.1.2 (read)",
    ),
    rules=(
        "The data sheet of the sheet overrides every limit here.",
        "A roll kept at cold_from_c or warmer is ready at inside_since, or now if it has none.",
        "Exactly the hours and exactly the least temperature are enough.",
    ),
    compute=_compute,
)
