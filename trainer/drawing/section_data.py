"""The parapet section as data: its value types and the fields they are read from."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.drawing.fields import (
    COORD,
    POINT,
    RANGE,
    REACH,
    THICKNESS,
    Choice,
    Field,
    Many,
    Number,
    Range,
    Value,
)

DIMENSIONS = ("height", "width", "cant", "field_lap", "outer_drop", "chalk")


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
    bridging_mm: float


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


_LAYER = Field("thickness_mm", THICKNESS, "how thick")
FIELDS = (
    Field(
        "height_mm",
        Number("mm", low=20, high=3000),
        "roof surface to top of parapet, nailer included",
    ),
    Field(
        "width_mm", Number("mm", low=40, high=1500), "top of parapet, foam and cladding included"
    ),
    Field("roof_mm", Number("mm", low=50, high=5000), "roof shown left of the wall", optional=True),
    Field(
        "deck",
        Value(
            (Field("material", Choice(("concrete", "steel", "timber")), "made of"), _LAYER),
            make=Layer,
        ),
        "what carries the roof",
    ),
    Field(
        "insulation",
        Value((Field("material", Choice(("mineral wool", "foam")), "made of"), _LAYER), make=Layer),
        "on the deck",
        optional=True,
    ),
    Field("core", Choice(("masonry", "concrete", "timber framing")), "what the parapet is made of"),
    Field("field_sheets", Number(low=0, high=2, whole=True), "plies of the field", default=1),
    Field("field_upturn_mm", REACH, "field sheet turned up the wall", default=0.0),
    Field(
        "cant",
        Value(
            (
                Field("leg_mm", THICKNESS, "leg of the 45° cant"),
                Field("material", Choice(("mineral", "wood fibre", "timber", "foam")), "made of"),
            ),
            make=Cant,
        ),
        "in the angle",
        optional=True,
    ),
    Field("nailer_mm", THICKNESS, "height of a timber nailer on the top", optional=True),
    Field(
        "void",
        Value((Field("from_mm", COORD, "foot"), Field("to_mm", COORD, "head")), make=Opening),
        "hollow in the core, by heights above the roof surface",
        optional=True,
    ),
    Field(
        "vent",
        Value((Field("from_mm", COORD, "foot"), Field("to_mm", COORD, "head")), make=Opening),
        "opening right through the wall, by heights above the roof surface",
        optional=True,
    ),
    Field(
        "foam",
        Value(
            (
                _LAYER,
                Field("side", Choice(("outside", "inside")), "of the core", default="outside"),
            ),
            make=Layer,
        ),
        "a foam layer on the core",
        optional=True,
    ),
    Field(
        "cladding",
        Value(
            (_LAYER, Field("material", Choice(("metal", "timber", "masonry")), "made of")),
            make=Layer,
        ),
        "the outside",
        optional=True,
    ),
    Field(
        "flashing",
        Value(
            (
                Field("field_lap_mm", REACH, "onto the field, past the cant"),
                Field("up_mm", REACH, "up to this height; the top when absent", optional=True),
                Field("top_mm", REACH, "over the top; right across when absent", optional=True),
                Field("outer_drop_mm", REACH, "down the outside", default=0.0),
                Field(
                    "bridging_mm",
                    REACH,
                    "leg of a hollow bridged in the angle, no cant",
                    default=0.0,
                ),
            ),
            make=Flashing,
        ),
        "the flashing sheet",
        optional=True,
    ),
    Field(
        "chalk",
        Value(
            (
                Field("at_mm", REACH, "distance from the wall face"),
                Field("movable", RANGE, "range of that distance", optional=True),
            ),
            make=Chalk,
        ),
        "the chalk line",
        optional=True,
    ),
    Field(
        "flame",
        Value(
            (
                Field("at", POINT, "the flame tip"),
                Field(
                    "towards", POINT, "what it burns towards; the angle when absent", optional=True
                ),
                Field("movable_x", RANGE, "range along x", optional=True),
                Field("movable_y", RANGE, "range along y", optional=True),
            ),
            make=Flame,
        ),
        "a torch",
        optional=True,
    ),
    Field(
        "finish_mm", COORD, "height of the finished surface above the roof surface", optional=True
    ),
    Field("dimensions", Many(Choice(DIMENSIONS)), "dimensions given from the start", default=[]),
)


@dataclass(frozen=True)
class Section:
    """The checked figure."""

    height_mm: float
    width_mm: float
    roof_mm: float | None
    deck: Layer
    insulation: Layer | None
    core: str
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

    @property
    def cant_mm(self) -> float:
        return self.cant.leg_mm if self.cant else 0.0

    @property
    def insulation_mm(self) -> float:
        return self.insulation.thickness_mm if self.insulation else 0.0

    @property
    def depth_mm(self) -> float:
        """From the roof surface down to the underside of the deck."""
        return self.insulation_mm + self.deck.thickness_mm

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
