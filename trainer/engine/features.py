"""What makes a scenario easy or hard, as numbers that a later calibration can lean on.

The family says what only its writer knows (:data:`~trainer.engine.spec.FEATURES`); everything else
is read off the scenario. Explanatory models of difficulty take such features as predictors
(Fischer 1973, linear logistic test model; De Boeck & Wilson 2004), and keep the chance of a blind
guess fixed at what the form of the answer gives, never estimated. Nothing here is part of what a
scenario stores: the features of an old answer follow from its family, seed and mode.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterator, Mapping, Sequence

from trainer.engine.explain import Telling
from trainer.engine.expression import ExpressionError
from trainer.engine.mark import mark
from trainer.engine.scenario import Decision, Scenario
from trainer.engine.spec import Family
from trainer.engine.unsound import UnsoundScenario
from trainer.roofing import sequence

_DAY_MIN = 24 * 60
_ALONG_ONE_AXIS = 201
_ALONG_EACH_OF_TWO = 21


def features(family: Family, scenario: Scenario) -> dict[str, float]:
    """The features of a scenario, by name.

    - ``steps``, ``looks``, ``hidden``, ``faults``: as the family states them, where it does;
    - ``margin``: how far the value lies from its limit, in tolerances, without its sign, and
      ``unsafe``: 1 on the wrong side of the limit, else 0; absent in a family without a margin;
    - ``decisions``: how many are asked; ``words``: words of the situation, in English;
    - of each decision, after its id and a point: ``kind_…``: 1, for its kind; ``rows``: rows or
      parts that can be answered, 0 for a number; ``guess``: the chance of a blind guess, 0 to 1;
      ``critical``: 1 where a wrong answer can hurt somebody.

    Raises UnsoundScenario where a feature the family states is no number from 0 up.
    """
    found = dict(stated(family, scenario))
    if scenario.margin is not None:
        found |= {"margin": abs(scenario.margin), "unsafe": float(scenario.margin < 0)}
    told = Telling(family, scenario)
    found["words"] = float(sum(len(text.split()) for text in told.situation))
    found["decisions"] = float(len(scenario.decisions))
    for decision in scenario.decisions:
        found[f"{decision.id}.kind_{decision.kind}"] = 1.0
        found[f"{decision.id}.rows"] = float(len(decision.parts or _rows(decision)))
        found[f"{decision.id}.guess"] = round(guess(family, scenario, decision), 6)
        found[f"{decision.id}.critical"] = float(decision.critical)
    return found


def guess(family: Family, scenario: Scenario, decision: Decision) -> float:
    """The chance that a blind guess is right: 0 to 1.

    - choose, go_stop: right rows over rows; mark: one over the parts;
    - find: one over all sets of parts, the empty one too, for "nothing is wrong" is an answer;
    - place: the share of the range that is right, over a grid of at most 201 places, 21 × 21 on
      two axes (whoever answers from the list guesses one of the rows instead);
    - measure: the width that counts as right over the range from 0 to twice the greatest number
      that tempts; time: the same over the time line that is drawn, else over the day;
    - order: the orders that keep every need, over all orders.
    """
    return _GUESSES[decision.kind](family, scenario, decision)


def stated(family: Family, scenario: Scenario) -> Iterator[tuple[str, float]]:
    """The features the family states, by name. Raises UnsoundScenario."""
    for name, expression in family.features.items():
        try:
            value = expression.value(scenario.scope())
            if not isinstance(value, int | float) or not 0 <= value < math.inf:
                raise ExpressionError(expression.source, f"{value!r} is no number from 0 up")
        except ExpressionError as error:
            reason = f"feature {name}: {error.message.rstrip('.')}"
            raise UnsoundScenario(family.id, scenario.mode, scenario.seed, reason) from None
        yield name, float(value)


def _rows(decision: Decision) -> Sequence[object]:
    return () if decision.kind in ("measure", "time") else decision.options


def _row(family: Family, scenario: Scenario, decision: Decision) -> float:
    return sum(option.right for option in decision.options) / len(decision.options)


def _part(family: Family, scenario: Scenario, decision: Decision) -> float:
    return 1 / len(decision.parts)


def _set(family: Family, scenario: Scenario, decision: Decision) -> float:
    return 0.5 ** len(decision.parts)


def _number(family: Family, scenario: Scenario, decision: Decision) -> float:
    tempting = [abs(option.value or 0) for option in decision.options]
    most = max(abs(decision.answer), *tempting, decision.tolerance, 1e-9)
    return float(min(1.0, decision.tolerance / most))


def _minute(family: Family, scenario: Scenario, decision: Decision) -> float:
    figure = {**scenario.figure, **scenario.live.get(decision.id, {})}
    minutes = figure.get("to_min", _DAY_MIN) - figure.get("from_min", 0)
    return float(min(1.0, (2 * decision.tolerance + 1) / max(minutes, 1)))


def _place(family: Family, scenario: Scenario, decision: Decision) -> float:
    most = _ALONG_ONE_AXIS if len(decision.axes) == 1 else _ALONG_EACH_OF_TWO
    bounds = zip(decision.bounds[::2], decision.bounds[1::2], strict=True)
    places = list(itertools.product(*(_grid(low, high, most) for low, high in bounds)))
    return sum(_may_stand(family, scenario, decision, at) for at in places) / len(places)


def _grid(low: float, high: float, most: int) -> list[float]:
    """Places from ``low`` to ``high``, evenly, both ends among them."""
    return [low + (high - low) * i / (most - 1) for i in range(most)]


def _may_stand(family: Family, scenario: Scenario, decision: Decision, at: Sequence[float]) -> bool:
    return mark(family, scenario, decision.id, decision.placed(at)).right


def _order(family: Family, scenario: Scenario, decision: Decision) -> float:
    steps = frozenset(decision.answer)
    before = {step: sequence.needs_of(decision.job)[step] & steps for step in steps}
    return orders_that_keep(before) / math.factorial(len(steps))


def orders_that_keep(before: Mapping[str, frozenset[str]]) -> int:
    """How many orders of the keys put each after all it names (linear extensions), exactly.

    Counted over the sets that can be done first: 2 to the number of steps at most.
    """
    ways = {frozenset[str](): 1}
    for _ in before:
        grown: dict[frozenset[str], int] = {}
        for done, count in ways.items():
            for step in before.keys() - done:
                if before[step] <= done:
                    more = done | {step}
                    grown[more] = grown.get(more, 0) + count
        ways = grown
    return sum(ways.values())


_GUESSES: Mapping[str, Callable[[Family, Scenario, Decision], float]] = {
    "choose": _row,
    "go_stop": _row,
    "mark": _part,
    "find": _set,
    "place": _place,
    "measure": _number,
    "time": _minute,
    "order": _order,
}
