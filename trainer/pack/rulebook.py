"""Reads the rule book of the scenario pack, ``scenarios/rulebook.yaml``."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Mapping
from functools import lru_cache
from pathlib import Path
from typing import Any

from trainer.pack.place import SCENARIOS
from trainer.pack.positions import Document, PackError, Problem, problems, read
from trainer.pack.rulebook_shape import SHAPE, contradictions
from trainer.pack.yaml_values import Steps
from trainer.roofing.rulebook import (
    COMMON_PRACTICE,
    Profile,
    Rule,
    RuleBook,
    Source,
    Statement,
    Subject,
)

DEFAULT = SCENARIOS / "rulebook.yaml"


def load_rulebook(path: Path | str | None = None, sound: bool = False) -> RuleBook:
    """The rule book at ``path`` (default: the pack's own), read again only when the file changes.

    ``sound``: this very file was checked before. Raises PackError with every problem of the file,
    each with its line.
    """
    path = Path(path or DEFAULT).absolute()
    try:
        state = path.stat()
    except OSError:
        return _load(path, 0, 0, False)  # reading it says what is wrong
    return _load(path, state.st_mtime_ns, state.st_size, sound)


@lru_cache(maxsize=8)
def _load(path: Path, _mtime_ns: int, _size: int, sound: bool) -> RuleBook:
    document = read(path, sound)
    if not sound and (found := rulebook_problems(document)):
        raise PackError(found)
    return _book(document.value)


def rulebook_problems(document: Document) -> list[Problem]:
    """All that is wrong in a rule book: in its form, and between the parts that are well formed."""
    found = problems(document, SHAPE)
    broken = {problem.steps for problem in found}
    for steps, message in contradictions(document.content):
        if not any(_overlap(steps, part) for part in broken):
            found.append(document.problem(steps, message))
    return sorted(found, key=lambda problem: problem.line)


def _overlap(one: Steps, other: Steps) -> bool:
    shorter = min(len(one), len(other))
    return one[:shorter] == other[:shorter]


def _book(content: Mapping[str, Any]) -> RuleBook:
    documents = {key: Source(**entry) for key, entry in _documents(content)}
    subjects, rules = {}, {}
    for key, entry in content["subjects"].items():
        fields = {name: entry[name] for name in ("name", "direction", "dimension")}
        subjects[key] = Subject(key, **fields, guards=entry["guards"], severity=entry["severity"])
        for rule_id, rule in entry["rules"].items():
            rules[rule_id] = _rule(rule_id, subjects[key], rule, documents)
    profiles = {key: _profile(key, content["profiles"], rules) for key in content["profiles"]}
    return RuleBook(content["version"], subjects, rules, profiles, content["default_profile"])


def _documents(content: Mapping[str, Any]) -> Iterable[tuple[str, dict[str, str]]]:
    for key, entry in content["documents"].items():
        yield key, {"document": entry["name"], "edition": entry.get("edition", "")}


def _rule(
    rule_id: str, about: Subject, entry: Mapping[str, Any], documents: Mapping[str, Source]
) -> Rule:
    confirmed = entry.get("confirmed_on")
    return Rule(
        id=rule_id,
        about=about,
        statements=tuple(Statement(**statement) for statement in entry["limit"] or ()),
        source=_source(entry["source"], documents),
        status=entry["status"],
        in_words=entry.get("in_words", ""),
        jurisdiction=entry.get("jurisdiction"),
        note=entry.get("note", ""),
        follows=entry.get("follows"),
        confirmed_by=entry.get("confirmed_by"),
        confirmed_on=datetime.date.fromisoformat(confirmed) if confirmed else None,
    )


def _source(entry: Any, documents: Mapping[str, Source]) -> Source:
    if entry == COMMON_PRACTICE:
        return Source(COMMON_PRACTICE)
    document = documents[entry["document"]]
    return Source(document.document, document.edition, entry.get("section", ""))


def _profile(key: str, entries: Mapping[str, Any], rules: Mapping[str, Rule]) -> Profile:
    entry = entries[key]
    in_force: dict[str, tuple[str, ...]] = {}
    if "based_on" in entry:
        in_force.update(_profile(entry["based_on"], entries, rules).rules)
    own: dict[str, tuple[str, ...]] = {}
    for rule_id in entry["in_force"]:
        subject = rules[rule_id].subject
        own[subject] = (*own.get(subject, ()), rule_id)
    return Profile(key, entry["name"], entry["note"].strip(), in_force | own)
