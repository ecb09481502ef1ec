"""Scenarios without a person: listed, shown and drawn, for the terminal and for authors."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from trainer.engine.explain import Telling
from trainer.engine.features import features
from trainer.engine.solve import Decision, Scenario, clock_text
from trainer.engine.unsound import UnsoundScenario
from trainer.errors import TrainerError
from trainer.services.content.answers import explained, reasons
from trainer.services.content.stated import example_faults
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
        "features": features(telling.family, scenario),
        "worked": _worked(shelf, telling),
        "figure": figure_of(telling),
    }


def _worked(shelf: Library, telling: Telling) -> dict[str, Any] | None:
    """The family's example worked by hand, and where it does not agree with the core."""
    family = telling.family
    if family.worked is None:
        return None
    return {
        "mode": family.worked.mode,
        "values": dict(family.worked.values),
        "answers": dict(family.worked.answers),
        "lines": list(telling.words.worked),
        "disagreements": example_faults(family, shelf.rules),
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
        "reasons": reasons(telling, decision),
    }


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
    lines += ["", *(_rule_in_text(rule) for rule in data["rules"])]
    told = ", ".join(f"{name} {value:g}" for name, value in data["features"].items())
    return "\n".join([*lines, "", f"features: {told}", *_worked_in_text(data["worked"])])


def _rule_in_text(rule: dict[str, Any]) -> str:
    says = rule["says"] if rule["value"] is None else f"{rule['direction']} {rule['says']}"
    return f"rule {rule['id']}: {says}, {rule['source']}"


def _worked_in_text(worked: dict[str, Any] | None) -> list[str]:
    if worked is None:
        return ["worked by hand: nothing"]
    wrong = worked["disagreements"]
    head = f"worked by hand ({worked['mode']}): {'does not agree' if wrong else 'agrees'}"
    return ["", head, *(f"  {line}" for line in (*worked["lines"], *wrong))]


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
        _drawn(telling)
    except UnsoundScenario as error:
        yield error.reason
    except TrainerError as error:
        yield str(error)


def _drawn(telling: Telling) -> None:
    """Draw it in every state in which somebody sees it, so that what cannot be drawn is found."""
    figure_of(telling)
    for waiting in telling.scenario.live:
        figure_of(telling, waiting=waiting)
    for answered in telling.scenario.after:
        figure_of(telling, answered=(answered,))
    figure_of(telling, answered=[d.id for d in telling.scenario.decisions])


def _wrong_marks(telling: Telling, scenario: Scenario) -> Iterator[str]:
    """Gives and explains every answer that is named: a text that cannot be said is found too."""
    for decision in scenario.decisions:
        own, *others = explained(telling, decision)
        if not own[1].right:
            yield f"decision {decision.id}: its own answer is marked wrong"
        for wrong, marked, _ in others:
            if marked.right:
                yield f"decision {decision.id}: the wrong answer {wrong} is marked right"


def _said(telling: Telling) -> None:
    """Say every other text once, so that a value that cannot be said is found."""
    _ = (telling.situation, telling.look, telling.caution)
    for decision in telling.scenario.decisions:
        telling.prompt(decision)
        telling.rows(decision)
