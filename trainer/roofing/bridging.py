"""What a lap loses when a sheet that bridges the angle is pressed home.

A sheet that was not worked into the angle between roof and wall runs straight across it. Pressed in
later it needs more length, and takes it from its free edge. Lengths are millimetres.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from trainer.roofing.contract import Calculator, Field, Number, exact, length


@dataclass(frozen=True)
class Bridge:
    """A sheet straight across an angle of ``angle_deg``, > 0 and < 180.

    It leaves each face ``gap_mm`` from the angle. ``lap_mm`` is the lap of its free edge before it
    is pressed in, ``required_mm`` the lap that must be left. All lengths ≥ 0.
    """

    gap_mm: float
    angle_deg: float
    lap_mm: float
    required_mm: float

    @property
    def lost_mm(self) -> Fraction:
        """How far the free edge is drawn back: 2 g on the faces less the chord 2 g sin(θ/2)."""
        return exact(self.gap_mm) * _lost_share(self.angle_deg)

    @property
    def lap_left_mm(self) -> Fraction:
        """The lap after pressing in; negative where the free edge is drawn off the other sheet."""
        return exact(self.lap_mm) - self.lost_mm

    @property
    def ok(self) -> bool:
        return self.lap_left_mm >= exact(self.required_mm)

    @property
    def most_gap_mm(self) -> Fraction | None:
        """The largest gap that leaves the required lap; None when it is short without any."""
        spare = exact(self.lap_mm) - exact(self.required_mm)
        return None if spare < 0 else spare / _lost_share(self.angle_deg)


def _lost_share(angle_deg: float) -> Fraction:
    """What is lost per millimetre of gap: 2 (1 − sin(θ/2)), as 4 sin²(45° − θ/4).

    The second form keeps its digits at angles close to 180°. At 60° alone the share is a fraction
    (Niven's theorem), so there alone a limit can be met exactly by a sheet that bridges.

    >>> _lost_share(60), round(float(_lost_share(90)), 4)
    (Fraction(1, 1), 0.5858)
    """
    if angle_deg == 60:
        return Fraction(1)
    return Fraction(4 * math.sin(math.radians((180 - angle_deg) / 4)) ** 2)


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    bridge = Bridge(**given)
    return {name: getattr(bridge, name) for name in ("lost_mm", "lap_left_mm", "ok", "most_gap_mm")}


BRIDGING = Calculator(
    name="bridging",
    summary="what a lap loses when a sheet that bridges the angle is pressed home",
    fields=(
        Field("gap_mm", length(), "from the angle to where the sheet leaves each face"),
        Field(
            "angle_deg",
            Number("°", above=0, below=180),
            "angle between the two faces the sheet bridges, < 180",
            default=90,
        ),
        Field("lap_mm", length(), "lap of the free edge, measured before pressing in"),
        Field("required_mm", length(), "least width of that lap"),
    ),
    results={
        "lost_mm": "how far the free edge is drawn back: 2 × gap × (1 − sin(angle ÷ 2))",
        "lap_left_mm": "lap after pressing in; negative where the sheets have parted",
        "ok": "whether the lap left is at least what is required",
        "most_gap_mm": "largest gap that leaves the required lap, null when it is short already",
    },
    sources=("plane geometry: two sides of a triangle against the third",),
    compute=_compute,
    rules=("A lap left of exactly what is required is enough.",),
)
