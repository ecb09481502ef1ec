"""Days one above the other, as data: value types and the fields they are read from."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.drawing.fields import Choice, Field, Flag, Many, Text, Value, Words
from trainer.drawing.timeline_data import MINUTE

BLOCKS = {
    "look": "ply-2",
    "prepare": "lap",
    "prime": "primed",
    "lay": "",
    "flame": "flames",
    "watch": "double",
    "lunch": "eat",
    "errand": "metal",
}
"""Kinds of work and the hatch each is drawn with; sheets are a plain tone."""

MARKS = ("rain", "flame-out", "smoke", "now", "end")


@dataclass(frozen=True)
class Block:
    """What somebody does for a while."""

    from_min: float
    to_min: float
    kind: str


@dataclass(frozen=True)
class Track:
    """What one person does in a day."""

    name: str
    blocks: list[Block]


@dataclass(frozen=True)
class Mark:
    """Something that happens at a minute."""

    at_min: float
    kind: str
    label: str


@dataclass(frozen=True)
class Shower:
    """Rain from a minute to a minute."""

    from_min: float
    to_min: float


@dataclass(frozen=True)
class Wrong:
    """A finding at its minute; ``grave`` where it is critical."""

    at_min: float
    label: str
    grave: bool


@dataclass(frozen=True)
class Day:
    """One day: its name, and a track for each person."""

    name: str
    tracks: list[Track]
    rain: list[Shower]
    marks: list[Mark]
    findings: list[Wrong]


_ENDS = (Field("from_min", MINUTE, "begin"), Field("to_min", MINUTE, "end"))
_LABEL = Field("label", Words(), "already worded", default="")
_BLOCK = Value((*_ENDS, Field("kind", Choice(tuple(BLOCKS)), "hatch")), make=Block)
_TRACK = Value(
    (
        Field("name", Text(), "whose track it is"),
        Field("blocks", Many(_BLOCK, most=1000), "what this person does", default=[]),
    ),
    make=Track,
)
_MARK = Value(
    (
        Field("at_min", MINUTE, "when"),
        Field("kind", Choice(MARKS), "symbol; end is a heavy line"),
        _LABEL,
    ),
    make=Mark,
)
_WRONG = Value(
    (
        Field("at_min", MINUTE, "when"),
        Field("label", Text(), "its number"),
        Field("grave", Flag(), "critical", default=False),
    ),
    make=Wrong,
)
_DAY = Value(
    (
        Field("name", Text(), "which day, already worded"),
        Field("tracks", Many(_TRACK, least=1, most=8), "people, one under the other"),
        Field("rain", Many(Value(_ENDS, make=Shower), most=60), "showers", default=[]),
        Field("marks", Many(_MARK, most=60), "what happens at a minute", default=[]),
        Field(
            "findings", Many(_WRONG, most=1000), "what was wrong, from its minute on", default=[]
        ),
    ),
    make=Day,
)
FIELDS = (
    Field("from_min", MINUTE, "first minute drawn, counted from midnight"),
    Field("to_min", MINUTE, "last minute drawn"),
    Field("days", Many(_DAY, least=1, most=4), "days to one scale, from above"),
)


@dataclass(frozen=True)
class Days:
    """The checked figure."""

    from_min: float
    to_min: float
    days: list[Day]
