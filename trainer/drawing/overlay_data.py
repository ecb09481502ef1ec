"""What may be drawn on top of a figure once its decision is answered."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from trainer.drawing.kinds import COORD, LINE, POINT, SIZE, Value, Words
from trainer.errors import InputError
from trainer.roofing.contract import Choice, Field, Flag, Kind


@dataclass(frozen=True)
class Overlay:
    """One thing drawn on top when the decision is answered; see overlays.py."""

    type: str
    start: tuple[float, float] | None = None
    end: tuple[float, float] | None = None
    at: tuple[float, float] | None = None
    text: str = ""
    ok: bool | None = None
    radius_mm: float = 0.0
    offset_mm: float = 0.0
    path: tuple[tuple[float, float], ...] = ()
    outline: tuple[tuple[float, float], ...] = ()


_NEEDS: Mapping[str, tuple[str, ...]] = {
    "dimension": ("from", "to"),
    "circle": ("at", "radius_mm"),
    "water": ("path",),
    "fire": ("path",),
    "way": ("path",),
    "ghost": (),
    "note": ("at", "text"),
}
OVERLAY_TYPES = tuple(_NEEDS)
OVERLAY_FIELDS = (
    Field("type", Choice(tuple(_NEEDS)), "what is drawn"),
    Field("from", POINT, "dimension: where it begins", optional=True),
    Field("to", POINT, "dimension: where it ends", optional=True),
    Field("at", POINT, "circle: its centre; note, ghost: the point meant", optional=True),
    Field("text", Words(), "what is written beside it, already worded", default=""),
    Field("ok", Flag(), "right (tick) or wrong (cross); neither when absent", optional=True),
    Field("radius_mm", SIZE, "circle: its radius", default=0.0),
    Field("offset_mm", COORD, "dimension: drawn so far to the left of from → to", default=0.0),
    Field("path", LINE, "water, fire: the way it takes; way: where one walks", default=()),
    Field("outline", LINE, "ghost: the line or outline where it should be", default=()),
)


class OverlayKind(Kind):
    """One overlay, with the fields its type needs."""

    _inner = Value(OVERLAY_FIELDS, make=Overlay, renamed={"from": "start", "to": "end"})

    def describe(self) -> str:
        return "an overlay: " + self._inner.describe()

    def read(self, name: str, value: Any) -> Overlay:
        made: Overlay = self._inner.read(name, value)
        for needed in _NEEDS[made.type]:
            if needed not in value:
                raise InputError(f"{name}.{needed}", None, f'given for a "{made.type}"')
        if made.type == "ghost" and not made.outline and made.at is None:
            raise InputError(
                f"{name}.outline", None, 'a line or an outline, or "at", for a "ghost"'
            )
        return made
