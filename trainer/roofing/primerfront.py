"""Along a wall that is being primed: where the primer is wet, ready, late and dead at one moment.

Lengths in millimetres along the wall from where priming began, durations in minutes.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Literal

from trainer.errors import InputError
from trainer.roofing.clock import Time, check_not_before, check_same_form
from trainer.roofing.contract import Calculator, Field, Number, exact, length, minutes

PrimerState = Literal["dead", "late", "ready", "drying"]


@dataclass(frozen=True)
class Front:
    """Primer that went on at constant speed from 0 on; ``elapsed_min`` ≥ 0 since then.

    dry_min ≤ plan_min ≤ latest_min, length_mm > 0, nothing negative.
    """

    elapsed_min: float | Fraction
    prime_min_per_m: float
    length_mm: float
    dry_min: float
    plan_min: float
    latest_min: float

    @property
    def primed_mm(self) -> Fraction:
        """How far the roller has come."""
        return self._reached(Fraction(0), met=True)

    @property
    def dead_to_mm(self) -> Fraction:
        """End of the primer that is older than latest_min."""
        return self._reached(exact(self.latest_min), met=False)

    @property
    def late_to_mm(self) -> Fraction:
        """End of the primer that is older than plan_min."""
        return self._reached(exact(self.plan_min), met=False)

    @property
    def ready_to_mm(self) -> Fraction:
        """End of the primer that is dry_min old or older."""
        return self._reached(exact(self.dry_min), met=True)

    def _reached(self, age: Fraction, *, met: bool) -> Fraction:
        """How far from 0 primer is older than ``age``, or with ``met`` that old or older."""
        whole = exact(self.length_mm)
        spare = _exactly(self.elapsed_min) - age
        if spare < 0 or (spare == 0 and not met):
            return Fraction(0)
        per_mm = exact(self.prime_min_per_m) / 1000
        return min(spare / per_mm, whole) if per_mm else whole

    def stretches(self) -> Iterator[tuple[Fraction, Fraction, PrimerState]]:
        """From, to and state of each stretch that has any length, from 0 to primed_mm."""
        ends: tuple[tuple[Fraction, PrimerState], ...] = (
            (self.dead_to_mm, "dead"),
            (self.late_to_mm, "late"),
            (self.ready_to_mm, "ready"),
            (self.primed_mm, "drying"),
        )
        begin = Fraction(0)
        for end, state in ends:
            if end > begin:
                yield begin, end, state
                begin = end


def _exactly(value: float | Fraction) -> Fraction:
    return value if isinstance(value, Fraction) else exact(value)


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    started, now = given["started_at"], given["now"]
    check_same_form([("started_at", started), ("now", now)])
    check_not_before("now", now, "started_at", started)
    _check_order(given)
    names = [name for name in Front.__dataclass_fields__ if name != "elapsed_min"]
    front = Front(now.since(started), **{name: given[name] for name in names})
    return {
        "primed_mm": front.primed_mm,
        "dead_to_mm": front.dead_to_mm,
        "late_to_mm": front.late_to_mm,
        "ready_to_mm": front.ready_to_mm,
        "stretches": [
            {"from_mm": begin, "to_mm": end, "state": state}
            for begin, end, state in front.stretches()
        ],
    }


def _check_order(given: dict[str, Any]) -> None:
    for name, least in (("plan_min", "dry_min"), ("latest_min", "plan_min")):
        if exact(given[name]) < exact(given[least]):
            raise InputError(name, given[name], f"{least} ({given[least]}) or more")


PRIMER_FRONT = Calculator(
    name="primer-front",
    summary="where along a wall the primer is dead, late, ready and still drying",
    fields=(
        Field("started_at", Time(), "when priming began, at 0"),
        Field("now", Time(), "the moment to judge, at or after started_at"),
        Field("prime_min_per_m", Number("min/m", low=0), "time to prime a metre of wall"),
        Field("length_mm", length(positive=True), "wall to prime"),
        Field("dry_min", minutes(), "least drying time of the data sheet, 0 if none"),
        Field("plan_min", minutes(), "plan to cover within; dry_min ≤ plan_min"),
        Field("latest_min", minutes(), "never cover after; plan_min ≤ latest_min"),
    ),
    results={
        "primed_mm": "how far the primer has come, from 0",
        "dead_to_mm": "end of the primer past latest_min, 0 if none",
        "late_to_mm": "end of the primer past plan_min, 0 if none",
        "ready_to_mm": "end of the primer that has dried for dry_min, 0 if none",
        "stretches": "from_mm, to_mm and state (dead, late, ready, drying) of each, none empty",
    },
    sources=(
        "The data sheet of the primer gives dry_min and latest_min",
        "Without one, plan to cover within 120 min, never after 180: common practice, no source",
        "States as of the calculator primer, whose expired is dead here",
    ),
    rules=(
        "A limit met exactly is met, as with the calculator primer.",
        "The clock is half of it: the finger has its say at every metre.",
        "Solvent primer that is not dry, and its open can, keep away from any flame.",
    ),
    compute=_compute,
)
