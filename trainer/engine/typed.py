"""Numbers as a worker types them. A comma or a wrong unit is refused with what is allowed."""

from __future__ import annotations

import re

from trainer.errors import InputError

_NUMBER = re.compile(r"[-+−]?(\d{1,9}(\.\d{0,9})?|\.\d{1,9})", re.ASCII)
_INCHES = re.compile(
    r"(?P<sign>[-−])?"
    r"((?P<feet>\d{1,6}) ?(ft|'|′)[ -]?)?"
    r"(((?P<whole>\d{1,6})[ -])?(?P<over>\d{1,3})/(?P<under>\d{1,3})"
    r"|(?P<number>\d{1,9}(\.\d{0,9})?|\.\d{1,9}))?"
    r' ?(in|"|″)?',
    re.ASCII,
)
_CLOCK = re.compile(r"([01]?\d|2[0-3])[:.h ]?([0-5]\d)", re.ASCII)


def read_number(field: str, text: str, unit: str = "") -> float:
    """A number, with or without its unit behind it. Raises InputError."""
    cleaned = text.strip().removesuffix(unit).strip()
    if not _NUMBER.fullmatch(cleaned):
        raise InputError(field, text, f"one number{_of(unit)}, such as 98.5 (a point, no comma)")
    return float(cleaned.replace("−", "-"))


def _of(unit: str) -> str:
    return f" in {unit}" if unit else ""


def read_inches(field: str, text: str) -> float:
    """Inches from "2", "2.5", "2 3/8", "3/8", "4 ft 2 3/8 in". Raises InputError."""
    match = _INCHES.fullmatch(" ".join(text.split()))
    inches = _inches(match.groupdict()) if match else None
    if inches is None:
        raise InputError(field, text, "one length in inches: 2, 2.5, 2 3/8 or 4 ft 2 3/8 in")
    return inches


def read_feet(field: str, text: str) -> float:
    """Inches from a distance in feet: "40", "40.5 ft", "40 ft 8 in"; "47 1/4 in" says its unit.

    Raises InputError.
    """
    plain = text.strip().removesuffix("ft").strip()
    if _NUMBER.fullmatch(plain):
        return float(plain.replace("−", "-")) * 12
    match = _INCHES.fullmatch(" ".join(text.split()))
    told = match and (match["feet"] or text.rstrip().endswith(("in", '"', "″")))
    inches = _inches(match.groupdict()) if match and told else None
    if inches is None:
        raise InputError(field, text, "one distance in feet: 40, 40.5 or 40 ft 8 in")
    return inches


def _inches(given: dict[str, str | None]) -> float | None:
    """What was typed, added up; None where there is no number, or a fraction over nothing."""
    feet, number = given["feet"], given["number"]
    over, under = given["over"], int(given["under"] or 1)
    if not (feet or number or over) or not under:
        return None
    inches = 12 * int(feet or 0) + int(given["whole"] or 0) + float(number or 0)
    inches += int(over or 0) / under
    return -inches if given["sign"] else inches


def read_clock(field: str, text: str) -> int:
    """Minutes after midnight from "16:05" (also "16.05", "1605"). Raises InputError."""
    match = _CLOCK.fullmatch(text.strip())
    if not match:
        raise InputError(field, text, "a time of day such as 16:05, from 00:00 to 23:59")
    return int(match[1]) * 60 + int(match[2])
