"""A form on its way to a decision that is stored: read in the worker's units, then taken once."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.errors import TrainerError
from trainer.installation.run import Ended, Impossible
from trainer.services.installations import store
from trainer.services.installations.reading import Form, read_form
from trainer.services.installations.store import Taken
from trainer.services.installations.words import voice_of
from trainer.services.parts import Parts
from trainer.services.person import SignedIn

__all__ = ["Ended", "Refused", "Sent", "decide", "step_back"]


class Refused(TrainerError):
    """Nature does not allow it, said in the worker's own units."""


@dataclass(frozen=True)
class Sent:
    """What came with a form: how many decisions its page showed, its key, the phone's clock."""

    number: int
    key: str
    phone_at: str | None = None


def decide(parts: Parts, person: SignedIn, public_id: str, form: Form, sent: Sent) -> Taken:
    """Take the decision that a form stands for, once.

    Raises InputError, Refused, Ended, Conflict from an old page, NotFound.
    """
    voice = voice_of(person)
    decision = read_form(voice, form)
    try:
        return store.take(parts, person, public_id, sent.number, decision, sent.key, sent.phone_at)
    except Impossible as error:
        raise Refused(voice.in_own_units(voice.say(error.message))) from error


def step_back(parts: Parts, person: SignedIn, public_id: str, sent: Sent) -> Taken:
    """Take the last decision back. Raises Conflict from an old page or while proving, NotFound."""
    return store.take_back(parts, person, public_id, sent.number, sent.key)
