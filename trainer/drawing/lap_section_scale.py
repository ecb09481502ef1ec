"""Where millimetres of the cut across a lap lie on the drawing; a long lap is broken."""

from __future__ import annotations

from typing import NamedTuple

from trainer.drawing.canvas import MARGIN, Canvas
from trainer.drawing.lap_section_data import LapSection
from trainer.drawing.markup import Point

PITCH = 30.0
"""How far one cut lies under the one before, in millimetres."""

LEAST = 3.0
"""User units for a millimetre under which a long lap is broken."""

_MOST, _GAP = 8.0, 4.0


class Cut(NamedTuple):
    """The scale of a cut: what is left out between ``skip_from`` and ``skip_to`` is a short gap."""

    per_mm: float
    zero_x: float
    zero_y: float
    skip_from: float
    skip_to: float

    def x(self, mm: float) -> float:
        """Across, in user units; what is left out lies evenly in the gap."""
        skipped = self.skip_to - self.skip_from
        if skipped > 0 and mm > self.skip_from:
            share = min(1.0, (mm - self.skip_from) / skipped)
            mm = mm - skipped * share + _GAP * share if mm < self.skip_to else mm - skipped + _GAP
        return self.zero_x + mm * self.per_mm

    def y(self, mm: float) -> float:
        """Down, in user units."""
        return self.zero_y - mm * self.per_mm

    def at(self, point: Point) -> Point:
        """A point of the figure in user units."""
        return (self.x(point[0]), self.y(point[1]))

    def down(self, row: int) -> Cut:
        """The same scale for a cut further down."""
        return self._replace(zero_y=self.zero_y + row * PITCH * self.per_mm)

    @property
    def broken(self) -> bool:
        """Whether something is left out."""
        return self.skip_to > self.skip_from


def lead_mm(lap: LapSection) -> float:
    """What is shown of the lower sheet before the edge of the upper one."""
    widest = max(bead.width_mm for bead in lap.rows)
    least = min(0.0, lap.marker.at_mm if lap.marker else 0.0)
    if lap.marker and lap.marker.movable:
        least = min(least, lap.marker.movable.low)
    return max(widest + 8.0, -least + 4.0, 16.0)


def tail_mm(lap: LapSection) -> float:
    """What is shown beyond the lap."""
    return 8.0 if lap.third else 4.0 + 2.0 * lap.bottom_mm


def lay(canvas: Canvas, lap: LapSection) -> Cut:
    """As large as the width allows; broken in the lap where that leaves a millimetre too small."""
    room, lead = canvas.width - 2 * MARGIN, lead_mm(lap)
    span = lead + lap.lap_mm + tail_mm(lap)
    per_mm = min(_MOST, room / span)
    if per_mm < LEAST:
        hidden = span - room / (LEAST + 0.2) + _GAP
        start = _clear(lap, hidden)
        if start is not None:
            per_mm = LEAST + 0.2
            return Cut(per_mm, MARGIN + lead * per_mm, 0.0, start, start + hidden)
    return Cut(per_mm, MARGIN + (room - span * per_mm) / 2 + lead * per_mm, 0.0, 0.0, 0.0)


def _clear(lap: LapSection, hidden: float) -> float | None:
    """Where in the lap ``hidden`` millimetres may be left out: as far in as nothing is shown."""
    kept = [(s.from_mm, s.to_mm) for s in (lap.void, lap.film) if s]
    if lap.third:
        kept.append((lap.third.from_mm - 2.5 * lap.third.thickness_mm, lap.lap_mm))
    if lap.roller:
        kept.append((lap.roller.at_mm - 20, lap.roller.at_mm + 20))
    if lap.marker:
        span = lap.marker.movable
        kept.append((span.low, span.high) if span else (lap.marker.at_mm, lap.marker.at_mm))
    start = lap.lap_mm - hidden - 10
    while start >= 14:
        if all(b < start - 1 or a > start + hidden + 1 for a, b in kept):
            return start
        start -= 2
    return None
