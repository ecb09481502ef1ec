"""What a foreman goes by: what is known and forecast, or, looking back, what was true.

The same questions are answered twice, so that one way of working makes the honest plan and the
plan with hindsight.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from trainer.installation.air import damp_mm, open_coats, spread_k, uncovered, undried_ms
from trainer.installation.day import Hour
from trainer.installation.job import Behind, Job
from trainer.installation.state import State
from trainer.roofing.weather import dew_point_c

TAKEN_SERIOUSLY_PCT = 20
"""From this chance on, a shower in the forecast is worked around: common practice, no source."""
_FRESH_MIN = 30
_TOUCH_HOLDS_MIN = 1
NEVER = 10**6


@dataclass(frozen=True)
class Sight:
    """Answers from what is known and forecast; with ``hindsight`` from what is true."""

    job: Job
    hindsight: bool = False

    def looked(self, state: State, wall: str) -> bool:
        """Whether a wall was looked at; with hindsight only what hides something needs it."""
        hides = bool(self.job.wall(wall).behind) or any(
            part.spot.wall == wall for part in self.job.openings
        )
        return f"behind {wall}" in state.known or (self.hindsight and not hides)

    def probed(self, state: State, wall: str) -> bool:
        return self.hindsight or f"damp {wall}" in state.known

    def behind(self, state: State, wall: str) -> list[Behind]:
        """What burns behind a wall, as far as it is known."""
        found = self.job.wall(wall).behind
        return list(found) if self.looked(state, wall) else []

    def openings(self, state: State) -> list[str]:
        """Openings that are known."""
        if self.hindsight:
            return [part.id for part in self.job.openings]
        walls = (wall.id for wall in self.job.walls)
        return [o for wall in walls for o in state.known.get(f"openings {wall}", {}).get("is", ())]

    def damp(self, state: State, wall: str) -> list[tuple[int, int]]:
        """Stretches that are still damp, as far as it is known: found so, and not dried since."""
        bands = [(d.from_mm, d.to_mm) for d in self.job.wall(wall).damp]
        if not self.hindsight:
            bands = [(a, b) for a, b in state.known.get(f"damp {wall}", {}).get("is", ())]
        return [band for band in bands if damp_mm(self.job, state, wall, *band, state.now)]

    def rain_from(self, state: State) -> int:
        """When the next shower may begin."""
        said = self.job.weather.forecast
        if self.hindsight:
            return min((a for a, _ in self.job.weather.rain if a >= state.now), default=NEVER)
        serious = said.rain_from is not None and said.rain_pct >= TAKEN_SERIOUSLY_PCT
        over = said.rain_to is not None and state.now > said.rain_to
        if not serious or over or state.rained_at is not None or said.rain_from is None:
            return NEVER
        return said.rain_from

    def gusty(self, state: State, minutes: int) -> bool:
        """Whether gusts may come within so many minutes."""
        weather = self.job.weather
        bands = weather.gusts if self.hindsight else weather.forecast.gusts
        return any(a < state.now + minutes and state.now < b for a, b in bands)

    def hour(self, at: int) -> Hour:
        """The air at a minute: forecast, or as it will be."""
        path = self.job.weather.path if self.hindsight else self.job.weather.forecast.air
        found = path[0]
        for hour in path:
            if hour.at <= at:
                found = hour
        return found

    def surface_c(self, state: State, wall: str, at: int) -> int:
        """The face's temperature at a minute: measured lately, else expected."""
        if self.hindsight:
            return self.job.surface_c(wall, at)
        measured = self._measured(state, wall, at)
        if measured is not None:
            return int(measured["surface_c"])
        sunny = any(a <= at < b for a, b in self.job.wall(wall).sun)
        return self.hour(at).air_c + (self.job.weather.sun_gain_c if sunny else -1)

    def spread_k(self, state: State, wall: str, at: int) -> float:
        """How far the face lies above the dew point."""
        if self.hindsight:
            return spread_k(self.job, wall, at)
        measured = self._measured(state, wall, at)
        if measured is not None:
            return float(measured["spread_k"])
        hour = self.hour(at)
        return self.surface_c(state, wall, at) - dew_point_c(hour.air_c, hour.rh_pct)

    def rh_pct(self, state: State, wall: str, at: int) -> int:
        measured = None if self.hindsight else self._measured(state, wall, at)
        if measured is not None:
            return int(measured["rh_pct"])
        hour = self.job.weather.hour(at) if self.hindsight else self.hour(at)
        return hour.rh_pct

    def measured(self, state: State, wall: str) -> bool:
        """Whether the air at a wall was measured lately."""
        return self.hindsight or self._measured(state, wall, state.now) is not None

    def _measured(self, state: State, wall: str, at: int) -> dict[str, float] | None:
        found = state.known.get(f"air {wall}")
        if found is None or not found["at"] <= at <= found["at"] + _FRESH_MIN:
            return None
        read: dict[str, float] = found["is"]
        return read

    def dry_at(self, state: State, wall: str, start: int, end: int) -> int:
        """When primer on a stretch should be dry: by the data sheet, or as it will be."""
        latest = state.now
        for _, high, coat in open_coats(state, wall, start, end):
            begun = -(-coat.primed_ms(high) // 1000)
            drying = coat.dry_min
            if not self.hindsight:
                drying = self.job.paper.drying_min(self.surface_c(state, wall, begun))
            latest = max(latest, begun + drying)
        return latest

    def sound(self, state: State, wall: str, start: int, end: int) -> bool | None:
        """Whether primer on a stretch is dry and clean: None until somebody has touched it."""
        pieces = open_coats(state, wall, start, end)
        if self.hindsight:
            return not any(c.spoilt or undried_ms(c, high, state.now) for _, high, c in pieces)
        found = self._touched(state, wall, start, end)
        if found is None or state.now - found["at"] > _TOUCH_HOLDS_MIN:
            return None
        return bool(found["is"] == "dry")

    def _touched(self, state: State, wall: str, start: int, end: int) -> dict[str, Any] | None:
        at = touch_at(state, wall, start, end)
        found: dict[str, Any] | None = state.known.get(f"touch {wall} {at}")
        return found

    def spoilt(self, state: State, wall: str, start: int, end: int) -> bool:
        """Whether primer on a stretch is known to be spoilt."""
        if self.hindsight:
            return any(coat.spoilt for _, _, coat in open_coats(state, wall, start, end))
        found = self._touched(state, wall, start, end)
        fresh = found is not None and all(
            found["at"] * 1000 >= coat.primed_ms(coat.from_mm)
            for _, _, coat in open_coats(state, wall, start, end)
        )
        bad = found is not None and found["is"] in ("footprints", "dust", "rain")
        return bad and fresh


def touch_at(state: State, wall: str, start: int, end: int) -> int:
    """Where a stretch is touched: at its right end, the youngest, where no sheet lies yet."""
    parts = uncovered(state, wall, start, end)
    return parts[-1][1] - 1 if parts else end - 1
