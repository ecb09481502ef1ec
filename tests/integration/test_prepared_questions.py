"""What is asked past SQLAlchemy comes back as SQLAlchemy itself, the peer here, brings it."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest
from sqlalchemy import select

from trainer.records.queries.accounts import _OPEN_SESSION
from trainer.records.queries.prepared import Question
from trainer.records.queries.standing import _STANDING
from trainer.records.tables import AttemptSet, SignedInSession


def both_ways(database, statement, given):
    with database.asking() as connection:
        theirs = [row._asdict() for row in connection.execute(statement, given)]
        ours = [row._asdict() for row in Question(statement).ask(connection, given)]
    return ours, theirs


@pytest.mark.parametrize("answered", [True, False], ids=["answered", "untouched"])
def test_how_an_attempt_stands(database, rows, sign_in, answered):
    ana = sign_in("ana")
    with database.writing() as session:
        form = AttemptSet(person_id=ana.id, unit="laps", forms=[{"seed": 1}], opened_at=rows.AT)
        session.add(form)
        session.flush()
        made = rows.attempt(ana.id, set_id=form.id, closed_at=rows.LATER)
        session.add(made)
        session.flush()
        if answered:
            session.add(rows.answer(made, "k" * 16))
        given = {"public_id": made.public_id, "person_id": ana.id}
    ours, theirs = both_ways(database, _STANDING._statement, given)
    assert ours == theirs
    assert [row["decision"] for row in ours] == (["act"] if answered else [None])
    assert ours[0]["right"] is (True if answered else None)
    assert (ours[0]["forms"], ours[0]["closed_at"]) == ([{"seed": 1}], rows.LATER)


def test_whose_session_it_is(database, clock, sign_in):
    ana = sign_in("ana", roles=("worker", "supervisor"))
    with database.reading() as session:
        digest = session.scalar(select(SignedInSession.token_digest))
    given = {"token_digest": digest, "at": clock.now(), "seen_after": clock.now() - timedelta(1)}
    ours, theirs = both_ways(database, _OPEN_SESSION, given)
    assert ours == theirs
    assert {row["role"] for row in ours} == ana.roles
    assert isinstance(ours[0]["last_seen_at"], datetime)


def test_a_value_left_out_is_never_taken_as_empty(database):
    with database.asking() as connection, pytest.raises(KeyError, match="person_id"):
        _STANDING.ask(connection, {"public_id": "x"})
