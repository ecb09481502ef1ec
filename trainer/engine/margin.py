"""Margins: how far a drawn value lies from its limit, in units of what a tape or clock can tell."""

from __future__ import annotations

import math

from trainer.engine.expression import Expression, Scope
from trainer.engine.hat import Hat
from trainer.engine.spec import Family, MarginSpec, Mode
from trainer.engine.unsound import Unsound

_GRID = 0.05
_HAIR = 1e-9


def draw_margin(mode: Mode, hat: Hat) -> float | None:
    """A margin from the mode's range, in tolerances; None for a mode without one."""
    return None if mode.margin is None else hat.on_grid(*mode.margin, _GRID)


def value_at(spec: MarginSpec, margin: float, scope: Scope) -> float:
    """The value that lies ``margin`` tolerances from the limit, on the grid of ``spec.step``.

    Snapped away from the limit, never towards it: at least as clear as was asked for.
    """
    low, high, at_least = _limit(spec, scope)
    distance = abs(margin) * _tolerance(spec, scope)
    if (margin > 0) == at_least:
        return math.ceil((high + distance) / spec.step - _HAIR) * spec.step
    return math.floor((low - distance) / spec.step + _HAIR) * spec.step


def margin_of(spec: MarginSpec, scope: Scope) -> float:
    """How far the drawn value lies from its limit, signed (safe side positive), in tolerances.

    Between the two statements of one limit (75 mm and 3 in) it is 0: neither safe nor short.
    """
    low, high, at_least = _limit(spec, scope)
    value = _number(spec.value, scope[spec.value])
    distance = max(value - high, 0.0) - max(low - value, 0.0)
    signed = distance if at_least else -distance
    return round(signed / _tolerance(spec, scope), 3) + 0.0


def refuse_ambiguity(family: Family, margin: float | None, scope: Scope) -> None:
    """Raises Unsound when a value lies so near its limit that nobody could say on which side."""
    measured = [(spec, margin_of(spec, scope)) for spec in family.clear_of]
    if family.margin is not None and margin is not None:
        measured.append((family.margin, margin))
    for spec, found in measured:
        if abs(found) < 1 and not spec.about_uncertainty:
            raise Unsound(f"{spec.value} lies {found:g} tolerances from its limit, closer than one")


def _limit(spec: MarginSpec, scope: Scope) -> tuple[float, float, bool]:
    """The limit's lowest and highest statement, and whether it is a least value."""
    if spec.rule:
        rule = scope[spec.rule]
        if rule["low"] is None:
            raise Unsound(f"the rule {rule['id']} has no number to measure {spec.value} against")
        return rule["low"], rule["high"], rule["direction"] == "at least"
    assert isinstance(spec.limit, Expression)
    limit = _number("the limit of the margin", spec.limit.value(scope))
    return limit, limit, spec.direction == "at least"


def _tolerance(spec: MarginSpec, scope: Scope) -> float:
    tolerance = _number("the tolerance of the margin", spec.tolerance.value(scope))
    if tolerance <= 0:
        raise Unsound("the tolerance of the margin is not above 0")
    return tolerance


def _number(what: str, value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise Unsound(f"{what} is {value!r}, not a number")
    return value
