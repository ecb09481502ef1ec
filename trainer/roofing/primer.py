"""Whether a primed surface may be covered now: its age, its touch, and what fell on it.

Durations in minutes, times as Moments. Primer is touch-tested because clocks do not know the
weather: least drying time and touch must both be met.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Literal

from trainer.errors import InputError
from trainer.roofing.clock import (
    Moment,
    Time,
    check_not_before,
    check_same_form,
    must_not_pass,
    must_wait_for,
    result_time,
)
from trainer.roofing.contract import Calculator, Choice, Each, Field, Record, exact, minutes

State = Literal["spoiled", "expired", "drying", "late", "ready"]

TOUCHES = ("wet", "tacky", "dry")
"""What the finger finds, in the order in which primer dries."""

REMEDIES = {
    "frost": "thaw and dry, then prime again",
    "rain": "dry, then prime again",
    "dew": "dry, then prime again",
    "dust": "brush clean, then prime again",
    "footprints": "brush clean, then prime again",
}
"""What spoils primer, worst first, and what is done about it."""

_EXPIRED_REMEDY = "prime again"


@dataclass(frozen=True)
class Coat:
    """One coat of primer; minutes from its application.

    dry_min ≤ plan_min ≤ latest_min. ``touch_required`` is "dry" or "tacky".
    """

    applied_at: Moment
    dry_min: float
    plan_min: float
    latest_min: float
    touch_required: str = "dry"

    @property
    def ready_at(self) -> Moment:
        return self.applied_at.after(self.dry_min)

    @property
    def plan_at(self) -> Moment:
        return self.applied_at.after(self.plan_min)

    @property
    def close_at(self) -> Moment:
        return self.applied_at.after(self.latest_min)


@dataclass(frozen=True)
class Event:
    """Something that spoils primer: ``kind`` is a key of REMEDIES."""

    at: Moment
    kind: str


@dataclass(frozen=True)
class Verdict:
    """Whether the coat may be covered, minutes left until it closes, what to do if it may not."""

    state: State
    minutes_left: Fraction
    remedy: str | None


def judge(coat: Coat, now: Moment, touch: str, events: Iterable[Event] = ()) -> Verdict:
    """The state at ``now``: the first that holds of spoiled, expired, drying, late, ready.

    All moments have one form. A limit met exactly is met: at ``close_at`` itself the coat is open.
    Common practice, no source: plan to cover within 120 min, never after 180; the data sheet
    overrides both.
    """
    worst = _worst(event.kind for event in events if coat.applied_at <= event.at <= now)
    state = "spoiled" if worst else _state(coat, now, touch)
    remedy = REMEDIES[worst] if worst else (_EXPIRED_REMEDY if state == "expired" else None)
    return Verdict(state, coat.close_at.since(now), remedy)


def _worst(kinds: Iterable[str]) -> str | None:
    happened = set(kinds)
    return next((kind for kind in REMEDIES if kind in happened), None)


def _state(coat: Coat, now: Moment, touch: str) -> State:
    if now > coat.close_at:
        return "expired"
    if now < coat.ready_at or TOUCHES.index(touch) < TOUCHES.index(coat.touch_required):
        return "drying"
    return "late" if now > coat.plan_at else "ready"


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    coat = Coat(**{name: given[name] for name in Coat.__dataclass_fields__})
    events = [Event(**event) for event in given["events"]]
    _check_order(coat)
    _check_times(coat, given["now"], events)
    verdict = judge(coat, given["now"], given["touch"], events)
    return {
        "state": verdict.state,
        "ready_at": result_time("ready_at", coat.ready_at, must_wait_for, _cause("dry_min", given)),
        "plan_at": result_time("plan_at", coat.plan_at, must_not_pass, _cause("plan_min", given)),
        "close_at": result_time(
            "close_at", coat.close_at, must_not_pass, _cause("latest_min", given)
        ),
        "minutes_left": verdict.minutes_left,
        "remedy": verdict.remedy,
    }


def _cause(name: str, given: dict[str, Any]) -> tuple[str, Any]:
    return name, given[name]


def _check_order(coat: Coat) -> None:
    if exact(coat.plan_min) < exact(coat.dry_min):
        raise InputError("plan_min", coat.plan_min, f"dry_min ({coat.dry_min}) or more")
    if exact(coat.latest_min) < exact(coat.plan_min):
        raise InputError("latest_min", coat.latest_min, f"plan_min ({coat.plan_min}) or more")


def _check_times(coat: Coat, now: Moment, events: Sequence[Event]) -> None:
    later = [("now", now), *((f"events[{i}].at", event.at) for i, event in enumerate(events))]
    check_same_form([("applied_at", coat.applied_at), *later])
    for name, moment in later:
        check_not_before(name, moment, "applied_at", coat.applied_at)


_EVENT = Record(
    (
        Field("at", Time(), "when it happened, at or after applied_at"),
        Field("kind", Choice(("rain", "dew", "frost", "dust", "footprints")), "what happened"),
    )
)

PRIMER = Calculator(
    name="primer",
    summary="whether a primed surface may be covered now, and until when",
    fields=(
        Field("applied_at", Time(), "when the primer went on"),
        Field("now", Time(), "the moment to judge, at or after applied_at"),
        Field("dry_min", minutes(), "least drying time of the data sheet, 0 if none"),
        Field("plan_min", minutes(), "plan to cover within; dry_min ≤ plan_min"),
        Field("latest_min", minutes(), "never cover after; plan_min ≤ latest_min"),
        Field("touch", Choice(TOUCHES), "what the finger finds"),
        Field(
            "touch_required",
            Choice(("dry", "tacky")),
            "dry, or tacky for a primer that stays so and passes when nothing comes off",
        ),
        Field("events", Each(_EVENT), "what fell on the primer; later than now is ignored", ()),
    ),
    results={
        "state": "the first that holds: spoiled, expired, drying, late, ready",
        "ready_at": "end of the least drying time, rounded up to the minute",
        "plan_at": "end of the time to plan for, rounded down",
        "close_at": "last moment to cover, rounded down",
        "minutes_left": "minutes to close_at, negative once past",
        "remedy": "what to do when spoiled (the worst event rules) or expired, else null",
    },
    sources=(
        "The data sheet of the primer gives dry_min, latest_min and the touch it must have",
        "Without one, plan to cover within 120 min, never after 180: common practice, no source",
        "Order of states and remedies: common practice, no source",
    ),
    rules=(
        "A limit met exactly is met: at close_at itself a sheet may still go on.",
        "An event counts from applied_at to now, both included.",
        "Worst event first: frost, rain, dew, dust, footprints.",
        "Solvent primer that is not dry, and its open can, keep away from any flame.",
    ),
    compute=_compute,
)
