"""The list of jobs, and what is said before one is taken to prove."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from trainer.services.installations import jobs
from trainer.services.installations.jobs import OfferedJob
from trainer.services.installations.words import Voice, voice_of
from trainer.services.parts import Parts
from trainer.services.person import SignedIn
from trainer.services.refusals import NotFound


@dataclass(frozen=True)
class JobLine:
    """One job: ``open`` goes on, ``last`` was closed last, ``outcome`` says how in words."""

    id: str
    title: str
    brief: str
    open: str
    last: str
    outcome: str


@dataclass(frozen=True)
class Level:
    name: str
    jobs: tuple[JobLine, ...]


@dataclass(frozen=True)
class ListPage:
    """All jobs by level, and first those that go on."""

    going_on: tuple[JobLine, ...]
    levels: tuple[Level, ...]


def list_page(parts: Parts, person: SignedIn) -> ListPage:
    """The jobs this person can take. Raises NotAllowed."""
    voice = voice_of(person)
    offered = jobs.offered(parts, person)
    numbers = sorted({job.level for job in offered if job.source == "pack"})
    levels = [(_level_name(voice, n), _of_level(offered, n)) for n in numbers]
    of_site = [job for job in offered if job.source != "pack"]
    if of_site:
        levels.insert(0, (voice.say("From this site"), of_site))
    return ListPage(
        going_on=tuple(_line(voice, job) for job in offered if job.open),
        levels=tuple(
            Level(name, tuple(_line(voice, job) for job in group)) for name, group in levels
        ),
    )


def job_line(parts: Parts, person: SignedIn, job_id: str) -> JobLine:
    """One job this person can take. Raises NotFound, NotAllowed."""
    for job in jobs.offered(parts, person):
        if job.id == job_id:
            return _line(voice_of(person), job)
    raise NotFound("job")


def _of_level(offered: tuple[OfferedJob, ...], level: int) -> list[OfferedJob]:
    here = [job for job in offered if job.level == level and job.source == "pack"]
    return sorted(here, key=lambda job: job.title)


def _level_name(voice: Voice, level: int) -> str:
    return voice.say("Level %(n)d") % {"n": level}


def _line(voice: Voice, job: OfferedJob) -> JobLine:
    return JobLine(
        id=job.id,
        title=job.title,
        brief=job.brief,
        open=job.open,
        last=job.last,
        outcome=outcome_in_words(voice, job.last_outcome) if job.last_outcome else "",
    )


def outcome_in_words(voice: Voice, outcome: Mapping[str, Any]) -> str:
    """How an installation ended: findings first, then what was missing, then the time."""
    found = outcome.get("findings", {})
    critical, quality = int(found.get("critical", 0)), int(found.get("quality", 0))
    said = []
    if critical:
        said.append(voice.count("%(n)d critical finding", "%(n)d critical findings", critical))
    if quality:
        said.append(voice.count("%(n)d finding of quality", "%(n)d findings of quality", quality))
    if not said:
        said.append(voice.say("nothing found wrong"))
    if outcome.get("missing"):
        said.append(voice.say("not finished"))
    if outcome.get("ended") is not None:
        said.append(voice.say("off the roof at %(time)s") % {"time": voice.clock(outcome["ended"])})
    return ", ".join(said)
