"""The day of a job: weather as it will be and as it was forecast, what comes by itself, lunch."""

from __future__ import annotations

from dataclasses import dataclass

Bands = tuple[tuple[int, int], ...]
"""Times or lengths from, to."""


@dataclass(frozen=True)
class Hour:
    """The air from ``at`` on."""

    at: int
    air_c: int
    rh_pct: int
    wind_kmh: int


@dataclass(frozen=True)
class Forecast:
    """What was said this morning: a time in which a shower may come, its chance, and gusts."""

    rain_from: int | None
    rain_to: int | None
    rain_pct: int
    gusts: Bands
    air: tuple[Hour, ...]


@dataclass(frozen=True)
class Weather:
    """What the weather really does. ``rain`` and ``gusts`` are times from, to."""

    path: tuple[Hour, ...]
    rain: Bands
    gusts: Bands
    forecast: Forecast
    sun_gain_c: int

    def hour(self, at: int) -> Hour:
        """The air at a minute of the day; before the path begins, its first entry."""
        found = self.path[0]
        for hour in self.path:
            if hour.at > at:
                break
            found = hour
        return found

    def raining(self, at: int) -> bool:
        return any(start <= at < end for start, end in self.rain)


@dataclass(frozen=True)
class Happening:
    """Something that comes by itself: footprints or dust on a stretch, a smell of smoke."""

    at: int
    kind: str
    wall: str
    from_mm: int
    to_mm: int


@dataclass(frozen=True)
class Lunch:
    """Everybody eats for ``minutes``, begun between ``from_at`` and ``by``."""

    from_at: int
    by: int
    minutes: int
