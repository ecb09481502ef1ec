"""Whether one and the same number, time or place is right so often that nobody needs to reckon."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence

from trainer.engine.mark import mark
from trainer.engine.measures import Units, say_clock
from trainer.engine.scenario import Decision
from trainer.services.content.chance import surely_above
from trainer.services.content.finding import Finding
from trainer.services.content.guess_rows import Asked, share
from trainer.services.content.sample import Sample, Taken

SAME_SHARE = 0.5
"""One value may be right, or stand in the situation already, in up to this share."""
_PLACES_TRIED = 8
_SCENARIOS_TRIED = 100


def guessed_numbers(sample: Sample) -> Iterator[Finding]:
    """Numbers, times and places that can be answered without looking."""
    for name, asked in sample.decisions():
        kind = asked[0][1].kind
        found = list(_CHECKS[kind](sample, asked)) if kind in _CHECKS else []
        yield from (Finding("guess", text, sample.family.id, name) for text in found)


def _by_number(sample: Sample, asked: Asked) -> Iterator[str]:
    value, found = most_within([(d.answer, d.tolerance) for _, d in asked])
    if surely_above(found, len(asked), SAME_SHARE):
        said = _amount(asked[0][1], value)
        yield f"{said} is right in {share(found, len(asked))}; let it vary more"
    printed = sum(f" {_amount(d, d.answer)} " in _said(taken) for taken, d in asked)
    if surely_above(printed, len(asked), SAME_SHARE):
        counted = share(printed, len(asked))
        yield f"the answer stands in the situation in {counted}; let it be worked out"


def most_within(answers: Sequence[tuple[float, float]]) -> tuple[float, int]:
    """The value that most answers (each with its tolerance) take as right, and how many do."""
    starts = sorted(answer - tolerance for answer, tolerance in answers)
    ends = sorted(answer + tolerance for answer, tolerance in answers)
    # Those begun by then, less those that ended before.
    most, end = max((bisect_right(starts, end) - place, end) for place, end in enumerate(ends))
    return (starts[bisect_right(starts, end) - 1] + end) / 2, most


def _amount(decision: Decision, value: float) -> str:
    if decision.kind == "time":
        return say_clock(round(value) % (24 * 60))
    return Units().say_amount(value, decision.unit)


def _said(taken: Taken) -> str:
    """The situation with every stop put away, so that an amount stands between spaces."""
    return f" {' '.join(taken.said['metric'].situation)} ".replace(",", " ").replace(". ", "  ")


def _by_place(sample: Sample, asked: Asked) -> Iterator[str]:
    some = asked[:: max(1, len(asked) // _SCENARIOS_TRIED)]
    tried = some[:: max(1, len(some) // _PLACES_TRIED)][:_PLACES_TRIED]
    places = {_right_place(decision) for _, decision in tried}
    counted = {at: sum(_stands(sample, taken, d, at) for taken, d in some) for at in places}
    at, found = max(counted.items(), key=lambda item: item[1])
    if surely_above(found, len(some), SAME_SHARE):
        said = " · ".join(Units().say_length(value) for value in at)
        yield f"the place {said} is right in {share(found, len(some))}; let it vary more"


def _right_place(decision: Decision) -> tuple[float, ...]:
    return next(option.at or () for option in decision.options if option.right)


def _stands(sample: Sample, taken: Taken, decision: Decision, at: tuple[float, ...]) -> bool:
    bounds = zip(at, decision.bounds[::2], decision.bounds[1::2], strict=True)
    if not all(low <= value <= high for value, low, high in bounds):
        return False
    return mark(sample.family, taken.scenario, decision.id, decision.placed(at)).right


_CHECKS = {"measure": _by_number, "time": _by_number, "place": _by_place}
