"""Who looks back on an installation, and begins what takes long to work out."""

from __future__ import annotations

from trainer.records.tables import Person
from trainer.services.installations.best_day import look_back
from trainer.services.installations.debrief_page import DebriefPage, Whose, debrief_page
from trainer.services.installations.standing import Standing, others, own
from trainer.services.parts import Parts
from trainer.services.permissions import may
from trainer.services.person import SignedIn
from trainer.services.refusals import Conflict, NotAllowed, NotFound


def debrief(parts: Parts, reader: SignedIn, public_id: str) -> DebriefPage:
    """The debrief of one's own installation, or of somebody's whose record one may read.

    What takes seconds is begun and missing on the page until it is there. Raises NotFound, also
    where the reader may not know that it exists, and Conflict before the installation has ended.
    """
    standing = _readable(parts, reader, public_id)
    if not standing.ended:
        raise Conflict("This installation is not over yet.", "There is nothing to look back on.")
    return debrief_page(
        reader, standing, look_back(parts, standing), _whose(parts, reader, standing)
    )


def begin(parts: Parts, standing: Standing) -> None:
    """Begin working out what takes seconds, as soon as somebody sees that the day is over."""
    look_back(parts, standing)


def _readable(parts: Parts, reader: SignedIn, public_id: str) -> Standing:
    try:
        return own(parts, reader, public_id)
    except NotFound:
        if not may(reader, "scenario.view_others_history"):
            raise
    try:
        return others(parts, reader, public_id)
    except NotAllowed:
        raise NotFound("installation") from None


def _whose(parts: Parts, reader: SignedIn, standing: Standing) -> Whose | None:
    if standing.row.person_id == reader.id:
        return None
    with parts.database.reading() as session:
        person = session.get_one(Person, standing.row.person_id)
        return Whose(person.public_id, person.name)
