"""What time it is, handed in, so that every date in the program can be tested and demonstrated."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Protocol


class Clock(Protocol):
    def now(self) -> datetime:
        """This moment, in UTC."""
        ...


class SystemClock:
    """The machine's own clock."""

    def now(self) -> datetime:
        return datetime.now(UTC)


class StoppedClock:
    """A clock that moves only when told to: for made-up history and for tests."""

    def __init__(self, at: datetime) -> None:
        """``at`` carries its time zone; ValueError without one."""
        if at.tzinfo is None:
            raise ValueError(f"a moment needs its time zone, got {at.isoformat()}")
        self._at = at.astimezone(UTC)

    def now(self) -> datetime:
        return self._at

    def forward(self, by: timedelta) -> None:
        self._at += by
