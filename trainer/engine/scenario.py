"""A scenario: one drawn instance of a family with its computed answers, as plain values."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields
from functools import cached_property
from typing import Any

from trainer.engine.expression import Scope, scope_of
from trainer.engine.functions import clock
from trainer.errors import InputError
from trainer.roofing.calculators import calculator


@dataclass(frozen=True)
class Option:
    """One row: right or wrong here, with its place on the drawing or its value if it has one."""

    id: str
    right: bool
    misconception: str = ""
    critical: bool = False
    at: tuple[float, ...] | None = None
    value: float | None = None


@dataclass(frozen=True)
class Decision:
    """One decision of a scenario with its computed answer.

    ``answer`` is an option id (choose, place), {"go", "grounds"} (go_stop), a part id (mark), part
    ids (find), a number (measure), minutes after midnight (time) or step names (order).
    """

    id: str
    kind: str
    critical: bool
    answer: Any
    options: tuple[Option, ...] = ()
    parts: tuple[Mapping[str, Any], ...] = ()
    tolerance: float = 0
    unit: str = ""
    axes: str = ""
    bounds: tuple[float, ...] = ()
    step: float = 1
    job: str = ""

    def option(self, option_id: str) -> Option | None:
        return next((o for o in self.options if o.id == option_id), None)

    def placed(self, at: Iterable[float]) -> dict[str, float]:
        """The response that puts the thing at ``at``, in millimetres along each axis."""
        return {f"{axis}_mm": value for axis, value in zip(self.axes, at, strict=True)}

    def part(self, part_id: str) -> Mapping[str, Any] | None:
        return next((p for p in self.parts if p["id"] == part_id), None)


@dataclass(frozen=True)
class Scenario:
    """One drawn instance of a family. Times of day in ``values`` are minutes after midnight."""

    family: str
    version: int
    unit: str
    severity: str
    seed: int
    mode: str
    margin: float | None
    values: Mapping[str, Any]
    results: Mapping[str, Mapping[str, Any]]
    rules: Mapping[str, Mapping[str, Any]]
    decisions: tuple[Decision, ...]
    figure: Mapping[str, Any]
    live: Mapping[str, Mapping[str, Any]]
    after: Mapping[str, Mapping[str, Any]]

    def decision(self, decision_id: str) -> Decision:
        """The decision with that id. Raises InputError."""
        for decision in self.decisions:
            if decision.id == decision_id:
                return decision
        known = ", ".join(d.id for d in self.decisions)
        raise InputError("decision", decision_id, f"one of {known}")

    @cached_property
    def facts(self) -> dict[str, Any]:
        """The drawn values as they leave the program: clock times as "HH:MM"."""
        return {name: clock_text(name, value) for name, value in self.values.items()}

    def scope(self) -> Scope:
        """The names that the family's texts and expressions may use."""
        own = {"margin": self.margin, "mode": self.mode, "calc": calculate}
        return scope_of(self.rules, self.values, self.results, own)

    def canonical(self) -> str:
        """The scenario as JSON with sorted keys and no spaces: the same bytes on any machine."""
        return _CANONICAL.encode({name: getattr(self, name) for name in _FIELDS})


_FIELDS = tuple(field.name for field in fields(Scenario))
_CANONICAL = json.JSONEncoder(
    sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False, default=vars
)


def clock_text(name: str, value: Any) -> Any:
    """``value`` as "HH:MM" where ``name`` says that it is a time of day, else as it is."""
    if name.endswith("_at") and isinstance(value, int | float) and not isinstance(value, bool):
        return clock(value)
    return value


def calculate(name: str, /, **inputs: Any) -> dict[str, Any]:
    """The calculator ``name`` on the inputs that are not None. Raises InputError."""
    return calculator(name)({key: value for key, value in inputs.items() if value is not None})
