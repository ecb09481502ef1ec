"""One family, one seed: the instance, judged by the trade's own calculators, with its answers.

Every answer comes out of the drawn values through a calculator or an expression over its results.
A scenario whose values leave no single honest answer is refused (:class:`UnsoundScenario`).
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import lru_cache
from typing import Any, Protocol

from trainer.engine.decide import decide
from trainer.engine.draw import draw_mode, draw_values
from trainer.engine.expression import Expression, ExpressionError, Scope, scope_of
from trainer.engine.hat import Hat
from trainer.engine.margin import draw_margin, margin_of, refuse_ambiguity
from trainer.engine.plain import exact
from trainer.engine.scenario import Decision, Option, Scenario, calculate, clock_text
from trainer.engine.spec import Family, Judge, Mode
from trainer.engine.unsound import Unsound, UnsoundScenario
from trainer.errors import InputError
from trainer.roofing.rulebook import Rule

__all__ = [
    "ENGINE_VERSION",
    "Decision",
    "Option",
    "Rules",
    "Scenario",
    "calculate",
    "clock_text",
    "judged",
    "lacking",
    "make",
    "rule_facts",
    "rules_used",
]

ENGINE_VERSION = 1
"""Goes up when the same family and seed would give something else."""


class Rules(Protocol):
    """The rules in force on a site. Both raise InputError where none is in force on a subject."""

    def rule(self, subject: str) -> Rule: ...
    def may_grade(self, subject: str) -> bool: ...


def make(
    family: Family, seed: int, rules: Rules, mode: str = "", margin: float | None = None
) -> Scenario:
    """Draw and solve. With ``mode`` and ``margin`` these are given instead of drawn.

    The same family version, seed, mode, margin and rules give the same scenario, byte for byte.
    Raises InputError for an unknown mode, a margin where none is drawn or a seed below 0,
    UnsoundScenario for values without one honest answer and where a rule is :func:`lacking`.
    """
    chosen = _mode(family, _seed(seed), mode)
    used = rules_used(family, rules, chosen.id, seed)
    hat = Hat(family.id, family.version, chosen.id, seed)
    drawn_margin = draw_margin(chosen, hat)
    wanted = drawn_margin if margin is None else _margin(chosen, margin)
    scope = scope_of(used, {"calc": calculate, "mode": chosen.id})
    try:
        values = draw_values(family, chosen, wanted, hat, scope)
    except Unsound as why:
        raise UnsoundScenario(family.id, chosen.id, seed, str(why)) from None
    return judged(family, chosen.id, seed, values, used)


def rules_used(family: Family, rules: Rules, mode: str, seed: int) -> dict[str, Mapping[str, Any]]:
    """The :func:`rule_facts` of every rule of the family, by the family's name for it.

    Raises UnsoundScenario for that ``mode`` and ``seed`` where a rule is :func:`lacking`.
    """
    if missing := lacking(family, rules):
        reason = f"no rule that may mark anybody is in force on {', '.join(missing)}"
        raise UnsoundScenario(family.id, mode, seed, reason)
    return {name: rule_facts(rules.rule(subject)) for name, subject in family.rules.items()}


def lacking(family: Family, rules: Rules) -> tuple[str, ...]:
    """Subjects of the family on which no rule is in force that may mark anybody.

    Where there is one, the family is not drawn: nobody is marked by a limit that nobody has read.
    """
    return tuple(subject for subject in family.rules.values() if not _may_mark(subject, rules))


def _may_mark(subject: str, rules: Rules) -> bool:
    try:
        return rules.may_grade(subject)
    except InputError:
        return False


def judged(
    family: Family,
    mode: str,
    seed: int,
    values: Mapping[str, Any],
    used: Mapping[str, Mapping[str, Any]],
) -> Scenario:
    """The scenario that these drawn ``values`` make under the rules ``used``, with its answers.

    ``used`` maps the family's names for its rules to their :func:`rule_facts`. Raises
    UnsoundScenario.
    """
    scope = scope_of(used, values, {"calc": calculate, "mode": mode})
    try:
        margin = None if family.margin is None else margin_of(family.margin, scope)
        scope["margin"] = margin
        refuse_ambiguity(family, margin, scope)
        results = {judge.id: _judge(judge, scope) for judge in family.judges}
        decisions = _decisions(family, Hat(family.id, family.version, mode, seed, "rows"), scope)
        filled = (fill(data, scope) for data in (family.figure, family.live, family.after))
        return Scenario(
            family.id, family.version, family.unit, family.severity, seed, mode, margin,
            values, results, used, decisions, *filled,
        )  # fmt: skip
    except (Unsound, ExpressionError) as why:
        reason = str(why).rstrip(".")
        raise UnsoundScenario(family.id, mode, seed, reason) from None


def _mode(family: Family, seed: int, mode: str) -> Mode:
    if not mode:
        return draw_mode(family, Hat(family.id, family.version, "mode", seed))
    if mode not in family.modes:
        raise InputError("mode", mode, f"one of {', '.join(family.modes)}")
    return family.modes[mode]


def _seed(seed: int) -> int:
    if isinstance(seed, bool) or not isinstance(seed, int) or not 0 <= seed < 2**63:
        raise InputError("seed", seed, "a whole number from 0 up, below 2^63")
    return seed


def _margin(mode: Mode, margin: float) -> float:
    if mode.margin is None:
        raise InputError("margin", margin, f"none, since the mode {mode.id} draws none")
    if isinstance(margin, bool) or not math.isfinite(margin):
        raise InputError("margin", margin, "a number of tolerances")
    return margin


@lru_cache(maxsize=1024)
def rule_facts(rule: Rule) -> Mapping[str, Any]:
    """What a scenario keeps of a rule, so that it can be read without the book."""
    return {
        "id": rule.id,
        "value": rule.value,
        "low": rule.low,
        "high": rule.high,
        "unit": rule.unit,
        "direction": rule.direction,
        "says": {"mm": rule.say("metric"), "in": rule.say("us")},
        "source": rule.source_text,
    }


def _judge(judge: Judge, scope: Scope) -> dict[str, Any]:
    """The results of one calculator, known to later expressions under the judge's name."""
    inputs = {name: expression.value(scope) for name, expression in judge.inputs.items()}
    try:
        scope[judge.id] = results = calculate(judge.calculator, **inputs)
    except InputError as error:
        raise Unsound(f"judge {judge.id}: {error.message}") from None
    return results


def _decisions(family: Family, rows: Hat, scope: Scope) -> tuple[Decision, ...]:
    asked = [spec for spec in family.decisions if spec.when is None or spec.when.value(scope)]
    if not asked:
        raise Unsound("nothing is asked")
    return tuple(decide(spec, scope, rows) for spec in asked)


def fill(data: Any, scope: Scope) -> Any:
    """``data`` with every expression in it worked out. Raises Unsound."""
    if isinstance(data, Expression):
        try:
            return exact(data.value(scope))
        except ValueError as error:
            raise Unsound(f'the value of "{data.source}": {error}') from None
    if isinstance(data, dict):
        return {key: fill(part, scope) for key, part in data.items()}
    if isinstance(data, list):
        return [fill(part, scope) for part in data]
    return data
