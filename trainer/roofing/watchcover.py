"""Is somebody watching all the time? Presence of several people against one stretch of time."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from trainer.errors import InputError
from trainer.roofing.clock import (
    Moment,
    Time,
    check_not_before,
    check_same_form,
    must_wait_for,
)
from trainer.roofing.contract import Calculator, Each, Field, Record, Text


@dataclass(frozen=True, order=True)
class Stretch:
    """A stretch of time, start ≤ end. One that ends when it starts is no time at all."""

    start: Moment
    end: Moment

    @property
    def minutes(self) -> Fraction:
        return self.end.since(self.start)


def uncovered(wanted: Stretch, present: Iterable[Stretch]) -> list[Stretch]:
    """What ``present`` leaves open of ``wanted``, in order, each longer than nothing.

    A handover in the same minute leaves nothing open, and being there for no time fills nothing.
    """
    gaps = []
    seen_to = wanted.start
    for stretch in sorted(each for each in present if each.minutes):
        if stretch.start > seen_to:
            gaps.append(Stretch(seen_to, min(stretch.start, wanted.end)))
        seen_to = max(seen_to, stretch.end)
        if seen_to >= wanted.end:
            break
    gaps.append(Stretch(seen_to, wanted.end))
    return [gap for gap in gaps if gap.minutes > 0]


def truly_present(
    here: Mapping[str, Sequence[Stretch]], away: Mapping[str, Sequence[Stretch]]
) -> list[Stretch]:
    """Everybody's time on the watch, by name, less the time that the same person is away."""
    return [
        left
        for name, stretches in here.items()
        for stretch in stretches
        for left in uncovered(stretch, away.get(name, ()))
    ]


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    away = given["away"] or []
    _check_times(given, away)
    here = _by_name(given["watchers"])
    _check_names(away, here)
    wanted = Stretch(given["from"], given["to"])
    gaps = uncovered(wanted, truly_present(here, _by_name(away)))
    return {
        "covered": not gaps,
        "gaps": [
            {
                "from": must_wait_for(gap.start),
                "to": must_wait_for(gap.end),
                "minutes": gap.minutes,
            }
            for gap in gaps
        ],
        "uncovered_min": sum((gap.minutes for gap in gaps), Fraction(0)),
    }


def _check_times(given: Mapping[str, Any], away: Sequence[Mapping[str, Any]]) -> None:
    """One form throughout, and nothing that ends before it starts."""
    spans = [("", given), *_named("watchers", given["watchers"]), *_named("away", away)]
    check_same_form(
        (f"{place}{edge}", span[edge]) for place, span in spans for edge in ("from", "to")
    )
    for place, span in spans:
        check_not_before(f"{place}to", span["to"], f"{place}from", span["from"])


def _named(
    field: str, spans: Sequence[Mapping[str, Any]]
) -> Iterator[tuple[str, Mapping[str, Any]]]:
    return ((f"{field}[{i}].", span) for i, span in enumerate(spans))


def _by_name(spans: Sequence[Mapping[str, Any]]) -> dict[str, list[Stretch]]:
    found: dict[str, list[Stretch]] = {}
    for span in spans:
        found.setdefault(span["name"], []).append(Stretch(span["from"], span["to"]))
    return found


def _check_names(away: Sequence[Mapping[str, Any]], here: Mapping[str, Any]) -> None:
    for i, span in enumerate(away):
        if span["name"] not in here:
            allowed = f"one of the watchers ({', '.join(here) or 'there are none'})"
            raise InputError(f"away[{i}].name", span["name"], allowed)


def _span(who: str, begins: str, ends: str) -> Record:
    return Record(
        (
            Field("name", Text(), who),
            Field("from", Time(), begins),
            Field("to", Time(), ends),
        )
    )


WATCH_COVER = Calculator(
    name="watch-cover",
    summary="whether somebody is on the fire watch all the time, and where the gaps are",
    fields=(
        Field("from", Time(), "from when somebody must watch"),
        Field("to", Time(), "until when, at or after from"),
        Field(
            "watchers",
            Each(_span("who watches; a name may come again", "from when", "at or after from")),
            "who is on the watch from when to when",
        ),
        Field(
            "away",
            Each(_span("one of the watchers", "called away when", "back when, at or after from")),
            "when a watcher is not at the watch after all",
            optional=True,
        ),
    ),
    results={
        "covered": "whether somebody watches from start to end without a gap",
        "gaps": "from, to and minutes of each stretch that nobody watches, in order",
        "uncovered_min": "minutes that nobody watches, all together",
    },
    sources=(
        "somebody on guard during the work and long enough after it: 29 CFR 1926.352(e) "
        "(secondary source)",
        "counting",
    ),
    compute=_compute,
    rules=(
        "A handover in the same minute leaves no gap.",
        "Time away counts for the person named, not for anybody else.",
        "Watching before from and after to is neither asked for nor counted.",
    ),
)
