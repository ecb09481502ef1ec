"""Practise: the way in, and the next scenario, chosen by what went wrong."""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence

from trainer.drawing import draw
from trainer.records.database import Session
from trainer.records.queries import outcomes
from trainer.services import learning
from trainer.services.attempts import open_attempt
from trainer.services.choosing import Seen, next_cell
from trainer.services.pages import HomePage, UnitPage
from trainer.services.parts import Parts
from trainer.services.permissions import require
from trainer.services.person import SignedIn
from trainer.services.refusals import NothingToDraw
from trainer.services.scenarios import Library, language_of, library
from trainer.services.speech import speaker

_LOOKS_BACK = 24
"""Scenarios back that still count for what comes next."""


def start(
    parts: Parts, person: SignedIn, unit: str | None = None, chance: random.Random | None = None
) -> str:
    """Open the next scenario, of one unit or of all; its public id. Raises InputError."""
    require(person, "scenario.play")
    with parts.database.writing() as session:
        shelf = library(session)
        families = shelf.families(shelf.pack.unit(unit).id if unit else None)
        if not families:
            raise NothingToDraw(shelf.rules.profile)
        family, mode = next_cell(families, recent(session, person.id), chance)
        attempt = open_attempt(session, parts, person, shelf, family, mode=mode)
        return attempt.public_id


def recent(session: Session, person_id: int) -> list[Seen]:
    """The scenarios a person practised last, newest first."""
    rows = outcomes.practised_lately(session, person_id, _LOOKS_BACK)
    return [
        Seen(row.family, row.mode, row.answers == row.right, bool(row.critical)) for row in rows
    ]


def home(parts: Parts, person: SignedIn) -> HomePage:
    """The parapet section, the units, and what to do next."""
    require(person, "scenario.view_own_history")
    with parts.database.reading() as session:
        shelf = library(session)
        units = learning.unit_pages(session, parts, shelf, person)
        waiting = outcomes.left_open(session, person.id, "practise")
    say = speaker(language_of(person))
    step, verb, unit = _next_step(units, say)
    return HomePage(
        person=person.name,
        figure=_way_in(shelf, person),
        units=units,
        next_step=step,
        next_verb=verb,
        next_unit=unit,
        open_attempt=waiting.public_id if waiting else "",
    )


def _next_step(units: Sequence[UnitPage], say: Callable[[str], str]) -> tuple[str, str, str]:
    """The sentence, the verb (learn, practise) and the unit: lessons first, then the weakest."""
    for unit in units:
        if not unit.lesson_read:
            return say("Next: read the lesson “%(unit)s”.") % {"unit": unit.name}, "learn", unit.id
    for unit in units:
        if not unit.practised:
            sentence = say("Next: practise “%(unit)s” for the first time.")
            return sentence % {"unit": unit.name}, "practise", unit.id
    return (
        say("Next: practise what went wrong lately, or what you have not seen for long."),
        "practise",
        "",
    )


def _way_in(shelf: Library, person: SignedIn) -> str:
    """The parapet section on which every unit has its place."""
    language = language_of(person)
    say = speaker(language)
    names = {unit.id: unit.words_in(language) for unit in shelf.pack.units.values()}
    return draw(
        {
            "kind": "way-in",
            "id": "way-in",
            "title": say("The parapet section"),
            "desc": say("A cut through a parapet. Each number leads to the unit at that place."),
            "units": [
                {"id": u.id, "place": u.place, "name": names[u.id].name, "word": names[u.id].word}
                for u in shelf.pack.units.values()
            ],
        }
    )
