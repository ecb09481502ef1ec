"""Every stored installation is worked out again, and what was changed by hand is found."""

from __future__ import annotations

import pytest
from installed import JOB, decide_by_the_book, key
from sqlalchemy import update

from trainer.records.tables import Installation, InstallationDecision
from trainer.services import rechecking
from trainer.services.installations import store


@pytest.fixture
def ana(sign_in):
    return sign_in("ana")


def found(parts) -> list[str]:
    return [problem for problems in rechecking.every(parts) for problem in problems]


def change(parts, table, **values) -> None:
    with parts.database.writing() as session:
        session.execute(update(table).values(**values))


def change_one(parts, number: int, **values) -> None:
    with parts.database.writing() as session:
        chosen = InstallationDecision.number == number
        session.execute(update(InstallationDecision).where(chosen).values(**values))


@pytest.fixture
def finished(parts, ana) -> str:
    opened = store.open_installation(parts, ana, JOB, seed=3)
    assert decide_by_the_book(parts, ana, opened).ended
    assert found(parts) == []
    return opened


def test_open_ended_and_stepped_back_come_out_the_same_again(parts, ana, finished) -> None:
    store.open_installation(parts, ana, JOB, seed=4)
    stepped = store.open_installation(parts, ana, "inside-corner", seed=5)
    number = decide_by_the_book(parts, ana, stepped, 8).number
    for back in range(3):
        store.take_back(parts, ana, stepped, number - back, key(90 + back))
    store.take(parts, ana, stepped, number - 3, {"do": "wait", "minutes": 7}, key(99))
    decide_by_the_book(parts, ana, stepped, 5)
    assert rechecking.count(parts) == 3
    assert found(parts) == []


def test_a_digest_changed_by_hand_is_found_and_named(parts, finished) -> None:
    change_one(parts, 7, state_digest="0" * 64)
    assert found(parts) == [
        f"installation {finished}: decision 7: leads to another state than stored"
    ]


def test_a_decision_changed_by_hand_is_found_from_there_on(parts, finished) -> None:
    change_one(parts, 1, decision={"do": "wait", "minutes": 600})
    assert any("decision 1: leads to another state" in problem for problem in found(parts))


def test_a_decision_that_can_no_longer_be_taken_is_found(parts, finished) -> None:
    change_one(parts, 3, decision={"do": "sing"})
    assert any("decision 3: was taken, now refused" in problem for problem in found(parts))


def test_an_outcome_made_better_by_hand_is_found(parts, ana) -> None:
    opened = store.open_installation(parts, ana, JOB, seed=3)
    store.take(parts, ana, opened, 0, {"do": "leave"}, key(1))
    assert found(parts) == []
    change(parts, Installation, outcome={"ended": 450, "how": "left", "missing": []})
    assert any("outcome: stored" in problem for problem in found(parts))


def test_one_closed_by_hand_is_found(parts, ana, clock) -> None:
    store.open_installation(parts, ana, JOB, seed=3)
    change(parts, Installation, closed_at=clock.now())
    assert any("not at its end" in problem for problem in found(parts))


def test_a_limit_or_a_job_changed_by_hand_is_found(parts, finished) -> None:
    from sqlalchemy import select

    with parts.database.reading() as session:
        row = session.scalars(select(Installation)).one()
    change(parts, Installation, limits={**row.limits, "relaxing-time": [600, "quality"]})
    assert any("leads to another state" in problem for problem in found(parts))
    change(parts, Installation, limits=row.limits)
    assert found(parts) == []
    change(parts, Installation, job_text={**row.job_text, "by_eye_mm": "wide"})
    assert any("its job cannot be read" in problem for problem in found(parts))


def test_a_job_taken_out_of_the_pack_is_no_fault(parts, finished) -> None:
    change(parts, Installation, job="long-forgotten", job_version=77)
    assert found(parts) == []


def test_a_decision_that_is_gone_is_found(parts, finished) -> None:
    with parts.database.writing() as session:
        session.execute(
            InstallationDecision.__table__.delete().where(InstallationDecision.number == 4)
        )
    assert any("a decision before it is missing" in problem for problem in found(parts))
