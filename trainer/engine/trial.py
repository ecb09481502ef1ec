"""A family put to the test before anybody meets it: a few draws of every mode, under given rules.

What is tried is always the same: two seeds, and in a mode with a margin also both ends of its range
and a hair more than one tolerance on either side of the limit: nearer nobody could tell, and values
rounded to whole millimetres may lie a hair nearer than asked. Whatever fails is told by its field.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable, Iterator
from typing import Any

from trainer.engine.expression import ExpressionError
from trainer.engine.features import stated
from trainer.engine.flaws import Flaw
from trainer.engine.margin import margin_of
from trainer.engine.scenario import Scenario
from trainer.engine.solve import Rules, lacking, make
from trainer.engine.spec import Family, Mode
from trainer.engine.unsound import UnsoundScenario
from trainer.engine.worked import disagreements

FigureCheck = Callable[[Family, Scenario], Iterable[Flaw]]
"""What is wrong with the drawings of a scenario; the engine itself cannot draw."""

Try = tuple[int, float | None]
"""A seed, and a margin where one is given instead of drawn."""

_NEAREST = 1.05
_SEEDS = (0, 1)
_MORE_SEEDS = range(12)


def trial_flaws(family: Family, rules: Rules, figures: FigureCheck | None) -> Iterator[Flaw]:
    """What is wrong with the modes, drawings, features and hand-worked example of a family.

    Of each mode the first thing that goes wrong. Nothing is tried of a family that is not drawn,
    since a rule is :func:`~trainer.engine.solve.lacking`.
    """
    if lacking(family, rules):
        return
    for mode in family.modes.values():
        every = (_tried(family, mode, rules, each, figures) for each in tries(mode))
        yield from itertools.islice(itertools.chain.from_iterable(every), 1)
    if family.worked is not None:
        yield from _example(family, rules)


def tries(mode: Mode) -> list[Try]:
    """What is tried of a mode."""
    if mode.margin is None:
        return [(seed, None) for seed in _SEEDS]
    given = dict.fromkeys((*mode.margin, -_NEAREST, _NEAREST))
    return [*((seed, None) for seed in _SEEDS), *((_SEEDS[0], margin) for margin in given)]


def _tried(
    family: Family, mode: Mode, rules: Rules, each: Try, figures: FigureCheck | None
) -> Iterator[Flaw]:
    seed, margin = each
    path, where = ("modes", mode.id), _where(each)
    try:
        scenario = make(family, seed, rules, mode.id, margin)
        list(stated(family, scenario))
    except (UnsoundScenario, ExpressionError) as error:
        reason = getattr(error, "reason", error.message).rstrip(".")
        yield Flaw(path, f"no scenario can be drawn{where}: {reason}")
        return
    if wrong := _wrong_side(mode, scenario, margin):
        yield Flaw(path, f"{wrong}{where}")
    if figures:
        for flaw in figures(family, scenario):
            yield Flaw(flaw.path, f"mode {mode.id}{where}: {flaw.message}")


def _where(each: Try) -> str:
    seed, margin = each
    return f" (seed {seed})" if margin is None else f" (seed {seed}, at margin {margin:g})"


def _wrong_side(mode: Mode, scenario: Scenario, margin: float | None) -> str:
    """Why the limit was missed: what is drawn to be good comes out bad, or the other way round."""
    if mode.margin is None or scenario.margin is None:
        return ""
    wanted = mode.margin[0] if margin is None else margin
    if (wanted > 0) == (scenario.margin > 0):
        return ""
    sides = ("safe", "wrong") if wanted > 0 else ("wrong", "safe")
    return (
        f"a margin on the {sides[0]} side is drawn, and {scenario.margin:g} tolerances on the"
        f" {sides[1]} side come out"
    )


def _example(family: Family, rules: Rules) -> Iterator[Flaw]:
    try:
        for sentence in disagreements(family, rules):
            yield Flaw(("worked",), sentence)
    except UnsoundScenario as error:
        yield Flaw(("worked",), f"no scenario can be made of it: {error.reason}")


def upside_down(family: Family, rules: Rules, usual: Rules) -> str:
    """How other rules than the usual ones spoil a family; empty where they do not.

    Either no sound scenario can be drawn under them, or what a mode draws as good comes out as bad:
    a value changes its side of a limit, or go becomes stop.
    """
    for mode in family.modes.values():
        given = [each for each in tries(mode) if each[1] is not None]
        for each in (*((seed, None) for seed in _MORE_SEEDS), *given):
            if reason := _turned(family, mode, each, rules, usual):
                return f"mode {mode.id}{_where(each)}: {reason}"
    return ""


def _turned(family: Family, mode: Mode, each: Try, rules: Rules, usual: Rules) -> str:
    seed, margin = each
    try:
        now = make(family, seed, rules, mode.id, margin)
    except UnsoundScenario as error:
        return error.reason
    try:
        before = make(family, seed, usual, mode.id, margin)
    except UnsoundScenario:
        return _wrong_side(mode, now, margin)
    was = _sides(family, before)
    turned = [what for what, side in _sides(family, now).items() if was.get(what, side) != side]
    return f"{', '.join(turned)}: the other way round than the mode means it" if turned else ""


def _sides(family: Family, scenario: Scenario) -> dict[str, Any]:
    """On which side of its limit each measured value lies, and whether work may go on."""
    scope = scenario.scope()
    measured = [spec for spec in (family.margin, *family.clear_of) if spec is not None]
    sides: dict[str, Any] = {spec.value: margin_of(spec, scope) > 0 for spec in measured}
    go = {d.id: d.answer["go"] for d in scenario.decisions if d.kind == "go_stop"}
    return sides | go
