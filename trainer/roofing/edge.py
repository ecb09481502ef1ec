"""May somebody work at this roof edge, or does it need protection first? Millimetres throughout."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Literal

from trainer.roofing.contract import Calculator, Field, Flag, exact, length

Ground = Literal["no parapet", "parapet too low"]


@dataclass(frozen=True)
class Edge:
    """One roof edge as somebody stands at it now.

    ``drop_mm`` to the next lower level; ``edge_limit_mm`` the drop from which protection is asked
    for; ``parapet_mm`` above the finished surface, 0 for none; ``guardrail_mm`` the least height of
    a guardrail, or of a parapet counted as one. All ≥ 0.
    """

    drop_mm: float
    edge_limit_mm: float
    parapet_mm: float
    guardrail_mm: float
    guardrail: bool
    tied_on: bool

    @property
    def needed(self) -> bool:
        """Whether the edge needs protection: the drop is the limit or more.

        At the limit itself the texts differ ("or more", "more than"); here it counts.
        """
        return self.drop_mm >= self.edge_limit_mm

    @property
    def short_mm(self) -> Fraction:
        """How far the parapet falls short of a guardrail's height, ≥ 0."""
        return max(Fraction(0), exact(self.guardrail_mm) - exact(self.parapet_mm))

    @property
    def protected(self) -> bool:
        return self.guardrail or self.tied_on or not self.short_mm

    @property
    def grounds(self) -> tuple[Ground, ...]:
        """Why nobody may work here; none when somebody may."""
        if self.protected or not self.needed:
            return ()
        return ("parapet too low",) if self.parapet_mm else ("no parapet",)


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    edge = Edge(**given)
    return {
        "needed": edge.needed,
        "protected": edge.protected,
        "ok": not edge.grounds,
        "grounds": list(edge.grounds),
        "short_mm": edge.short_mm,
    }


EDGE_PROTECTION = Calculator(
    name="edge-protection",
    summary="whether a roof edge needs fall protection, and whether it has any",
    fields=(
        Field("drop_mm", length(), "from the roof surface down to the next lower level"),
        Field("edge_limit_mm", length(), "drop from which protection is asked for"),
        Field("parapet_mm", length(), "parapet above the finished surface now, 0 for none"),
        Field("guardrail_mm", length(), "least height of a guardrail, or a parapet for one"),
        Field("guardrail", Flag(), "whether a guardrail of that height stands at the edge"),
        Field("tied_on", Flag(), "whether everybody there is tied on by restraint or arrest"),
    ),
    results={
        "needed": "whether the edge needs protection: the drop is the limit or more",
        "protected": "whether it has it: parapet high enough, guardrail, or everybody tied on",
        "ok": "whether somebody may work here: protected, or no protection needed",
        "grounds": '"no parapet" or "parapet too low"; empty when somebody may work here',
        "short_mm": "how far the parapet falls short of a guardrail's height, 0 when it does not",
    },
    sources=(
        "guardrail, net or personal fall arrest from 6 ft (1.8 m): 29 CFR 1926.501(b)(1) "
        "(secondary source)",
        "a parapet of a guardrail's height, 39 in (1.0 m), counts as one: reading of 29 CFR "
        "1926.502(b)(1) and (3) (secondary source)",
    ),
    compute=_compute,
    rules=(
        "A drop of exactly the limit needs protection; a parapet of exactly the height counts.",
        "A parapet counts as a guardrail only where it is as strong as a top rail.",
        "The parapet is measured from the finished surface: new layers make it lower.",
    ),
)
