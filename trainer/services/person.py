"""The person who is using the program, as every service and page sees them."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

_LEADING = ("coordinator", "supervisor", "auditor", "administrator", "worker")


def leading_role(roles: Collection[str]) -> str:
    """The role that decides which menu a person sees; empty when they hold none."""
    return next((role for role in _LEADING if role in roles), "")


@dataclass(frozen=True)
class SignedIn:
    """Who is signed in, in which roles, and how they like to read.

    ``id`` is the person's row, ``public_id`` what may stand in a page. ``length_unit`` is mm or
    in, ``temperature_unit`` c or f, ``ground`` auto, light or dark; ``language`` None until chosen.
    """

    id: int
    public_id: str
    name: str
    language: str | None
    length_unit: str
    temperature_unit: str
    ground: str
    roles: frozenset[str]
    account_id: int
    session_id: int
    must_change_password: bool
    sign_in_name: str = ""

    @property
    def role(self) -> str:
        """The leading one of their roles."""
        return leading_role(self.roles)
