"""The cut across a lap as data: its value types and the fields they are read from."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.drawing.fields import (
    COORD,
    RANGE,
    Choice,
    Field,
    Flag,
    Many,
    Number,
    Range,
    Value,
    Words,
)

BURNT = ("no", "burnt", "smoking")


@dataclass(frozen=True)
class Bead:
    """Bitumen squeezed out along the edge of the upper sheet."""

    width_mm: float
    burnt: str
    label: str


@dataclass(frozen=True)
class Span:
    """From one place in the lap to another; of film, which one."""

    from_mm: float
    to_mm: float
    kind: str = ""


@dataclass(frozen=True)
class Third:
    """A third sheet between the two, and whether bitumen fills the step at its edge."""

    from_mm: float
    thickness_mm: float
    filled: bool


@dataclass(frozen=True)
class Roller:
    """A hand roller on the upper sheet."""

    at_mm: float


@dataclass(frozen=True)
class Mark:
    """A plumb line that may be moved along the lap."""

    at_mm: float
    label: str
    movable: Range | None


_THICK = Number("mm", low=1, high=12)
_BEAD = Value(
    (
        Field("width_mm", Number("mm", low=0, high=40), "how far it stands out of the edge"),
        Field("burnt", Choice(BURNT), "whether the heat has spoiled it", default="no"),
        Field("label", Words(), "what it is called; A, B, C … in a row", default=""),
    ),
    make=Bead,
)
_ENDS = (Field("from_mm", COORD, "begin"), Field("to_mm", COORD, "end"))
FIELDS = (
    Field("lap_mm", Number("mm", low=20, high=300), "width of the lap"),
    Field("top_mm", _THICK, "thickness of the upper sheet", default=4.0),
    Field("bottom_mm", _THICK, "thickness of the lower sheet", default=4.0),
    Field("bead", _BEAD, "bitumen squeezed out of the edge", optional=True),
    Field(
        "beads",
        Many(_BEAD, most=5),
        "instead: the same lap cut at several places, one under the other",
        default=[],
    ),
    Field("void", Value(_ENDS, make=Span), "where the lap does not hold", optional=True),
    Field(
        "film",
        Value(
            (*_ENDS, Field("kind", Choice(("release", "weldable")), "which", default="release")),
            make=Span,
        ),
        "film left in the lap",
        optional=True,
    ),
    Field(
        "third",
        Value(
            (
                Field("from_mm", COORD, "where it begins; it runs on to the right"),
                Field("thickness_mm", _THICK, "its thickness", default=4.0),
                Field("filled", Flag(), "bitumen fills the step at its edge", default=False),
            ),
            make=Third,
        ),
        "a third sheet between the two, as at a T-joint",
        optional=True,
    ),
    Field(
        "roller",
        Value((Field("at_mm", COORD, "where it presses"),), make=Roller),
        "a hand roller on the upper sheet",
        optional=True,
    ),
    Field(
        "marker",
        Value(
            (
                Field("at_mm", COORD, "where it stands"),
                Field("label", Words(), "what it is called, already worded", default=""),
                Field("movable", RANGE, "range along x", optional=True),
            ),
            make=Mark,
        ),
        "a line across the lap that may be moved",
        optional=True,
    ),
    Field("ruler", Flag(), "a scale beside the bead", default=True),
    Field(
        "dimensions",
        Many(Choice(("lap", "bead"))),
        "dimensions given from the start",
        default=[],
    ),
)


@dataclass(frozen=True)
class LapSection:
    """The checked figure."""

    lap_mm: float
    top_mm: float
    bottom_mm: float
    bead: Bead | None
    beads: list[Bead]
    void: Span | None
    film: Span | None
    third: Third | None
    roller: Roller | None
    marker: Mark | None
    ruler: bool
    dimensions: list[str]

    @property
    def rows(self) -> list[Bead]:
        """One bead for each cut; a bead of no width where none is given."""
        return self.beads or [self.bead or Bead(0.0, "no", "")]

    @property
    def step_mm(self) -> float:
        """How high the upper sheet has climbed at its highest, over the lower sheet."""
        return self.third.thickness_mm if self.third else 0.0

    @property
    def high_mm(self) -> float:
        """The highest surface of the upper sheet."""
        return self.bottom_mm + self.step_mm + self.top_mm
