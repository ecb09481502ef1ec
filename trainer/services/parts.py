"""What the services work with: made once when the program starts, handed to each of them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

from trainer.records.database import Database
from trainer.services.clock import Clock
from trainer.services.passwords import Passwords

__all__ = ["Database", "Parts", "SessionLimits"]


@dataclass(frozen=True)
class SessionLimits:
    """How long a signed-in device stays so: without being used, and at the very most."""

    idle: timedelta
    longest: timedelta


@dataclass(frozen=True)
class Parts:
    database: Database
    clock: Clock
    passwords: Passwords
    session_limits: SessionLimits
    demo: bool = False
