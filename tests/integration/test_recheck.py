"""Every stored mark can be worked out again, and a changed one is found."""

from __future__ import annotations

import pytest
from sqlalchemy import update

from tests.integration.test_practice import answer_all, opened
from trainer.records.tables import Answer, Attempt
from trainer.services import catalogue, rechecking

CELLS = [(family, mode) for family, mode in catalogue.cells() if mode in ("clean", "compound")]


@pytest.fixture
def ana(sign_in):
    return sign_in("ana")


def found(parts) -> list[str]:
    return [problem for problems in rechecking.every(parts) for problem in problems]


def test_every_family_comes_out_the_same_again(parts, ana) -> None:
    for number, (family, mode) in enumerate(CELLS):
        attempt_id = opened(parts, ana, family, mode, seed=number)
        answer_all(parts, ana, attempt_id, wrong=bool(number % 2), start=100 * number)
    assert rechecking.count(parts) == len(CELLS)
    assert found(parts) == []


def change(parts, table, **values) -> None:
    with parts.database.writing() as session:
        session.execute(update(table).values(**values))


@pytest.fixture
def answered(parts, ana) -> str:
    attempt_id = opened(parts, ana, "primer-window", "clear_fault", seed=5)
    answer_all(parts, ana, attempt_id, wrong=True)
    assert found(parts) == []
    return attempt_id


def test_a_mark_made_right_by_hand_is_found(parts, answered) -> None:
    change(parts, Answer, right=True)
    assert any("right or critical changed" in problem for problem in found(parts))


def test_a_changed_answer_is_found(parts, answered) -> None:
    change(parts, Answer, response={"minute": 1})
    assert found(parts)


def test_a_changed_drawn_value_is_found_and_named(parts, answered) -> None:
    change(parts, Attempt, facts={"age_min": 5})
    assert any("drawn values differ" in p and "age_min" in p for p in found(parts))


def test_a_changed_seed_is_found(parts, answered) -> None:
    change(parts, Attempt, seed=6)
    assert any("drawn values differ" in problem for problem in found(parts))


def test_a_family_that_is_gone_is_said_and_not_a_fault(parts, answered) -> None:
    change(parts, Attempt, family="long-forgotten")
    assert any("long-forgotten" in problem for problem in found(parts))
