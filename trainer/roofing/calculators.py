"""Every calculator by its name; its module is imported only when it is asked for."""

from __future__ import annotations

from importlib import import_module

from trainer.errors import InputError
from trainer.roofing.contract import Calculator

_PLACES = {
    "dew-point": "weather:DEW_POINT",
    "wind-chill": "weather:WIND_CHILL",
    "heat-index": "weather:HEAT_INDEX",
    "edge-protection": "edge:EDGE_PROTECTION",
    "primer": "primer:PRIMER",
    "primer-batch": "primer_batch:PRIMER_BATCH",
    "primer-front": "primerfront:PRIMER_FRONT",
    "cold-roll": "coldroll:COLD_ROLL",
    "finish-height": "finish:FINISH_HEIGHT",
    "cut-length": "setout:CUT_LENGTH",
    "sheets": "sheets:SHEETS",
    "stagger": "stagger:STAGGER",
    "lap": "laps:LAP",
    "drift": "laps:DRIFT",
    "bridging": "bridging:BRIDGING",
    "plies": "plies:PLIES",
    "corner": "corners:CORNER",
    "patch": "patch:PATCH",
    "bleed-out": "bleedout:BLEED_OUT",
    "clearance": "clearance:CLEARANCE",
    "extinguisher": "extinguisher:EXTINGUISHER",
    "watch-needed": "watchneed:WATCH_NEEDED",
    "pairing": "pairing:PAIRING",
    "watch-cover": "watchcover:WATCH_COVER",
    "fire-watch": "firewatch:FIRE_WATCH",
    "night-seal": "nightseal:NIGHT_SEAL",
    "burn-cooling": "burns:BURN_COOLING",
    "takeoff": "takeoff:TAKEOFF",
    "sequence": "sequence:SEQUENCE",
    "substrate": "substrate:SUBSTRATE",
}

# What each calculator itself says, repeated so that a list of them need import none; tested equal.
_SUMMARIES = {
    "dew-point": "dew point of the air, and whether a surface lies far enough above it",
    "wind-chill": "how cold the wind makes bare skin",
    "heat-index": "how hot humid air feels in the shade",
    "edge-protection": "whether a roof edge needs fall protection, and whether it has any",
    "primer": "whether a primed surface may be covered now, and until when",
    "primer-batch": "how much wall may be primed in one go before the sheets follow",
    "primer-front": "where along a wall the primer is dead, late, ready and still drying",
    "cold-roll": "whether a roll from the cold and the wall are warm enough to lay now",
    "finish-height": "what is left of an upstand or parapet when new layers raise the roof",
    "cut-length": "girth of a sheet up and over the parapet, and its chalk line",
    "sheets": "set out one straight wall so that laps keep clear of field laps",
    "stagger": "whether laps already laid keep clear of each other",
    "lap": "whether measured laps are wide enough, given how well they are measured",
    "drift": "how a lap tapers when the sheet runs out of plumb",
    "bridging": "what a lap loses when a sheet that bridges the angle is pressed home",
    "plies": "how many sheets lie on top of each other where laps cross",
    "corner": "a sheet folded once round a corner: doubled and bare areas, slits, gusset size",
    "patch": "the least size of a patch over a blister, a fishmouth or a cut",
    "bleed-out": "whether the bead along a welded lap shows too little heat, or too much",
    "clearance": "flame against open laps and corners, wet primer, cylinders and what can burn",
    "extinguisher": "whether an extinguisher that is large enough is near enough on foot",
    "watch-needed": "whether the work needs a fire watch, and for which of four reasons",
    "pairing": "whether every lit torch has a fire watch who can truly watch it",
    "watch-cover": "whether somebody is on the fire watch all the time, and where the gaps are",
    "fire-watch": "when the fire watch ends, or by when the last flame must be out",
    "night-seal": "by when to begin sealing the open edge, and how many sheets still fit before",
    "burn-cooling": "how long a bitumen burn still stays under running water",
    "takeoff": "sheets, rolls, gussets and primer for a job",
    "sequence": "may this step come next: what must come first at a wall, a corner or the gas",
    "substrate": "whether there may be a flame at this parapet at all",
}


def names_and_summaries() -> dict[str, str]:
    """The one-line summary of every calculator by name, in the order of the work."""
    return dict(_SUMMARIES)


def calculator(name: str) -> Calculator:
    """The calculator of that name. Raises InputError on "name" when there is none."""
    if name not in _PLACES:
        raise unknown_calculator(name)
    module, _, attribute = _PLACES[name].partition(":")
    found = getattr(import_module(f"trainer.roofing.{module}"), attribute)
    if not isinstance(found, Calculator):
        raise TypeError(f"{module}.{attribute} is no Calculator")
    return found


def unknown_calculator(name: str) -> InputError:
    return InputError("name", name, f"one of {', '.join(_PLACES)}")
