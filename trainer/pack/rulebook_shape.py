"""What a rule-book file must look like, and what must hold between its parts."""

from __future__ import annotations

import datetime
import difflib
from collections import Counter
from collections.abc import Collection, Iterator, Mapping
from typing import Any

from trainer.errors import shown
from trainer.pack.schema import Shape
from trainer.pack.yaml_values import Complaint, Steps
from trainer.roofing.rulebook import COMMON_PRACTICE
from trainer.roofing.units import DIMENSIONS, UNITS, units_of

_TEXT = {"type": "string", "minLength": 1, "description": "a text, not empty"}
_ID = {
    "type": "string",
    "pattern": "^[a-z0-9]+(-[a-z0-9]+)*$",
    "description": "a name in small letters and digits, words joined by -",
}
_DAY = {
    "type": "string",
    "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$",
    "description": "a day written as 2026-03-31",
}


def _block(
    required: Mapping[str, Any], optional: Mapping[str, Any] | None = None
) -> dict[str, Any]:
    return {
        "type": "object",
        "required": list(required),
        "properties": {**required, **(optional or {})},
        "additionalProperties": False,
    }


def _named(entry: Mapping[str, Any]) -> dict[str, Any]:
    return {"type": "object", "propertyNames": _ID, "additionalProperties": entry}


_LIMIT = {
    "anyOf": [
        {"type": "null"},
        {
            "type": "array",
            "minItems": 1,
            "maxItems": 2,
            "items": _block({"value": {"type": "number"}, "unit": _TEXT}),
        },
    ],
    "description": "null, or one or two statements {value, unit}",
}
_SOURCE = {
    "anyOf": [{"const": COMMON_PRACTICE}, _block({"document": _TEXT}, {"section": _TEXT})],
    "description": f"{{document, section}} or {COMMON_PRACTICE}",
}
_RULE = _block(
    {
        "limit": _LIMIT,
        "source": _SOURCE,
        "status": {"enum": ["read", "secondary", "from memory"]},
    },
    {
        "in_words": _TEXT,
        "jurisdiction": _TEXT,
        "note": _TEXT,
        "follows": _TEXT,
        "confirmed_by": _TEXT,
        "confirmed_on": _DAY,
    },
) | {"dependencies": {"confirmed_by": ["confirmed_on"], "confirmed_on": ["confirmed_by"]}}
_SUBJECT = _block(
    {
        "name": _TEXT,
        "direction": {"enum": ["at least", "at most"]},
        "dimension": {"enum": list(DIMENSIONS)},
        "guards": _TEXT,
        "severity": {"enum": ["critical", "quality"]},
        "rules": _named(_RULE),
    }
)
_PROFILE = _block(
    {"name": _TEXT, "note": _TEXT, "in_force": {"type": "array", "items": _TEXT}},
    {"based_on": _TEXT},
)

SHAPE = Shape(
    _block(
        {
            "version": _TEXT,
            "default_profile": _TEXT,
            "documents": _named(_block({"name": _TEXT}, {"edition": _TEXT})),
            "subjects": _named(_SUBJECT),
            "profiles": _named(_PROFILE),
        }
    )
)

_FARTHEST_APART = 0.1
_FARTHEST_APART_C = 1.0
"""Two statements of one limit are soft conversions of each other: 1 m and 36 in differ by 9 %,
4 °C and 40 °F by 0.4 °C."""


def contradictions(content: Any) -> Iterator[Complaint]:
    """What holds between parts and a schema cannot see.

    Takes any content: parts of another form are stepped over, the schema complains about those.
    """
    subjects = _part(content, "subjects")
    ids = Counter(rule_id for subject in subjects for rule_id in _part(subjects, subject, "rules"))
    documents = _part(content, "documents")
    for subject in subjects:
        dimension = _part(subjects, subject).get("dimension")
        rules = _part(subjects, subject, "rules")
        for rule_id in rules:
            steps, rule = ("subjects", subject, "rules", rule_id), _part(rules, rule_id)
            if ids[rule_id] > 1:
                yield steps, f"got {shown(rule_id)} in two subjects; allowed: each rule id once"
            yield from _wrong_limit(steps, rule, dimension)
            yield from _dangling(steps, rule, documents, ids)
    yield from _wrong_profiles(content, ids)


def _part(content: Any, *steps: str) -> dict[str, Any]:
    for step in steps:
        content = content.get(step) if isinstance(content, Mapping) else None
    return content if isinstance(content, dict) else {}


def _wrong_limit(steps: Steps, rule: Mapping[str, Any], dimension: Any) -> Iterator[Complaint]:
    limit = rule.get("limit", [])
    if limit is None and "in_words" not in rule:
        yield (*steps, "in_words"), "missing; allowed: what the source asks for, as limit is null"
    if not isinstance(limit, list) or dimension not in DIMENSIONS:
        return
    units = [part.get("unit") if isinstance(part, Mapping) else None for part in limit]
    wrong = [i for i, unit in enumerate(units) if not _fits(unit, dimension)]
    for i in wrong:
        message = f"got {shown(units[i])}; allowed: {units_of(dimension)}"
        yield (*steps, "limit", i, "unit"), message
    if len(limit) == 2 and not wrong:
        yield from _wrong_pair((*steps, "limit"), limit)


def _fits(unit: Any, dimension: str) -> bool:
    return isinstance(unit, str) and unit in UNITS and UNITS[unit].dimension == dimension


def _wrong_pair(steps: Steps, limit: list[Any]) -> Iterator[Complaint]:
    first, second = (UNITS[part["unit"]] for part in limit)
    values = [part.get("value") for part in limit]
    if not all(isinstance(value, int | float) for value in values):
        return
    if first is second:
        yield steps, f"got {first.name} twice; allowed: one statement for each unit"
    one, other = float(first.to_base(values[0])), float(second.to_base(values[1]))
    share = _FARTHEST_APART * max(abs(one), abs(other))
    if abs(one - other) > (_FARTHEST_APART_C if first.dimension == "temperature" else share):
        said = f"{first.say(values[0])} and {second.say(values[1])}"
        yield steps, f"got {said}; allowed: the same limit in two units"


def _dangling(
    steps: Steps, rule: Mapping[str, Any], documents: Collection[str], ids: Collection[str]
) -> Iterator[Complaint]:
    source = _part(rule, "source")
    if source:
        yield from _unknown((*steps, "source", "document"), source.get("document"), documents)
    if "follows" in rule:
        yield from _unknown((*steps, "follows"), rule["follows"], ids)
    if "confirmed_on" in rule and not _is_day(rule["confirmed_on"]):
        message = f"got {shown(rule['confirmed_on'])}; allowed: a day of the calendar"
        yield (*steps, "confirmed_on"), message


def _is_day(text: Any) -> bool:
    try:
        datetime.date.fromisoformat(text)
    except (TypeError, ValueError):
        return False
    return True


def _unknown(steps: Steps, name: Any, known: Collection[str]) -> Iterator[Complaint]:
    if not isinstance(name, str) or name in known:
        return
    near = difflib.get_close_matches(name, known, n=1)
    hint = f" (did you mean {near[0]}?)" if near else ""
    yield steps, f"got {shown(name)}; allowed: an id that this file defines{hint}"


def _wrong_profiles(content: Any, ids: Collection[str]) -> Iterator[Complaint]:
    profiles = _part(content, "profiles")
    if isinstance(content, Mapping) and "default_profile" in content:
        yield from _unknown(("default_profile",), content["default_profile"], profiles)
    for name in profiles:
        steps, profile = ("profiles", name), _part(profiles, name)
        in_force = profile.get("in_force")
        for i, rule_id in enumerate(in_force if isinstance(in_force, list) else ()):
            yield from _unknown((*steps, "in_force", i), rule_id, ids)
        yield from _unknown((*steps, "based_on"), profile.get("based_on"), profiles)
        if _goes_round(name, profiles):
            yield (*steps, "based_on"), "rests on itself; allowed: a profile that stands without it"


def _goes_round(name: str, profiles: Mapping[str, Any]) -> bool:
    seen: list[Any] = []
    at: Any = name
    while isinstance(at, str) and at not in seen:
        seen.append(at)
        at = _part(profiles, at).get("based_on")
    return bool(at == name)
