"""What every hatch and symbol of the drawings means, for the page that shows them all."""

from __future__ import annotations

from collections.abc import Mapping

from trainer.drawing.hatches import NAMES as HATCHES
from trainer.drawing.symbols import NAMES as SYMBOLS

_HATCH_WORDS: Mapping[str, str] = {
    "end-grain": "timber, across the grain",
    "mineral-wool": "mineral wool",
    "wood-fibre": "wood fibre",
    "mineral-board": "mineral board",
    "steel-cut": "steel, cut",
    "wet": "primer, wet",
    "dry": "primer, dry; ready; plan",
    "dead": "primer, dead",
    "lap": "lap; monitoring",
    "metal": "metal; late",
    "double": "double; watch",
    "film": "release film, upper half",
    "film-lower": "release film, lower half",
    "film-side": "side-lap film",
    "field": "roof field; break",
    "mineral": "mineral cant",
    "timber": "timber; work",
    "glass": "rooflight",
    "casing": "plant",
    "boards": "stack of insulation",
    "rolls": "pallet of rolls",
    "steps": "stair head",
    "plate": "opening, covered",
    "depth": "opening, open",
    "ply-2": "second ply",
    "ply-3": "third ply",
    "shade": "in the shade",
    "hollow": "does not stick",
    "flames": "torch lit",
    "eat": "eats",
    "seal": "seals for the night",
    "primed": "primed, how dry is not seen",
    "loose": "not rolled yet",
    "bare": "bare",
    "cold": "cold",
    "warm": "kept warm",
}
_SYMBOL_WORDS: Mapping[str, str] = {
    "can": "can of primer",
    "cylinder": "gas cylinder",
    "paper": "paper, cartons",
    "screen": "plastic screen",
    "watch": "keeps watch",
    "sheet": "carries a sheet",
    "nothing": "empty hands",
    "shade": "in the shade",
    "applied": "primer applied",
    "touch": "touch test",
    "flame-out": "flame out",
    "drop": "water",
    "roll-press": "lap rolled",
    "delivery": "delivery",
    "dark": "it gets dark",
    "burn": "hot bitumen on skin",
    "sun": "in the sun",
    "point": "a point in time",
    "break": "break",
}


def hatch_words() -> dict[str, str]:
    """Every hatch there is and what it means; its own name where that says it all."""
    return {name: _HATCH_WORDS.get(name, name.replace("-", " ")) for name in HATCHES}


def symbol_words() -> dict[str, str]:
    """Every symbol there is and what it means; its own name where that says it all."""
    return {name: _SYMBOL_WORDS.get(name, name) for name in SYMBOLS}
