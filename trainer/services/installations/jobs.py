"""The shelf of jobs: those of the pack, and those made on this site for a crew."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Protocol

from trainer.errors import InputError
from trainer.installation.draw_job import draw_job
from trainer.installation.finishable import why_unfinishable
from trainer.installation.job import Job
from trainer.installation.limits import limits_of
from trainer.installation.site_job import site_job
from trainer.pack.jobs import clear_mm_of
from trainer.pack.pack import Pack
from trainer.records.database import Session
from trainer.records.queries import installations as queries
from trainer.records.tables import Crew, SiteJob
from trainer.roofing.rulebook import InForce
from trainer.services.parts import Parts
from trainer.services.permissions import Scope, require, scope
from trainer.services.person import SignedIn
from trainer.services.refusals import NotAllowed, NotFound
from trainer.services.scenarios import Library, language_of, library


class JobSpec(Protocol):
    """A job of the pack: what it is called, and how it is drawn."""

    @property
    def id(self) -> str: ...
    @property
    def version(self) -> int: ...
    @property
    def level(self) -> int: ...
    def title_in(self, language: str) -> str: ...
    def brief_in(self, language: str) -> str: ...
    def drawn(self, seed: int, clear_mm: int, language: str) -> Job: ...


@dataclass(frozen=True)
class SiteSpec:
    """A job made on this site; its words are as they were typed."""

    id: str
    plain: Mapping[str, Any]
    version: int = 1

    @property
    def level(self) -> int:
        return int(self.plain["level"])

    def title_in(self, language: str) -> str:
        return str(self.plain["title"])

    def brief_in(self, language: str) -> str:
        return str(self.plain["brief"])

    def drawn(self, seed: int, clear_mm: int, language: str) -> Job:
        return draw_job(self.plain, seed, clear_mm)


@dataclass(frozen=True)
class Source:
    """Where a job is from: ``kind`` is pack or site, ``id`` the name under which it is offered."""

    kind: str
    id: str
    spec: JobSpec

    @property
    def version(self) -> int:
        return self.spec.version

    def draw(self, seed: int, clear_mm: int, language: str) -> Job:
        """The job of a seed. Raises InputError."""
        return self.spec.drawn(seed, clear_mm, language)


@dataclass(frozen=True)
class OfferedJob:
    """One job on the shelf of a person. ``level`` is 1 to 4; ``source`` pack or site.

    ``open`` is the public id of their installation that goes on, ``last`` and ``last_outcome``
    are of the one they closed last; "" and None where there is none.
    """

    id: str
    title: str
    level: int
    brief: str
    source: str
    open: str = ""
    last: str = ""
    last_outcome: Mapping[str, Any] | None = None


@dataclass(frozen=True)
class MadeJob:
    """A job somebody made: ``crew`` "" where it is for everybody or was not handed out yet."""

    id: str
    name: str
    crew: str
    made_at: datetime
    handed_at: datetime | None
    withdrawn_at: datetime | None

    @property
    def offered(self) -> bool:
        return self.handed_at is not None and self.withdrawn_at is None


def offered(parts: Parts, person: SignedIn) -> tuple[OfferedJob, ...]:
    """The jobs this person can open: those of the pack by level, then those of the site."""
    require(person, "installation.play")
    with parts.database.reading() as session:
        shelf = library(session)
        sources = [*_of_pack(shelf.pack), *_of_site(session, parts, person)]
        going_on = queries.newest(session, person.id, is_open=True)
        closed = queries.newest(session, person.id, is_open=False)
    return tuple(
        _offered(source, going_on.get(source.id), closed.get(source.id), language_of(person))
        for source in sources
    )


def _offered(source: Source, going_on: Any, closed: Any, language: str) -> OfferedJob:
    spec = source.spec
    return OfferedJob(
        id=source.id,
        title=spec.title_in(language),
        level=spec.level,
        brief=spec.brief_in(language),
        source=source.kind,
        open=going_on.public_id if going_on else "",
        last=closed.public_id if closed else "",
        last_outcome=closed.outcome if closed else None,
    )


def _of_pack(pack: Pack) -> list[Source]:
    return [Source("pack", spec.id, spec) for spec in pack.jobs.values()]


def _of_site(session: Session, parts: Parts, person: SignedIn) -> list[Source]:
    rows = queries.handed_to(session, person.id, parts.clock.now())
    return [_site_source(row) for row in rows]


def _site_source(row: SiteJob) -> Source:
    return Source("site", row.public_id, SiteSpec(row.public_id, row.spec, row.version))


def source_for(
    session: Session, parts: Parts, person: SignedIn, shelf: Library, job_id: str
) -> Source:
    """The job under the name by which it is offered to this person. Raises NotFound.

    Who made a job for the site can open it before it is handed out, to try it.
    """
    if job_id in shelf.pack.jobs:
        return Source("pack", job_id, shelf.pack.jobs[job_id])
    row = queries.site_job(session, job_id)
    if row is None:
        raise NotFound("job")
    handed = queries.handed_to(session, person.id, parts.clock.now())
    if row.person_id != person.id and row.id not in [other.id for other in handed]:
        raise NotFound("job")
    return _site_source(row)


def make_site_job(parts: Parts, person: SignedIn, fields: Mapping[str, Any]) -> str:
    """Keep a job made from a real wall; its public id. Handed to nobody yet.

    ``fields``: see ``trainer.installation.site_job.FORM``. Raises InputError naming the field, and,
    for walls that nobody could do without breaking a rule, which rule and which stretch.
    """
    require(person, "job.make")
    with parts.database.reading() as session:
        rules = library(session).rules
    spec = site_job(fields, limits_of(rules))
    _refuse_impossible(spec, rules)
    with parts.database.writing() as session:
        row = SiteJob(
            person_id=person.id,
            name=spec["title"],
            version=1,
            spec=spec,
            made_at=parts.clock.now(),
        )
        session.add(row)
        session.flush()
        return row.public_id


def _refuse_impossible(spec: Mapping[str, Any], rules: InForce) -> None:
    """Raise InputError unless laps can be laid out and somebody can finish within the day."""
    clear = clear_mm_of(rules)
    why = why_unfinishable(draw_job(spec, 0, clear), limits_of(rules), clear)
    if why is not None:
        raise why


def hand_out(parts: Parts, person: SignedIn, job_id: str, crew: str = "") -> None:
    """Offer a job one made: to the crew of that public id, or to the only one that one leads.

    A coordinator who names no crew offers it to everybody. Raises InputError for a crew that is
    not theirs to ask, NotFound, NotAllowed.
    """
    require(person, "job.make")
    with parts.database.writing() as session:
        row = _own_job(session, person, job_id)
        row.crew_id = _crew_id(session, parts, person, crew)
        row.handed_at, row.withdrawn_at = parts.clock.now(), None


def _crew_id(session: Session, parts: Parts, person: SignedIn, crew: str) -> int | None:
    everywhere = scope(person, "job.make") == Scope.ALL
    crews = _crews(session, parts, person)
    if not crew and everywhere:
        return None
    chosen = [c for c in crews if c.public_id == crew] if crew else list(crews)
    if len(chosen) != 1:
        allowed = ", ".join(f"{c.public_id} ({c.name})" for c in crews) or "you lead no crew"
        raise InputError("crew", crew, allowed)
    return chosen[0].id


def _crews(session: Session, parts: Parts, person: SignedIn) -> Sequence[Crew]:
    if scope(person, "job.make") == Scope.ALL:
        return queries.crews(session)
    return queries.led_crews(session, person.id, parts.clock.now())


def crews_to_ask(parts: Parts, person: SignedIn) -> tuple[tuple[str, str], ...]:
    """Public id and name of the crews to whom this person may hand a job."""
    require(person, "job.make")
    with parts.database.reading() as session:
        return tuple((crew.public_id, crew.name) for crew in _crews(session, parts, person))


def withdraw(parts: Parts, person: SignedIn, job_id: str) -> None:
    """Offer a job no longer; installations of it go on. Raises NotFound, NotAllowed."""
    require(person, "job.make")
    with parts.database.writing() as session:
        row = _own_job(session, person, job_id)
        row.withdrawn_at = row.withdrawn_at or parts.clock.now()


def _own_job(session: Session, person: SignedIn, job_id: str) -> SiteJob:
    row = queries.site_job(session, job_id)
    if row is None:
        raise NotFound("job")
    if row.person_id != person.id and scope(person, "job.make") < Scope.ALL:
        raise NotAllowed("job.make")
    return row


def made_jobs(parts: Parts, person: SignedIn) -> tuple[MadeJob, ...]:
    """The jobs this person made, newest first."""
    require(person, "job.make")
    with parts.database.reading() as session:
        rows = queries.made_by(session, person.id)
    return tuple(
        MadeJob(
            row.public_id, row.name, row.crew or "", row.made_at, row.handed_at, row.withdrawn_at
        )
        for row in rows
    )
