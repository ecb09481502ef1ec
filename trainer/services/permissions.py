"""Who may what: roles by actions. Whatever is not listed is denied.

The grid grows with the program; tests hold each row against the published matrix of roles and
actions. A person with several roles has the widest scope among them.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import IntEnum

from trainer.records.database import Session
from trainer.records.queries import people
from trainer.services.clock import Clock
from trainer.services.person import SignedIn
from trainer.services.refusals import NotAllowed


class Scope(IntEnum):
    """Whose affairs an action may touch; the larger includes the smaller."""

    NONE = 0
    OWN = 1
    CREW = 2
    ALL = 3


_EVERYBODY_ON_SITE = {"worker": Scope.OWN, "supervisor": Scope.OWN, "coordinator": Scope.OWN}
_EVERYBODY = {**_EVERYBODY_ON_SITE, "administrator": Scope.OWN, "auditor": Scope.OWN}

GRID: Mapping[str, Mapping[str, Scope]] = {
    "scenario.play": _EVERYBODY_ON_SITE,
    "scenario.view_own_history": _EVERYBODY_ON_SITE,
    "scenario.view_others_history": {
        "supervisor": Scope.CREW,
        "coordinator": Scope.ALL,
        "auditor": Scope.ALL,
    },
    "installation.play": _EVERYBODY_ON_SITE,
    "job.make": {"supervisor": Scope.CREW, "coordinator": Scope.ALL},
    "person.correct_own_data": _EVERYBODY,
    "session.end_others": {**_EVERYBODY_ON_SITE, "administrator": Scope.ALL},
}


def scope(person: SignedIn, action: str) -> Scope:
    """How far the person may go in this action. KeyError for an action the grid does not know."""
    allowed = GRID[action]
    return max((allowed.get(role, Scope.NONE) for role in person.roles), default=Scope.NONE)


def may(person: SignedIn, action: str) -> bool:
    """Whether the person may do this at all: for menus, and for what concerns only themselves."""
    return scope(person, action) > Scope.NONE


def require(person: SignedIn, action: str) -> None:
    """Raise NotAllowed unless the person may do this in their own affairs."""
    if not may(person, action):
        raise NotAllowed(action)


def require_for(session: Session, clock: Clock, person: SignedIn, action: str, whose: int) -> None:
    """Raise NotAllowed unless the person may do this to person ``whose`` (row id)."""
    reach = scope(person, action)
    if reach == Scope.ALL or (reach > Scope.NONE and whose == person.id):
        return
    if reach == Scope.CREW and people.leads(session, person.id, whose, clock.now()):
        return
    raise NotAllowed(action)
