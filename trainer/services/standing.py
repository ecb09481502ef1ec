"""How a person's own scenario stands: the attempt, its answers, its form, the rules in force."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Row

from trainer.records.queries import standing as queries
from trainer.services.parts import Parts
from trainer.services.person import SignedIn
from trainer.services.refusals import NotFound
from trainer.services.scenarios import Library, library_of


@dataclass(frozen=True)
class FormPlace:
    """Where a scenario stands in its fixed form: ``number`` of ``of``, and the form's id."""

    set: str = ""
    number: int = 0
    of: int = 0
    closed: bool = False


@dataclass(frozen=True)
class Standing:
    """``attempt`` and ``answers`` have the columns of their tables that a page needs."""

    attempt: Row[Any]
    answers: Sequence[Row[Any]]
    shelf: Library
    place: FormPlace

    def answered_with(self, key: str) -> str | None:
        """The decision whose answer was sent under this key, if it is one of this scenario."""
        return next((answer.decision for answer in self.answers if answer.key == key), None)


def own_standing(parts: Parts, person: SignedIn, public_id: str) -> Standing:
    """The person's own scenario. Raises NotFound for any other: nobody learns that it exists."""
    return standing_of(parts, person.id, public_id)


def standing_of(parts: Parts, owner_id: int, public_id: str) -> Standing:
    """A scenario of the person with that row id; who may see it, the caller has asked."""
    with parts.database.asking() as connection:
        rows = queries.standing(connection, owner_id, public_id)
        if not rows:
            raise NotFound("scenario")
        attempt = rows[0]
        number = queries.place_in_set(connection, attempt.set_id, attempt.id) if attempt.set else 0
    answers = rows if attempt.decision is not None else ()
    shelf = library_of(parts.database, (attempt.site_profile, attempt.newest_site_rule))
    return Standing(attempt, answers, shelf, _place(attempt, number))


def _place(attempt: Row[Any], number: int) -> FormPlace:
    if not attempt.set:
        return FormPlace()
    return FormPlace(attempt.set, number, len(attempt.forms), attempt.set_closed_at is not None)
