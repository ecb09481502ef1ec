"""People and their accounts: adding them, their roles and crews, their password and settings."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from trainer.errors import InputError, TrainerError
from trainer.records.database import Session
from trainer.records.queries import accounts as queries
from trainer.records.queries import people
from trainer.records.tables import (
    GROUNDS,
    LENGTH_UNITS,
    ROLES,
    TEMPERATURE_UNITS,
    Account,
    Crew,
    Membership,
    Person,
    RoleGrant,
)
from trainer.services.parts import Parts
from trainer.services.passwords import LONGEST, SHORTEST, PasswordProblem, password_problem
from trainer.services.permissions import may, require, require_for
from trainer.services.person import SignedIn, leading_role
from trainer.services.refusals import Conflict, NotFound
from trainer.services.sessions import confirm, plain_name

__all__ = [
    "GROUNDS",
    "LENGTH_UNITS",
    "ROLES",
    "TEMPERATURE_UNITS",
    "DemoAccount",
    "NewPerson",
    "PasswordRefused",
    "Preferences",
    "SignedIn",
    "add_person",
    "change_password",
    "demo_accounts",
    "may",
    "require",
    "require_for",
    "set_password",
    "set_preferences",
]

_SIGN_IN_NAME = re.compile(r"[\w.@+-]{2,64}")
_LANGUAGE = re.compile(r"[a-z]{2,3}([_-][A-Za-z0-9]{2,8})?")
_LONGEST_NAME = 120


class PasswordRefused(TrainerError):
    """A new password that will not do; ``problem`` says why."""

    _SENTENCES = {
        PasswordProblem.SHORT: f"The password needs at least {SHORTEST} characters.",
        PasswordProblem.LONG: f"The password may have at most {LONGEST} characters.",
        PasswordProblem.COMMON: "The password is among the first that anybody would try.",
        PasswordProblem.OWN_WORDS: "The password is little more than a name or the site's words.",
    }

    def __init__(self, problem: PasswordProblem) -> None:
        self.problem = problem
        super().__init__(self._SENTENCES[problem], "Take a few words that do not belong together.")


@dataclass(frozen=True)
class NewPerson:
    """A person to be added. ``crew`` is made when there is none of that name; empty for none."""

    name: str
    sign_in_name: str
    password: str
    roles: tuple[str, ...] = ("worker",)
    crew: str = ""
    language: str | None = None
    length_unit: str = "mm"
    temperature_unit: str = "c"
    must_change_password: bool = True
    demo: bool = False


@dataclass(frozen=True)
class Preferences:
    """How a person likes to read; the values allowed are those of SignedIn."""

    language: str | None
    length_unit: str
    temperature_unit: str
    ground: str


@dataclass(frozen=True)
class DemoAccount:
    name: str
    sign_in_name: str
    role: str


def add_person(parts: Parts, new: NewPerson) -> str:
    """Add a person with an account, roles and crew; returns the person's public id.

    Raises InputError for a field that cannot be taken, PasswordRefused for a weak password,
    Conflict when the sign-in name is in use. Nothing is kept unless all of it is.
    """
    sign_in_name = _checked(new)
    kept, now = parts.passwords.hash(new.password), parts.clock.now()
    with parts.database.writing() as session:
        _refuse_weak(session, new.password, new.name, sign_in_name)
        if queries.account_named(session, sign_in_name):
            raise Conflict(f"The sign-in name {sign_in_name} is in use.", "Choose another.")
        person = _person(session, new, now)
        session.add(
            Account(
                person_id=person.id,
                sign_in_name=sign_in_name,
                password_hash=kept,
                password_set_at=now,
                must_change_password=new.must_change_password,
                demo=new.demo,
                created_at=now,
            )
        )
        return person.public_id


def change_password(parts: Parts, person: SignedIn, old: str, new: str) -> None:
    """Set one's own new password and end one's other sessions.

    Raises SignInRefused when ``old`` is wrong, PasswordRefused when ``new`` will not do,
    Conflict for a demonstration account, whose password everybody is told.
    """
    with parts.database.reading() as session:
        account = session.get_one(Account, person.account_id)
        if account.demo:
            raise Conflict("A demonstration account keeps its password.")
        _refuse_weak(session, new, person.name, account.sign_in_name)
    confirm(parts, person, old)
    _keep_password(parts, person.account_id, new, must_change=False, but=person.session_id)


def set_password(parts: Parts, sign_in_name: str, password: str) -> None:
    """Give somebody a new first password: lifts a block, ends every session they have.

    Raises NotFound for a name nobody has, PasswordRefused.
    """
    with parts.database.reading() as session:
        account = queries.account_named(session, plain_name(sign_in_name))
        if account is None:
            raise NotFound("sign-in name")
        person = session.get_one(Person, account.person_id)
        _refuse_weak(session, password, person.name, account.sign_in_name)
    _keep_password(parts, account.id, password, must_change=True)


def set_preferences(parts: Parts, person: SignedIn, chosen: Preferences) -> None:
    """Keep how a person likes to read. Raises InputError for a value that is not offered."""
    require(person, "person.correct_own_data")
    if chosen.language is not None and not _LANGUAGE.fullmatch(chosen.language):
        raise InputError("language", chosen.language, 'a language code such as "es"')
    for field, allowed in (
        ("length_unit", LENGTH_UNITS),
        ("temperature_unit", TEMPERATURE_UNITS),
        ("ground", GROUNDS),
    ):
        _check_one_of(field, getattr(chosen, field), allowed)
    with parts.database.writing() as session:
        row = session.get_one(Person, person.id)
        row.language = chosen.language
        row.length_unit = chosen.length_unit
        row.temperature_unit = chosen.temperature_unit
        row.ground = chosen.ground


def demo_accounts(parts: Parts) -> Sequence[DemoAccount]:
    """The invented people to sign in as; none unless this is a demonstration."""
    if not parts.demo:
        return ()
    with parts.database.reading() as session:
        rows = queries.demo_accounts(session)
    roles: dict[tuple[str, str], set[str]] = defaultdict(set)
    for row in rows:
        roles[row.name, row.sign_in_name].add(row.role)
    return tuple(DemoAccount(*who, leading_role(held)) for who, held in roles.items())


def _checked(new: NewPerson) -> str:
    """Raise InputError for a field that cannot be taken; returns the sign-in name as it is kept."""
    if not new.name.strip() or len(new.name) > _LONGEST_NAME or not new.name.isprintable():
        raise InputError("name", new.name, f"1 to {_LONGEST_NAME} printable characters")
    sign_in_name = plain_name(new.sign_in_name)
    if not _SIGN_IN_NAME.fullmatch(sign_in_name):
        raise InputError("sign-in", new.sign_in_name, "2 to 64 letters, digits or . @ + - _")
    for role in new.roles:
        _check_one_of("role", role, ROLES)
    if len(new.crew) > _LONGEST_NAME or not new.crew.isprintable():
        raise InputError("crew", new.crew, f"at most {_LONGEST_NAME} printable characters")
    return sign_in_name


def _check_one_of(field: str, value: str, allowed: Sequence[str]) -> None:
    if value not in allowed:
        raise InputError(field, value, ", ".join(allowed))


def _person(session: Session, new: NewPerson, now: datetime) -> Person:
    person = Person(
        name=new.name.strip(),
        language=new.language,
        length_unit=new.length_unit,
        temperature_unit=new.temperature_unit,
        created_at=now,
    )
    session.add(person)
    session.flush()
    for role in new.roles:
        session.add(RoleGrant(person_id=person.id, role=role, starts_at=now))
    if new.crew.strip():
        crew = _crew(session, new.crew.strip())
        leads = "supervisor" in new.roles
        session.add(Membership(person_id=person.id, crew_id=crew.id, leads=leads, starts_at=now))
    return person


def _crew(session: Session, name: str) -> Crew:
    crew = people.crew_named(session, name)
    if crew is None:
        crew = Crew(name=name)
        session.add(crew)
        session.flush()
    return crew


def _refuse_weak(session: Session, password: str, *own_words: str) -> None:
    site = people.site(session)
    problem = password_problem(password, (*own_words, site.name if site else ""))
    if problem is not None:
        raise PasswordRefused(problem)


def _keep_password(
    parts: Parts, account_id: int, password: str, must_change: bool, but: int | None = None
) -> None:
    kept, now = parts.passwords.hash(password), parts.clock.now()
    with parts.database.writing() as session:
        account = session.get_one(Account, account_id)
        account.password_hash = kept
        account.password_set_at = now
        account.must_change_password = must_change
        queries.forget_failures(session, account_id)
        queries.end_sessions(session, account_id, now, but)
