"""Does this work need a fire watch at all? The four things that ask for one, each with its name.

Distances are millimetres from the flame. Whether they are measured level, up and down or along the
way is the caller's: the rule read here says only how far, a stricter one says both ways.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from trainer.roofing.contract import Calculator, Each, Field, Flag, Record, Text, length

Trigger = Literal["combustible near", "easily lit", "opening near", "behind metal"]


@dataclass(frozen=True)
class Combustible:
    """Something that can burn and is neither moved nor shielded; ``distance_mm`` ≥ 0."""

    name: str
    distance_mm: float
    easily_lit: bool


@dataclass(frozen=True)
class Opening:
    """An opening in wall, floor or roof with something behind it that can burn."""

    name: str
    distance_mm: float


@dataclass(frozen=True)
class Around:
    """What stands round the flame; ``behind_metal`` are the names of what touches the far side."""

    combustibles: Sequence[Combustible]
    openings: Sequence[Opening]
    behind_metal: Sequence[str]


def reasons(around: Around, limit_mm: float) -> dict[Trigger, list[str]]:
    """The names of what asks for a watch, by trigger, in the order of the rule; may be empty.

    ``limit_mm`` ≥ 0. Nearer than the limit is less than it; within the limit includes it. Source:
    29 CFR 1910.252(a)(2)(iii)(A), read in a state's mirror, WAC 296-307-49503.
    """
    things = around.combustibles
    return {
        "combustible near": [each.name for each in things if each.distance_mm < limit_mm],
        "easily lit": [
            each.name for each in things if each.easily_lit and each.distance_mm >= limit_mm
        ],
        "opening near": [each.name for each in around.openings if each.distance_mm <= limit_mm],
        "behind metal": list(around.behind_metal),
    }


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    around = Around(
        [Combustible(**each) for each in given["combustibles"]],
        [Opening(**each) for each in given["openings"]],
        given["behind_metal"],
    )
    found = reasons(around, given["limit_mm"])
    triggers = [trigger for trigger, names in found.items() if names]
    return {
        "needed": bool(triggers),
        "triggers": triggers,
        "because": [
            {"trigger": trigger, "name": name} for trigger in triggers for name in found[trigger]
        ],
    }


_COMBUSTIBLE = Record(
    (
        Field("name", Text(), "what it is, as the drawing calls it"),
        Field("distance_mm", length(), "how far it is from the flame"),
        Field("easily_lit", Flag(), "whether sparks light it easily: paper, sawdust, dry leaves"),
    )
)
_OPENING = Record(
    (
        Field("name", Text(), "what it is, as the drawing calls it"),
        Field("distance_mm", length(), "how far it is from the flame"),
    )
)

_RESULTS: Mapping[str, str] = {
    "needed": "whether anything asks for a fire watch; one is enough",
    "triggers": 'of "combustible near", "easily lit", "opening near", "behind metal" those that '
    "hold, in this order",
    "because": "trigger and name of each thing that asks for it, in the order of the triggers",
}

WATCH_NEEDED = Calculator(
    name="watch-needed",
    summary="whether the work needs a fire watch, and for which of four reasons",
    fields=(
        Field("combustibles", Each(_COMBUSTIBLE), "what can burn, neither moved nor shielded"),
        Field("openings", Each(_OPENING), "openings to something that can burn, voids included"),
        Field(
            "behind_metal",
            Each(Text()),
            "what can burn against the far side of a metal wall, ceiling or roof",
        ),
        Field("limit_mm", length(), "the distance of the rule in force"),
    ),
    results=_RESULTS,
    sources=(
        "29 CFR 1910.252(a)(2)(iii)(A), read in a state's mirror, WAC 296-307-49503(3)",
        "35 ft level or up and down: 29 CFR 1915.504(b), shipyards",
    ),
    compute=_compute,
    rules=(
        "Nearer than the limit is less than it: at exactly the limit nothing is near.",
        "From the limit on only what sparks light easily counts.",
        "An opening at exactly the limit is within it.",
        "What lies against the far side of metal counts at any distance.",
    ),
)
