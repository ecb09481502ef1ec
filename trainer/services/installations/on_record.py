"""What whole installations put on a record: how each ended, and what they show of the units.

Counts of decisions stand beside what was done, never as a score; nobody is compared with anybody.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from trainer.installation.state import Finding
from trainer.records.database import Session
from trainer.records.queries import installations as queries
from trainer.services.installations.evidence import evidence, units_of_subjects
from trainer.services.installations.listing import outcome_in_words
from trainer.services.installations.record_data import InstalledLine, InstalledUnit
from trainer.services.installations.standing import Standing, standing_of
from trainer.services.installations.words import Voice, voice_of
from trainer.services.installations.words_findings import Telling, sentence
from trainer.services.parts import Parts
from trainer.services.person import SignedIn
from trainer.services.refusals import Conflict
from trainer.services.scenarios import Library

LOOKS_BACK = 10
"""How many of the installations finished last say something of the units."""
_MOST = 300


def lines(
    session: Session, shelf: Library, reader: SignedIn, rows: Iterable[Any], zone: ZoneInfo
) -> tuple[InstalledLine, ...]:
    """A line for each finished installation among ``rows``."""
    voice = voice_of(reader)
    return tuple(
        InstalledLine(
            id=row.public_id,
            when=row.opened_at.astimezone(zone).strftime("%Y-%m-%d %H:%M"),
            what=_title(session, shelf, voice, row),
            outcome=outcome_in_words(voice, row.outcome),
            look=_look(row.outcome),
            purpose=row.purpose,
        )
        for row in rows
    )


def finished(
    session: Session, person_id: int, before: datetime | None = None, since: datetime | None = None
) -> list[Any]:
    """A person's finished installations, newest first, opened between two moments."""
    rows = queries.of_person(session, person_id, _MOST, before)
    return [row for row in rows if row.closed_at and (since is None or row.opened_at >= since)]


def _title(session: Session, shelf: Library, voice: Voice, row: Any) -> str:
    if row.source == "pack":
        spec = shelf.pack.jobs.get(row.job)
        return spec.title_in(voice.language) if spec else str(row.job)
    made = queries.site_job(session, row.job)
    return made.name if made else str(row.job)


def _look(outcome: Mapping[str, Any]) -> str:
    if outcome["findings"]["critical"]:
        return "critical"
    return "not-yet" if outcome["findings"]["quality"] or outcome["missing"] else "right"


@dataclass
class _Shown:
    """What the installations of one purpose say of one unit: what went against it, worst first."""

    showed: int = 0
    against: int = 0
    worst: tuple[Telling, Finding] | None = None

    def add(self, telling: Telling, finding: Finding) -> None:
        self.against += 1
        if self.worst is None or (_grave(finding) and not self.critical):
            self.worst = (telling, finding)

    @property
    def critical(self) -> bool:
        return self.worst is not None and _grave(self.worst[1])


def _grave(finding: Finding) -> bool:
    return finding.severity == "critical"


def by_unit(
    parts: Parts, reader: SignedIn, person_id: int, shelf: Library
) -> dict[str, tuple[InstalledUnit, ...]]:
    """What the installations that somebody finished last show of each unit, those proved first.

    Each is worked out again where it is not kept. Who may read it, the caller has asked.
    """
    with parts.database.reading() as session:
        rows = finished(session, person_id)[:LOOKS_BACK]
    unit_of = units_of_subjects(shelf.pack.families.values())
    voice = voice_of(reader)
    found: dict[tuple[str, str], _Shown] = defaultdict(_Shown)
    for row in rows:
        with suppress(Conflict):  # begun with another version of the program: it says nothing
            standing = standing_of(parts, person_id, row.public_id)
            _add(found, voice, standing, unit_of, shelf.pack.units)
    return {
        unit: tuple(
            _said(voice, purpose, found[unit, purpose])
            for purpose in ("prove", "practise")
            if (unit, purpose) in found
        )
        for unit in shelf.pack.units
    }


def _add(
    found: dict[tuple[str, str], _Shown],
    voice: Voice,
    standing: Standing,
    unit_of: Mapping[str, str],
    units: Iterable[str],
) -> None:
    telling = Telling(voice, standing.job, standing.state, standing.shelf.rules)
    for part in evidence(standing.state, standing.decisions, unit_of, units):
        if not part.showed and not part.contradicted:
            continue
        shown = found[part.unit, standing.purpose]
        shown.showed += len(part.showed)
        for against in part.contradicted:
            shown.add(telling, against.finding)


def _said(voice: Voice, purpose: str, shown: _Shown) -> InstalledUnit:
    say, proved = voice.say, purpose == "prove"
    said = say("Whole installations proved: ") if proved else say("Whole installations practised: ")
    said += voice.count("%(n)d decision showed it", "%(n)d decisions showed it", shown.showed)
    if shown.worst is None:
        return InstalledUnit(f"{said}.")
    said += "; " + voice.count("%(n)d went against it", "%(n)d went against it", shown.against)
    said = f"{said}. {sentence(*shown.worst)}"
    if shown.against > 1:
        said += " " + voice.count("And %(n)d more.", "And %(n)d more.", shown.against - 1)
    return InstalledUnit(said, "critical" if shown.critical else "not-yet")
