"""Written sums that do not add up: whoever works them out again must come to what stands there.

Only lines that are wholly a sum are worked out: numbers with their units, clock times, + − × ÷ √,
brackets, the sine of an angle. A word in it that is no unit is passed over.
"""

from __future__ import annotations

import ast
import itertools
import math
import operator
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from trainer.engine.explain import Telling
from trainer.engine.mark import mark
from trainer.services.content.finding import Finding
from trainer.services.content.sample import SYSTEMS, Sample
from trainer.services.learning import right_response

_IN = 25.4
_UNITS = {
    "mm": 1, "m": 1000, "in": _IN, "ft": 12 * _IN, "min": 1, "h": 60,
    "cm²": 100, "m²": 10**6, "ft²": (12 * _IN) ** 2, "l/m²": 10**-6, "m²/l": 10**6, "min/m": 10**-3,
}  # fmt: skip
"""Every length as millimetres, every duration as minutes; what is not here counts as it stands."""

_NUMBER = r"\d+(?:\.\d+)?"
_TOKEN = re.compile(
    rf"(?P<clock>\d\d:\d\d)"
    rf"|(?P<far>(?P<feet>\d+) ft (?P<inches>{_NUMBER})(?: (?P<over8>\d)/(?P<under8>\d))? in\b)"
    rf"|(?P<long>(?P<hours>\d+) h (?P<minutes>\d+) min\b)"
    rf"|(?P<mixed>(?:(?P<whole>\d+) )?(?P<over>\d+)/(?P<under>\d+) in\b)"
    rf"|(?P<plain>(?P<number>{_NUMBER})(?: (?P<unit>l/m²|m²/l|min/m|cm²|m²|ft²|mm|min|m|in|ft|h)"
    rf"(?![\w/]))?)"
    rf"|(?P<sign>[-+−×÷²√()])"
    rf"|(?P<sine>\bsin(?=\())"
    rf"|(?P<skip>°C|°F|[^\W\d_][\w’'-]*|[°%,.;\s])"
)
_CLOCK = re.compile(r"\d\d:\d\d")
_DAY = 24 * 60
_SIGNS = {"−": "-", "-": "-", "+": "+", "×": "*", "÷": "/", "²": "**2", "√": "sqrt",
          "(": "(", ")": ")"}  # fmt: skip
_DO: dict[type[ast.operator], Callable[[float, float], float]] = {
    ast.Add: operator.add, ast.Sub: operator.sub, ast.Mult: operator.mul,
    ast.Div: operator.truediv, ast.Pow: operator.pow,
}  # fmt: skip


@dataclass(frozen=True)
class _Quantity:
    """A number as it is written, and half of what its last digit stands for."""

    value: float
    half: float


@dataclass(frozen=True)
class _Side:
    """One side of a sum: its formula over the quantities q0, q1, …"""

    formula: ast.expr
    quantities: tuple[_Quantity, ...]
    has_times: bool = False
    """Whether a time of day stands in it: the day after it begins again at 00:00."""

    def value(self, moved: int = -1) -> float:
        """What it comes to; with one quantity half a digit larger."""
        given = [q.value + (q.half if i == moved else 0) for i, q in enumerate(self.quantities)]
        return _worked(self.formula, given)

    @property
    def adds_whole_numbers(self) -> bool:
        """Whether it only adds and takes away numbers without decimals."""
        plain = {ast.Add, ast.Sub}
        kinds = {type(n.op) for n in ast.walk(self.formula) if isinstance(n, ast.BinOp)}
        return kinds <= plain and all(q.half >= 0.5 for q in self.quantities)

    def slack(self) -> float:
        """By how much rounding what is written can shift the result."""
        straight = self.value()
        return sum(abs(self.value(i) - straight) for i in range(len(self.quantities)))


def sums(sample: Sample) -> Iterator[Finding]:
    """The first line of each decision that does not add up, in both unit systems."""
    told: set[tuple[str, str]] = set()
    for taken in sample.read:
        for system, units in SYSTEMS.items():
            telling = Telling(sample.family, taken.scenario, "en", units)
            for decision, line in _lines(telling):
                if (decision, system) not in told and (wrong := wrong_sum(line)):
                    told.add((decision, system))
                    said = f"“{line}” does not add up in {system}: it comes to {wrong}"
                    mode, seed = taken.scenario.mode, taken.scenario.seed
                    yield Finding("sums", said, sample.family.id, decision, mode, seed)


def _lines(telling: Telling) -> Iterator[tuple[str, str]]:
    for decision in telling.scenario.decisions:
        right = right_response(decision)
        marked = mark(telling.family, telling.scenario, decision.id, right)
        for line in telling.explain(decision, right, marked).sums:
            yield decision.id, line


def wrong_sum(line: str) -> str:
    """What a line comes to where it is not what it says; empty where it adds up or is no sum.

    >>> wrong_sum("3920 mm − 75 mm = 3844 mm at the most")
    '3845'
    """
    sides = [_side(text) for text in line.rpartition(": ")[2].split(" = ")]
    for left, right in itertools.pairwise(sides):
        if left and right and _differ(left, right):
            return f"{left.value():.10g}"
    return ""


def _differ(left: _Side, right: _Side) -> bool:
    exact = left.adds_whole_numbers and right.adds_whole_numbers
    allowed = 0.5 if exact else left.slack() + right.slack()
    apart = abs(left.value() - right.value())
    if left.has_times and right.has_times:
        apart = min(apart % _DAY, -apart % _DAY)
    return apart > allowed + 1e-6


def _side(text: str) -> _Side | None:
    """One side read; None where it is no sum or no number."""
    formula, quantities, at = "", [], 0
    while at < len(text):
        found = _TOKEN.match(text, at)
        if found is None:
            return None
        at = found.end()
        if found["sign"]:
            formula += _SIGNS[found["sign"]]
        elif found["sine"]:
            formula += "sin"
        elif not found["skip"]:
            formula += f" q{len(quantities)} "
            quantities.append(_quantity(found))
    try:
        tree = ast.parse(formula.strip(), mode="eval").body
        side = _Side(tree, tuple(quantities), bool(_CLOCK.search(text)))
        side.value()
    except (SyntaxError, ValueError, TypeError, ZeroDivisionError, OverflowError):
        return None
    return side


def _quantity(found: re.Match[str]) -> _Quantity:
    if found["clock"]:
        hours, minutes = found["clock"].split(":")
        return _Quantity(int(hours) * 60 + int(minutes), 0.5)
    if found["far"]:
        eighths = int(found["over8"] or 0) / int(found["under8"] or 1)
        inches = int(found["feet"]) * 12 + float(found["inches"]) + eighths
        return _Quantity(inches * _IN, _IN / 16)
    if found["long"]:
        return _Quantity(int(found["hours"]) * 60 + int(found["minutes"]), 0.5)
    if found["mixed"]:
        part = int(found["over"]) / int(found["under"])
        return _Quantity((int(found["whole"] or 0) + part) * _IN, _IN / 16)
    factor = _UNITS.get(found["unit"] or "", 1)
    digits = len(found["number"].partition(".")[2])
    return _Quantity(float(found["number"]) * factor, 0.5 * 10**-digits * factor)


def _worked(node: ast.expr, given: list[float]) -> float:
    match node:
        case ast.Name(id=name) if name.startswith("q"):
            return given[int(name[1:])]
        case ast.Constant(value=int(number)):
            return number
        case ast.UnaryOp(op=ast.USub(), operand=inner):
            return -_worked(inner, given)
        case ast.BinOp(left=left, op=op, right=right):
            return _DO[type(op)](_worked(left, given), _worked(right, given))
        case ast.Call(func=ast.Name(id="sqrt"), args=[inner]):
            return math.sqrt(_worked(inner, given))
        case ast.Call(func=ast.Name(id="sin"), args=[inner]):
            return math.sin(math.radians(_worked(inner, given)))
    raise ValueError("no sum")
