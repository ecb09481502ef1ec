"""What came from a form or a phone, as a response that can be marked: shape only, no judgement."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from trainer.engine.measures import Units
from trainer.engine.scenario import Decision
from trainer.engine.typed import read_clock, read_number
from trainer.errors import InputError, MissingField

Raw = Mapping[str, Any]


_LONGEST_MM = 100_000


def read_response(decision: Decision, raw: Raw, units: Units) -> dict[str, Any]:
    """The response to ``decision`` in millimetres, minutes and ids.

    A text is read in the worker's ``units``; a number stands in the program's own (mm, °C,
    minutes). Raises InputError naming the field, what was given and what is allowed.
    """
    if not isinstance(raw, Mapping):
        raise InputError("response", raw, "a block of fields")
    if decision.kind == "place" and any(_given(raw, f"{axis}_mm") for axis in decision.axes):
        return _point(decision, raw)
    return _READERS[decision.kind](decision, raw, units)


def _given(raw: Raw, field: str) -> bool:
    return raw.get(field) not in (None, "")


def _is_number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _point(decision: Decision, raw: Raw) -> dict[str, Any]:
    return {f"{axis}_mm": _millimetres(f"{axis}_mm", raw) for axis in decision.axes}


def _millimetres(field: str, raw: Raw) -> Any:
    value = raw.get(field)
    if _is_number(value):
        return value
    return read_number(field, _text(field, value, "a number of millimetres"), "mm")


def _text(field: str, value: Any, allowed: str) -> str:
    if value is None or value == "":
        raise MissingField(field, allowed)
    if not isinstance(value, str):
        raise InputError(field, value, allowed)
    return value


def _row(decision: Decision, raw: Raw, units: Units) -> dict[str, Any]:
    return {"row": _text("row", raw.get("row"), "one of the answers")}


def _rows(decision: Decision, raw: Raw, units: Units) -> dict[str, Any]:
    """An empty list is an answer: nothing is wrong here. No list at all is none."""
    if "rows" not in raw:
        raise MissingField("rows", "a part of the drawing, or that nothing is wrong")
    rows = raw["rows"]
    rows = [rows] if isinstance(rows, str) else rows
    if not isinstance(rows, list) or not all(isinstance(row, str) for row in rows):
        raise InputError("rows", rows, "a list of parts of the drawing")
    return {"rows": [row for row in rows if row]}


def _measured(decision: Decision, raw: Raw, units: Units) -> dict[str, Any]:
    value = raw.get("value")
    if _is_number(value):
        return {"value": value}
    unit = units.sign(decision.unit)
    text = _text("value", value, f"one number in {unit}" if unit else "one number")
    read = units.read_amount("value", text, decision.unit)
    if decision.unit in ("mm", "m") and not 0 <= read <= _LONGEST_MM:
        raise InputError("value", text, "a length that can be on a roof, from 0 to 100 m")
    return {"value": read}


def _minute(decision: Decision, raw: Raw, units: Units) -> dict[str, Any]:
    if _is_number(raw.get("minute")):
        return {"minute": raw["minute"]}
    text = _text("time", raw.get("time"), "a time of day such as 16:05")
    return {"minute": read_clock("time", text)}


def _order(decision: Decision, raw: Raw, units: Units) -> dict[str, Any]:
    order = raw.get("order")
    if not order:
        return {"order": _by_places(decision, raw)}
    if not isinstance(order, str | list):
        raise InputError("order", order, "a list of steps")
    return {"order": order.split("|") if isinstance(order, str) else order}


def _by_places(decision: Decision, raw: Raw) -> list[str]:
    """Without scripts each step has a number to choose; no number may be chosen twice."""
    size = len(decision.parts)
    places: dict[int, str] = {}
    for part in decision.parts:
        name = f"place-{part['id']}"
        text = _text(name, raw.get(name), f"a place from 1 to {size}")
        place = int(text) if text.isascii() and text.isdigit() and len(text) < 4 else 0
        if not 1 <= place <= size:
            raise InputError(name, text, f"a place from 1 to {size}")
        if place in places:
            raise InputError(name, text, f"each place once; {places[place]} already has it")
        places[place] = part["id"]
    return [places[place] for place in sorted(places)]


_READERS: Mapping[str, Callable[[Decision, Raw, Units], dict[str, Any]]] = {
    "choose": _row,
    "go_stop": _row,
    "mark": _row,
    "place": _row,
    "find": _rows,
    "measure": _measured,
    "time": _minute,
    "order": _order,
}
