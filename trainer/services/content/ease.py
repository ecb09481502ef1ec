"""Reading level: whether a new hire reads it standing, perhaps in a second language."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from trainer.engine.reading import ease, longest_sentence, syllables, words
from trainer.services.content.finding import Finding
from trainer.services.content.sample import Sample, masked

EASE_AT_LEAST = 65
"""Flesch calls 60 to 70 standard and 70 to 80 fairly easy (Flesch 1948, see ``engine.reading``)."""
WORDS_IN_A_SENTENCE = 25
"""The longest sentence of plain-language guides; common practice, no source."""
_SENTENCES = ("choose", "go_stop", "place")
"""Kinds of decision whose rows are sentences; parts and steps are names."""


def reading(sample: Sample) -> Iterator[Finding]:
    """Situations and rows that read harder than 65, and sentences of more than 25 words."""
    for name, found in eases(sample).items():
        if found < EASE_AT_LEAST:
            yield _hard(sample, name, found)
    yield from _long_sentences(sample)


def eases(sample: Sample) -> Mapping[str, float]:
    """The reading ease of the situation and the rows of a family: "situation", "rows …"."""
    return {name: ease(texts) for name, texts in _texts(sample).items() if texts}


def figures(sample: Sample) -> dict[str, float]:
    """The reading ease of situation, prompts, rows and reasons, rounded."""
    found = _texts(sample)
    rows = [text for name, texts in found.items() if name != "situation" for text in texts]
    prompts = {masked(p) for t in sample.read for p in t.said["metric"].prompts.values()}
    because = {masked(text) for _, _, text in sample.reasons()}
    every = {
        "situation": found["situation"],
        "prompts": sorted(prompts),
        "rows": rows,
        "reasons": sorted(because),
    }
    return {name: round(ease(texts), 1) for name, texts in every.items() if texts}


def _texts(sample: Sample) -> dict[str, list[str]]:
    """Texts by what they are, each once whatever its numbers."""
    found: dict[str, dict[str, str]] = {"situation": {}}
    for taken in sample.read:
        said = taken.said["metric"]
        found["situation"] |= {masked(text): text for text in said.situation}
        for decision in taken.scenario.decisions:
            if decision.kind in _SENTENCES:
                rows = found.setdefault(f"rows {decision.id}", {})
                rows |= {masked(text): text for _, text in said.rows[decision.id]}
    return {name: list(texts.values()) for name, texts in found.items()}


def _hard(sample: Sample, name: str, found: float) -> Finding:
    texts = _texts(sample)[name]
    every = {word.lower() for text in texts for word in words(text)}
    hard = sorted((w for w in every if syllables(w) > 2), key=lambda w: (-syllables(w), w))[:4]
    _, _, decision = name.partition(" ")
    hint = f"; long words: {', '.join(hard)}" if hard else "; shorten its sentences"
    return Finding(
        "reading",
        f"{'its rows read' if decision else 'the situation reads'} at {found:.0f};"
        f" allowed: {EASE_AT_LEAST} or more (Flesch reading ease){hint}",
        sample.family.id,
        decision,
    )


def _long_sentences(sample: Sample) -> Iterator[Finding]:
    """The longest sentence of each decision's prompt, rows and reasons and of the situation."""
    worst: dict[tuple[str, str], tuple[int, Finding]] = {}
    for what, text, decision, mode, seed in _all_texts(sample):
        sentence = longest_sentence(text)
        count = len(words(sentence))
        if count > max(WORDS_IN_A_SENTENCE, worst.get((what, decision), (0,))[0]):
            said = f"a sentence of {count} words in {what}; allowed: {WORDS_IN_A_SENTENCE}"
            where = sample.family.id, decision, mode, seed
            worst[what, decision] = count, Finding("reading", f'{said}: "{sentence}"', *where)
    yield from (finding for _, finding in worst.values())


def _all_texts(sample: Sample) -> Iterator[tuple[str, str, str, str, int]]:
    for taken in sample.read:
        said, made = taken.said["metric"], taken.scenario
        for text in said.situation:
            yield "the situation", text, "", made.mode, made.seed
        for name, prompt in said.prompts.items():
            yield "the prompt", prompt, name, made.mode, made.seed
        for name, rows in said.rows.items():
            yield from (("a row", text, name, made.mode, made.seed) for _, text in rows)
    for taken, decision, text in sample.reasons():
        yield "a reason", text, decision.id, taken.scenario.mode, taken.scenario.seed
