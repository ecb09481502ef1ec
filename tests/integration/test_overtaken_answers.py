"""Two answers at the same moment: both marked, and the records keep one."""

from __future__ import annotations

import pytest
from sqlalchemy import func, select

from trainer.records.tables import Answer
from trainer.services import attempts
from trainer.services.learning import right_response
from trainer.services.refusals import Conflict
from trainer.services.scenarios import library

KEYS = tuple(f"{number:032x}" for number in range(4))


@pytest.fixture
def ana(sign_in):
    return sign_in("ana")


@pytest.fixture
def open_scenario(parts, ana):
    """open_scenario(seed) → public id, first decision and right response."""

    def opened(seed: int):
        with parts.database.writing() as session:
            shelf = library(session)
            made = attempts.open_attempt(session, parts, ana, shelf, "chalk-line", seed=seed)
            decision = shelf.of(made).decisions[0]
            return made.public_id, decision.id, right_response(decision)

    return opened


@pytest.fixture
def overtaken_by(monkeypatch):
    """overtaken_by(other): ``other()`` happens between marking the next answer and storing it."""

    def arrange(other) -> None:
        store = attempts._store

        def late(*given) -> None:
            monkeypatch.setattr(attempts, "_store", store)
            other()
            store(*given)

        monkeypatch.setattr(attempts, "_store", late)

    return arrange


def stored(parts) -> int:
    with parts.database.reading() as session:
        return session.scalar(select(func.count()).select_from(Answer))


def test_the_same_answer_sent_at_the_same_moment_is_taken_once(
    parts, ana, open_scenario, overtaken_by
):
    scenario = open_scenario(1)
    overtaken_by(lambda: attempts.answer(parts, ana, *scenario, KEYS[0]))
    taken = attempts.answer(parts, ana, *scenario, KEYS[0])
    assert taken == attempts.answer(parts, ana, *scenario, KEYS[0])
    assert stored(parts) == 1


def test_of_two_answers_to_one_decision_the_first_stored_stands(
    parts, ana, open_scenario, overtaken_by
):
    scenario = open_scenario(1)
    overtaken_by(lambda: attempts.answer(parts, ana, *scenario, KEYS[0]))
    with pytest.raises(Conflict, match="answered this already"):
        attempts.answer(parts, ana, *scenario, KEYS[1])
    assert stored(parts) == 1


@pytest.mark.parametrize("at_the_same_moment", [False, True])
def test_a_key_belongs_to_one_answer(parts, ana, open_scenario, overtaken_by, at_the_same_moment):
    first, second = open_scenario(1), open_scenario(2)
    if at_the_same_moment:
        overtaken_by(lambda: attempts.answer(parts, ana, *first, KEYS[0]))
    else:
        attempts.answer(parts, ana, *first, KEYS[0])
    with pytest.raises(Conflict, match="to something else"):
        attempts.answer(parts, ana, *second, KEYS[0])
    assert stored(parts) == 1
