"""The answers that a decision names, and what is said to each."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from trainer.engine.explain import Explanation, Telling
from trainer.engine.mark import Mark, mark
from trainer.engine.scenario import Decision
from trainer.services.learning import right_response


def wrong_responses(decision: Decision) -> Iterator[tuple[str, dict[str, Any]]]:
    """Every wrong answer the decision names, by the id of its row or tempting value."""
    if decision.kind in ("measure", "time"):
        key = "minute" if decision.kind == "time" else "value"
        yield from ((option.id, {key: option.value}) for option in decision.options)
    elif decision.kind in ("mark", "find"):
        yield from _wrong_parts(decision)
    else:  # an order has no options, and so no wrong answer by name
        wrong = (option for option in decision.options if not option.right)
        yield from ((option.id, {"row": option.id}) for option in wrong)


def _wrong_parts(decision: Decision) -> Iterator[tuple[str, dict[str, Any]]]:
    for part in (part["id"] for part in decision.parts):
        if decision.kind == "find":
            yield part, {"rows": _flipped(decision.answer, part)}
        elif part != decision.answer:
            yield part, {"row": part}


def _flipped(meant: list[str], part: str) -> list[str]:
    """The right set with one part wrongly left out or wrongly added."""
    return [p for p in meant if p != part] if part in meant else [*meant, part]


def explained(telling: Telling, decision: Decision) -> Iterator[tuple[str, Mark, Explanation]]:
    """Every answer the decision names, marked and explained; first the right one, "right"."""
    for name, response in (("right", right_response(decision)), *wrong_responses(decision)):
        marked = mark(telling.family, telling.scenario, decision.id, response)
        yield name, marked, telling.explain(decision, response, marked)


def reasons(telling: Telling, decision: Decision) -> dict[str, list[str]]:
    """For every answer that can be given: why it is right or not. The right one is "right"."""
    return {name: list(told.because) for name, _, told in explained(telling, decision)}
