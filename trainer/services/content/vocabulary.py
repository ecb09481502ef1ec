"""Words: plain ones, one for one thing, and no long one that the glossary does not explain."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from trainer.engine.reading import syllables
from trainer.pack.glossary import Glossary, load_glossary
from trainer.services.content.finding import Finding
from trainer.services.content.sample import Sample, masked

LONG_SYLLABLES = 4
LONG_LETTERS = 13
_SPELT_FROM = 6
_ENDINGS = ("", "s", "es", "d", "ed", "ing", "’s", "'s")
_WORD = re.compile(r"[^\W\d_]+(?:[’'][^\W\d_]+)?")


def vocabulary(sample: Sample) -> Iterator[Finding]:
    """Words with a plainer one, words the trade has another for, long words, misspelt words."""
    glossary = load_glossary()
    seen: set[tuple[str, str]] = set()
    for decision, mode, seed, text in _texts(sample):
        for problem in problems(text, glossary):
            if (decision, problem) not in seen:
                seen.add((decision, problem))
                shown = f'{problem}: "{text}"'
                yield Finding("words", shown, sample.family.id, decision, mode, seed)


def problems(text: str, glossary: Glossary) -> Iterator[str]:
    """What is wrong with the words of a text, each with what to do."""
    for match in _avoided(glossary).finditer(text):
        word = match[0].lower()
        yield f"“{word}”: say “{_instead(word, glossary)}”"
    for word in {word.lower() for word in _WORD.findall(text)}:
        if _known(word, glossary):
            continue
        if near := _misspelt(word, glossary):
            yield f"“{word}”: is “{near}” meant?"
        elif syllables(word) >= LONG_SYLLABLES or len(word) >= LONG_LETTERS:
            yield f"“{word}” is long: take a shorter word, or explain it in the glossary"


def _texts(sample: Sample) -> Iterator[tuple[str, str, int, str]]:
    """Decision, mode, seed and text of every text, each once whatever its numbers."""
    seen = set()
    for decision, mode, seed, text in _every_text(sample):
        key = (decision, masked(text))
        if key not in seen:
            seen.add(key)
            yield decision, mode, seed, text


def _every_text(sample: Sample) -> Iterator[tuple[str, str, int, str]]:
    for taken in sample.read:
        telling, made, said = sample.telling(taken), taken.scenario, taken.said["metric"]
        for text in (telling.title, *said.situation, telling.look, *telling.caution):
            yield "", made.mode, made.seed, text
        for name, prompt in said.prompts.items():
            rows = (text for _, text in said.rows[name])
            yield from ((name, made.mode, made.seed, text) for text in (prompt, *rows))
    for taken, decision, text in sample.reasons():
        yield decision.id, taken.scenario.mode, taken.scenario.seed, text


@lru_cache(maxsize=4)
def _avoided_in(words: tuple[str, ...]) -> re.Pattern[str]:
    longest_first = sorted(words, key=len, reverse=True)
    either = "|".join(map(re.escape, longest_first))
    return re.compile(rf"(?<![\w-])(?:{either})(?:s|es|d|ed|ing)?(?![\w-])", re.IGNORECASE)


def _avoided(glossary: Glossary) -> re.Pattern[str]:
    return _avoided_in(tuple(glossary.avoided))


def _instead(word: str, glossary: Glossary) -> str:
    stems = (word.removesuffix(ending) for ending in _ENDINGS)
    return next(glossary.avoided[stem] for stem in stems if stem in glossary.avoided)


def _known(word: str, glossary: Glossary) -> bool:
    known = glossary.single_words
    return any(word.removesuffix(e) in known or f"{word.removesuffix(e)}e" in known
               for e in _ENDINGS if word.endswith(e))  # fmt: skip


def _misspelt(word: str, glossary: Glossary) -> str:
    """The trade word it is but for one letter before the last, or for two changed over; or ""."""
    if len(word) < _SPELT_FROM:
        return ""
    trade = sorted(t for t in glossary.single_words - glossary.known if len(t) >= _SPELT_FROM)
    alike = (t for t in trade if t[-1] == word[-1] or sorted(t) == sorted(word))
    return next((t for t in alike if _one_letter(word, t)), "")


def _one_letter(a: str, b: str) -> bool:
    """Whether one letter changed, missing, added, or two changed over makes ``a`` of ``b``."""
    if abs(len(a) - len(b)) > 1 or a == b:
        return False
    start = next((i for i, (x, y) in enumerate(zip(a, b, strict=False)) if x != y), -1)
    if start < 0:
        return False
    x, y = a[start:], b[start:]
    swapped = x[:2] == y[1::-1] and x[2:] == y[2:]
    return swapped or x[1:] == y[1:] or x[1:] == y or x == y[1:]
