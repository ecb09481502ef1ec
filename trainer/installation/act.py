"""What an action is: its fields, its time, what nature asks of it, what it does.

Nature alone can forbid an action: one cannot roll a sheet that is not there. What a rule forbids
can be done, and shows as a finding.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from trainer.installation.job import Job
from trainer.installation.state import Decision, State
from trainer.roofing.contract import Field

Minutes = Callable[[Job, State, Decision], int]
Cannot = Callable[[Job, State, Decision], str]
Change = Callable[[Job, State, Decision], None]


def nothing(job: Job, state: State, task: Decision) -> None:
    """Changes nothing."""


def always(job: Job, state: State, task: Decision) -> str:
    """Nature asks nothing."""
    return ""


@dataclass(frozen=True)
class Act:
    """One kind of action.

    ``place``: what one taps to find it (wall, sheet, lap, corner, opening, loose, roof, crew).
    ``cannot`` says in one sentence why nature does not allow it now, or "". ``begin`` and ``end``
    change the state when it starts and when it is done. ``touches`` names what may be wrong
    afterwards. ``flame``: done with the lit torch in hand.
    """

    name: str
    place: str
    fields: tuple[Field, ...]
    minutes: Minutes
    cannot: Cannot = always
    begin: Change = nothing
    end: Change = nothing
    touches: frozenset[str] = frozenset()
    flame: bool = False
    at_wall: bool = True
    """Whether one stands at the wall while doing it: what edge protection is for."""
    two: bool = False
    """Whether a second person can lend a hand."""


def takes(name: str) -> Minutes:
    """The minutes that the job gives for a piece of work."""

    def minutes(job: Job, state: State, task: Decision) -> int:
        return job.minutes[name]

    return minutes


def log(state: State, kind: str, **facts: Any) -> None:
    """Write down that something happened now."""
    state.log.append({"at": state.now, "kind": kind, "n": state.n, **facts})


def know(state: State, key: str, value: Any) -> None:
    """From now on everybody knows this, as it is at this minute."""
    state.known[key] = {"at": state.now, "is": value}


def held(state: State, tool: str, who: str) -> bool:
    """Whether this person holds the lit tool."""
    flame = state.flames.get(tool)
    return flame is not None and flame.who == who


def by_of(task: Decision) -> int:
    """The number of the decision that a task belongs to."""
    return int(task["by"])
