"""What the services ask of the tables: whose crew, which role when, the latest answers."""

from __future__ import annotations

from datetime import timedelta

import pytest
from sqlalchemy import select, text

from trainer.records.queries import attempts, outcomes, people
from trainer.records.tables import Answer, LessonReading, Membership, Person, RoleGrant, SiteRule

HOUR = timedelta(hours=1)


@pytest.fixture
def crews(sign_in):
    """A supervisor who leads North, one worker there, one on South."""
    lead = sign_in("lead", roles=("supervisor",), crew="North")
    return lead, sign_in("ana", crew="North"), sign_in("ben", crew="South")


def test_a_supervisor_leads_their_own_crew_only(database, clock, crews):
    lead, ana, ben = (person.id for person in crews)
    with database.reading() as session:
        assert people.leads(session, lead, ana, clock.now())
        assert not people.leads(session, lead, ben, clock.now())
        assert not people.leads(session, ana, lead, clock.now())
        names = [person.name for person in people.led_people(session, lead, clock.now())]
    assert names == ["Ana", "Lead"]


def test_leaving_a_crew_ends_it_from_that_moment(database, clock, crews):
    lead, ana, _ = (person.id for person in crews)
    left = clock.now() + HOUR
    with database.writing() as session:
        session.scalar(select(Membership).where(Membership.person_id == ana)).ends_at = left
    with database.reading() as session:
        before, at = left - timedelta(microseconds=1), left
        assert people.leads(session, lead, ana, before)
        assert not people.leads(session, lead, ana, at)


def test_roles_hold_from_their_start_up_to_their_end(database, clock, sign_in):
    ana, start = sign_in("ana").id, clock.now() + HOUR
    with database.writing() as session:
        session.add(RoleGrant(person_id=ana, role="auditor", starts_at=start, ends_at=start + HOUR))
    with database.reading() as session:
        held = [people.roles(session, ana, start + n * HOUR / 2) for n in (-1, 0, 1, 2)]
    assert held == [{"worker"}, {"worker", "auditor"}, {"worker", "auditor"}, {"worker"}]


def test_the_latest_site_rule_of_a_subject_counts(database, rows, sign_in):
    ana = sign_in("ana").id
    with database.writing() as session:
        for value in (120, None):
            session.add(
                SiteRule(
                    subject="lap", value=value, unit="mm", reason="x", person_id=ana, set_at=rows.AT
                )
            )
            session.flush()
    with database.reading() as session:
        assert [(r.subject, r.value) for r in people.site_rules(session)] == [("lap", None)]


@pytest.fixture
def worked(database, rows, sign_in):
    """Ana: three attempts an hour apart, two answers each, the first of each right."""
    ana = sign_in("ana").id
    with database.writing() as session:
        for n in range(3):
            at = rows.AT + n * HOUR
            attempt = rows.attempt(ana, family=f"family-{n}", opened_at=at)
            session.add(attempt)
            session.flush()
            for k, right in enumerate((True, False)):
                key = f"key-{n}-{k}".ljust(16, "x")
                session.add(rows.answer(attempt, key, decision=f"d{k}", right=right, server_at=at))
        session.add(LessonReading(person_id=ana, unit="laps", lesson_version="1", read_at=rows.AT))
    return ana


def test_history_is_newest_first_page_by_page(database, rows, worked):
    with database.reading() as session:
        first = outcomes.of_person(session, worked, limit=2)
        rest = outcomes.of_person(session, worked, 2, before=first[-1].opened_at)
    assert [(r.family, r.answers, r.right) for r in first] == [
        ("family-2", 2, 1),
        ("family-1", 2, 1),
    ]
    assert [r.family for r in rest] == ["family-0"]


def test_an_attempt_comes_back_as_it_was_kept(database, rows, worked):
    with database.reading() as session:
        kept = next(attempts.every_attempt(session))
        by_name = attempts.attempt(session, kept.public_id)
        assert by_name is kept
        answers = attempts.answers_of(session, kept.id)
    fresh = rows.attempt(worked)
    assert (kept.facts, kept.seed, kept.margin) == (fresh.facts, 2**62, -2.5)
    assert [answer.decision for answer in answers] == ["d0", "d1"]
    assert answers[0].response == {"row": "b"}


def test_totals_and_latest_answers_of_a_unit(database, rows, worked):
    with database.reading() as session:
        totals = outcomes.totals_by_unit(session, worked)
        latest = attempts.latest_answers(session, worked, "laps", 2)
        read = attempts.latest_readings(session, worked)
    counted = [(t.unit, t.scenarios, t.answers, t.right, t.last_at) for t in totals]
    assert counted == [("laps", 3, 6, 3, rows.AT + 2 * HOUR)]
    assert {row.family for row in latest} == {"family-2"}
    assert [tuple(row) for row in read] == [("laps", rows.AT)]


def test_latest_answers_are_read_from_the_index_alone(database, worked):
    asked = (
        select(Answer.family, Answer.right, Answer.critical, Answer.score, Answer.misconception)
        .where(Answer.person_id == worked, Answer.unit == "laps")
        .order_by(Answer.server_at.desc())
        .limit(5)
    )
    with database.reading() as session:
        sql = asked.compile(session.bind, compile_kwargs={"literal_binds": True})
        plan = [row.detail for row in session.execute(text(f"EXPLAIN QUERY PLAN {sql}"))]
    assert len(plan) == 1  # no sorting step beside the search
    assert "COVERING INDEX ix_answers_latest (person_id=? AND unit=?)" in plan[0]


def test_finding_the_session_needs_no_scan(database):
    from trainer.records.queries.accounts import _OPEN_SESSION

    sql = str(_OPEN_SESSION.compile(dialect=database._reader.dialect))
    with database.reading() as session:
        connection = session.connection().connection
        plan = connection.execute(f"EXPLAIN QUERY PLAN {sql}", ("x",) * sql.count("?")).fetchall()
    assert not [row for row in plan if row[3].startswith("SCAN")]


def test_a_person_is_found_by_public_id_alone(database, sign_in):
    ana = sign_in("ana")
    with database.reading() as session:
        assert people.person(session, ana.public_id).id == ana.id
        assert people.person(session, str(ana.id)) is None
        assert session.scalar(select(Person.name).where(Person.id == ana.id)) == "Ana"


def test_a_row_put_in_directly_is_as_good_as_any(database, clock):
    from trainer.records.insert import insert_row

    with database.writing() as session:
        made = insert_row(session, Person, name="Ana", created_at=clock.now())
        assert session.get(Person, made).name == "Ana"
    with database.reading() as session:
        kept = session.get(Person, made)
    assert (kept.length_unit, kept.created_at, len(kept.public_id)) == ("mm", clock.now(), 12)
