"""What a record is given of whole installations: frozen and worded."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class InstalledLine:
    """One finished installation on a record: when, which job, how it ended, in words."""

    id: str
    when: str
    what: str
    outcome: str
    look: str
    """"right", "not-yet" or "critical", by the rules alone."""
    purpose: str


@dataclass(frozen=True)
class InstalledUnit:
    """What whole installations show of a unit, in a sentence."""

    text: str
    look: str = ""
    """"critical" or "not-yet" where something went against it."""
