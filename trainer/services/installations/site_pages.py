"""What pages show of the jobs that somebody made from real walls: all of them, or one, drawn."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from trainer.installation.draw_job import draw_job
from trainer.installation.job import Behind, Job, Wall
from trainer.installation.state import begin
from trainer.records.database import Session
from trainer.records.queries import installations as queries
from trainer.records.queries import site_jobs
from trainer.records.tables import SiteJob
from trainer.services.installations import jobs, words
from trainer.services.installations.figures import plan_figure, wall_figure
from trainer.services.installations.words import Voice, capital, voice_of
from trainer.services.pages import Row
from trainer.services.parts import Parts
from trainer.services.permissions import Scope, require, scope
from trainer.services.person import SignedIn
from trainer.services.refusals import NotAllowed, NotFound
from trainer.services.site import site

_SEED = 0
"""Nothing is drawn by chance in a job made from a real wall: any seed gives the same."""


@dataclass(frozen=True)
class MadeLine:
    """A job somebody made: its walls in a sentence, to whom it is handed, and ``since`` when.

    ``trying`` is the public id of the maker's own installation of it that goes on, or "".
    """

    id: str
    name: str
    walls: str
    standing: str
    since: str
    offered: bool
    trying: str


@dataclass(frozen=True)
class WallDrawn:
    """One wall as the crew sees it in the morning, and what its maker said of it."""

    name: str
    figure: str
    facts: tuple[str, ...]


@dataclass(frozen=True)
class JobPage:
    """One job, drawn. ``plan`` is "" for a single wall.

    ``crews`` are those to whom it can be handed: ids and names; the id "" is everybody.
    """

    line: MadeLine
    day: str
    walls: tuple[WallDrawn, ...]
    plan: str
    crews: tuple[Row, ...]


def made_page(parts: Parts, person: SignedIn) -> tuple[MadeLine, ...]:
    """The jobs this person made, newest first. Raises NotAllowed."""
    made = jobs.made_jobs(parts, person)
    with parts.database.reading() as session:
        specs = site_jobs.specs_by(session, person.id)
        going_on = queries.newest(session, person.id, is_open=True)
    telling = _Telling(voice_of(person), _clock_of(parts))
    return tuple(
        telling.line(job, specs[job.id], going_on[job.id].public_id if job.id in going_on else "")
        for job in made
    )


def job_page(parts: Parts, person: SignedIn, job_id: str) -> JobPage:
    """One job of one's own, or, for a coordinator, of anybody. Raises NotFound, NotAllowed."""
    with parts.database.reading() as session:
        row = _own(session, person, job_id)
        made = _made(row, site_jobs.crew_name(session, row))
        going_on = queries.newest(session, person.id, is_open=True)
    telling = _Telling(voice_of(person), _clock_of(parts))
    trying = going_on[job_id].public_id if job_id in going_on else ""
    job = draw_job(row.spec, _SEED, 0)
    return JobPage(
        line=telling.line(made, row.spec, trying),
        day=telling.day(job),
        walls=tuple(telling.wall(job, i) for i in range(len(job.walls))),
        plan=telling.plan(job) if len(job.walls) > 1 else "",
        crews=_crews(parts, person),
    )


def drawn_job(parts: Parts, person: SignedIn, job_id: str) -> Job:
    """The job of :func:`job_page` as it is drawn. Raises NotFound, NotAllowed."""
    with parts.database.reading() as session:
        return draw_job(_own(session, person, job_id).spec, _SEED, 0)


def _own(session: Session, person: SignedIn, job_id: str) -> SiteJob:
    require(person, "job.make")
    row = queries.site_job(session, job_id)
    if row is None:
        raise NotFound("job")
    if row.person_id != person.id and scope(person, "job.make") < Scope.ALL:
        raise NotAllowed("job.make")
    return row


def _made(row: SiteJob, crew: str) -> jobs.MadeJob:
    return jobs.MadeJob(row.public_id, row.name, crew, row.made_at, row.handed_at, row.withdrawn_at)


def _crews(parts: Parts, person: SignedIn) -> tuple[Row, ...]:
    crews = [Row(*crew) for crew in jobs.crews_to_ask(parts, person)]
    if scope(person, "job.make") == Scope.ALL:
        crews.insert(0, Row("", voice_of(person).say("Everybody on this site")))
    return tuple(crews)


def _clock_of(parts: Parts) -> Callable[[datetime], str]:
    zone = ZoneInfo(site(parts).time_zone)
    return lambda at: at.astimezone(zone).strftime("%Y-%m-%d %H:%M")


@dataclass(frozen=True)
class _Telling:
    voice: Voice
    when: Callable[[datetime], str]

    @property
    def say(self) -> Callable[[str], str]:
        return self.voice.say

    def line(self, made: jobs.MadeJob, spec: Mapping[str, Any], trying: str) -> MadeLine:
        return MadeLine(
            id=made.id,
            name=made.name,
            walls=self._walls(spec),
            standing=self._standing(made),
            since=self._since(made),
            offered=made.offered,
            trying=trying,
        )

    def _walls(self, spec: Mapping[str, Any]) -> str:
        """ "2 walls, 5 m and 4 m long, 400 mm high; 1 inside corner." """
        walls, corners, voice = spec["walls"], list(spec["corners"]), self.voice
        heights = dict.fromkeys(voice.along(wall["height_mm"]) for wall in walls)
        told = self.say("%(walls)s, %(lengths)s long, %(heights)s high") % {
            "walls": voice.count("%(n)d wall", "%(n)d walls", len(walls)),
            "lengths": voice.listed([voice.along(wall["length_mm"]) for wall in walls]),
            "heights": voice.listed(list(heights)),
        }
        met = []
        if inside := corners.count("inside"):
            met.append(voice.count("%(n)d inside corner", "%(n)d inside corners", inside))
        if outside := corners.count("outside"):
            met.append(voice.count("%(n)d outside corner", "%(n)d outside corners", outside))
        return f"{told}; {voice.listed(met)}." if met else f"{told}."

    def _standing(self, made: jobs.MadeJob) -> str:
        if made.handed_at is None:
            return self.say("Not handed out yet; made")
        if made.withdrawn_at is not None:
            return self.say("Taken back")
        told = self.say("Handed to %(whom)s since")
        return told % {"whom": made.crew or self.say("everybody")}

    def _since(self, made: jobs.MadeJob) -> str:
        return self.when(made.withdrawn_at or made.handed_at or made.made_at)

    def day(self, job: Job) -> str:
        crew = self.voice.listed([hand.name for hand in job.crew])
        told = self.say(
            "On the roof from %(start)s, off it by %(leave)s; a fair day, with an invented crew:"
            " %(crew)s."
        )
        clock = self.voice.clock
        return told % {"start": clock(job.start), "leave": clock(job.leave_by), "crew": crew}

    def wall(self, job: Job, i: int) -> WallDrawn:
        wall = job.walls[i]
        figure = wall_figure(
            job,
            begin(job),
            wall.id,
            say=self.say,
            length=self.voice.length,
            name=f"wall-{wall.id}",
            live=False,
        )
        name = capital(words.wall_name(self.voice, wall.id))
        return WallDrawn(name, figure, tuple(self._facts(job, wall, i)))

    def plan(self, job: Job) -> str:
        return plan_figure(job, begin(job), say=self.say, length=self.voice.length, live=False)

    def _facts(self, job: Job, wall: Wall, i: int) -> list[str]:
        voice, facts = self.voice, []
        size = {"long": voice.along(wall.length_mm), "high": voice.along(wall.height_mm)}
        told = self.say("%(long)s long, %(high)s high, no cant.")
        if wall.cant_mm:
            told = self.say("%(long)s long, %(high)s high, cant %(cant)s.")
            size["cant"] = voice.along(wall.cant_mm)
        facts.append(told % size)
        facts.append(self._field_laps(wall))
        facts += [self._behind(wall, part) for part in wall.behind]
        if not wall.behind:
            facts.append(self.say("Nothing in or behind it burns."))
        facts.append(self.say("The papers say: %(told)s.") % {"told": wall.told.rstrip(".")})
        if i < len(job.corners):
            facts.append(self._corner(job, i))
        return facts

    def _field_laps(self, wall: Wall) -> str:
        if not wall.field_laps:
            return self.say("No lap of the field runs up to it.")
        starts = self.voice.listed([self.voice.along(start) for start, _ in wall.field_laps])
        return self.say("Laps of the field from %(starts)s.") % {"starts": starts}

    def _behind(self, wall: Wall, part: Behind) -> str:
        thing = {"what": self.say(part.what)}
        if part.from_mm <= 0 and part.to_mm >= wall.length_mm:
            return capital(self.say("%(what)s all along it.") % thing)
        thing["stretch"] = self.voice.stretch(part.from_mm, part.to_mm)
        return capital(self.say("%(what)s at %(stretch)s.") % thing)

    def _corner(self, job: Job, i: int) -> str:
        names = {"next": words.wall_name(self.voice, job.walls[i + 1].id)}
        if job.corners[i] == "inside":
            return self.say("Then an inside corner to %(next)s.") % names
        return self.say("Then an outside corner to %(next)s.") % names
