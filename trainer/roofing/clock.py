"""Times of day and dates, to the minute: read, moved, compared and written.

All times of one call have one form: "HH:MM" on one and the same day, or "YYYY-MM-DDTHH:MM" in local
time with no clock change in between. Sums keep fractions of a minute; only a written time is whole.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Any

from trainer.errors import InputError, TrainerError
from trainer.roofing.contract import Kind, exact

_DAY = 24 * 60
_LAST_DAY = date.max.toordinal()
_FORM = re.compile(r"(?:(\d{4})-(\d\d)-(\d\d)T)?([01]\d|2[0-3]):([0-5]\d)", re.ASCII)


class OffTheClock(TrainerError):
    """A time that its form cannot write: another day without a date, or a year beyond 1 to 9999."""


@dataclass(frozen=True, order=True)
class Moment:
    """A point in time. Moments of one form compare by time.

    ``minutes`` count from 00:00 of the day, with a date from 00:00 of the day before 0001-01-01.
    """

    minutes: Fraction
    dated: bool = False

    def after(self, minutes: float | Fraction) -> Moment:
        """The moment that many minutes later; earlier when they are negative."""
        added = minutes if isinstance(minutes, Fraction) else exact(minutes)
        return Moment(self.minutes + added, self.dated)

    def since(self, earlier: Moment) -> Fraction:
        """Minutes from ``earlier`` to this moment; negative when it is in fact later."""
        return self.minutes - earlier.minutes

    def form(self) -> str:
        return "YYYY-MM-DDTHH:MM" if self.dated else "HH:MM"


def read_moment(text: str) -> Moment:
    """The moment that "HH:MM" (00:00 to 23:59) or "YYYY-MM-DDTHH:MM" names. Raises ValueError."""
    match = _FORM.fullmatch(text)
    if match is None:
        raise ValueError(text)
    year, month, day, hour, minute = match.groups()
    minutes = int(hour) * 60 + int(minute)
    if year is None:
        return Moment(Fraction(minutes))
    ordinal = date(int(year), int(month), int(day)).toordinal()
    return Moment(Fraction(ordinal * _DAY + minutes), dated=True)


def must_wait_for(moment: Moment) -> str:
    """``moment`` written for somebody who must wait for it: a fraction of a minute rounds up."""
    return _written(math.ceil(moment.minutes), moment.dated)


def must_not_pass(moment: Moment) -> str:
    """``moment`` written for somebody who must not pass it: a fraction of a minute rounds down."""
    return _written(math.floor(moment.minutes), moment.dated)


def _written(minutes: int, dated: bool) -> str:
    day, minute = divmod(minutes, _DAY)
    if dated:
        if not 1 <= day <= _LAST_DAY:
            raise OffTheClock("between the years 1 and 9999")
        return f"{date.fromordinal(day)}T{hhmm(minute)}"
    if not 0 <= minutes <= _DAY:
        raise OffTheClock(
            "between 00:00 and 24:00 of the same day;",
            "for anything else give every time with its date, YYYY-MM-DDTHH:MM",
        )
    return hhmm(minutes)


def hhmm(minutes: int) -> str:
    """Whole minutes from midnight as "HH:MM"."""
    return f"{minutes // 60:02}:{minutes % 60:02}"


class Time(Kind):
    """A time as it is typed; ``read`` gives a Moment."""

    def describe(self) -> str:
        return '"HH:MM" from 00:00 to 23:59, or "YYYY-MM-DDTHH:MM"'

    def read(self, name: str, value: Any) -> Moment:
        if not isinstance(value, str):
            raise self.refuse(name, value)
        try:
            return read_moment(value)
        except ValueError:
            raise self.refuse(name, value) from None


def check_same_form(times: Iterable[tuple[str, Moment]]) -> None:
    """Raises InputError for the first of the named times whose form is not that of the first."""
    named = list(times)
    first_name, first = named[0]
    for name, moment in named:
        if moment.dated != first.dated:
            raise InputError(name, must_wait_for(moment), f"{first.form()}, as in {first_name}")


def check_not_before(name: str, moment: Moment, first_name: str, first: Moment) -> None:
    """Raises InputError when ``moment`` lies before ``first``."""
    if moment < first:
        raise InputError(
            name,
            must_wait_for(moment),
            f"{first_name} ({must_wait_for(first)}) or later;"
            " for another day give every time with its date, YYYY-MM-DDTHH:MM",
        )


def result_time(
    result: str, moment: Moment, write: Callable[[Moment], str], cause: tuple[str, Any]
) -> str:
    """``moment`` written as the named result; InputError on its cause where that cannot be done.

    ``cause`` is the field, with its value, that puts the result where it is.
    """
    try:
        return write(moment)
    except OffTheClock as error:
        field, value = cause
        raise InputError(field, value, f"what keeps {result} {error}") from None
