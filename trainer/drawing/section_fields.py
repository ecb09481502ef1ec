"""The fields a parapet section is read from."""

from __future__ import annotations

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
    Value,
)
from trainer.drawing.section_data import Cant, Chalk, Flame, Flashing, Layer, Opening
from trainer.drawing.section_work_data import WALL_LAYERS, WORK_FIELDS

DIMENSIONS = (
    "height",
    "height_old",
    "height_new",
    "flashing_height",
    "guardrail",
    "width",
    "cant",
    "field_lap",
    "outer_drop",
    "chalk",
)

_INSULATION = ("mineral wool", "foam", "mineral board", "wood fibre")
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
        Value((Field("material", Choice(_INSULATION), "made of"), _LAYER), make=Layer),
        "on the deck",
        optional=True,
    ),
    Field(
        "core",
        Choice(("masonry", "concrete", "timber framing")),
        "what the parapet is made of; needed unless there are layers",
        optional=True,
    ),
    WALL_LAYERS,
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
                    "foot",
                    Choice(("new", "old")),
                    "the surface it and the cant stand on, where layers are added",
                    default="new",
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
    *WORK_FIELDS,
    Field("dimensions", Many(Choice(DIMENSIONS)), "dimensions given from the start", default=[]),
)
