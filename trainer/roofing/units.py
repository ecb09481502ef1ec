"""The units a limit may be stated in, and how a limit is said in the units a worker uses.

Every unit belongs to one dimension; the first unit of a dimension is its base, the one the
arithmetic uses. Conversions are exact fractions: 3 in is 76.2 mm, never 75. Factors: 1 in =
25.4 mm (international yard and pound agreement, 1959); 1 lb = 0.45359237 kg (same); 1 US gallon =
231 cubic inches (NIST Handbook 44, appendix C, from memory); 1 mile = 5280 ft.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from trainer.errors import InputError

System = Literal["metric", "us"]
"""Which units a worker reads: millimetres and °C, or inches and °F."""


@dataclass(frozen=True)
class Unit:
    """One unit. ``system`` is empty where both crews use it (minutes, pieces).

    base value = (value + ``shift``) × ``factor``. ``label`` is how a value is said.
    """

    name: str
    dimension: str
    system: System | Literal[""]
    factor: Fraction = Fraction(1)
    shift: Fraction = Fraction(0)
    label: str = ""

    def to_base(self, value: float | Fraction) -> Fraction:
        """``value`` of this unit in the base unit of its dimension, exactly."""
        return (exactly(value) + self.shift) * self.factor

    def from_base(self, value: float | Fraction) -> Fraction:
        """``value`` of the base unit in this unit, exactly."""
        return exactly(value) / self.factor - self.shift

    def say_easily(self, value: float | Fraction) -> str:
        """As ``say``, with long lengths and durations as people say them: "9.144 m", "2 h 30 min".

        From 3 m on millimetres are said as metres; from 60 min on minutes as hours and minutes,
        and so are parts of an hour. The number is the same, to the last digit.
        """
        if self.name == "mm" and value >= _METRES_EASILY_FROM_MM:
            return UNITS["m"].say(exactly(value) / 1000)
        if self.dimension == "duration" and self.to_base(value) >= _HOURS_FROM_MIN:
            return _hours(self.to_base(value))
        return self.say(value)

    def say(self, value: float | Fraction) -> str:
        """As stated: "100 mm", "3 1/2 in", "5 °F", "20-B:C"."""
        number = _mixed(exactly(value)) if self.name == "in" else _decimal(exactly(value))
        return (self.label or "{} " + self.name).format(number)


def exactly(value: float | Fraction) -> Fraction:
    """The decimal number a person wrote: 0.1 is one tenth, not its nearest binary fraction."""
    return value if isinstance(value, Fraction) else Fraction(str(value))


_INCH = Fraction("25.4")
_GALLON = 231 * _INCH**3 / 10**6
_SQUARE_FOOT = (12 * _INCH / 1000) ** 2

_TABLE = (
    Unit("mm", "length", "metric"),
    Unit("m", "length", "metric", Fraction(1000)),
    Unit("in", "length", "us", _INCH),
    Unit("ft", "length", "us", 12 * _INCH),
    Unit("min", "duration", ""),
    Unit("h", "duration", "", Fraction(60)),
    Unit("°C", "temperature", "metric"),
    Unit("°F", "temperature", "us", Fraction(5, 9), Fraction(-32)),
    Unit("K", "temperature difference", "metric", label="{} °C"),
    Unit("Δ°F", "temperature difference", "us", Fraction(5, 9), label="{} °F"),
    Unit("m²", "area", "metric"),
    Unit("ft²", "area", "us", _SQUARE_FOOT),
    Unit("kg", "mass", "metric"),
    Unit("lb", "mass", "us", Fraction("0.45359237")),
    Unit("km/h", "speed", "metric"),
    Unit("mph", "speed", "us", 5280 * 12 * _INCH / 10**6),
    Unit("L/m²", "coating rate", "metric"),
    Unit("US gal/100 ft²", "coating rate", "us", _GALLON / (100 * _SQUARE_FOOT)),
    Unit("m²/L", "coverage", "metric"),
    Unit("ft²/US gal", "coverage", "us", _SQUARE_FOOT / _GALLON),
    Unit("%", "share", ""),
    Unit("count", "count", "", label="{}"),
    Unit("A", "class A rating", "", label="{}-A"),
    Unit("B:C", "class B:C rating", "", label="{}-B:C"),
    Unit("LE", "extinguishing units", ""),
)

UNITS = {unit.name: unit for unit in _TABLE}
DIMENSIONS = tuple(dict.fromkeys(unit.dimension for unit in _TABLE))

_STEPS: dict[tuple[str, System], tuple[str, Fraction]] = {
    ("length", "metric"): ("mm", Fraction(1)),
    ("length", "us"): ("in", Fraction(1, 16)),
    ("temperature", "metric"): ("°C", Fraction(1, 10)),
    ("temperature", "us"): ("°F", Fraction(1, 10)),
    ("temperature difference", "metric"): ("K", Fraction(1, 10)),
    ("temperature difference", "us"): ("Δ°F", Fraction(1, 10)),
    ("area", "metric"): ("m²", Fraction(1, 10)),
    ("area", "us"): ("ft²", Fraction(1)),
    ("mass", "metric"): ("kg", Fraction(1, 10)),
    ("mass", "us"): ("lb", Fraction(1, 10)),
    ("speed", "metric"): ("km/h", Fraction(1, 10)),
    ("speed", "us"): ("mph", Fraction(1, 10)),
    ("coating rate", "metric"): ("L/m²", Fraction(1, 1000)),
    ("coating rate", "us"): ("US gal/100 ft²", Fraction(1, 100)),
    ("coverage", "metric"): ("m²/L", Fraction(1, 10)),
    ("coverage", "us"): ("ft²/US gal", Fraction(1)),
}
_METRES_FROM_MM = 10_000
_METRES_EASILY_FROM_MM = 3000
_HOURS_FROM_MIN = 60
_FEET_FROM_INCHES = 72


def unit_named(name: object, field: str = "unit", dimension: str = "") -> Unit:
    """The unit of that name. InputError for an unknown one, or one of another dimension."""
    unit = UNITS.get(name) if isinstance(name, str) else None
    if unit is None or (dimension and unit.dimension != dimension):
        raise InputError(field, name, units_of(dimension))
    return unit


def base_unit(dimension: str) -> str:
    """The unit the arithmetic uses for a dimension. Raises InputError for an unknown dimension."""
    for unit in _TABLE:
        if unit.dimension == dimension:
            return unit.name
    raise InputError("dimension", dimension, " or ".join(f'"{name}"' for name in DIMENSIONS))


def units_of(dimension: str = "") -> str:
    """The units of one dimension, or all of them, as a message lists them."""
    names = [u.name for u in _TABLE if dimension in ("", u.dimension)]
    return " or ".join(f'"{name}"' for name in names)


def converted(
    base: Fraction, dimension: str, system: System, *, up: bool, easily: bool = False
) -> str:
    """A limit said in units it was not stated in, rounded to its strict side (``up`` or down).

    Whoever meets the number said meets the limit itself: at least 60 mm is said as 2 3/8 in
    (60.3 mm), to the sixteenth a tape shows; from 72 in on in feet and whole inches. ``easily``
    says it as ``Unit.say_easily`` does.
    """
    name, step = _STEPS[dimension, system]
    unit = UNITS[name]
    steps = unit.from_base(base) / step
    value = (math.ceil(steps) if up else math.floor(steps)) * step
    if name == "in" and value >= _FEET_FROM_INCHES:
        return _feet(math.ceil(value) if up else math.floor(value))
    if easily:
        return unit.say_easily(value)
    if name == "mm" and value >= _METRES_FROM_MM:
        return UNITS["m"].say(value / 1000)
    return unit.say(value)


def _hours(minutes: Fraction) -> str:
    hours, rest = divmod(minutes, 60)
    return f"{hours} h {_decimal(rest)} min" if rest else f"{hours} h"


def _feet(inches: int) -> str:
    feet, rest = divmod(inches, 12)
    return f"{feet} ft {rest} in" if rest else f"{feet} ft"


def _decimal(value: Fraction) -> str:
    return f"{float(value):.10g}".replace("-", "−")


def _mixed(value: Fraction) -> str:
    """Inches as a tape shows them where they fall on a sixteenth, else as a decimal."""
    if (value * 16).denominator != 1 or value < 0:
        return _decimal(value)
    whole, part = divmod(value, 1)
    if not part:
        return str(whole)
    return f"{whole} {part}" if whole else str(part)
