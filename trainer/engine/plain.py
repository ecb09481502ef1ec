"""Plain data: what a scenario may hold, so that it is the same bytes on every machine."""

from __future__ import annotations

from typing import Any

from trainer.engine.functions import MOST_ENTRIES

_PLACES = 6
"""Decimal places to which numbers are kept: far finer than any tape."""

_MOST = 10**12
_LONGEST = 2000


def exact(value: Any) -> Any:
    """``value`` as plain data, numbers without binary dust: whole where whole, else to 6 places.

    Takes numbers up to 10¹², texts, true, false, None, lists and blocks of these; a tuple becomes a
    list. Raises ValueError for anything else, and for more than 2000 entries.
    """
    return _exact(value, [MOST_ENTRIES])


def _exact(value: Any, room: list[int]) -> Any:
    kind = type(value)  # not isinstance: this is asked some hundred times a scenario
    if kind is int and -_MOST <= value <= _MOST:
        return value
    if kind is int or kind is float:
        return _number(value)
    if kind is str:
        return _text(value)
    if kind is bool or value is None:
        return value
    if kind not in (list, tuple, dict):
        raise ValueError(f"{kind.__name__} is not a plain value")
    room[0] -= len(value)
    if room[0] < 0:
        raise ValueError(f"it has more than {MOST_ENTRIES} entries")
    if kind is dict:
        return {_text(key): _exact(part, room) for key, part in value.items()}
    return [_exact(part, room) for part in value]


def _number(value: float) -> float:
    if not -_MOST <= value <= _MOST:  # nor is NaN
        raise ValueError("it is not a number of sensible size")
    kept = round(value, _PLACES)
    whole = int(kept)
    return whole if kept == whole else kept


def _text(value: Any) -> str:
    if type(value) is not str or len(value) > _LONGEST:
        raise ValueError(f"a text has at most {_LONGEST} characters")
    return value
