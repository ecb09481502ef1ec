"""What to cut from the roll, and where to snap the chalk line. Millimetres throughout."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from trainer.errors import InputError
from trainer.roofing.contract import Calculator, Field, length


@dataclass(frozen=True)
class Profile:
    """The parapet as the sheet follows it, from the field over the top to the outer face.

    ``height_mm`` from roof surface to top of parapet; ``cant_mm`` the leg of a 45° cant, 0 for
    none, ≤ height. Raises InputError for a cant higher than the parapet.
    """

    height_mm: float
    cant_mm: float
    top_mm: float
    field_lap_mm: float
    outer_drop_mm: float

    def __post_init__(self) -> None:
        if self.cant_mm > self.height_mm:
            allowed = f"≥ 0 and ≤ height_mm ({self.height_mm})"
            raise InputError("cant_mm", self.cant_mm, allowed)


def girth_mm(profile: Profile) -> float:
    """Length of sheet from the chalk line to its outer edge.

    field lap + cant × √2 + (height − cant) + top + outer drop: a 45° cant of leg c replaces c of
    wall and c of roof by its slope c × √2 (Pythagoras); the roof it covers is the chalk line's.

    >>> girth_mm(Profile(300, 0, 200, 100, 50))
    650.0
    """
    upright = profile.height_mm - profile.cant_mm
    slope = profile.cant_mm * math.sqrt(2)
    return math.fsum((profile.field_lap_mm, slope, upright, profile.top_mm, profile.outer_drop_mm))


def chalk_line_mm(profile: Profile) -> float:
    """Distance of the chalk line from the wall face: the field lap starts at the toe of the cant.

    >>> chalk_line_mm(Profile(300, 75, 200, 100, 50))
    175
    """
    return profile.cant_mm + profile.field_lap_mm


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    profile = Profile(**given)
    return {"girth_mm": girth_mm(profile), "chalk_line_mm": chalk_line_mm(profile)}


CUT_LENGTH = Calculator(
    name="cut-length",
    summary="girth of a sheet up and over the parapet, and its chalk line",
    fields=(
        Field("height_mm", length(), "roof surface to top of parapet"),
        Field("cant_mm", length(), "leg of a 45° cant, 0 for none; ≤ height_mm"),
        Field("top_mm", length(), "width of the parapet top the sheet covers"),
        Field("field_lap_mm", length(), "leg on the field, from the cant or the wall"),
        Field("outer_drop_mm", length(), "how far the sheet comes down the outer face"),
    ),
    results={
        "girth_mm": "length to cut: field lap + cant × √2 + (height − cant) + top + outer drop",
        "chalk_line_mm": "distance of the chalk line from the wall face: cant + field lap",
    },
    sources=(
        "plane geometry; a cant lies at 45° (100 % slope): MIL-HDBK-1001/5A, 5.3.2",
        "a field lap of at least 100 mm: RP-2025 (French trade rules, January 2025), 7.2.4.1",
    ),
    compute=_compute,
)
