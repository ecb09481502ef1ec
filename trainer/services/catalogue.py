"""Scenarios without a person: for the terminal, for authors and for checks."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from trainer.engine.draw import UnsoundScenario
from trainer.engine.explain import Telling
from trainer.engine.mark import mark
from trainer.engine.solve import Decision, Scenario, clock_text
from trainer.errors import TrainerError
from trainer.services.learning import right_response
from trainer.services.scenarios import Library, figure_of, library


def families() -> list[dict[str, Any]]:
    """Every family: id, version, unit, severity, modes, title."""
    return [
        {
            "id": family.id,
            "version": family.version,
            "unit": family.unit,
            "severity": family.severity,
            "modes": list(family.modes),
            "title": family.words_in("en").title,
        }
        for family in library().pack.families.values()
    ]


def shown(family: str, seed: int, mode: str = "") -> dict[str, Any]:
    """One scenario as plain data, answers and drawing included. Raises InputError."""
    shelf = library()
    scenario = shelf.make(family, seed, mode)
    telling = shelf.telling(scenario)
    return {
        "family": scenario.family,
        "version": scenario.version,
        "unit": scenario.unit,
        "severity": scenario.severity,
        "seed": scenario.seed,
        "mode": scenario.mode,
        "margin": scenario.margin,
        "title": telling.title,
        "situation": list(telling.situation),
        "facts": scenario.facts,
        "rules": [_rule(rule) for rule in scenario.rules.values()],
        "decisions": [_decision(telling, decision) for decision in scenario.decisions],
        "figure": figure_of(telling),
    }


def _rule(rule: Any) -> dict[str, Any]:
    kept = ("id", "value", "low", "high", "unit", "direction", "source")
    return {**{key: rule[key] for key in kept}, "says": rule["says"]["mm"]}


def _decision(telling: Telling, decision: Decision) -> dict[str, Any]:
    rows = telling.rows(decision)
    return {
        "id": decision.id,
        "kind": decision.kind,
        "critical": decision.critical,
        "prompt": telling.prompt(decision),
        "options": [{"id": row, "text": text} for row, text in rows],
        "answer": clock_text("answer_at", decision.answer)
        if decision.kind == "time"
        else decision.answer,
        "tolerance": decision.tolerance,
        "unit": decision.unit,
        "reasons": _reasons(telling, decision),
    }


def _reasons(telling: Telling, decision: Decision) -> dict[str, list[str]]:
    """For every answer that can be given: why it is right or not. The right one is "right"."""
    scenario, family = telling.scenario, telling.family
    right = right_response(decision)
    made = mark(family, scenario, decision.id, right)
    reasons = {"right": list(telling.explain(decision, right, made).because)}
    for wrong, response in wrong_responses(decision):
        made = mark(family, scenario, decision.id, response)
        reasons[wrong] = list(telling.explain(decision, response, made).because)
    return reasons


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


def in_text(data: dict[str, Any]) -> str:
    """A scenario for reading at the terminal."""
    lines = [f"{data['title']}  ({data['family']} v{data['version']}, seed {data['seed']},"
             f" {data['mode']}, margin {data['margin']})", "", *data["situation"]]  # fmt: skip
    for decision in data["decisions"]:
        lines += ["", f"{decision['prompt']}  [{decision['kind']}]"]
        lines += [f"  {option['id']:<18} {option['text']}" for option in decision["options"]]
        lines += [
            f"  answer: {decision['answer']}",
            *(f"  {t}" for t in decision["reasons"]["right"]),
        ]
    lines += ["", *(f"rule {r['id']}: {r['direction']} {r['says']}, {r['source']}"
                    for r in data["rules"])]  # fmt: skip
    return "\n".join(lines)


def cells(only: str = "") -> list[tuple[str, str]]:
    """Every family × fault mode. Raises InputError for an unknown family."""
    shelf = library()
    chosen = [shelf.pack.family(only)] if only else shelf.pack.families.values()
    return [(family.id, mode) for family in chosen for mode in family.modes]


def unsound(family: str, mode: str, seeds: int) -> list[str]:
    """What is wrong with a cell over many seeds: no single answer, a wrong mark, words missing,
    a figure that cannot be drawn. Each problem once, with the first seed that shows it."""
    shelf = library()
    found: dict[str, str] = {}
    for seed in range(seeds):
        for problem in _problems(shelf, family, mode, seed):
            found.setdefault(problem, f"{family}, {mode}, seed {seed}: {problem}")
    return list(found.values())


def _problems(shelf: Library, family: str, mode: str, seed: int) -> Iterator[str]:
    try:
        scenario = shelf.make(family, seed, mode)
        telling = shelf.telling(scenario)
        yield from _wrong_marks(telling, scenario)
        _said(telling)
        figure_of(telling)
        figure_of(telling, answered=[d.id for d in scenario.decisions])
    except UnsoundScenario as error:
        yield error.reason
    except TrainerError as error:
        yield str(error)


def _wrong_marks(telling: Telling, scenario: Scenario) -> Iterator[str]:
    for decision in scenario.decisions:
        if not mark(telling.family, scenario, decision.id, right_response(decision)).right:
            yield f"decision {decision.id}: its own answer is marked wrong"
        for wrong, response in wrong_responses(decision):
            if mark(telling.family, scenario, decision.id, response).right:
                yield f"decision {decision.id}: the wrong answer {wrong} is marked right"


def _said(telling: Telling) -> None:
    """Say every text once, so that a value that cannot be said is found."""
    _ = (telling.situation, telling.look, telling.caution)
    for decision in telling.scenario.decisions:
        telling.prompt(decision)
        _reasons(telling, decision)
