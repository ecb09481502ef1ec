"""Installations played through by a way of working: by the book, carelessly, or at random."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass

from trainer.errors import InputError
from trainer.installation.chance import at_random
from trainer.installation.foreman import Way, advise
from trainer.installation.job import Job
from trainer.installation.limits import Limits
from trainer.installation.run import decide
from trainer.installation.state import Decision, State, begin

MOST_DECISIONS = 1500

Adviser = Callable[[State], Decision]


@dataclass(frozen=True)
class Played:
    """An installation from its first decision to its end."""

    decisions: tuple[Decision, ...]
    states: tuple[State, ...]
    """The state before each decision, and the last one."""

    @property
    def last(self) -> State:
        return self.states[-1]


def play_by(job: Job, limits: Limits, adviser: Adviser, start: State | None = None) -> Played:
    """Play to the end, each decision by the adviser; after very many, everybody leaves."""
    state = begin(job) if start is None else start
    decisions: list[Decision] = []
    states = [state]
    while state.ended is None:
        decision = adviser(state) if len(decisions) < MOST_DECISIONS else {"do": "leave"}
        state = decide(job, limits, state, decision)
        decisions.append(decision)
        states.append(state)
    return Played(tuple(decisions), tuple(states))


def by_the_book(job: Job, limits: Limits, way: Way | None = None) -> Adviser:
    """A good foreman who knows what is known and no more."""
    chosen = way or Way()
    return lambda state: advise(job, limits, state, chosen)


def carelessly(job: Job, limits: Limits) -> Adviser:
    """Somebody in a hurry: waits for nothing, closes nothing, looks behind nothing."""
    way = Way(skips=frozenset({"waits", "closings"}))
    return lambda state: advise(job, limits, state, way)


def anyhow(job: Job, seed: int) -> Adviser:
    """Anything that nature allows, the same for the same seed."""
    chance = random.Random(f"{job.id}/{seed}")
    return lambda state: at_random(job, state, chance)


BY = ("book", "careless", "random")


def play(job: Job, limits: Limits, by: str = "book", seed: int = 0) -> Played:
    """A whole installation by a way of working, one of BY. Raises InputError for another."""
    if by == "book":
        return play_by(job, limits, by_the_book(job, limits))
    if by == "careless":
        return play_by(job, limits, carelessly(job, limits))
    if by == "random":
        return play_by(job, limits, anyhow(job, seed))
    raise InputError("by", by, f"one of {', '.join(BY)}")
