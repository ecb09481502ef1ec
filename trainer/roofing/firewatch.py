"""How long somebody watches after the last flame, under every rule in force at once.

Durations in minutes, times as Moments. Watching is staying; monitoring is looking in again later.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from trainer.errors import InputError, MissingField
from trainer.roofing.clock import (
    Moment,
    Time,
    check_same_form,
    must_not_pass,
    must_wait_for,
    result_time,
)
from trainer.roofing.contract import (
    Calculator,
    Each,
    Either,
    Field,
    Nullable,
    Record,
    Text,
    exact,
    minutes,
)


@dataclass(frozen=True)
class WatchRule:
    """One rule: minutes of watching, then perhaps of monitoring.

    ``watch_min`` is None for a rule that ends "when fire is no longer possible": no clock tells.
    """

    name: str
    watch_min: float | None
    monitor_min: float | None = None


@dataclass(frozen=True)
class Span:
    """The longest that any rule asks for, in minutes from the last flame, and which rule it is."""

    minutes: Fraction
    governing: str


def longest_watch(rules: Sequence[WatchRule]) -> Span | None:
    """The longest watch of the rules, first listed on a tie; None when none has a clock time."""
    return _longest(
        [Span(exact(rule.watch_min), rule.name) for rule in rules if rule.watch_min is not None]
    )


def longest_monitoring(rules: Sequence[WatchRule]) -> Span | None:
    """The longest watch and monitoring together, over the rules that ask for monitoring."""
    return _longest(
        [
            Span(exact(rule.watch_min) + exact(rule.monitor_min), rule.name)
            for rule in rules
            if rule.watch_min is not None and rule.monitor_min is not None
        ]
    )


def _longest(spans: Sequence[Span]) -> Span | None:
    return max(spans, key=lambda span: span.minutes, default=None)


def is_open_ended(rules: Sequence[WatchRule]) -> bool:
    """Whether some rule goes on until fire is no longer possible, whatever the clock says."""
    return any(rule.watch_min is None for rule in rules)


def watch_end(last_flame: Moment, rules: Sequence[WatchRule]) -> Moment | None:
    """When watching is over under every rule that has a clock time; None when none has one."""
    span = longest_watch(rules)
    return last_flame.after(span.minutes) if span else None


def last_flame_by(leave_by: Moment, rules: Sequence[WatchRule]) -> Moment | None:
    """The last moment for a flame if watching must be over at ``leave_by``.

    None when no rule has a clock time.
    """
    span = longest_watch(rules)
    return leave_by.after(-span.minutes) if span else None


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    rules = [WatchRule(**rule) for rule in given["rules"]]
    _check_one_question(given)
    if given["leave_by"] is not None:
        return _answer_leave_by(given["leave_by"], rules)
    return _answer_last_flame(_latest(given["last_flame"]), rules)


def _check_one_question(given: dict[str, Any]) -> None:
    flame, leave = given["last_flame"], given["leave_by"]
    if flame is None and leave is None:
        raise MissingField("last_flame", "exactly one of last_flame and leave_by")
    if flame is not None and leave is not None:
        raise InputError(
            "leave_by", must_wait_for(leave), "exactly one of last_flame and leave_by, not both"
        )


def _latest(last_flame: Moment | list[Moment]) -> Moment:
    if isinstance(last_flame, Moment):
        return last_flame
    check_same_form((f"last_flame[{i}]", flame) for i, flame in enumerate(last_flame))
    return max(last_flame)


def _answer_last_flame(flame: Moment, rules: Sequence[WatchRule]) -> dict[str, Any]:
    watch, monitoring = longest_watch(rules), longest_monitoring(rules)
    cause = ("last_flame", must_wait_for(flame))

    def end(result: str, span: Span | None) -> str | None:
        if span is None:
            return None
        return result_time(result, flame.after(span.minutes), must_wait_for, cause)

    return {
        "watch_end": end("watch_end", watch),
        "monitor_end": end("monitor_end", monitoring),
        "governing_watch": watch and watch.governing,
        "governing_monitor": monitoring and monitoring.governing,
        "open_ended": is_open_ended(rules),
    }


def _answer_leave_by(leave_by: Moment, rules: Sequence[WatchRule]) -> dict[str, Any]:
    watch, latest = longest_watch(rules), last_flame_by(leave_by, rules)
    cause = ("leave_by", must_wait_for(leave_by))
    return {
        "last_flame_by": latest and result_time("last_flame_by", latest, must_not_pass, cause),
        "governing_watch": watch and watch.governing,
        "open_ended": is_open_ended(rules),
    }


_RULE = Record(
    (
        Field("name", Text("the name of the rule"), "which rule this is"),
        Field(
            "watch_min",
            Nullable(minutes()),
            "minutes of watching after the last flame; null for until fire is no longer possible",
        ),
        Field("monitor_min", minutes(), "minutes of monitoring after the watch", optional=True),
    )
)

FIRE_WATCH = Calculator(
    name="fire-watch",
    summary="when the fire watch ends, or by when the last flame must be out",
    fields=(
        Field(
            "last_flame",
            Either((Time(), Each(Time(), least=1))),
            "when the last flame went out; of a list the latest counts (or give leave_by)",
            optional=True,
        ),
        Field(
            "leave_by",
            Time(),
            "when watching must be over (instead of last_flame)",
            optional=True,
        ),
        Field("rules", Each(_RULE, least=1), "every rule in force"),
    ),
    results={
        "watch_end": "latest end of watching, rounded up; null when no rule has a clock time",
        "monitor_end": "latest end of monitoring, rounded up; null when no rule asks for it",
        "last_flame_by": "with leave_by: when the last flame must be out, rounded down",
        "governing_watch": "the rule that decides the watch, the first listed on a tie",
        "governing_monitor": "the rule that decides the monitoring",
        "open_ended": "true when a rule goes on until fire is no longer possible",
    },
    sources=(
        "29 CFR 1926.352(e): until fire is no longer possible, no minutes (secondary source)",
        "29 CFR 1910.252(a)(2)(iii): 30 min (read in a state mirror, WAC 296-307-49503)",
        "NFPA 51B (2019): 60 min, then monitoring up to 3 h if ordered (secondary source)",
        "NFPA 241 (2022) as adopted in 527 CMR 1.00: 2 h after torch-applied roofing (secondary"
        " source)",
    ),
    rules=(
        "Every rule in force is kept, so the longest governs.",
        "A torch lit again starts the clock again: the latest flame counts.",
        "Where open_ended is true the clock is not enough: watch until fire is no longer possible.",
        "Local codes and the permit may ask for more.",
    ),
    compute=_compute,
)
