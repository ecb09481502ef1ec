"""What the rule book sees wrong: each check looks at the state alone and names what it finds.

No check knows which button was pressed, which job this is, or in which order things were done. A
fact names the subject of its rule, its place, the numbers of its sum and the decision that is the
latest among its causes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any, NamedTuple

from trainer.installation.job import Job
from trainer.installation.limits import Limits
from trainer.installation.state import State


class Fact(NamedTuple):
    """One thing that is wrong now."""

    subject: str
    place: str
    cause: int
    facts: dict[str, Any]


class Look(NamedTuple):
    """What a check looks at."""

    job: Job
    state: State
    limits: Limits


Facts = Iterator[Fact]


@dataclass(frozen=True)
class Check:
    """One way of looking. ``on``: what must have been touched for the result to change."""

    name: str
    on: frozenset[str]
    find: Callable[[Look], Facts]


def checks() -> tuple[Check, ...]:
    """All checks, in the order in which a crew would be told."""
    from trainer.installation import checks_flame, checks_sheets, checks_site

    return (*checks_flame.CHECKS, *checks_site.CHECKS, *checks_sheets.CHECKS)
