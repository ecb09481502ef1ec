"""The example of a family that a person worked out by hand, worked out again by the core.

What is typed there by hand is the outside check of the family: a scenario of round numbers whose
answers somebody found with pencil and paper.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from trainer.engine.draw import values_in_order
from trainer.engine.expression import Scope, scope_of
from trainer.engine.functions import clock, minute
from trainer.engine.mark import mark
from trainer.engine.scenario import Decision, Scenario, calculate
from trainer.engine.solve import Rules, judged, rules_used
from trainer.engine.spec import GO, Draw, Family, Worked
from trainer.engine.unsound import Unsound, UnsoundScenario
from trainer.errors import InputError

_SEED = 0
_HAIR = 1e-9


def worked(family: Family, rules: Rules) -> Scenario:
    """The scenario that the hand values make under ``rules``, its formulas worked out in order.

    Raises InputError where the family has no such example, UnsoundScenario where its values leave
    no single honest answer under these rules.
    """
    example = _example(family)
    used = rules_used(family, rules, example.mode, _SEED)
    scope = scope_of(used, {"calc": calculate, "mode": example.mode})

    def take(name: str, draw: Draw) -> Any:
        if draw.formula is not None:
            return draw.formula.value(scope)
        return _drawable(draw, _given(example, name), scope)

    try:
        values = values_in_order(family, family.modes[example.mode], scope, take)
    except Unsound as why:
        raise UnsoundScenario(family.id, example.mode, _SEED, str(why)) from None
    return judged(family, example.mode, _SEED, values, used)


def disagreements(family: Family, rules: Rules) -> list[str]:
    """Where the answers found by hand are not those of the core: a sentence each.

    Raises what :func:`worked` raises.
    """
    return list(compared(family, worked(family, rules)))


def _example(family: Family) -> Worked:
    if family.worked is None:
        raise InputError("family", family.id, "a family with an example worked by hand")
    return family.worked


def _given(example: Worked, name: str) -> Any:
    value = example.values[name]
    return minute(value) if name.endswith("_at") and isinstance(value, str) else value


def _drawable(draw: Draw, value: Any, scope: Scope) -> Any:
    """``value``, if the mode could draw it. Raises ValueError."""
    if draw.low is not None and draw.high is not None:
        low, high = draw.low.value(scope), draw.high.value(scope)
        if not low <= value <= high:
            raise ValueError(f"{value!r} cannot be drawn; it lies from {low:g} to {high:g}")
    if draw.one_of is not None:
        items = draw.one_of.value(scope)
        strays = [v for v in ([value] if draw.take is None else value) if v not in items]
        if strays:
            raise ValueError(f"{strays[0]!r} cannot be drawn; there are {_said(list(items))}")
    return value


def compared(family: Family, scenario: Scenario) -> Iterator[str]:
    """Where the answers found by hand are not those of ``scenario``, the :func:`worked` one."""
    stated = _example(family).answers
    drawn = family.modes[scenario.mode].margin
    if drawn and scenario.margin is not None and (drawn[0] > 0) != (scenario.margin > 0):
        side = "safe" if scenario.margin > 0 else "wrong"
        yield f"margin: the values lie on the {side} side of the limit, the mode draws the other"
    asked = [decision.id for decision in scenario.decisions]
    for name in stated:
        if name not in asked:
            yield f"decision {name}: it is answered by hand, but with these values it is not asked"
    for decision in scenario.decisions:
        if decision.id not in stated:
            yield f"decision {decision.id}: it is asked with these values, and has no answer"
        elif not _AGREES[decision.kind](family, scenario, decision, stated[decision.id]):
            by_hand, by_core = _said(stated[decision.id]), _said(_answer(decision))
            yield f"decision {decision.id}: {by_hand} by hand, {by_core} worked out"


def _said(answer: Any) -> str:
    return ", ".join(map(str, answer)) or "nothing" if isinstance(answer, list) else str(answer)


def _answer(decision: Decision) -> Any:
    """The computed answer in the form in which it is stated by hand."""
    if decision.kind == "go_stop":
        return decision.answer["grounds"] or GO
    return clock(decision.answer) if decision.kind == "time" else decision.answer


def _same(family: Family, scenario: Scenario, decision: Decision, stated: Any) -> bool:
    return bool(stated == decision.answer)


def _same_grounds(family: Family, scenario: Scenario, decision: Decision, stated: Any) -> bool:
    grounds = stated if isinstance(stated, list) else [] if stated == GO else [stated]
    return bool(sorted(grounds) == decision.answer["grounds"])


def _same_set(family: Family, scenario: Scenario, decision: Decision, stated: Any) -> bool:
    return sorted(stated) == sorted(decision.answer)


def _same_number(family: Family, scenario: Scenario, decision: Decision, stated: Any) -> bool:
    """As exact as the number is written: 1021 and 1021.1 both agree with 1021.066."""
    _, _, decimals = str(stated).partition(".")
    off = abs(stated - decision.answer)
    written = 0 if decimals == "0" else len(decimals)
    return bool(off <= min(0.5 * 10.0**-written, decision.tolerance) + _HAIR)


def _same_time(family: Family, scenario: Scenario, decision: Decision, stated: Any) -> bool:
    return bool(minute(stated) == decision.answer)


def _stands(family: Family, scenario: Scenario, decision: Decision, stated: Any) -> bool:
    """The right candidate, or any place where it may stand."""
    if isinstance(stated, str):
        return bool(stated == decision.answer)
    at = stated if isinstance(stated, list) else [stated]
    try:
        return mark(family, scenario, decision.id, decision.placed(at)).right
    except InputError:  # it lies outside the drawing
        return False


def _keeps_order(family: Family, scenario: Scenario, decision: Decision, stated: Any) -> bool:
    """Any order in which every step has what it needs, of exactly the steps asked for."""
    if sorted(stated) != sorted(decision.answer):
        return False
    return mark(family, scenario, decision.id, {"order": stated}).right


_AGREES: Mapping[str, Callable[[Family, Scenario, Decision, Any], bool]] = {
    "choose": _same,
    "go_stop": _same_grounds,
    "mark": _same,
    "find": _same_set,
    "place": _stands,
    "measure": _same_number,
    "time": _same_time,
    "order": _keeps_order,
}
