"""The shape of a family's file, as a JSON Schema (draft 7)."""

from __future__ import annotations

from typing import Any

from trainer.engine.spec import FEATURES, KINDS
from trainer.pack.schema import Shape


def block(fields: dict[str, Any], *required: str) -> dict[str, Any]:
    """A block of exactly these fields."""
    return {
        "type": "object",
        "properties": fields,
        "required": list(required),
        "additionalProperties": False,
    }


def blocks(inner: dict[str, Any], names: dict[str, Any] | None = None) -> dict[str, Any]:
    """A block whose every field is of one kind."""
    named = {"propertyNames": names} if names else {}
    return {"type": "object", "additionalProperties": inner, **named}


def or_block(fields: dict[str, Any], *required: str, other: str = "string") -> dict[str, Any]:
    """A block of exactly these fields, or a value of another type.

    One schema of two types, not two to choose from: whoever checks a file tries no form in vain.
    """
    return {**block(fields, *required), "type": [other, "object"]}


_FORMULA = {
    "type": ["string", "number", "boolean"],
    "description": "a formula: a number, true, false, or a text with an expression",
}
ID = {
    "type": "string",
    "pattern": "^[a-z][a-z0-9-]*$",
    "description": "a name of small letters, digits and hyphens",
}
_NAME = {
    "type": "string",
    "pattern": "^[a-z][a-z0-9_]*$",
    "description": "a name of small letters, digits and underscores",
}
TEXT = {"type": "string", "minLength": 1}
_SENTENCE = {
    **or_block({"if": _FORMULA, "say": {"type": "string"}}, "if", "say"),
    "minLength": 1,
    "description": "a text, or a block of if and say",
}
_PASSAGE = {
    "type": ["string", "array"],
    "items": _SENTENCE,
    "description": "a text, or a list of texts and of {if, say}",
}
_STEP = {"type": "number", "exclusiveMinimum": 0}
_DRAW = {
    "type": ["string", "number", "boolean", "object"],
    "properties": {
        **dict.fromkeys(("from", "to", "take"), _FORMULA),
        "step": _STEP,
        "one_of": {"type": ["array", "string"], "minItems": 1},
    },
    "additionalProperties": False,
    "minProperties": 1,
    "dependencies": {"from": ["to"], "to": ["from"], "step": ["from"], "take": ["one_of"]},
    "description": 'a formula, "at margin", {from, to, step} or {one_of, take}',
}
_DRAWS = blocks(_DRAW, _NAME)
_OPTION = block(
    {
        "id": TEXT,
        "misconception": ID,
        **dict.fromkeys(("right", "when", "critical", "at", "at_y", "value"), _FORMULA),
    },
    "id",
)
_DECISION = block(
    {
        "id": ID,
        "kind": {"enum": list(KINDS)},
        "options": {"type": "array", "items": _OPTION},
        "unit": {"type": "string"},
        "axes": {"enum": ["x", "y", "xy"]},
        "step": _STEP,
        "pinned": {"type": "boolean"},
        **dict.fromkeys(
            ("critical", "when", "dangerous", "answer", "parts", "tolerance", "job"), _FORMULA
        ),
        **dict.fromkeys(("from", "to", "from_y", "to_y"), _FORMULA),
    },
    "id",
    "kind",
)  # fmt: skip
_OPTION_WORDS = {
    **or_block({"text": TEXT, **dict.fromkeys(("right", "wrong", "leads_to"), _PASSAGE)}),
    "minLength": 1,
    "description": "a text, or a block of text, right, wrong and leads_to",
}
_DECISION_WORDS = block(
    {
        **dict.fromkeys(("prompt", "right", "wrong", "leads_to", "sums", "answer"), _PASSAGE),
        "part": TEXT,
        "options": blocks(_OPTION_WORDS),
    },
    "prompt",
)
_LINE = {
    "type": "string",
    "pattern": "^[^{}]+$",
    "description": "a plain text, without {braces}: everything in it was worked out by hand",
}
_WORDS = block(
    {
        "title": TEXT,
        "situation": _PASSAGE,
        "look": _PASSAGE,
        "caution": _PASSAGE,
        "labels": blocks({"type": "string"}),
        "worked": {"type": "array", "minItems": 1, "items": _LINE},
        "decisions": blocks(_DECISION_WORDS),
    },
    "title",
    "situation",
    "look",
    "decisions",
)
_RANGE = {
    "type": "array",
    "items": {"type": "number"},
    "minItems": 2,
    "maxItems": 2,
    "description": "two numbers: the least and the greatest margin, in tolerances",
}
_MODE = {
    **or_block({"margin": _RANGE, "weight": _STEP, "values": _DRAWS}, other="null"),
    "description": "a block of margin, weight and values",
}
_MARGIN = block(
    {
        "of": _NAME,
        "rule": _NAME,
        "limit": _FORMULA,
        "direction": {"enum": ["at least", "at most"]},
        "tolerance": _FORMULA,
        "step": _STEP,
        "about_uncertainty": {"type": "boolean"},
    },
    "of",
    "tolerance",
)
_JUDGE = block({"calculator": ID, "inputs": blocks(_FORMULA)}, "calculator", "inputs")
_STATED = {
    "type": ["string", "number", "array"],
    "items": {"type": ["string", "number"]},
    "description": "an answer: a number, a text, or a list of them",
}
_WORKED = block(
    {"mode": _NAME, "values": blocks({}, _NAME), "answers": blocks(_STATED, ID)},
    "mode",
    "values",
    "answers",
)
_FEATURES = block(dict.fromkeys(FEATURES, _FORMULA), *FEATURES)

FAMILY = Shape(
    block(
        {
            "family": ID,
            "version": {"type": "integer", "minimum": 1},
            "unit": ID,
            "severity": {"enum": ["critical", "quality"]},
            "rules": blocks(ID, _NAME),
            "values": _DRAWS,
            "margin": _MARGIN,
            "clear_of": {"type": "array", "items": _MARGIN},
            "modes": {**blocks(_MODE, _NAME), "minProperties": 1},
            "judge": blocks(_JUDGE, _NAME),
            "figure": {
                "type": "object",
                "properties": {"kind": TEXT},
                "required": ["kind"],
            },
            "live": blocks({"type": "object"}),
            "after": blocks({"type": "object"}),
            "decisions": {"type": "array", "minItems": 1, "items": _DECISION},
            "features": _FEATURES,
            "worked": _WORKED,
            "practice_only": {"type": "boolean"},
            "words": {**blocks(_WORDS), "required": ["en"]},
        },
        "family", "version", "unit", "severity", "values", "modes", "judge", "figure",
        "decisions", "words",
    )
)  # fmt: skip
