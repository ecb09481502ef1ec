"""The order of work at a parapet, and of shutting the gas down: may this step come next?

The jobs and their steps are in ``jobs``; here an order is judged by them.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from trainer.errors import InputError
from trainer.roofing.contract import Calculator, Choice, Each, Field, Text
from trainer.roofing.jobs import JOBS, graph

__all__ = [
    "JOBS",
    "SEQUENCE",
    "StepCheck",
    "Violation",
    "check",
    "first_violation",
    "graph",
    "is_valid_order",
    "needs_of",
    "possible_next",
    "steps",
    "violations",
]


@dataclass(frozen=True)
class StepCheck:
    """May this step come next? ``missing`` lists what must come first and is not done."""

    allowed: bool
    missing: tuple[str, ...]
    critical: bool


@dataclass(frozen=True)
class Violation:
    """A needed pair the wrong way round: ``step`` was placed before ``need``."""

    step: str
    need: str
    critical: bool


def steps(job: str) -> list[dict[str, Any]]:
    """The steps of a job as plain values: name, needs (direct ones only), guards."""
    return [
        {"name": step.name, "needs": list(step.needs), "guards": step.guards} for step in graph(job)
    ]


@cache
def needs_of(job: str) -> Mapping[str, frozenset[str]]:
    """Of each step, by name, every step that must come first, directly or through others."""
    before: dict[str, frozenset[str]] = {}
    for step in graph(job):
        before[step.name] = frozenset(step.needs).union(*(before[need] for need in step.needs))
    return before


def check(job: str, done: Collection[str], next_step: str) -> StepCheck:
    """May ``next_step`` come now that ``done``, in any order, is done?

    Critical when something is missing and ``next_step`` or a missing step guards against fire.
    Raises InputError for a name that is no step of the job and for a step that is already done.
    """
    for i, name in enumerate(done):
        _known(job, f"done[{i}]", name)
    _known(job, "next", next_step)
    if next_step in done:
        raise InputError("next", next_step, "a step that is not in done")
    before = needs_of(job)[next_step]
    missing = tuple(s.name for s in graph(job) if s.name in before and s.name not in done)
    critical = bool(missing) and _guards_fire(job, (next_step, *missing))
    return StepCheck(allowed=not missing, missing=missing, critical=critical)


def possible_next(job: str, done: Collection[str]) -> tuple[str, ...]:
    """The steps not done whose needs are all done, in list order."""
    return tuple(
        step.name
        for step in graph(job)
        if step.name not in done and needs_of(job)[step.name].issubset(done)
    )


def violations(
    job: str, order: Sequence[str], among: Iterable[str] | None = None
) -> tuple[Violation, ...]:
    """Every needed pair that ``order`` has the wrong way round, first in the order first.

    ``among`` are the steps that were to be put in order, the whole job by default. Between these
    the nearest needs count, also where they hold through steps that were not asked for. Raises
    InputError unless ``order`` holds each of them once.
    """
    asked = tuple(step.name for step in graph(job)) if among is None else tuple(among)
    _each_once(job, order, asked)
    needed = _nearest_needs(job, asked)
    place = {name: i for i, name in enumerate(order)}
    return tuple(
        Violation(step, need, _guards_fire(job, (step, need)))
        for step in order
        for need in needed[step]
        if place[need] > place[step]
    )


def first_violation(
    job: str, order: Sequence[str], among: Iterable[str] | None = None
) -> Violation | None:
    """The first needed pair that ``order`` has the wrong way round; None when it is valid."""
    return next(iter(violations(job, order, among)), None)


def is_valid_order(job: str, order: Sequence[str], among: Iterable[str] | None = None) -> bool:
    """Whether every step in ``order`` comes after all it needs: any such order is right."""
    return not violations(job, order, among)


def _nearest_needs(job: str, asked: tuple[str, ...]) -> dict[str, list[str]]:
    """Of each asked step the asked needs that do not already follow from a nearer one."""
    before = needs_of(job)
    nearest = {}
    for name in asked:
        _known(job, "among", name)
        needs = [s.name for s in graph(job) if s.name in before[name] and s.name in asked]
        implied = frozenset[str]().union(*(before[need] for need in needs))
        nearest[name] = [need for need in needs if need not in implied]
    return nearest


def _each_once(job: str, order: Sequence[str], asked: tuple[str, ...]) -> None:
    for i, name in enumerate(order):
        _known(job, f"order[{i}]", name)
        if name in order[:i]:
            raise InputError(f"order[{i}]", name, "each step once")
        if name not in asked:
            raise InputError(f"order[{i}]", name, f"one of the steps asked for: {_listed(asked)}")
    left_out = [name for name in asked if name not in order]
    if left_out:
        raise InputError("order", list(order), f"every step; left out: {_listed(left_out)}")


def _known(job: str, field: str, name: Any) -> None:
    names = [step.name for step in graph(job)]
    if name not in names:
        raise InputError(field, name, f"a step of this job ({job}): {_listed(names)}")


def _listed(names: Iterable[str]) -> str:
    return ", ".join(names)


def _guards_fire(job: str, names: Collection[str]) -> bool:
    return any(step.guards == "fire" for step in graph(job) if step.name in names)


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    found = check(given["job"], given["done"], given["next"])
    return {"allowed": found.allowed, "missing": list(found.missing), "critical": found.critical}


SEQUENCE = Calculator(
    name="sequence",
    summary="may this step come next: what must come first at a wall, a corner or the gas",
    fields=(
        Field("job", Choice(JOBS), "what is being dressed, or shut down"),
        Field("done", Each(Text("the name of a step")), "steps already done, in any order"),
        Field("next", Text("the name of a step"), "the step somebody wants to take now"),
    ),
    results={
        "allowed": "whether next may come now",
        "missing": "every step that must come first and is not done, in list order",
        "critical": "something is missing, and next or a missing step guards against fire",
    },
    sources=(
        "order of work at the parapet: common practice, no source",
        "a watch after the flame is out: 29 CFR 1910.252(a)(2)(iii)(B), at least 30 min",
        "no flammable primer condition during torching: UFGS 07550, 3.2.4",
        "order of the valves, regulator off when not in use, cylinder upright: CRCA Roofing "
        "Reference Manual, 1.3.10; where it stands: the same, 1.3.7",
        "a cap on the valve once the regulator is off: O. Reg. 213/91 (Ontario), section 42 "
        "(secondary source)",
    ),
    compute=_compute,
    rules=(
        "Lighting the torch needs the substrate gate and everything that closes the wall.",
        "Gas: first the cylinder valve, then what is in the hose burns off, then the burner valve.",
        "next already done, and names that are no step of the job, are refused.",
    ),
)
