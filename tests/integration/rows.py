"""Rows to fill tables with, each complete."""

from __future__ import annotations

from datetime import UTC, datetime

from trainer.records.tables import (
    Account,
    Answer,
    Attempt,
    AttemptSet,
    Crew,
    Installation,
    InstallationDecision,
    LessonReading,
    Membership,
    Person,
    RoleGrant,
    SignedInSession,
    SignInFailure,
    Site,
    SiteJob,
    SiteRule,
)

AT = datetime(2026, 5, 4, 12, 0, tzinfo=UTC)
LATER = datetime(2026, 5, 4, 18, 0, tzinfo=UTC)


def attempt(person_id: int, **more) -> Attempt:
    given = {
        "person_id": person_id,
        "purpose": "practise",
        "unit": "laps",
        "family": "short-lap",
        "family_version": 1,
        "rulebook_version": "2026-05",
        "profile": "plain",
        "pack_digest": "0" * 64,
        "engine_version": 1,
        "seed": 2**62,
        "mode": "clear-fault",
        "margin": -2.5,
        "facts": {"lap_mm": 60, "primed_at": "09:30"},
        "opened_at": AT,
    }
    return Attempt(**{**given, **more})


def answer(of: Attempt, key: str, **more) -> Answer:
    given = {
        "key": key,
        "attempt_id": of.id,
        "person_id": of.person_id,
        "unit": of.unit,
        "family": of.family,
        "decision": "act",
        "response": {"row": "b"},
        "right": True,
        "critical": False,
        "score": 1.0,
        "misconception": None,
        "mark": {"right": True},
        "server_at": AT,
        "phone_at": AT,
        "language": "en",
        "length_unit": "mm",
        "temperature_unit": "c",
    }
    return Answer(**{**given, **more})


def installation(person_id: int, **more) -> Installation:
    given = {
        "person_id": person_id,
        "purpose": "practise",
        "source": "pack",
        "job": "straight-wall",
        "job_version": 1,
        "job_text": {"id": "straight-wall"},
        "seed": 2**62,
        "limits": {"side-lap": [100, "quality"]},
        "rulebook_version": "2026-05",
        "profile": "plain",
        "pack_digest": "0" * 64,
        "simulator_version": 1,
        "opened_at": AT,
    }
    return Installation(**{**given, **more})


def decided(of: Installation, number: int, key: str, **more) -> InstallationDecision:
    given = {
        "installation_id": of.id,
        "number": number,
        "key": key,
        "decision": {"do": "wait", "minutes": 5},
        "state_digest": "1" * 64,
        "server_at": AT,
    }
    return InstallationDecision(**{**given, **more})


def fill_every_table(session) -> None:
    """At least one row in each table, every column with a value."""
    person = Person(id=1, name="Ana Ruiz", language="es", created_at=AT)
    session.add_all([person, Crew(id=1, name="North")])
    session.add(Site(id=1, name="Mill Street", time_zone="America/Toronto", profile="plain"))
    session.flush()
    session.add_all(
        [
            Membership(person_id=1, crew_id=1, leads=True, starts_at=AT, ends_at=LATER),
            RoleGrant(person_id=1, role="worker", starts_at=AT, ends_at=LATER),
            SiteRule(subject="lap", value=120, unit="mm", reason="wind", person_id=1, set_at=AT),
            Account(
                id=1, person_id=1, sign_in_name="ana", password_hash="x", password_set_at=AT,
                created_at=AT, disabled_at=LATER,
            ),
            LessonReading(person_id=1, unit="laps", lesson_version="1", read_at=AT),
            AttemptSet(
                id=1, person_id=1, unit="laps", forms=[{"seed": 1}], opened_at=AT, closed_at=LATER
            ),
        ]
    )  # fmt: skip
    session.flush()
    session.add_all(
        [
            SignInFailure(
                name_digest="d", account_id=1, count=3, last_at=AT, locked_until=LATER
            ),
            SignedInSession(
                token_digest="t", account_id=1, created_at=AT, last_seen_at=AT, expires_at=LATER,
                ended_at=LATER,
            ),
            attempt(1, id=1, set_id=1, closed_at=LATER),
            SiteJob(
                person_id=1, crew_id=1, name="Yard wall", version=1, spec={"id": "yard"},
                made_at=AT, handed_at=AT, withdrawn_at=LATER,
            ),
            installation(
                1, id=1, closed_at=LATER, outcome={"ended": 980}, best={"end": 900}
            ),
        ]
    )  # fmt: skip
    session.flush()
    session.add(answer(session.get(Attempt, 1), "k" * 16, misconception="counts from the edge"))
    opened = session.get(Installation, 1)
    session.add(
        decided(opened, 1, "d" * 16, phone_at=AT, taken_back_at=LATER, taken_back_key="b" * 16)
    )
    session.add(decided(opened, 1, "e" * 16))
