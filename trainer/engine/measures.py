"""Numbers as a worker reads them: millimetres or inches, °C or °F, minutes, clock times.

Inside the program lengths are millimetres and temperatures degrees Celsius. 1 in = 25.4 mm and
1 ft = 12 in exactly (international yard and pound agreement, 1959). How they are typed is in
``typed``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from trainer.engine import typed
from trainer.engine.functions import clock
from trainer.errors import InputError

MM_PER_INCH = 25.4
_WHOLE_FROM_MM = 100
_METRES_FROM_MM = 3000
_EIGHTHS = 8
_FEET_FROM_INCHES = 48


@dataclass(frozen=True)
class Units:
    """A worker's choice: ``length`` "mm" or "in", ``temperature`` "C" or "F".

    ``decimal`` says inches with two places: in a sum, terms rounded to eighths do not add up.
    """

    length: str = "mm"
    temperature: str = "C"
    decimal: bool = False

    def __post_init__(self) -> None:
        for field, value, allowed in (
            ("length unit", self.length, ("mm", "in")),
            ("temperature unit", self.temperature, ("C", "F")),
        ):
            if value not in allowed:
                raise InputError(field, value, " or ".join(allowed))

    def say_length(self, mm: float) -> str:
        """ "60 mm", or "2 3/8 in" to the nearest eighth; from four feet on in feet and inches.

        Whole millimetres from 100 mm on: nobody on a roof reads tenths.
        """
        if self.length == "in":
            return self._say_inches(mm)
        return f"{_plain(mm, 0 if abs(mm) >= _WHOLE_FROM_MM else 1)} mm"

    def say_distance(self, mm: float) -> str:
        """A long length: "12.4 m", or feet and inches."""
        return self._say_inches(mm) if self.length == "in" else f"{_plain(mm / 1000, 2)} m"

    def _say_inches(self, mm: float) -> str:
        return f"{_plain(mm / MM_PER_INCH, 2)} in" if self.decimal else _inches(mm)

    def say_temperature(self, celsius: float) -> str:
        if self.temperature == "F":
            return f"{_plain(celsius * 9 / 5 + 32, 1)} °F"
        return f"{_plain(celsius, 1)} °C"

    def say_difference(self, kelvin: float) -> str:
        """A difference of temperatures: 3 °C is 5.4 °F."""
        if self.temperature == "F":
            return f"{_plain(kelvin * 9 / 5, 1)} °F"
        return f"{_plain(kelvin, 1)} °C"

    def say_limit(self, rule: Mapping[str, Any]) -> str:
        """A rule's limit as its source states it for these units; 9144 mm are said as 9.144 m."""
        warmth = rule["unit"] in ("°C", "K")
        us = self.temperature == "F" if warmth else self.length == "in"
        said = str(rule["says"]["in" if us else "mm"])
        return _in_metres(said) if said.endswith(" mm") else said

    def own_value(self, rule: Mapping[str, Any]) -> float | None:
        """A rule's limit as its source states it for these units, in mm or the rule's own unit.

        3 in is 76.2 where 75 mm stand beside it: a sum that says the one must go on with it.
        """
        if rule["unit"] != "mm":
            value: float | None = rule["value"]
            return value
        said = self.say_limit(rule)
        if said.endswith("m") and not said.endswith("mm"):
            return typed.read_number("limit", said, "m") * 1000
        if said.endswith("mm"):
            return typed.read_number("limit", said, "mm")
        return typed.read_inches("limit", said) * MM_PER_INCH

    def say_amount(self, value: float, unit: str) -> str:
        """A measured value of one of :data:`~trainer.engine.spec.MEASURED_IN`."""
        match unit:
            case "mm":
                return self.say_length(value)
            case "m":
                return self.say_distance(value)
            case "c":
                return self.say_temperature(value)
            case "k":
                return self.say_difference(value)
            case _:
                return f"{say_number(value)} {unit}".strip()

    def sign(self, unit: str) -> str:
        """What stands behind a number that is typed in one of MEASURED_IN: "in", "°F", "l"."""
        far = "m" if self.length == "mm" else "ft"
        warmth = f"°{self.temperature}"
        return {"mm": self.length, "m": far, "c": warmth, "k": warmth}.get(unit, unit)

    def read_length(self, field: str, text: str) -> float:
        """Millimetres from "60", "2.5 mm"; in inches also "2 3/8" and "4 ft 2 3/8 in".

        Raises InputError.
        """
        if self.length == "in":
            return typed.read_inches(field, text) * MM_PER_INCH
        return typed.read_number(field, text, "mm")

    def read_distance(self, field: str, text: str) -> float:
        """Millimetres from metres, "12.4"; or from feet, "40", "40.5 ft" and "40 ft 8 in".

        Raises InputError.
        """
        if self.length == "mm":
            return typed.read_number(field, text, "m") * 1000
        return typed.read_feet(field, text) * MM_PER_INCH

    def read_temperature(self, field: str, text: str) -> float:
        """Degrees Celsius from "12.5". Raises InputError."""
        number = typed.read_number(field, text, f"°{self.temperature}")
        return (number - 32) * 5 / 9 if self.temperature == "F" else number

    def read_difference(self, field: str, text: str) -> float:
        """Kelvin from a difference of temperatures. Raises InputError."""
        number = typed.read_number(field, text, f"°{self.temperature}")
        return number * 5 / 9 if self.temperature == "F" else number

    def read_amount(self, field: str, text: str, unit: str) -> float:
        """The opposite of :meth:`say_amount`. Raises InputError."""
        match unit:
            case "mm":
                return self.read_length(field, text)
            case "m":
                return self.read_distance(field, text)
            case "c":
                return self.read_temperature(field, text)
            case "k":
                return self.read_difference(field, text)
            case _:
                return typed.read_number(field, text, unit)


_ROUNDED_BY = {"mm": MM_PER_INCH / _EIGHTHS / 2, "m": 5, "c": 0.05, "k": 0.05}


def display_rounding(unit: str, value: float) -> float:
    """By how much a value at most differs from what is said of it, in the value's own unit.

    The coarsest of the units a worker may choose: half an eighth of an inch, half a
    centimetre of a distance in metres, 0.05 °C.
    """
    said = round(value, 2)
    return _ROUNDED_BY.get(unit, abs(value - said))


def say_duration(minutes: float) -> str:
    """ "45 min", and from an hour on "3 h 30 min"."""
    whole = round(abs(minutes))
    sign = "−" if minutes < 0 and whole else ""
    hours, rest = divmod(whole, 60)
    if not hours:
        return f"{sign}{whole} min"
    return f"{sign}{hours} h {rest} min" if rest else f"{sign}{hours} h"


def say_clock(at: float | str | None) -> str:
    """A time of day from minutes after midnight; a text stands as it is, nothing is "—".

    Raises ValueError for what is no minute of a day.
    """
    if at is None:
        return "—"
    return at if isinstance(at, str) else clock(at)


def say_number(value: float) -> str:
    """A number to two places at most: "3", "2.5", "−0.25"."""
    return _plain(value, 2)


def _in_metres(said: str) -> str:
    """A length in millimetres that is too long to read, said in metres to the last digit."""
    number = float(said.removesuffix(" mm").replace("−", "-"))
    return f"{number / 1000:.10g} m" if number >= _METRES_FROM_MM else said


def _plain(value: float, digits: int) -> str:
    text = f"{round(value, digits) + 0.0:.{digits}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return text.replace("-", "−")


def _inches(mm: float) -> str:
    eighths = round(abs(mm) / MM_PER_INCH * _EIGHTHS)
    sign = "−" if mm < 0 and eighths else ""
    inches, rest = divmod(eighths, _EIGHTHS)
    if inches < _FEET_FROM_INCHES:
        return f"{sign}{_mixed(inches, rest)} in"
    feet, inches = divmod(inches, 12)
    tail = f" {_mixed(inches, rest)} in" if inches or rest else ""
    return f"{sign}{feet} ft{tail}"


def _mixed(whole: int, eighths: int) -> str:
    if not eighths:
        return str(whole)
    part = Fraction(eighths, _EIGHTHS)
    text = f"{part.numerator}/{part.denominator}"
    return f"{whole} {text}" if whole else text
