"""Decisions of an installation: stored once, in order, with the state they led to."""

from __future__ import annotations

import threading
from datetime import UTC, datetime

import pytest
from installed import JOB, LOOK, WAIT, ana, count, key, opened, proving, row_of
from sqlalchemy import select

from trainer.errors import InputError
from trainer.installation.run import Impossible
from trainer.installation.state import as_text
from trainer.records.database import IntegrityError
from trainer.records.tables import (
    InstallationDecision,
)
from trainer.services.installations import store
from trainer.services.installations.replaying import digest
from trainer.services.refusals import Conflict, NotAllowed, NotFound

__all__ = ["ana", "opened", "proving"]


# ---- deciding


def test_a_decision_is_stored_with_the_digest_of_its_state(parts, ana, opened, clock) -> None:
    taken = store.take(parts, ana, opened, 0, LOOK, key(1), "2026-05-04T08:00:07-04:00")
    assert taken == store.Taken(opened, 1, False)
    standing = store.own(parts, ana, opened)
    assert standing.decisions == (LOOK,)
    with parts.database.reading() as session:
        row = session.scalars(select(InstallationDecision)).one()
    assert row.state_digest == digest(standing.state)
    assert row.server_at == clock.now()
    assert row.phone_at == datetime(2026, 5, 4, 12, 0, 7, tzinfo=UTC)


@pytest.mark.parametrize("strange", ["", "yesterday", "2026-05-04T08:00:07", "9" * 400])
def test_a_strange_clock_of_the_phone_loses_no_decision(parts, ana, opened, strange) -> None:
    store.take(parts, ana, opened, 0, LOOK, key(1), strange)
    with parts.database.reading() as session:
        assert session.scalars(select(InstallationDecision.phone_at)).one() is None


def test_a_decision_sent_twice_is_taken_once(parts, ana, opened) -> None:
    sent = [store.take(parts, ana, opened, 0, LOOK, key(1)) for _ in range(3)]
    store.take(parts, ana, opened, 1, WAIT, key(2))
    sent.append(store.take(parts, ana, opened, 0, LOOK, key(1)))
    assert set(sent) == {store.Taken(opened, 1, False)}
    assert count(parts, InstallationDecision) == 2


def test_an_old_page_changes_nothing(parts, ana, opened) -> None:
    store.take(parts, ana, opened, 0, LOOK, key(1))
    for number in (0, 2, -1):
        with pytest.raises(Conflict, match="This page was old"):
            store.take(parts, ana, opened, number, WAIT, key(2))
    assert store.own(parts, ana, opened).decisions == (LOOK,)


@pytest.mark.parametrize(
    ("decision", "error"),
    [
        ({"do": "roll", "who": "ivo", "wall": "A", "sheet": 0}, Impossible),
        ({"do": "fly"}, InputError),
        ({"do": "look", "who": "dana", "wall": "Z"}, InputError),
        ({"do": "look", "who": "dana", "wall": "A", "why": "so"}, InputError),
        ({}, InputError),
    ],
)
def test_what_cannot_be_done_passes_through_and_changes_nothing(
    parts, ana, opened, decision, error
) -> None:
    before = as_text(store.own(parts, ana, opened).state)
    with pytest.raises(error):
        store.take(parts, ana, opened, 0, decision, key(1))
    assert as_text(store.own(parts, ana, opened).state) == before
    assert count(parts, InstallationDecision) == 0
    assert store.take(parts, ana, opened, 0, LOOK, key(1)).number == 1


@pytest.mark.parametrize("bad", ["", "short", "a" * 65, "with space 1234567", None])
def test_a_key_that_is_none_is_refused(parts, ana, opened, bad) -> None:
    with pytest.raises(InputError, match="key"):
        store.take(parts, ana, opened, 0, LOOK, bad)


def test_a_key_belongs_to_one_decision(parts, ana, opened) -> None:
    other = store.open_installation(parts, ana, JOB, seed=5)
    store.take(parts, ana, opened, 0, LOOK, key(1))
    with pytest.raises(Conflict, match="to something else"):
        store.take(parts, ana, other, 0, WAIT, key(1))
    assert store.own(parts, ana, other).number == 0


def test_nobody_learns_of_anothers_installation(parts, ana, opened, sign_in) -> None:
    ben = sign_in("ben")
    for ask in (
        lambda: store.own(parts, ben, opened),
        lambda: store.take(parts, ben, opened, 0, LOOK, key(1)),
        lambda: store.take_back(parts, ben, opened, 0, key(1)),
        lambda: store.own(parts, ana, "nothing-here"),
    ):
        with pytest.raises(NotFound):
            ask()


def test_a_supervisor_sees_those_of_their_own_crew(parts, ana, opened, sign_in) -> None:
    lead = sign_in("lead", roles=("supervisor",), crew="North")
    other = sign_in("other", roles=("supervisor",), crew="South")
    assert store.others(parts, lead, opened).row.public_id == opened
    with pytest.raises(NotAllowed):
        store.others(parts, other, opened)
    with pytest.raises(NotFound):
        store.others(parts, lead, "nothing-here")


# ---- two at once


def test_many_phones_sending_one_decision_at_once_store_it_once(parts, ana, opened) -> None:
    failures, taken = [], []

    def send() -> None:
        try:
            taken.append(store.take(parts, ana, opened, 0, LOOK, key(7)))
        except Exception as error:
            failures.append(error)

    threads = [threading.Thread(target=send) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert failures == [] and set(taken) == {store.Taken(opened, 1, False)}
    assert count(parts, InstallationDecision) == 1


@pytest.fixture
def overtaken_by(monkeypatch):
    """overtaken_by(other): ``other()`` happens between the next decision's look and its writing."""

    def arrange(other) -> None:
        kept = {name: getattr(store, name) for name in ("_stored", "_stored_back")}

        def late(name: str):
            def stored(*given):
                for each, function in kept.items():
                    monkeypatch.setattr(store, each, function)
                other()
                return kept[name](*given)

            return stored

        for name in kept:
            monkeypatch.setattr(store, name, late(name))

    return arrange


def test_of_two_decisions_at_once_the_first_stored_stands(parts, ana, opened, overtaken_by) -> None:
    overtaken_by(lambda: store.take(parts, ana, opened, 0, LOOK, key(1)))
    with pytest.raises(Conflict, match="This page was old"):
        store.take(parts, ana, opened, 0, WAIT, key(2))
    assert store.own(parts, ana, opened).decisions == (LOOK,)


def test_the_same_decision_at_once_is_taken_once(parts, ana, opened, overtaken_by) -> None:
    overtaken_by(lambda: store.take(parts, ana, opened, 0, LOOK, key(1)))
    assert store.take(parts, ana, opened, 0, LOOK, key(1)) == store.Taken(opened, 1, False)
    assert count(parts, InstallationDecision) == 1


def test_a_decision_onto_one_taken_back_meanwhile_is_refused(
    parts, ana, opened, overtaken_by
) -> None:
    store.take(parts, ana, opened, 0, LOOK, key(1))
    overtaken_by(lambda: store.take_back(parts, ana, opened, 1, key(2)))
    with pytest.raises(Conflict, match="This page was old"):
        store.take(parts, ana, opened, 1, WAIT, key(3))
    assert store.own(parts, ana, opened).decisions == ()


def test_taking_back_what_was_built_upon_meanwhile_is_refused(
    parts, ana, opened, overtaken_by
) -> None:
    store.take(parts, ana, opened, 0, LOOK, key(1))
    overtaken_by(lambda: store.take(parts, ana, opened, 1, WAIT, key(2)))
    with pytest.raises(Conflict, match="This page was old"):
        store.take_back(parts, ana, opened, 1, key(3))
    assert store.own(parts, ana, opened).decisions == (LOOK, WAIT)


def test_the_records_themselves_refuse_two_that_stand_under_one_number(
    parts, ana, opened, rows
) -> None:
    row = row_of(parts, opened)
    with pytest.raises(IntegrityError), parts.database.writing() as session:
        session.add_all([rows.decided(row, 1, key(1)), rows.decided(row, 1, key(2))])
    with parts.database.writing() as session:
        back = rows.decided(row, 1, key(1), taken_back_at=rows.LATER, taken_back_key=key(9))
        session.add_all([back, rows.decided(row, 1, key(2))])
    assert count(parts, InstallationDecision) == 2
