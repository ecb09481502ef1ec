"""The reader of ``scenarios/families``: YAML into checked families, all of a file's problems."""

from __future__ import annotations

import copy
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from trainer.engine.expression import Expression
from trainer.engine.spec import (
    DecisionSpec,
    DecisionWords,
    Draw,
    Family,
    Judge,
    MarginSpec,
    Mode,
    OptionSpec,
    OptionWords,
    Words,
    Worked,
)
from trainer.engine.template import Passage, Template
from trainer.engine.validate import flaws
from trainer.pack.family_schema import FAMILY
from trainer.pack.positions import Document, PackError, Problem, problems, read
from trainer.pack.yaml_values import Steps
from trainer.roofing.rule import Subject

Data = Mapping[str, Any]
Subjects = Mapping[str, Subject] | None
"""The subjects of the rule book that a family may lean on; None where it could not be read."""

Terms = Mapping[str, Mapping[str, Mapping[str, str]]]
"""Shared words by language, sort and key."""

AT_MARGIN = "at margin"


def read_family(path: Path, subjects: Subjects, terms: Terms | None) -> Family:
    """The family in ``path``. Raises PackError with every problem of the file, line by line."""
    return family_of(read(path), subjects, terms)


def family_of(document: Document, subjects: Subjects, terms: Terms | None) -> Family:
    """The family in a file. Raises PackError with all that is wrong in its shape and its sense.

    ``subjects`` and ``terms`` are None where their files could not be read: then nothing is said
    about them.
    """
    if document.sound:
        return build_family(document.content, terms, document.file)
    found = problems(document, FAMILY)
    family = _as_far_as_it_goes(document, found, terms)
    broken = {problem.steps for problem in found}
    for flaw in flaws(family, subjects) if family else ():
        if not any(_touch(flaw.path, steps) for steps in broken):
            found.append(document.problem(flaw.path, flaw.message))
    if found or family is None:
        raise PackError(sorted(found, key=lambda problem: problem.line))
    return family


def _as_far_as_it_goes(
    document: Document, found: Iterable[Problem], terms: Terms | None
) -> Family | None:
    """The family, without the fields that have a problem; None where too much is missing."""
    if not found:
        return build_family(document.content, terms, document.file)
    if not isinstance(document.content, dict):
        return None
    data = copy.deepcopy(document.content)
    try:
        for problem in found:
            _drop(data, problem.steps)
        return build_family(data, terms, document.file)
    except (KeyError, IndexError, TypeError, AttributeError):
        return None  # what is missing has a problem of its own, and hides what hangs on it


_STAND_INS: Mapping[str, Any] = {
    "values": None,
    "rules": "",
    "judge": {"calculator": "", "inputs": {}},
}
"""What stands in for a broken entry, so that its name is known to the rest of the file."""


def _drop(data: Any, steps: Steps) -> None:
    """Takes the entry at ``steps`` out of ``data``, if it is there."""
    *way, last = steps
    for step in way:
        data = data[step]
    if len(way) == 1 and way[0] in _STAND_INS:
        data[last] = _STAND_INS[str(way[0])]
    elif isinstance(data, dict):
        data.pop(last, None)


def _touch(one: Steps, other: Steps) -> bool:
    """Whether one of two places lies within the other."""
    shorter = min(len(one), len(other))
    return one[:shorter] == other[:shorter]


def build_family(data: Data, terms: Terms | None, source: str = "") -> Family:
    """A family from data of the right shape; what stands for itself alone may be missing."""
    return Family(
        id=data["family"],
        version=data.get("version", 0),
        unit=data.get("unit", ""),
        severity=data.get("severity", ""),
        figure=_with_expressions(data["figure"]),
        live=_with_expressions(data.get("live", {})),
        after=_with_expressions(data.get("after", {})),
        rules=dict(data.get("rules", {})),
        values={name: _draw(draw) for name, draw in data["values"].items()},
        margin=_margin(data["margin"]) if "margin" in data else None,
        modes={name: _mode(name, mode or {}) for name, mode in data["modes"].items()},
        judges=tuple(_judge(name, judge) for name, judge in data["judge"].items()),
        decisions=tuple(_decision(d, data.get("severity", "")) for d in data["decisions"]),
        words={
            key: _words(words, None if terms is None else terms.get(key, {}))
            for key, words in data["words"].items()
        },
        clear_of=tuple(_margin(margin) for margin in data.get("clear_of", ())),
        features={key: _expression(value) for key, value in data.get("features", {}).items()},
        worked=_worked(data["worked"]) if "worked" in data else None,
        practice_only=data.get("practice_only", False),
        source=source,
    )


def _expression(value: Any) -> Expression:
    return Expression(value if isinstance(value, str) else repr(value))


def _maybe(data: Data, key: str) -> Expression | None:
    return _expression(data[key]) if key in data else None


def _with_expressions(data: Any) -> Any:
    """Figure data in which every text that begins with "=" is an expression."""
    if isinstance(data, str) and data.startswith("="):
        return Expression(data[1:].strip())
    if isinstance(data, Mapping):
        return {key: _with_expressions(part) for key, part in data.items()}
    if isinstance(data, list):
        return [_with_expressions(part) for part in data]
    return data


def _draw(data: Any) -> Draw:
    if data == AT_MARGIN:
        return Draw(at_margin=True)
    if data is None:
        return Draw()
    if not isinstance(data, Mapping):
        return Draw(formula=_expression(data))
    return Draw(
        low=_maybe(data, "from"),
        high=_maybe(data, "to"),
        step=data.get("step", 1),
        one_of=_maybe(data, "one_of"),
        take=_maybe(data, "take"),
    )


def _margin(data: Data) -> MarginSpec:
    return MarginSpec(
        value=data["of"],
        tolerance=_expression(data["tolerance"]),
        step=data.get("step", 1),
        rule=data.get("rule", ""),
        limit=_maybe(data, "limit"),
        direction=data.get("direction", ""),
        about_uncertainty=data.get("about_uncertainty", False),
    )


def _mode(name: str, data: Data) -> Mode:
    low_high = data.get("margin")
    return Mode(
        id=name,
        margin=(min(low_high), max(low_high)) if low_high else None,
        values={key: _draw(draw) for key, draw in data.get("values", {}).items()},
        weight=data.get("weight", 1),
    )


def _worked(data: Data) -> Worked:
    return Worked(data["mode"], dict(data["values"]), dict(data["answers"]))


def _judge(name: str, data: Data) -> Judge:
    inputs = {key: _expression(value) for key, value in data["inputs"].items()}
    return Judge(name, data["calculator"], inputs)


def _decision(data: Data, severity: str) -> DecisionSpec:
    return DecisionSpec(
        id=data["id"],
        kind=data["kind"],
        critical=_expression(data.get("critical", severity == "critical")),
        when=_maybe(data, "when"),
        dangerous=_maybe(data, "dangerous"),
        options=tuple(_option(option) for option in data.get("options", ())),
        answer=_maybe(data, "answer"),
        parts=_maybe(data, "parts"),
        tolerance=_maybe(data, "tolerance"),
        unit=data.get("unit", ""),
        axes=data.get("axes", ""),
        low=_maybe(data, "from"),
        high=_maybe(data, "to"),
        low_y=_maybe(data, "from_y"),
        high_y=_maybe(data, "to_y"),
        step=data.get("step", 1),
        job=_maybe(data, "job"),
        pinned=data.get("pinned", False),
    )


def _option(data: Data) -> OptionSpec:
    return OptionSpec(
        id=data["id"],
        misconception=data.get("misconception", ""),
        **{key: _maybe(data, key) for key in ("right", "when", "critical", "at", "at_y", "value")},
    )


def _words(data: Data, terms: Mapping[str, Mapping[str, str]] | None) -> Words:
    return Words(
        title=data["title"],
        situation=_passage(data["situation"]),
        look=_passage(data["look"]),
        caution=_passage(data.get("caution")),
        decisions={key: _decision_words(words) for key, words in data["decisions"].items()},
        labels={key: Template(text) for key, text in data.get("labels", {}).items()},
        terms=terms,
        worked=tuple(data.get("worked", ())),
    )


def _decision_words(data: Data) -> DecisionWords:
    passages = {
        key: _passage(data.get(key))
        for key in ("prompt", "right", "wrong", "leads_to", "sums", "answer")
    }
    options = {key: _option_words(words) for key, words in data.get("options", {}).items()}
    return DecisionWords(part=Template(data.get("part", "")), options=options, **passages)


def _option_words(data: Any) -> OptionWords:
    if isinstance(data, str):
        return OptionWords(Template(data), Passage(), Passage(), Passage())
    return OptionWords(
        Template(data.get("text", "")),
        *(_passage(data.get(key)) for key in ("right", "wrong", "leads_to")),
    )


def _passage(data: Any) -> Passage:
    if data is None:
        return Passage()
    parts = data if isinstance(data, list) else [data]
    return Passage(tuple(_sentence(part) for part in parts))


def _sentence(part: Any) -> tuple[Expression | None, Template]:
    if isinstance(part, str):
        return None, Template(part)
    return _expression(part["if"]), Template(part["say"])
