"""The small files of the pack: units, shared terms, misconceptions, lessons. YAML into values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from trainer.pack.families import Terms
from trainer.pack.family_schema import ID, TEXT, block, blocks
from trainer.pack.positions import Document, PackError, problems, read
from trainer.pack.schema import Shape


@dataclass(frozen=True)
class UnitWords:
    """``word``: its name in one or two words; ``able_to``: what a person must be able to do, one
    sentence; ``caution`` may be empty."""

    name: str
    word: str
    able_to: str
    caution: str


@dataclass(frozen=True)
class Unit:
    """A unit of competency; ``place`` is the part of the parapet section that leads to it."""

    id: str
    place: str
    severity: str
    words: Mapping[str, UnitWords]

    def words_in(self, language: str) -> UnitWords:
        return self.words.get(language) or self.words["en"]


@dataclass(frozen=True)
class Example:
    """A worked scenario inside a lesson: always the same one, with one decision solved."""

    family: str
    seed: int
    mode: str
    decision: str


@dataclass(frozen=True)
class Section:
    heading: str
    text: tuple[str, ...]
    caution: str = ""
    example: Example | None = None


@dataclass(frozen=True)
class LessonWords:
    title: str
    sections: tuple[Section, ...]


@dataclass(frozen=True)
class Lesson:
    """What a new hire reads before practising a unit: a few minutes, with drawings."""

    unit: str
    version: int
    minutes: int
    rules: tuple[str, ...]
    words: Mapping[str, LessonWords]

    def words_in(self, language: str) -> LessonWords:
        return self.words.get(language) or self.words["en"]


_VERSION = {"type": "integer", "minimum": 1}


def _languages(inner: dict[str, Any]) -> dict[str, Any]:
    return {**blocks(inner), "required": ["en"]}


_UNIT_WORDS = block(
    {"name": TEXT, "word": TEXT, "able_to": TEXT, "caution": {"type": "string"}},
    "name",
    "word",
    "able_to",
)
_UNITS = Shape(
    block(
        {
            "version": _VERSION,
            "units": {
                "type": "array",
                "minItems": 1,
                "items": block(
                    {
                        "id": ID,
                        "place": ID,
                        "severity": {"enum": ["critical", "quality"]},
                        "words": _languages(_UNIT_WORDS),
                    },
                    "id",
                    "place",
                    "severity",
                    "words",
                ),
            },
        },
        "version",
        "units",
    )
)
_TERMS = Shape(
    block({"version": _VERSION, "terms": _languages(blocks(blocks(TEXT)))}, "version", "terms")
)
_MISCONCEPTIONS = Shape(
    block({"version": _VERSION, "words": _languages(blocks(TEXT, ID))}, "version", "words")
)
_EXAMPLE = block(
    {"family": ID, "seed": {"type": "integer", "minimum": 0}, "mode": TEXT, "decision": ID},
    "family",
    "seed",
    "mode",
    "decision",
)
_SECTION = block(
    {
        "heading": TEXT,
        "text": {"type": "array", "items": TEXT},
        "caution": TEXT,
        "example": _EXAMPLE,
    },
    "heading",
    "text",
)
_LESSON = Shape(
    block(
        {
            "unit": ID,
            "version": _VERSION,
            "minutes": {"type": "integer", "minimum": 1, "maximum": 30},
            "rules": {"type": "array", "items": ID},
            "words": _languages(
                block(
                    {
                        "title": TEXT,
                        "sections": {"type": "array", "minItems": 1, "items": _SECTION},
                    },
                    "title",
                    "sections",
                )
            ),
        },
        "unit",
        "version",
        "minutes",
        "words",
    )
)


def checked(source: Document | Path, shape: Shape) -> Any:
    """The value of a file that fits its shape. Raises PackError."""
    document = source if isinstance(source, Document) else read(source)
    found = problems(document, shape)
    if found:
        raise PackError(found)
    return document.value


def units_of(document: Document) -> tuple[Unit, ...]:
    """The units in the order of the file. Raises PackError."""
    return tuple(_unit(unit) for unit in checked(document, _UNITS)["units"])


def _unit(data: Mapping[str, Any]) -> Unit:
    words = {
        key: UnitWords(words["name"], words["word"], words["able_to"], words.get("caution", ""))
        for key, words in data["words"].items()
    }
    return Unit(data["id"], data["place"], data["severity"], words)


def terms_of(document: Document) -> Terms:
    """Shared words by language, sort and key. Raises PackError."""
    terms: Terms = checked(document, _TERMS)["terms"]
    return terms


def misconceptions_of(document: Document) -> Mapping[str, Mapping[str, str]]:
    """What a wrong answer says about its giver, by language and id. Raises PackError."""
    words: Mapping[str, Mapping[str, str]] = checked(document, _MISCONCEPTIONS)["words"]
    return words


def lesson_of(document: Document) -> Lesson:
    """One lesson. Raises PackError."""
    data = checked(document, _LESSON)
    words = {key: _lesson_words(value) for key, value in data["words"].items()}
    return Lesson(
        data["unit"], data["version"], data["minutes"], tuple(data.get("rules", ())), words
    )


def _lesson_words(data: Mapping[str, Any]) -> LessonWords:
    return LessonWords(data["title"], tuple(_section(section) for section in data["sections"]))


def _section(data: Mapping[str, Any]) -> Section:
    example = Example(**data["example"]) if "example" in data else None
    return Section(data["heading"], tuple(data["text"]), data.get("caution", ""), example)
