"""The demonstration: an invented site whose history is made by the program's own services."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from sqlalchemy import inspect, select

from trainer.engine.solve import Decision
from trainer.errors import TrainerError
from trainer.pack.demo import (
    DemoPerson,
    DemoWorker,
    read_installations,
    read_people,
    read_practice,
)
from trainer.pack.place import SCENARIOS
from trainer.records.database import Database, DatabaseMissing, Session
from trainer.records.queries import accounts as account_queries
from trainer.records.queries import people
from trainer.records.tables import Account, LessonReading, Person
from trainer.services import accounts
from trainer.services.attempts import open_attempt, take
from trainer.services.choosing import Seen, next_cell
from trainer.services.clock import StoppedClock
from trainer.services.content.answers import wrong_responses
from trainer.services.demo_installations import InstallationHistory
from trainer.services.learning import right_response
from trainer.services.parts import Parts
from trainer.services.person import SignedIn
from trainer.services.scenarios import Library, library
from trainer.services.site import make_ready

_WEEK = timedelta(days=7)
_FIRST_SCENARIO_AT = timedelta(hours=6, minutes=40)
_PER_DECISION = timedelta(seconds=35)
_WEAKER = 1.6


class NotForDemo(TrainerError):
    """The database belongs to somebody else: a real site, or another program."""

    def __init__(self, where: str) -> None:
        super().__init__(
            f"The database {where} is not empty and is no demonstration; nothing was changed.",
            "Leave TRAINER_DATABASE out, or name a file that is not there yet.",
        )


def make_demo(parts: Parts, password: str) -> bool:
    """Fill an empty database with the invented site; a filled one is kept as it is.

    Returns whether anything was made. Raises NotForDemo, with nothing changed, for a database
    that holds anything else.
    """
    demo = read_people(SCENARIOS)
    _refuse_a_real_one(parts.database, demo.site)
    make_ready(parts.database, demo.site, demo.time_zone)
    if accounts.demo_accounts(replace(parts, demo=True)):
        return False
    workers = {worker.sign_in: worker for worker in read_practice(SCENARIOS)}
    now = parts.clock.now()
    for person in demo.people:
        began = now - _WEEK * (workers[person.sign_in].began if person.sign_in in workers else 13)
        _add(replace(parts, clock=StoppedClock(began - timedelta(days=1))), person, password)
    with parts.database.writing() as session:
        shelf = library(session)
        for worker in workers.values():
            _History(session, parts, shelf, worker, now).write()
        whole = InstallationHistory(session, shelf, now)
        for made in read_installations(SCENARIOS):
            whole.write(made, _signed_in(session, made.sign_in))
    return True


def _refuse_a_real_one(database: Database, demo_site: str) -> None:
    try:
        with database.reading() as session:
            free = _is_empty(session) or _is_demo(session, demo_site)
    except DatabaseMissing:
        return
    if not free:
        raise NotForDemo(database.url.render_as_string())


def _is_empty(session: Session) -> bool:
    """No tables but perhaps the one that notes the revision."""
    return set(inspect(session.connection()).get_table_names()) <= {"alembic_version"}


def _is_demo(session: Session, demo_site: str) -> bool:
    """Its first account is an invented one; or it was stopped before there was any."""
    if not inspect(session.connection()).has_table(Account.__tablename__):
        return False
    first = session.scalar(select(Account).order_by(Account.id).limit(1))
    site = people.site(session)
    return first.demo if first else site is None or site.name == demo_site


def _add(parts: Parts, person: DemoPerson, password: str) -> None:
    accounts.add_person(
        parts,
        accounts.NewPerson(
            name=person.name,
            sign_in_name=person.sign_in,
            password=password,
            roles=person.roles,
            crew=person.crew,
            length_unit=person.length_unit,
            temperature_unit=person.temperature_unit,
            must_change_password=False,
            demo=True,
        ),
    )


@dataclass
class _History:
    """Three months of one invented worker, decision by decision."""

    session: Session
    parts: Parts
    shelf: Library
    worker: DemoWorker
    now: datetime

    def __post_init__(self) -> None:
        self.chance = random.Random(f"demo {self.worker.sign_in}")
        self.person = _signed_in(self.session, self.worker.sign_in)
        self.seen: list[Seen] = []
        self.made = 0

    def write(self) -> None:
        for at in self._days():
            clock = StoppedClock(at)
            self._read_lessons(clock)
            for _ in range(self.worker.scenarios):
                self._practise(clock)
                clock.forward(timedelta(seconds=self.chance.randrange(20, 90)))

    def _days(self) -> Iterator[datetime]:
        """Mornings on which the worker practised, all in the past."""
        today = self.now.replace(hour=0, minute=0, second=0, microsecond=0)
        monday = today - timedelta(days=today.weekday())
        for week in range(self.worker.began, self.worker.stopped, -1):
            for day in sorted(self.chance.sample(range(5), self.worker.days)):
                at = monday - _WEEK * week + timedelta(days=day) + _FIRST_SCENARIO_AT
                if at + timedelta(hours=1) < self.now:
                    yield at + timedelta(minutes=self.chance.randrange(25))

    def _read_lessons(self, clock: StoppedClock) -> None:
        """Two lessons on each of the first days, before anything is practised in them."""
        units = list(self.shelf.pack.units)
        for unit in units[self.made : self.made + 2]:
            version = str(self.shelf.pack.lessons[unit].version)
            self.session.add(
                LessonReading(
                    person_id=self.person.id, unit=unit, lesson_version=version, read_at=clock.now()
                )
            )
            clock.forward(timedelta(minutes=4))
        self.made += 2

    def _practise(self, clock: StoppedClock) -> None:
        known = list(self.shelf.pack.units)[: self.made]
        families = [f for f in self.shelf.pack.families.values() if f.unit in known]
        family, mode = next_cell(families, self.seen[:12], self.chance)
        then = replace(self.parts, clock=clock)
        attempt = open_attempt(
            self.session, then, self.person, self.shelf, family,
            mode=mode, seed=self.chance.randrange(2**31),
        )  # fmt: skip
        outcomes = []
        for decision in self.shelf.of(attempt).decisions:
            clock.forward(_PER_DECISION * (0.5 + self.chance.random()))
            response = self._response(decision, attempt.unit, clock.now())
            answer = take(
                self.session, then, self.person, attempt, self.shelf,
                decision.id, response, f"{self.chance.getrandbits(128):032x}",
            )  # fmt: skip
            outcomes.append(answer)
        critical = any(answer.critical for answer in outcomes)
        right = all(answer.right for answer in outcomes)
        self.seen.insert(0, Seen(family, mode, right, critical))

    def _response(self, decision: Decision, unit: str, at: datetime) -> dict[str, object]:
        weeks = self.worker.began - (self.now - at) / _WEEK
        skill = self.worker.skill + self.worker.gain * weeks
        skill -= _WEAKER if unit in self.worker.weak else 0
        wrong = [response for _, response in wrong_responses(decision)]
        if self.chance.random() < 1 / (1 + math.exp(-skill)) or not wrong:
            return right_response(decision)
        return self.chance.choice(wrong)


def _signed_in(session: Session, sign_in: str) -> SignedIn:
    account = account_queries.account_named(session, sign_in)
    assert account is not None
    person = session.get_one(Person, account.person_id)
    return SignedIn(
        id=person.id,
        public_id=person.public_id,
        name=person.name,
        language=person.language,
        length_unit=person.length_unit,
        temperature_unit=person.temperature_unit,
        ground=person.ground,
        roles=frozenset({"worker"}),
        account_id=account.id,
        session_id=0,
        must_change_password=False,
    )
