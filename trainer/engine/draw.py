"""Values by construction: first the margin, then the values that give exactly that margin.

Nothing is drawn and thrown away.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from trainer.engine.expression import Expression, ExpressionError, Scope
from trainer.engine.hat import Hat
from trainer.engine.margin import draw_margin, value_at
from trainer.engine.plain import exact
from trainer.engine.spec import Draw, Family, Mode
from trainer.engine.unsound import Unsound, UnsoundScenario

__all__ = ["UnsoundScenario", "draw_margin", "draw_mode", "draw_values", "values_in_order"]

_DAY = 24 * 60


def draw_mode(family: Family, hat: Hat) -> Mode:
    return hat.by_weight([(mode, mode.weight) for mode in family.modes.values()])


def draw_values(
    family: Family, mode: Mode, margin: float | None, hat: Hat, scope: Scope
) -> dict[str, Any]:
    """Every value of the family in order, drawn into ``scope`` and returned. Raises Unsound."""
    return values_in_order(
        family, mode, scope, lambda _, draw: _drawn(family, draw, margin, hat, scope)
    )


def values_in_order(
    family: Family, mode: Mode, scope: Scope, take: Callable[[str, Draw], Any]
) -> dict[str, Any]:
    """Every value of the family in order, put into ``scope`` and returned.

    ``take`` gives the value of a name and its draw. Raises Unsound.
    """
    values = {}
    for name, usual in family.values.items():
        draw = mode.values.get(name, usual)
        try:
            drawn = exact(take(name, draw))
        except ExpressionError as error:
            raise Unsound(f"value {name}: {error.message.rstrip('.')}") from None
        except (ValueError, TypeError) as error:
            raise Unsound(f"value {name}: {error}") from None
        scope[name] = values[name] = drawn
        _refuse_no_time(name, drawn)
    return values


def _drawn(family: Family, draw: Draw, margin: float | None, hat: Hat, scope: Scope) -> Any:
    if draw.formula is not None:
        return draw.formula.value(scope)
    if draw.at_margin:
        if family.margin is None or margin is None:
            raise Unsound("a value is to lie at a margin, and none is drawn")
        return value_at(family.margin, margin, scope)
    if draw.one_of is not None:
        return _one_of(draw.one_of, draw.take, hat, scope)
    assert draw.low is not None and draw.high is not None
    return hat.on_grid(draw.low.value(scope), draw.high.value(scope), draw.step)


def _one_of(one_of: Expression, take: Expression | None, hat: Hat, scope: Scope) -> Any:
    items = one_of.value(scope)
    if not isinstance(items, list | tuple):
        raise ValueError(f"{items!r} is no list to draw from")
    if take is None:
        return hat.pick(items)
    count = take.value(scope)
    if isinstance(count, bool) or not isinstance(count, int):
        raise ValueError(f"{count!r} is no whole number of things to take")
    return hat.sample(items, count)


def _refuse_no_time(name: str, value: Any) -> None:
    """A value whose name ends in ``_at`` is a minute of one day, or nothing."""
    if name.endswith("_at") and isinstance(value, int | float) and not 0 <= value <= _DAY:
        raise Unsound(f"value {name}: {value:g} is no minute of a day, 0 to {_DAY}")
