"""Every word a drawing writes of its own accord, for whoever translates them.

A drawing asks for its words through ``say``; what a figure brings along is already worded.
"""

from __future__ import annotations

from trainer.drawing.plan_data import THINGS
from trainer.drawing.timeline_data import BANDS, EVENTS

_PARTS = (
    "area",
    "cant",
    "chalk line",
    "cladding",
    "cut",
    "deck",
    "edge of the sheet",
    "end of the slit",
    "field lap",
    "field sheet",
    "flashing sheet",
    "foam",
    "fold",
    "gusset",
    "insulation",
    "lap",
    "mark",
    "nailer",
    "over-cut",
    "parapet",
    "place",
    "primer",
    "release film, lower half",
    "release film, upper half",
    "sheet",
    "side-lap film",
    "slit",
    "torch",
    "vent",
    "void",
)
_MATERIALS = (
    "concrete",
    "masonry",
    "metal",
    "mineral",
    "mineral wool",
    "steel",
    "timber",
    "timber framing",
    "wood fibre",
)
_STATES = (
    "bare",
    "closed",
    "double",
    "open",
    "primer, dead",
    "primer, dry",
    "primer, wet",
    "welded",
)
_NOTES = (
    "detail",
    "finished surface",
    "guardrail",
    "roof edge",
    "roof field",
    "sheet thickness not to scale",
    "wall face",
)

WORDS: tuple[str, ...] = tuple(
    sorted({*_PARTS, *_MATERIALS, *_STATES, *_NOTES, *THINGS, *EVENTS, *BANDS})
)
