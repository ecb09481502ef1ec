"""A scenario that has no single honest answer."""

from __future__ import annotations

from trainer.errors import TrainerError


class Unsound(Exception):
    """Why values that were drawn make no scenario; without a full stop."""


class UnsoundScenario(TrainerError):
    """A family that, with these values, has no single honest answer. ``reason`` says why."""

    def __init__(self, family: str, mode: str, seed: int, reason: str) -> None:
        self.reason = reason
        super().__init__(f"family {family}, mode {mode}, seed {seed}: {reason}.")
