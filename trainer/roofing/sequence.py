"""The order of work at a parapet: what truly needs what before it, and what each step guards.

A job is a small graph. Each step names its direct needs only; what must come first through others
follows. Steps are listed in one valid order, but any order that respects the needs is right.

A step guards against fire when leaving it out, or doing it too early, brings a flame to something
that can burn or to a wall that is still open. Every other step guards the quality of the work.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal, get_args

from trainer.errors import InputError
from trainer.roofing.contract import Calculator, Choice, Each, Field, Text

Job = Literal["wall", "inside corner", "outside corner"]
Guards = Literal["fire", "quality"]

JOBS: tuple[Job, ...] = get_args(Job)


@dataclass(frozen=True)
class Step:
    """One step of a job: the steps it directly needs, what it guards, and what it comes down to."""

    name: str
    needs: tuple[str, ...]
    guards: Guards
    meaning: str


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


# The reasons behind these needs are the trade's own: common practice, no source.
_OPENING = (
    Step(
        "substrate gate",
        (),
        "fire",
        "substrate sound, dry, clean and warm enough; nothing in or behind the parapet can burn; "
        "hot-work permit open",
    ),
    Step("prime", ("substrate gate",), "quality", "roll the primer on where the sheet will lie"),
    # Fire: solvent primer that is still wet feeds any flame on the roof, the preheating one first.
    Step("touch-test", ("prime",), "fire", "primer dry to the touch, nothing on the finger"),
    # Primer rolled over a line hides it, and a line does not hold on wet primer.
    Step("chalk line", ("touch-test",), "quality", "snap the line the sheet comes down to"),
    Step("cut", (), "quality", "cut strips to the girth, angle the corner the next will cover"),
    # Fire: film left for later has to be heated at a wall that is still open.
    Step(
        "preheat film",
        ("touch-test", "cut"),
        "fire",
        "heat the film on the strip the next sheet will cover, well away from the parapet",
    ),
)

_WALL = (
    Step(
        "bond top",
        ("chalk line", "preheat film"),
        "quality",
        "set the sheet to the line, pull the upper release film, bond the upper half",
    ),
    Step("bond bottom", ("bond top",), "quality", "pull the lower release film, bond down"),
    # Fire, here and below: rolled and pressed laps are what closes the wall.
    Step("roll", ("bond bottom",), "fire", "roll the whole sheet"),
    Step("press laps", ("roll",), "fire", "press the air out of every lap"),
)


def _corner(before_top: tuple[str, ...], before_bottom: tuple[str, ...]) -> tuple[Step, ...]:
    """Two sheets and the fill. A doubled leg is trimmed before it sticks, or the knife cuts on."""
    return (
        Step(
            "first sheet",
            ("chalk line", "preheat film"),
            "quality",
            "fold the first sheet round the corner, set it to the line, slit both ends of the fold",
        ),
        Step("trim", ("first sheet",), "quality", "mitre away what doubles up at the corner"),
        Step("bond top", before_top, "quality", "pull the upper release film, bond the upper half"),
        Step("bond bottom", before_bottom, "quality", "pull the lower release film, bond down"),
        Step(
            "second sheet",
            ("bond bottom",),
            "quality",
            "lay the second corner sheet from the other wall over the first",
        ),
        Step("roll", ("second sheet",), "fire", "roll both sheets, right into the corner"),
        Step("press laps", ("roll",), "fire", "press the air out of every lap"),
        # A roller would drag the hot bitumen out again, so it comes after.
        Step("fill corner", ("roll",), "fire", "work hot bitumen into corner and slits"),
    )


_GUSSET = Step(
    "set gusset", ("light the torch",), "quality", "heat the gusset's back and the corner, set it"
)


def _closing(closed_by: tuple[str, ...], gusset: tuple[Step, ...] = ()) -> tuple[Step, ...]:
    """From the flame at the parapet to the closed permit."""
    before_welding = gusset[-1].name if gusset else "light the torch"
    return (
        Step("light the torch", closed_by, "fire", "bring the flame to the closed parapet"),
        *gusset,
        Step("weld laps", (before_welding,), "quality", "weld every lap with torch and trowel"),
        Step("flame out", ("weld laps",), "fire", "shut the cylinder, burn off the hose"),
        Step("fire watch", ("flame out",), "fire", "watch until the last rule in force is met"),
        Step("close permit", ("fire watch",), "fire", "sign the hot-work permit off"),
    )


_CORNER_CLOSING = _closing(("press laps", "fill corner"), (_GUSSET,))
# An inside corner doubles up on the field, an outside corner on the parapet top.
_INSIDE = _corner(before_top=("first sheet",), before_bottom=("trim", "bond top"))
_OUTSIDE = _corner(before_top=("trim",), before_bottom=("bond top",))

_GRAPHS: Mapping[str, tuple[Step, ...]] = {
    "wall": (*_OPENING, *_WALL, *_closing(("press laps",))),
    "inside corner": (*_OPENING, *_INSIDE, *_CORNER_CLOSING),
    "outside corner": (*_OPENING, *_OUTSIDE, *_CORNER_CLOSING),
}


def graph(job: str) -> tuple[Step, ...]:
    """The steps of a job in one valid order. Raises InputError for a job that is none of ours."""
    if job not in _GRAPHS:
        raise InputError("job", job, Choice(JOBS).describe())
    return _GRAPHS[job]


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
    summary="may this step come next: what must come first at a wall or a corner",
    fields=(
        Field("job", Choice(JOBS), "what is being dressed"),
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
    ),
    compute=_compute,
    rules=(
        "Lighting the torch needs the substrate gate and everything that closes the wall.",
        "next already done, and names that are no step of the job, are refused.",
    ),
)
