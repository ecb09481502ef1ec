"""A job: the set-up of one installation, all of it true, much of it not yet known to anybody.

Walls stand in a row, each joined to the next by a corner. Along a wall one measures from its left
end as seen from the roof; ``off_mm`` is the distance from the wall's face out onto the roof.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any, Literal

from trainer.installation.day import Bands, Happening, Lunch, Weather
from trainer.installation.place import Laid, Point, Spot, facing, lay_out
from trainer.roofing.setout import Profile, girth_mm

CornerKind = Literal["inside", "outside"]

_FIELD_LAP_CUT_MM = 150  # strips are cut with a little in hand


@dataclass(frozen=True)
class Behind:
    """What is in or behind the parapet along a stretch: timber, wood fibre, foam (all burn)."""

    id: str
    from_mm: int
    to_mm: int
    what: str


@dataclass(frozen=True)
class Damp:
    """A stretch of wall that is damp until ``dry_at``, or until somebody dries it."""

    from_mm: int
    to_mm: int
    dry_at: int


@dataclass(frozen=True)
class Wall:
    """One straight parapet. ``told`` is what the papers say of it; ``behind`` what is true.

    ``sun`` are the times in which the sun stands on its face. ``rail`` says that edge protection
    stands; ``drop_mm`` is the way down outside.
    """

    id: str
    length_mm: int
    height_mm: int
    top_mm: int
    cant_mm: int
    field_laps: Bands
    behind: tuple[Behind, ...]
    damp: tuple[Damp, ...]
    sun: Bands
    rail: bool
    drop_mm: int
    told: str


@dataclass(frozen=True)
class Opening:
    """An opening, gap or vent that sparks can get into."""

    id: str
    spot: Spot
    what: str


@dataclass(frozen=True)
class Loose:
    """Something that burns and can be carried away."""

    id: str
    spot: Spot
    what: str


@dataclass(frozen=True)
class SheetKind:
    """The sheet: its width, its printed side lap, the narrowest strip, the length of a roll."""

    width_mm: int
    side_lap_mm: int
    least_mm: int
    roll_mm: int


@dataclass(frozen=True)
class Roll:
    """One roll. ``cold``: it was not kept warm before."""

    id: str
    cold: bool


@dataclass(frozen=True)
class Paper:
    """What the data sheets ask: drying and open time of the primer, coldest surface for the sheet.

    ``slower`` lists (surface at or above °C, percent of dry_min), warmest first; below the last
    one its percentage holds.
    """

    dry_min: int
    plan_min: int
    latest_min: int
    coldest_c: int
    slower: tuple[tuple[int, int], ...]
    coverage_m2_per_l: int

    def drying_min(self, surface_c: float) -> int:
        """Minutes until primer on a surface of this temperature is dry to the touch, rounded up."""
        share = next((p for least, p in self.slower if surface_c >= least), self.slower[-1][1])
        return -(-self.dry_min * share // 100)


@dataclass(frozen=True)
class Hand:
    """Somebody of the crew and what they may do. ``torch`` and ``watch``: trained for it."""

    id: str
    name: str
    torch: bool
    watch: bool


@dataclass(frozen=True)
class Gas:
    """The cylinder in use: flame minutes in it, where it stands, spare ones on the roof."""

    minutes: int
    spot: Spot
    spare: int


@dataclass(frozen=True)
class Job:
    """One drawn job. ``plain`` is the very mapping it was read from, kept for storing."""

    id: str
    version: int
    level: int
    title: str
    brief: str
    start: int
    leave_by: int
    walls: tuple[Wall, ...]
    corners: tuple[CornerKind, ...]
    corner_leg_mm: int
    openings: tuple[Opening, ...]
    loose: tuple[Loose, ...]
    sheet: SheetKind
    rolls: tuple[Roll, ...]
    paper: Paper
    crew: tuple[Hand, ...]
    minutes: Mapping[str, int]
    gas: Gas
    melter: Spot
    extinguishers: tuple[tuple[str, Spot], ...]
    weather: Weather
    happenings: tuple[Happening, ...]
    by_eye_mm: int
    """The lap onto the field that comes out where no line was snapped."""
    lunch: Lunch | None
    plain: Mapping[str, Any]

    @cached_property
    def kept(self) -> dict[Any, Any]:
        """What was worked out from this job once and is asked for often."""
        return {}

    @cached_property
    def _walls(self) -> dict[str, tuple[int, Wall]]:
        return {wall.id: (i, wall) for i, wall in enumerate(self.walls)}

    def wall(self, wall_id: str) -> Wall:
        return self._walls[wall_id][1]

    def wall_index(self, wall_id: str) -> int:
        return self._walls[wall_id][0]

    @cached_property
    def _hands(self) -> dict[str, Hand]:
        return {hand.id: hand for hand in self.crew}

    def hand(self, hand_id: str) -> Hand:
        return self._hands[hand_id]

    @cached_property
    def plan(self) -> tuple[Laid, ...]:
        """The walls on the roof plan."""
        return lay_out([wall.length_mm for wall in self.walls], self.corners)

    def placed(self, spot: Spot) -> Point:
        """A spot's coordinates on the roof plan."""
        return self.plan[self.wall_index(spot.wall)].point(spot.at_mm, spot.off_mm)

    def across(self, spot: Spot) -> tuple[int, int] | None:
        """The wall that faces a spot's own wall there: its number, how far out; or None."""
        lengths = [wall.length_mm for wall in self.walls]
        return facing(self.plan, lengths, self.wall_index(spot.wall), spot.at_mm)

    def off_the_roof(self, spot: Spot) -> str:
        """Why a spot is not on this roof, in a sentence; "" where it is."""
        wall = self.wall(spot.wall)
        if spot.at_mm > wall.length_mm:
            return f"Wall {wall.id} is {wall.length_mm} mm long."
        across = self.across(spot)
        if across is None or spot.off_mm <= across[1]:
            return ""
        other = self.walls[across[0]].id
        return f"Wall {other} stands {across[1]} mm before wall {wall.id} there."

    @cached_property
    def schedule(self) -> tuple[tuple[int, str, Happening | None], ...]:
        """What comes by itself, in order of time: (minute, kind, what)."""
        times: list[tuple[int, str, Happening | None]] = []
        for start, end in self.weather.rain:
            times += [(start, "rain", None), (end, "rain over", None)]
        for start, end in self.weather.gusts:
            times += [(start, "gusts", None), (end, "gusts over", None)]
        times += [(thing.at, thing.kind, thing) for thing in self.happenings]
        return tuple(sorted(times, key=lambda item: (item[0], item[1])))

    def stretch(self, wall_id: str) -> tuple[int, int]:
        """What wall sheets cover: the wall but for its corners, onto whose sheets they lap."""
        i, wall = self._walls[wall_id]
        reach = self.corner_leg_mm - self.sheet.side_lap_mm
        start = reach if i > 0 else 0
        end = wall.length_mm - (reach if i < len(self.walls) - 1 else 0)
        return start, end

    def corner_stretches(self, corner: int) -> tuple[tuple[str, int, int], ...]:
        """What the sheets of a corner cover, on the wall before it and on the wall after it."""
        left, right = self.walls[corner], self.walls[corner + 1]
        leg = self.corner_leg_mm
        return (
            (left.id, left.length_mm - leg, left.length_mm),
            (right.id, 0, leg),
        )

    @cached_property
    def strips_per_roll(self) -> int:
        """How many strips a roll gives at the longest girth on this job."""
        longest = max(girth_of(wall, _FIELD_LAP_CUT_MM) for wall in self.walls)
        return max(1, self.sheet.roll_mm // longest)

    def surface_c(self, wall_id: str, at: int) -> int:
        """The temperature of a wall's face: the air, more in the sun, a little less in shade."""
        wall = self.wall(wall_id)
        air = self.weather.hour(at).air_c
        sunny = any(start <= at < end for start, end in wall.sun)
        return air + self.weather.sun_gain_c if sunny else air - 1


def girth_of(wall: Wall, field_lap_mm: int) -> int:
    """Girth of a strip, whole millimetres, rounded up."""
    profile = Profile(wall.height_mm, wall.cant_mm, wall.top_mm, field_lap_mm, 0)
    return math.ceil(girth_mm(profile))
