"""Every family in every fault mode, and every response that can be given to a decision.

Written from what the kinds of decision mean, not from how the engine marks them.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from typing import Any

import networkx

from trainer.engine.scenario import Decision, Scenario
from trainer.engine.solve import make
from trainer.pack.pack import load_pack
from trainer.roofing.sequence import steps

PACK = load_pack()
RULES = PACK.book.in_force()
CELLS = [(family.id, mode) for family in PACK.families.values() for mode in family.modes]


def drawn(cell: tuple[str, str], seed: int) -> Scenario:
    family, mode = cell
    return make(PACK.families[family], seed, RULES, mode)


def right_responses(decision: Decision) -> Iterator[dict[str, Any]]:
    """Responses that say exactly what the stated answer says."""
    answer = decision.answer
    match decision.kind:
        case "choose" | "mark":
            yield {"row": answer}
        case "go_stop":
            yield from ({"row": row} for row in (["go"] if answer["go"] else answer["grounds"]))
        case "place":
            yield {"row": answer}
            yield _at(decision, decision.option(answer).at)
        case "find":
            yield {"rows": list(answer)}
            yield {"rows": list(reversed(answer))}
        case "measure":
            yield {"value": answer}
            yield {"value": answer + decision.tolerance}
            yield {"value": answer - decision.tolerance}
        case "time":
            yield {"minute": answer}
        case "order":
            yield {"order": list(answer)}


def wrong_responses(decision: Decision) -> Iterator[dict[str, Any]]:
    """All other responses, or where there is no end to them, the nearest and the tempting ones."""
    answer = decision.answer
    match decision.kind:
        case "choose":
            yield from ({"row": o.id} for o in decision.options if o.id != answer)
        case "go_stop":
            right = ["go"] if answer["go"] else answer["grounds"]
            yield from ({"row": o.id} for o in decision.options if o.id not in right)
        case "mark":
            yield from ({"row": part["id"]} for part in decision.parts if part["id"] != answer)
        case "find":
            yield from ({"rows": rows} for rows in _other_subsets(decision))
        case "place":
            for option in decision.options:
                if option.id != answer:
                    yield {"row": option.id}
                    yield _at(decision, option.at)
        case "measure":
            beyond = decision.tolerance + 0.01
            yield from ({"value": value} for value in (answer - beyond, answer + beyond))
            yield from ({"value": trap.value} for trap in decision.options)
        case "time":
            minutes = [answer - decision.tolerance - 1, answer + decision.tolerance + 1]
            minutes += [trap.value for trap in decision.options]
            yield from ({"minute": minute} for minute in minutes if 0 <= minute < 1440)


def _at(decision: Decision, at: tuple[float, ...]) -> dict[str, float]:
    return {f"{axis}_mm": value for axis, value in zip(decision.axes, at, strict=True)}


def _other_subsets(decision: Decision) -> Iterator[list[str]]:
    parts = [part["id"] for part in decision.parts]
    for size in range(len(parts) + 1):
        for rows in itertools.combinations(parts, size):
            if set(rows) != set(decision.answer):
                yield list(rows)


def needed_pairs(job: str) -> set[tuple[str, str]]:
    """(a, b) where a must come before b, directly or through others, by networkx."""
    graph = networkx.DiGraph()
    for step in steps(job):
        graph.add_edges_from((need, step["name"]) for need in step["needs"])
    return set(networkx.transitive_closure_dag(graph).edges)
