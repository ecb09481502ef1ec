"""All checks of the content, by group: of a family over its sample, and of the whole pack."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from trainer.pack.pack import Pack
from trainer.services.content.alike import same_again, told_twice
from trainer.services.content.counts import counts, too_few
from trainer.services.content.ease import reading
from trainer.services.content.finding import Finding
from trainer.services.content.guess_numbers import guessed_numbers
from trainer.services.content.guess_rows import guessed_rows
from trainer.services.content.length import length
from trainer.services.content.margins import margins
from trainer.services.content.mistakes import mistakes, never_made
from trainer.services.content.sample import Sample
from trainer.services.content.stated import stated
from trainer.services.content.sums import sums
from trainer.services.content.vocabulary import vocabulary


def guess(sample: Sample) -> Iterator[Finding]:
    """Everything that can be answered without looking."""
    yield from guessed_rows(sample)
    yield from guessed_numbers(sample)


OF_A_FAMILY: Mapping[str, Callable[[Sample], Iterable[Finding]]] = {
    "reading": reading,
    "length": length,
    "words": vocabulary,
    "guess": guess,
    "alike": same_again,
    "margins": margins,
    "mistakes": mistakes,
    "stated": stated,
    "sums": sums,
}
"""The checks that look at one family."""


def of_a_family(sample: Sample) -> list[Finding]:
    """What every check finds in one family."""
    return [finding for check in OF_A_FAMILY.values() for finding in check(sample)]


def of_the_pack(pack: Pack, situations: Mapping[str, Sequence[str]]) -> list[Finding]:
    """What shows only in all families together; ``situations`` by family, from ``alike``."""
    families = list(pack.families.values())
    return [
        *told_twice(situations),
        *never_made(pack.misconceptions["en"], families),
        *too_few(counts(pack)),
    ]
