"""A response against the computed answer: right or wrong, how, and whether this error can hurt.

A response is a small mapping, already read into numbers and ids (``respond`` does that):
{"row": id}, {"rows": [ids]}, {"x_mm": x, "y_mm": y}, {"value": number}, {"minute": minutes after
midnight} or {"order": [step names]}.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from trainer.engine.decide import is_dangerous, may_stand, steps_of
from trainer.engine.scenario import Decision, Option, Scenario, calculate
from trainer.engine.spec import DecisionSpec, Family
from trainer.errors import InputError
from trainer.roofing.contract import Number

Response = Mapping[str, Any]
_HAIR = 1e-9
_AS_A_CANDIDATE = 5
"""Steps within which a place on the drawing amounts to a candidate."""

_MINUTE = Number("minutes after midnight", low=0, high=24 * 60 - 1, whole=True)
_VALUE = Number(low=-1_000_000_000, high=1_000_000_000)


@dataclass(frozen=True)
class Mark:
    """How a decision came out.

    ``score`` is 0 to 1: all or nothing, except for *find* (hits less false alarms, over what was to
    be found). ``chosen`` is the option, part or tempting value the response amounts to, if any.
    ``critical`` is true when this very error can burn, drop or gas somebody.
    """

    right: bool
    critical: bool = False
    score: float = 0.0
    chosen: str = ""
    misconception: str = ""
    detail: Mapping[str, Any] = field(default_factory=dict)

    def plain(self) -> dict[str, Any]:
        """The mark as JSON-able data, for storing and comparing."""
        return {**vars(self), "detail": dict(self.detail)}


def mark(family: Family, scenario: Scenario, decision_id: str, response: Response) -> Mark:
    """Mark one response. Raises InputError for a response that the decision cannot take."""
    decision = scenario.decision(decision_id)
    if not isinstance(response, Mapping):
        raise InputError("response", response, "a block of fields")
    asked = _Asked(family.decision(decision_id), scenario, decision)
    return _MARKERS[decision.kind](asked, response)


@dataclass(frozen=True)
class _Asked:
    """A decision of a scenario, as it came out and as the family states it."""

    spec: DecisionSpec
    scenario: Scenario
    decision: Decision

    def wrong(self, critical: bool, **more: Any) -> Mark:
        return Mark(False, self.decision.critical and critical, **more)


def _row(response: Response, known: Sequence[str]) -> str:
    row = response.get("row")
    if not isinstance(row, str) or row not in known:
        raise InputError("row", row, f"one of {', '.join(known)}")
    return row


def _choice(asked: _Asked, response: Response) -> Mark:
    row = _row(response, [o.id for o in asked.decision.options])
    option = asked.decision.option(row)
    assert option is not None
    # An option knows by itself whether choosing it can hurt.
    return Mark(option.right, option.critical, float(option.right), row, option.misconception)


def _part(asked: _Asked, response: Response) -> Mark:
    row = _row(response, [part["id"] for part in asked.decision.parts])
    if row == asked.decision.answer:
        return Mark(True, score=1.0, chosen=row)
    return asked.wrong(True, chosen=row, misconception=_behind(asked, row))


def _behind(asked: _Asked, part_id: str) -> str:
    """The misconception behind taking, or leaving out, that part wrongly."""
    scope = {**asked.scenario.scope(), "part": asked.decision.part(part_id)}
    for option in asked.spec.options:
        if option.when is not None and option.when.value(scope):
            return option.misconception
    return ""


def _found(asked: _Asked, response: Response) -> Mark:
    meant, given = asked.decision.answer, _rows(asked, response)
    hits, misses = [p for p in meant if p in given], [p for p in meant if p not in given]
    alarms = [p for p in given if p not in meant]
    detail = {"hits": sorted(hits), "misses": sorted(misses), "false_alarms": sorted(alarms)}
    if not misses and not alarms:
        return Mark(True, score=1.0, detail=detail)
    score = max(0.0, (len(hits) - len(alarms)) / len(meant)) if meant else 0.0
    behind = _behind(asked, min(misses or alarms))
    # To miss what burns is the dangerous error; to suspect too much costs only time.
    return asked.wrong(bool(misses), score=round(score, 4), misconception=behind, detail=detail)


def _rows(asked: _Asked, response: Response) -> list[str]:
    rows = response.get("rows")
    known = [part["id"] for part in asked.decision.parts]
    if not isinstance(rows, list) or not _each_once(rows, known):
        raise InputError("rows", rows, f"a list of {', '.join(known)}, each at most once")
    return rows


def _each_once(given: list[Any], known: Sequence[str]) -> bool:
    """Whether everything given is known and nothing is given twice."""
    return all(isinstance(name, str) and name in known for name in given) and (
        len(set(given)) == len(given)
    )


def _placed(asked: _Asked, response: Response) -> Mark:
    if "row" in response:
        return _choice(asked, response)
    decision, scope = asked.decision, asked.scenario.scope()
    at = _point(decision, response)
    detail = {"at": list(at)}
    if any(may_stand(asked.spec, scope, near) for near in _within(at, decision.tolerance)):
        return Mark(True, score=1.0, chosen=str(decision.answer), detail=detail)
    nearest = _nearest_wrong(decision, at)
    return asked.wrong(is_dangerous(asked.spec, scope, at), detail=detail, **_named(nearest))


def _named(option: Option | None) -> dict[str, str]:
    return {"chosen": option.id, "misconception": option.misconception} if option else {}


def _point(decision: Decision, response: Response) -> tuple[float, ...]:
    lows, highs = decision.bounds[::2], decision.bounds[1::2]
    return tuple(
        Number("mm", low=low, high=high).read(f"{axis}_mm", response.get(f"{axis}_mm"))
        for axis, low, high in zip(decision.axes, lows, highs, strict=True)
    )


def _within(at: tuple[float, ...], tolerance: float) -> Iterator[tuple[float, ...]]:
    """``at`` and its neighbours within what a finger can do."""
    yield at
    if tolerance:
        for axis in range(len(at)):
            for shift in (-tolerance, tolerance):
                yield tuple(v + shift * (i == axis) for i, v in enumerate(at))


def _nearest_wrong(decision: Decision, at: tuple[float, ...]) -> Option | None:
    """The tempting place that ``at`` amounts to: the nearest wrong one within a few steps."""

    reach = _AS_A_CANDIDATE * decision.step
    off = [(_apart(o, at), o) for o in decision.options if not o.right]
    return _nearest([(far, option) for far, option in off if far <= reach])


def _apart(option: Option, at: tuple[float, ...]) -> float:
    return max(abs(a - b) for a, b in zip(option.at or (), at, strict=True))


def _nearest(found: Sequence[tuple[float, Option]]) -> Option | None:
    """The nearest option; of two as near the first by name, whatever the order of the rows."""
    if not found:
        return None
    return min(found, key=lambda pair: (pair[0], pair[1].id))[1]


def _number(asked: _Asked, response: Response) -> Mark:
    decision = asked.decision
    key, kind = ("minute", _MINUTE) if decision.kind == "time" else ("value", _VALUE)
    value = kind.read(key, response.get(key))
    detail = {"given": value, "off_by": round(value - decision.answer, 4)}
    if abs(value - decision.answer) <= decision.tolerance + _HAIR:
        return Mark(True, score=1.0, detail=detail)
    trap = _trap(decision, value)
    return asked.wrong(_dangerous_number(asked, value), detail=detail, **_named(trap))


def _trap(decision: Decision, value: float) -> Option | None:
    """The tempting value that a wrong number amounts to."""

    off = [(abs((option.value or 0) - value), option) for option in decision.options]
    return _nearest([(far, option) for far, option in off if far <= decision.tolerance + _HAIR])


def _dangerous_number(asked: _Asked, value: float) -> bool:
    if asked.spec.dangerous is None:
        return True
    own = {"response": value, "answer": asked.decision.answer}
    return bool(asked.spec.dangerous.value({**asked.scenario.scope(), **own}))


def _ordered(asked: _Asked, response: Response) -> Mark:
    decision = asked.decision
    order = response.get("order")
    if not isinstance(order, list) or not _each_once(order, decision.answer):
        raise InputError("order", order, f"each once: {', '.join(sorted(decision.answer))}")
    if left_out := [step for step in decision.answer if step not in order]:
        raise InputError("order", order, f"every step; left out: {', '.join(left_out)}")
    before = [step for step in steps_of(decision.job) if step not in order]
    for place, step in enumerate(order):
        verdict = calculate("sequence", job=decision.job, done=before + order[:place], next=step)
        if not verdict["allowed"]:
            detail = {"step": step, "needs": verdict["missing"], "place": place}
            behind = _behind_order(asked.spec, step, verdict["missing"])
            return asked.wrong(
                verdict["critical"], chosen=step, misconception=behind, detail=detail
            )
    return Mark(True, score=1.0, detail={"order": order})


def _behind_order(spec: DecisionSpec, step: str, needs: Sequence[str]) -> str:
    """The misconception that the family names for taking ``step`` before what it needs."""
    named = {o.id: o.misconception for o in spec.options}
    return next((named[key] for need in needs if (key := f"{step} before {need}") in named), "")


_MARKERS: Mapping[str, Callable[[_Asked, Response], Mark]] = {
    "choose": _choice,
    "go_stop": _choice,
    "mark": _part,
    "find": _found,
    "place": _placed,
    "measure": _number,
    "time": _number,
    "order": _ordered,
}
