"""Every word a drawing writes of its own accord, for whoever translates them.

A drawing asks for its words through ``say``; what a figure brings along is already worded.
"""

from __future__ import annotations

from trainer.drawing.days_data import BLOCKS
from trainer.drawing.plan_data import THINGS
from trainer.drawing.plan_site_data import COMBUSTIBLES, OBSTACLES
from trainer.drawing.section_work_data import MATERIALS
from trainer.drawing.timeline_data import BANDS, EVENTS

_PARTS = (
    "area",
    "bead of bitumen",
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
    "hollow at the step",
    "insulation",
    "lap",
    "left out",
    "lower sheet",
    "mark",
    "nailer",
    "over-cut",
    "parapet",
    "place",
    "primer",
    "release film",
    "release film, lower half",
    "release film, upper half",
    "roller",
    "sheet",
    "side-lap film",
    "slit",
    "step, filled",
    "third sheet",
    "torch",
    "upper sheet",
    "vent",
    "void",
    "weldable film",
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
    "blister",
    "closed",
    "double",
    "fishmouth",
    "in the shade",
    "in the sun",
    "not sealed yet",
    "open",
    "patch",
    "primer, dead",
    "primer, dry",
    "primer, wet",
    "welded",
    "wrinkle",
)
_AT_THE_EDGE = (
    "ballast",
    "cavity",
    "field",
    "hollow",
    "in the shade",
    "in the sun",
    "old surface",
    "pavers",
    "roof surface beyond",
    "top",
    "wall",
    *MATERIALS,
)
_ON_THE_ROOF = (
    "carries a sheet",
    "edge under a sheet",
    "empty hands",
    "holds a torch",
    "holds an extinguisher",
    "keeps watch",
    "opening, covered",
    "opening, open",
    "ply 1",
    "ply 2",
    "ply 3",
    "way",
    "wind",
    *OBSTACLES,
    *COMBUSTIBLES,
)
_AT_WORK = (
    "burns",
    "corner",
    "damp",
    "finding",
    "finding, critical",
    "no edge protection",
    "laid and rolled",
    "not rolled yet",
    "primer, spoilt",
    "sealed for the night",
    "sheet marked out",
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
    sorted(
        {
            *_PARTS,
            *_MATERIALS,
            *_STATES,
            *_NOTES,
            *_AT_THE_EDGE,
            *_AT_WORK,
            *_ON_THE_ROOF,
            *THINGS,
            *EVENTS,
            *BANDS,
            *BLOCKS,
        }
    )
)
