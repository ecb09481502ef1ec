"""What every figure holds besides its own fields, and the names all kinds of figure read with."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from trainer.drawing.kinds import (
    AGE,
    AMOUNT,
    COORD,
    LINE,
    POINT,
    RANGE,
    REACH,
    SHAPE,
    SIZE,
    STATE,
    THICKNESS,
    Ident,
    Many,
    Named,
    Range,
    Value,
    Words,
)
from trainer.drawing.overlay_data import Overlay, OverlayKind
from trainer.errors import InputError
from trainer.roofing.contract import (
    Choice,
    Each,
    Field,
    Flag,
    Number,
    Pair,
    Text,
    check_fields,
    no_rule,
)

PART_STATE = Choice(("chosen", "right", "wrong", "missed"))
COMMON = (
    Field("kind", Text(), "which kind of figure"),
    Field("id", Ident(), "prefix of every id in the SVG", default="figure"),
    Field("title", Text(), "what is drawn, in a few words, already worded"),
    Field("desc", Text(), "what a sighted person sees, not the answer, already worded"),
    Field("width", Number("user units", low=280, high=800), "width of the drawing", default=358),
    Field("parts_live", Flag(), "parts can be pressed", default=False),
    Field("states", Named(PART_STATE), "what became of a part", default={}),
    Field("names", Named(Words()), "labels in place of a part's own", default={}),
    Field("said", Named(Words()), "what a part is called aloud, in place of its label", default={}),
    Field(
        "places",
        Named(Ident()),
        "ids by which the page knows parts; where given, the others cannot be pressed",
        default={},
    ),
    Field("after", Many(OverlayKind(), most=40), "overlays once answered", optional=True),
)


@dataclass(frozen=True)
class Request:
    """What every kind of figure is asked for, and how it words and measures."""

    kind: str
    id: str
    title: str
    desc: str
    width: float
    parts_live: bool
    states: Mapping[str, str]
    names: Mapping[str, str]
    after: list[Overlay] | None
    say: Callable[[str], str]
    length: Callable[[float], str]
    said: Mapping[str, str] = field(default_factory=dict)
    places: Mapping[str, str] = field(default_factory=dict)

    @property
    def answered(self) -> bool:
        """Whether the decision is answered: nothing can be pressed or moved any more."""
        return self.after is not None

    @property
    def live(self) -> bool:
        """Whether parts can be pressed."""
        return self.parts_live and not self.answered


_COMMON_NAMES = tuple(f.name for f in COMMON)


@dataclass(frozen=True)
class Figure(Value):
    """The fields of one kind of figure, the common ones among them."""

    def split(self, figure: Mapping[str, Any]) -> tuple[dict[str, Any], dict[str, Any]]:
        """The checked common fields and the checked fields of the kind. Raises InputError."""
        try:
            checked = self._quick(figure)
        except (InputError, LookupError):
            checked = check_fields(self.fields, figure, no_rule)
        return {name: checked.pop(name) for name in _COMMON_NAMES}, checked


__all__ = [
    "AGE",
    "AMOUNT",
    "COMMON",
    "COORD",
    "LINE",
    "POINT",
    "RANGE",
    "REACH",
    "SHAPE",
    "SIZE",
    "STATE",
    "THICKNESS",
    "Choice",
    "Each",
    "Field",
    "Figure",
    "Flag",
    "Many",
    "Number",
    "Overlay",
    "Pair",
    "Range",
    "Request",
    "Text",
    "Value",
    "Words",
]
