"""The parapet section as data: its value types and the fields they are read from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from trainer.drawing.fields import (
    Range,
)
from trainer.drawing.section_work_data import (
    Added,
    Bridge,
    Detail,
    Face,
    Finish,
    Guardrail,
    WallLayer,
)


@dataclass(frozen=True)
class Layer:
    """A layer: what it is made of and how thick it is."""

    thickness_mm: float
    material: str = ""
    side: str = ""


@dataclass(frozen=True)
class Cant:
    """A 45° cant in the angle."""

    leg_mm: float
    material: str


@dataclass(frozen=True)
class Opening:
    """A void in the wall, or a vent through it, between two heights."""

    from_mm: float
    to_mm: float


@dataclass(frozen=True)
class Flashing:
    """The flashing sheet: how far it runs onto the field, up, over the top and down outside."""

    field_lap_mm: float
    up_mm: float | None
    top_mm: float | None
    outer_drop_mm: float
    foot: str = "new"


@dataclass(frozen=True)
class Chalk:
    """The chalk line on the field, so far from the wall face."""

    at_mm: float
    movable: Range | None


@dataclass(frozen=True)
class Flame:
    """A torch: its flame tip, the point it burns towards, how it may be moved."""

    at: tuple[float, float]
    towards: tuple[float, float] | None
    movable_x: Range | None
    movable_y: Range | None


@dataclass(frozen=True)
class Section:
    """The checked figure."""

    height_mm: float
    width_mm: float
    roof_mm: float | None
    deck: Layer
    insulation: Layer | None
    core: str | None
    field_sheets: int
    field_upturn_mm: float
    cant: Cant | None
    nailer_mm: float | None
    void: Opening | None
    vent: Opening | None
    foam: Layer | None
    cladding: Layer | None
    flashing: Flashing | None
    chalk: Chalk | None
    flame: Flame | None
    finish_mm: float | None
    dimensions: list[str]
    layers: Sequence[WallLayer] = ()
    added: Sequence[Added] = ()
    finish: Finish | None = None
    beyond_mm: float | None = None
    bridge: Bridge | None = None
    guardrail: Guardrail | None = None
    drop_mm: float | None = None
    faces: Sequence[Face] = ()
    detail: Detail | None = None

    @property
    def cant_mm(self) -> float:
        return self.cant.leg_mm if self.cant else 0.0

    @property
    def insulation_mm(self) -> float:
        return self.insulation.thickness_mm if self.insulation else 0.0

    @property
    def added_mm(self) -> float:
        """From the roof surface down to the old one."""
        return sum([layer.thickness_mm for layer in self.added])

    @property
    def foot_mm(self) -> float:
        """The height of the surface that flashing and cant stand on."""
        return -self.added_mm if self.flashing and self.flashing.foot == "old" else 0.0

    @property
    def deck_top_mm(self) -> float:
        return -self.added_mm - self.insulation_mm

    @property
    def finished_mm(self) -> float:
        """The height of the finished surface above the roof surface."""
        if self.finish:
            return self.finish.thickness_mm
        return self.finish_mm or 0.0

    @property
    def up_mm(self) -> float:
        """The height of the flashing's upper end."""
        up = self.flashing.up_mm if self.flashing else None
        return self.height_mm if up is None else up

    @property
    def top_mm(self) -> float:
        """The height of the highest thing drawn."""
        return max(self.height_mm, self.guardrail.height_mm if self.guardrail else 0.0)

    @property
    def depth_mm(self) -> float:
        """From the roof surface down to the underside of the deck."""
        return self.added_mm + self.insulation_mm + self.deck.thickness_mm

    @property
    def core_from_mm(self) -> float:
        inside = self.foam is not None and self.foam.side == "inside"
        return self.foam.thickness_mm if self.foam and inside else 0.0

    @property
    def core_to_mm(self) -> float:
        outside = self.foam.thickness_mm if self.foam and self.foam.side == "outside" else 0.0
        return self.width_mm - outside - (self.cladding.thickness_mm if self.cladding else 0.0)

    @property
    def core_top_mm(self) -> float:
        return self.height_mm - (self.nailer_mm or 0.0)
