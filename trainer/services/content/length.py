"""Length on a phone: what fits beside a drawing without scrolling back and forth."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from trainer.services.content.finding import Finding
from trainer.services.content.sample import Said, Sample

SITUATION_CHARACTERS = 420
SITUATION_SENTENCES = 5
ROW_CHARACTERS = 110
PROMPT_CHARACTERS = 140
TITLE_CHARACTERS = 40
"""On a phone 390 px wide a line holds some 40 characters: a situation of 11 lines, a row of 3, a
prompt of 4, a title of one. Our own measure, no source."""

_STOP = re.compile(r"[.?!][”)]?(?=\s|$)")


@dataclass(frozen=True)
class _Measured:
    what: str
    found: int
    allowed: int
    decision: str = ""
    quote: str = ""
    unit: str = "characters"


def length(sample: Sample) -> Iterator[Finding]:
    """The worst of each text over all seeds and both unit systems, where it is too long."""
    title = sample.family.words_in("en").title
    if len(title) > TITLE_CHARACTERS:
        said = f"the title has {len(title)} characters; allowed: {TITLE_CHARACTERS}"
        yield Finding("length", said, sample.family.id)
    worst: dict[tuple[str, ...], tuple[_Measured, Finding]] = {}
    for taken in sample.taken:
        for system, said in taken.said.items():
            for one in _too_long(said):
                key = (one.what, one.decision, one.unit)
                if key not in worst or one.found > worst[key][0].found:
                    mode, seed = taken.scenario.mode, taken.scenario.seed
                    worst[key] = one, _finding(sample, one, system, mode, seed)
    yield from (finding for _, finding in worst.values())


def _too_long(said: Said) -> Iterator[_Measured]:
    return (one for one in _measured(said) if one.found > one.allowed)


def _measured(said: Said) -> Iterator[_Measured]:
    whole = " ".join(said.situation)
    yield _Measured("the situation", len(whole), SITUATION_CHARACTERS)
    stops = len(_STOP.findall(whole))
    yield _Measured("the situation", stops, SITUATION_SENTENCES, unit="sentences")
    for name, prompt in said.prompts.items():
        yield _Measured("the prompt", len(prompt), PROMPT_CHARACTERS, name)
    for name, rows in said.rows.items():
        for row, text in rows:
            yield _Measured(f"the row {row}", len(text), ROW_CHARACTERS, name, text)


def _finding(sample: Sample, one: _Measured, system: str, mode: str, seed: int) -> Finding:
    text = f"{one.what} has {one.found} {one.unit} in {system}; allowed: {one.allowed}"
    quote = f': "{one.quote}"' if one.quote else ""
    return Finding("length", text + quote, sample.family.id, one.decision, mode, seed)
