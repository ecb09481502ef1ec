"""Why a service said no. Each is one reason a page or a command can put into its own words."""

from __future__ import annotations

from datetime import datetime

from trainer.errors import TrainerError
from trainer.records.database import DatabaseBusy

__all__ = [
    "Conflict",
    "DatabaseBusy",
    "NotAllowed",
    "NotFound",
    "NothingToDraw",
    "SignInRefused",
    "TooManyAtOnce",
]


class NotAllowed(TrainerError):
    """This person may not do this."""

    def __init__(self, action: str) -> None:
        self.action = action
        super().__init__("You may not do this.", "Ask your coordinator if you should.")


class NotFound(TrainerError):
    """There is no such thing here, or not for this person."""

    def __init__(self, what: str) -> None:
        self.what = what
        super().__init__(f"There is no such {what} here.")


class Conflict(TrainerError):
    """Somebody, perhaps the same person in another tab, was there first."""


class NothingToDraw(TrainerError):
    """The rules in force on this site have no limit by which these scenarios could be marked."""

    def __init__(self, profile: str) -> None:
        super().__init__(
            f"No scenario of this unit can be drawn: the profile {profile} has no rule for it that"
            " a person has read or confirmed.",
            "Ask your coordinator to add one to the rule book.",
        )


class TooManyAtOnce(TrainerError):
    """More people sign in at this moment than the machine can check."""

    def __init__(self) -> None:
        super().__init__("Many people are signing in.", "Wait a few seconds and try again.")


class SignInRefused(TrainerError):
    """Name and password do not belong together, or too many wrong tries went before.

    ``until``: no try is taken before that moment. ``blocked``: none is taken until somebody
    sets a new password. The same for names that nobody has.
    """

    def __init__(self, until: datetime | None = None, blocked: bool = False) -> None:
        self.until = until
        self.blocked = blocked
        super().__init__("Name and password do not belong together.")
