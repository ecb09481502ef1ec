"""Every calculator by its name; its module is imported only when it is asked for."""

from __future__ import annotations

from importlib import import_module

from trainer.errors import InputError
from trainer.roofing.contract import Calculator

_PLACES = {
    "dew-point": "weather:DEW_POINT",
    "wind-chill": "weather:WIND_CHILL",
    "heat-index": "weather:HEAT_INDEX",
    "primer": "primer:PRIMER",
    "primer-batch": "primer_batch:PRIMER_BATCH",
    "cut-length": "setout:CUT_LENGTH",
    "sheets": "sheets:SHEETS",
    "stagger": "stagger:STAGGER",
    "lap": "laps:LAP",
    "drift": "laps:DRIFT",
    "corner": "corners:CORNER",
    "clearance": "clearance:CLEARANCE",
    "fire-watch": "firewatch:FIRE_WATCH",
    "takeoff": "takeoff:TAKEOFF",
    "sequence": "sequence:SEQUENCE",
    "substrate": "substrate:SUBSTRATE",
}

# What each calculator itself says, repeated so that a list of them need import none; tested equal.
_SUMMARIES = {
    "dew-point": "dew point of the air, and whether a surface lies far enough above it",
    "wind-chill": "how cold the wind makes bare skin",
    "heat-index": "how hot humid air feels in the shade",
    "primer": "whether a primed surface may be covered now, and until when",
    "primer-batch": "how much wall may be primed in one go before the sheets follow",
    "cut-length": "girth of a sheet up and over the parapet, and its chalk line",
    "sheets": "set out one straight wall so that laps keep clear of field laps",
    "stagger": "whether laps already laid keep clear of each other",
    "lap": "whether measured laps are wide enough, given how well they are measured",
    "drift": "how a lap tapers when the sheet runs out of plumb",
    "corner": "a sheet folded once round a corner: doubled and bare areas, slits, gusset size",
    "clearance": "flame against open laps and corners, wet primer, cylinders and what can burn",
    "fire-watch": "when the fire watch ends, or by when the last flame must be out",
    "takeoff": "sheets, rolls, gussets and primer for a job",
    "sequence": "may this step come next: what must come first at a wall or a corner",
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
