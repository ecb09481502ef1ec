"""The words a family may use: trade words with their meaning, long words that all know, and words
to put plainer. YAML into values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from pathlib import Path
from typing import Any

from trainer.pack.content import checked
from trainer.pack.family_schema import TEXT, block, blocks
from trainer.pack.place import SCENARIOS
from trainer.pack.schema import Shape

FILE = "glossary.yaml"


@dataclass(frozen=True)
class Word:
    """A trade word: what it means, in one plain line, and what is not said in its place."""

    word: str
    means: str
    not_said: tuple[str, ...] = ()


@dataclass(frozen=True)
class Glossary:
    """The words of one language. ``plainer`` has the plain word by the word to avoid."""

    trade: Mapping[str, Word]
    known: frozenset[str]
    plainer: Mapping[str, str]

    @cached_property
    def avoided(self) -> Mapping[str, str]:
        """What to say, by every word or phrase that is not said."""
        one = {other: word.word for word in self.trade.values() for other in word.not_said}
        return {**self.plainer, **one}

    @cached_property
    def single_words(self) -> frozenset[str]:
        """Every word that stands in a trade word, or that all know."""
        parts = (part for term in self.trade for part in term.replace("-", " ").split())
        return frozenset((*parts, *self.trade, *self.known))


_LIST = {"type": "array", "items": TEXT, "uniqueItems": True}
_WORD = block({"means": TEXT, "not": _LIST}, "means")
_LANGUAGE = block(
    {"trade": blocks(_WORD), "known": _LIST, "plainer": blocks(TEXT)}, "trade", "known", "plainer"
)
_GLOSSARY = Shape(
    block(
        {
            "version": {"type": "integer", "minimum": 1},
            "words": {**blocks(_LANGUAGE), "required": ["en"]},
        },
        "version",
        "words",
    )
)


def load_glossary(root: Path | None = None, language: str = "en") -> Glossary:
    """The glossary of the pack in ``root``, kept while its file stays as it is.

    English where the file does not have ``language``. Raises PackError.
    """
    path = (root or SCENARIOS) / FILE
    changed = path.stat().st_mtime_ns if path.is_file() else 0
    words = _load(path, changed)
    return words.get(language) or words["en"]


@lru_cache(maxsize=4)
def _load(path: Path, _changed: int) -> Mapping[str, Glossary]:
    languages: Mapping[str, Mapping[str, Any]] = checked(path, _GLOSSARY)["words"]
    return {language: _glossary(data) for language, data in languages.items()}


def _glossary(data: Mapping[str, Any]) -> Glossary:
    trade = {
        name: Word(name, told["means"], tuple(told.get("not", ())))
        for name, told in data["trade"].items()
    }
    return Glossary(trade, frozenset(data["known"]), data["plainer"])
