"""A plan with one thing changed, and what must be found because of it."""

from collections.abc import Callable
from typing import NamedTuple

from tests.unit.installation.timed_plans import done


class Mutant(NamedTuple):
    step: int
    plan: list
    expected: Callable
    """The findings that must appear, from the state after the plan."""


def changed(plan, step, **fields):
    minute, decision = plan[step]
    return [*plan[:step], (minute, {**decision, **fields}), *plan[step + 1 :]]


def without(plan, step):
    return plan[:step] + plan[step + 1 :]


def put_in(plan, minute, decision):
    later = next((i for i, (at, _) in enumerate(plan) if at > minute), len(plan))
    return [*plan[:later], (minute, decision), *plan[later:]]


def moved(plan, step, minute):
    return put_in(without(plan, step), minute, plan[step][1])


def held_up(plan, minute, by):
    """Everything from a minute on that much later."""
    return [(at if at < minute else at + by, d) for at, d in plan]


def steps(plan, *names, **fields):
    """The numbers of a plan's decisions of these kinds."""
    return [
        i
        for i, (_, d) in enumerate(plan)
        if d["do"] in names and all(d.get(k) == v for k, v in fields.items())
    ]


def torch_lit(state):
    return done(state, "light", tool="torch")


def sheets_of(state, wall):
    """The sheets whose first wall this is: the line on it is theirs."""
    return [sheet for sheet in state.sheets.values() if sheet.wall == wall]
