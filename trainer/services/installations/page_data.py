"""What the pages of an installation are given: frozen, worded; templates only show it."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.services.installations.options_fields import Option
from trainer.services.installations.options_next import Next
from trainer.services.installations.places import Place
from trainer.services.installations.words_findings import Found
from trainer.services.pages import Row


@dataclass(frozen=True)
class Group:
    """Places that belong together, under their heading."""

    name: str
    places: tuple[Place, ...]


@dataclass(frozen=True)
class Here:
    """The chosen place: what is known of it, what to mind, and what can be done there."""

    id: str
    name: str
    caution: str
    facts: tuple[str, ...]
    options: tuple[Option, ...]


@dataclass(frozen=True)
class Findings:
    """What the rule book sees wrong: new since the last decision, still wrong, put right."""

    new: tuple[Found, ...] = ()
    standing: tuple[Found, ...] = ()
    over: tuple[Found, ...] = ()


@dataclass(frozen=True)
class InstallationPage:
    """Everything the page shows, ready to show. ``views`` are the drawings there are."""

    id: str
    title: str
    purpose: str
    number: int
    clock: str
    leave_by: str
    forecast: str
    weather: str
    brief: str
    """What was said in the morning; it stands open before the first decision."""
    news: tuple[Row, ...]
    fresh: bool
    """Whether the news are exactly what came of the last decision."""
    people: tuple[Row, ...]
    views: tuple[Row, ...]
    view: str
    figure: str
    groups: tuple[Group, ...]
    here: Here | None
    lost: bool
    """Whether a place was asked for that is not there."""
    busy: bool
    """Whether somebody works: then the first of ``waits`` is what one mostly wants."""
    waits: tuple[Row, ...]
    next: tuple[Next, ...]
    """What whoever is idle could go on with, a tap each."""
    findings: Findings
    can_step_back: bool
    last: str
    """The last decision in words."""
    seen: str
    """How much of log and findings the page shows, to be sent with the next decision."""


@dataclass(frozen=True)
class LeavingPage:
    """What is not finished yet, before everybody leaves the roof."""

    id: str
    title: str
    clock: str
    number: int
    unfinished: tuple[str, ...]
    seen: str
