"""What every service asks for first: what it works with, and who is asking."""

from __future__ import annotations

from trainer.services.parts import Parts
from trainer.services.person import SignedIn
from trainer.web.session import current_person, parts


def at_hand() -> tuple[Parts, SignedIn]:
    """The program's parts and this request's person; ends the request when nobody is signed in."""
    return parts(), current_person()
