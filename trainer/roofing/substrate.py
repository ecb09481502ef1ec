"""The substrate gate: may there be a flame at this parapet at all?

What a layer is made of decides, not how well it is covered: a sheet over timber does not make the
timber safe. Openings that lead into the wall or the building are the second way a fire starts.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from trainer.roofing.contract import Calculator, Choice, Each, Field, Record, Text

BURNS: Mapping[str, bool] = {
    "concrete": False,
    "masonry": False,
    "steel": False,
    "mineral wool": False,
    "mineral board": False,
    "timber": True,
    "wood fibre": True,
    "foam": True,
    "bitumen felt": True,
}
"""Materials of a parapet and whether they can burn.

Not: the groups that Commission Decision 96/603/EC lists as reaction-to-fire class A1 without test
(concrete, clay and concrete masonry, steel, mineral wool with little binder). Can: wood products
are class D or E without test, foam and bitumen likewise at best E (EN 13501-1). From memory.
"""


@dataclass(frozen=True)
class Layer:
    """One layer or piece in or behind the parapet."""

    name: str
    material: str


@dataclass(frozen=True)
class Gate:
    """``burns``: what can burn; ``open_ways``: openings not covered; ``flame``: allowed."""

    burns: tuple[str, ...]
    open_ways: tuple[str, ...]

    @property
    def flame(self) -> bool:
        return not self.burns and not self.open_ways


def gate(layers: Sequence[Layer], openings: Sequence[str] = ()) -> Gate:
    """What stands against a flame here. Materials are the keys of BURNS.

    Source: torching to a combustible surface is prohibited (RCABC Roofing Practices Manual, SBS
    Standard, Part 10, 1.2.2); openings near hot work are covered or shielded (IFC 2018, 3504.1.2).
    """
    return Gate(tuple(each.name for each in layers if BURNS[each.material]), tuple(openings))


def _compute(inputs: dict[str, Any]) -> dict[str, Any]:
    layers = [Layer(each["name"], each["material"]) for each in inputs["layers"]]
    found = gate(layers, inputs["openings"] or ())
    grounds = ["combustible"] * bool(found.burns) + ["opening"] * bool(found.open_ways)
    return {
        "flame": found.flame,
        "burns": list(found.burns),
        "open_ways": list(found.open_ways),
        "grounds": grounds,
    }


_LAYER = Record(
    (
        Field("name", Text(), "the layer, as the drawing calls it"),
        Field("material", Choice(tuple(BURNS)), "what it is made of"),
    )
)

SUBSTRATE = Calculator(
    name="substrate",
    summary="whether there may be a flame at this parapet at all",
    fields=(
        Field("layers", Each(_LAYER, least=1), "everything in, under and behind the parapet"),
        Field("openings", Each(Text()), "vents, voids and gaps left uncovered", optional=True),
    ),
    results={
        "flame": "true when nothing can burn and nothing is open",
        "burns": "names of the layers that can burn",
        "open_ways": "names of the openings that are not covered",
        "grounds": '"combustible", "opening", in this order; empty when a flame may come',
    },
    sources=(
        "RCABC Roofing Practices Manual, SBS Standard, Part 10, 1.2.2",
        "International Fire Code 2018, 3504.1.2",
        "materials: Commission Decision 96/603/EC and EN 13501-1, from memory",
    ),
    compute=_compute,
)
