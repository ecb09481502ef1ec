"""The decisions of a scenario with their answers, worked out from its values.

A decision whose values leave no single honest answer is refused (:class:`Unsound`).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from trainer.engine.expression import Expression, Scope
from trainer.engine.hat import Hat
from trainer.engine.measures import display_rounding
from trainer.engine.plain import exact
from trainer.engine.scenario import Decision, Option
from trainer.engine.spec import GO, DecisionSpec, OptionSpec
from trainer.engine.unsound import Unsound
from trainer.errors import InputError

_LAST_MINUTE = 24 * 60 - 1


def decide(spec: DecisionSpec, scope: Scope, rows: Hat) -> Decision:
    """The decision under ``scope``, its rows in the order of the hat. Raises Unsound."""
    critical = bool(spec.critical.value(scope))
    try:
        return _BUILDERS[spec.kind](spec, scope, rows, critical)
    except (Unsound, ValueError, TypeError) as why:
        raise Unsound(f"decision {spec.id}: {why}") from None


def may_stand(spec: DecisionSpec, scope: Scope, at: Sequence[float]) -> bool:
    """Whether the thing to be placed may stand at ``at`` (x, or x and y, in millimetres)."""
    assert spec.answer is not None
    return bool(spec.answer.value({**scope, **_named(spec, at)}))


def is_dangerous(spec: DecisionSpec, scope: Scope, at: Sequence[float]) -> bool:
    """Whether to place it at ``at``, where it may not stand, is the dangerous error."""
    return spec.dangerous is None or bool(spec.dangerous.value({**scope, **_named(spec, at)}))


def _named(spec: DecisionSpec, at: Sequence[float]) -> dict[str, float]:
    return dict(zip(spec.axes, at, strict=True))


def _value(expression: Expression | None, scope: Scope) -> Any:
    return None if expression is None else exact(expression.value(scope))


def _offered(spec: DecisionSpec, scope: Scope) -> list[OptionSpec]:
    return [o for o in spec.options if o.when is None or o.when.value(scope)]


def _shuffled(spec: DecisionSpec, options: list[Option], rows: Hat) -> tuple[Option, ...]:
    return tuple(options if spec.pinned else rows.sample(options))


def _row(option: OptionSpec, scope: Scope, critical: bool) -> Option:
    """A row of a list: right where its own condition holds."""
    right = option.right is not None and bool(option.right.value(scope))
    return Option(option.id, right, option.misconception, _hurts(option, scope, critical, right))


def _hurts(option: OptionSpec, scope: Scope, critical: bool, right: bool) -> bool:
    if option.critical is not None:
        critical = bool(option.critical.value(scope))
    return critical and not right


def _only(found: Sequence[str], what: str) -> str:
    if len(found) != 1:
        which = f" ({', '.join(found)})" if found else ""
        raise Unsound(f"there are {len(found)} right {what}{which}, not one")
    return found[0]


def _choose(spec: DecisionSpec, scope: Scope, rows: Hat, critical: bool) -> Decision:
    options = [_row(option, scope, critical) for option in _offered(spec, scope)]
    right = _only([o.id for o in options if o.right], "options")
    if len(options) < 2:
        raise Unsound("there is nothing to choose from")
    return Decision(spec.id, spec.kind, critical, right, _shuffled(spec, options, rows))


def _go_stop(spec: DecisionSpec, scope: Scope, rows: Hat, critical: bool) -> Decision:
    go = bool(_value(spec.answer, scope))
    offered = _offered(spec, scope)
    grounds = [_row(option, scope, False) for option in offered if option.id != GO]
    behind = next((option.misconception for option in offered if option.id == GO), "")
    holding = sorted(o.id for o in grounds if o.right)
    if go == bool(holding):
        raise Unsound(f"go is {go}, but the grounds that hold are: {', '.join(holding) or 'none'}")
    options = (Option(GO, go, behind, critical and not go), *_shuffled(spec, grounds, rows))
    return Decision(spec.id, spec.kind, critical, {"go": go, "grounds": holding}, options)


def _parts(spec: DecisionSpec, scope: Scope) -> tuple[Mapping[str, Any], ...]:
    given = _value(spec.parts, scope)
    if not isinstance(given, list):
        raise Unsound(f"its parts are {given!r}, not a list")
    parts = tuple(part if isinstance(part, dict) else {"id": part} for part in given)
    if not parts or not all(isinstance(part.get("id"), str) for part in parts):
        raise Unsound("each part needs an id, a text")
    ids = [part["id"] for part in parts]
    if len(set(ids)) < len(ids):
        raise Unsound(f"two of its parts have the same id: {', '.join(ids)}")
    return parts


def _mark(spec: DecisionSpec, scope: Scope, rows: Hat, critical: bool) -> Decision:
    assert spec.answer is not None
    parts = _parts(spec, scope)
    meant = [part["id"] for part in parts if spec.answer.value({**scope, "part": part})]
    answer = _only(meant, "parts") if spec.kind == "mark" else meant
    return Decision(spec.id, spec.kind, critical, answer, parts=parts)


def _place(spec: DecisionSpec, scope: Scope, rows: Hat, critical: bool) -> Decision:
    bounds = _bounds(spec, scope)
    options = [_candidate(spec, o, scope, critical) for o in _offered(spec, scope)]
    right = _only([o.id for o in options if o.right], "candidates")
    _refuse_strays(options, bounds)
    return Decision(
        spec.id, spec.kind, critical, right, _shuffled(spec, options, rows),
        tolerance=_value(spec.tolerance, scope) or 0,
        axes=spec.axes, bounds=bounds, step=spec.step, unit="mm",
    )  # fmt: skip


def _bounds(spec: DecisionSpec, scope: Scope) -> tuple[float, ...]:
    """Low and high of each axis, in millimetres."""
    ends = (spec.low, spec.high, spec.low_y, spec.high_y)[: 2 * len(spec.axes)]
    return tuple(_value(end, scope) for end in ends)


def _candidate(spec: DecisionSpec, option: OptionSpec, scope: Scope, critical: bool) -> Option:
    places = (option.at, option.at_y)[: len(spec.axes)]
    at = tuple(_value(place, scope) for place in places)
    right = may_stand(spec, scope, at)
    critical = critical and not right and is_dangerous(spec, scope, at)
    hurts = _hurts(option, scope, critical, right)
    return Option(option.id, right, option.misconception, hurts, at)


def _refuse_strays(options: Sequence[Option], bounds: Sequence[float]) -> None:
    """Every candidate is a place of its own, and one that can be reached on the drawing."""
    seen: dict[tuple[float, ...], str] = {}
    for option in options:
        at = option.at or ()
        for value, low, high in zip(at, bounds[::2], bounds[1::2], strict=True):
            if not low <= value <= high:
                raise Unsound(f"{option.id} lies at {value:g}, outside {low:g} to {high:g}")
        if at in seen:
            raise Unsound(f"{option.id} lies where {seen[at]} lies")
        seen[at] = option.id


def _number(spec: DecisionSpec, scope: Scope, rows: Hat, critical: bool) -> Decision:
    answer = _asked_for(spec, scope)
    tolerance = _value(spec.tolerance, scope) or 0
    rounding = display_rounding(spec.unit, answer)
    if tolerance < rounding:
        raise Unsound(f"its tolerance of {tolerance:g} is less than the answer is rounded by")
    values = [(o, _value(o.value, scope)) for o in _offered(spec, scope)]
    options = tuple(
        Option(option.id, False, option.misconception, value=value)
        for option, value in values
        if value is not None
        # said in short it must still lie outside: whoever types what is said is not right by luck
        and abs(value - answer) > tolerance + max(rounding, display_rounding(spec.unit, value))
    )
    return Decision(
        spec.id, spec.kind, critical, answer, options, tolerance=tolerance, unit=spec.unit
    )


def _asked_for(spec: DecisionSpec, scope: Scope) -> float:
    answer = _value(spec.answer, scope)
    if isinstance(answer, bool) or not isinstance(answer, int | float):
        raise Unsound(f"its answer is {answer!r}, not a number")
    if spec.kind == "time" and not (answer == int(answer) and 0 <= answer <= _LAST_MINUTE):
        raise Unsound(f"its answer is {answer:g}, not a minute from 0 to {_LAST_MINUTE}")
    return answer


def _order(spec: DecisionSpec, scope: Scope, rows: Hat, critical: bool) -> Decision:
    job = str(_value(spec.job, scope))
    wanted = {part["id"] for part in _parts(spec, scope)}
    every = steps_of(job)
    named = {step for option in spec.options for step in option.id.split(" before ")}
    if unknown := sorted((wanted | named) - set(every)):
        raise Unsound(f"the {job} has no such steps: {', '.join(unknown)}")
    answer = [name for name in every if name in wanted]
    if len(answer) < 2:
        raise Unsound("there is nothing to put in order")
    shuffled = rows.sample(answer)
    if shuffled == answer:  # never hand out the answer as the starting order
        shuffled = answer[1:] + answer[:1]
    parts = tuple({"id": name} for name in shuffled)
    return Decision(spec.id, spec.kind, critical, answer, parts=parts, job=job)


def steps_of(job: str) -> list[str]:
    """The steps of a job in one valid order. Raises Unsound for an unknown job."""
    from trainer.roofing import sequence  # as with calculators: only when it is asked for

    try:
        return [step["name"] for step in sequence.steps(job)]
    except InputError as error:
        raise Unsound(error.message) from None


_BUILDERS: Mapping[str, Callable[[DecisionSpec, Scope, Hat, bool], Decision]] = {
    "choose": _choose,
    "go_stop": _go_stop,
    "mark": _mark,
    "find": _mark,
    "place": _place,
    "measure": _number,
    "time": _number,
    "order": _order,
}
