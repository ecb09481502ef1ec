"""How hard a text is to read: its words, sentences, syllables, and Flesch's reading ease."""

from __future__ import annotations

import re
from collections.abc import Iterable

_WORD = re.compile(r"[^\W\d_][\w’'-]*|\d[\d.]*")
_END = re.compile(r"[.:?;]+(?:[”)]?\s|[”)]?$)")
_AFTER_END = re.compile(r"(?<=[.:?;])\s")
_SILENT = re.compile(r"(?<![td])ed$|(?<![sxzcgh])(?<![^aeiouy][lr])es$|(?<![^aeiouy][lr])e$")
_NO_LETTER = re.compile(r"[^a-z]")
_VOWELS = re.compile(r"[aeiouy]+")


def words(text: str) -> list[str]:
    """The words and numbers of a text, in order."""
    return _WORD.findall(text)


def sentences(text: str) -> int:
    """How many sentences there are; a colon and a semicolon end one too."""
    return len([part for part in _END.split(text) if part.strip()])


def longest_sentence(text: str) -> str:
    """The sentence with most words; empty for an empty text."""
    return max(_AFTER_END.split(text), key=lambda sentence: len(words(sentence)))


def syllables(word: str) -> int:
    """About as many as are spoken: groups of vowels, without a silent e at the end; 1 or more."""
    plain = _SILENT.sub("", _NO_LETTER.sub("", word.lower()))
    return max(1, len(_VOWELS.findall(plain)))


def reading_ease(n_words: int, n_sentences: int, n_syllables: int) -> float:
    """Flesch's reading ease, about 0 (hard) to 121 (a syllable a word, a word a sentence).

    All three counts from 1 up. Source: R. Flesch, A new readability yardstick, Journal of Applied
    Psychology 32 (1948) 221–233.
    """
    return 206.835 - 1.015 * n_words / n_sentences - 84.6 * n_syllables / n_words


def ease(texts: Iterable[str]) -> float:
    """The reading ease of several texts taken together. Raises ValueError where no word stands."""
    texts = list(texts)
    every = [word for text in texts for word in words(text)]
    if not every:
        raise ValueError("no words to read")
    return reading_ease(len(every), sum(map(sentences, texts)), sum(map(syllables, every)))
