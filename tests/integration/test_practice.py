"""Practice on a real database: opened, answered once, explained, remembered."""

from __future__ import annotations

import random
import threading
from datetime import timedelta

import pytest
from sqlalchemy import func, select

from trainer.errors import InputError
from trainer.records.tables import Answer, Attempt
from trainer.services import (
    attempts,
    practice,
    prove,
    recordbook,
    scenario_pages,
)
from trainer.services.content.answers import wrong_responses
from trainer.services.learning import right_response
from trainer.services.refusals import Conflict, NotAllowed, NotFound
from trainer.services.scenarios import library


@pytest.fixture
def ana(sign_in):
    return sign_in("ana")


def key(number: int) -> str:
    return f"{number:032x}"


def opened(parts, person, family: str = "primer-window", mode: str = "clean", seed: int = 3) -> str:
    with parts.database.writing() as session:
        shelf = library(session)
        made = attempts.open_attempt(session, parts, person, shelf, family, mode=mode, seed=seed)
        return made.public_id


def decisions(parts, attempt_id: str):
    with parts.database.reading() as session:
        row = session.scalars(select(Attempt).where(Attempt.public_id == attempt_id)).one()
        return library(session).of(row).decisions


def answer_all(parts, person, attempt_id: str, wrong: bool = False, start: int = 0) -> None:
    for place, decision in enumerate(decisions(parts, attempt_id)):
        response = right_response(decision)
        if wrong:
            response = next((r for _, r in wrong_responses(decision)), response)
        attempts.answer(parts, person, attempt_id, decision.id, response, key(start + place))


def count(parts, table) -> int:
    with parts.database.reading() as session:
        return session.scalar(select(func.count()).select_from(table))


def test_a_scenario_is_opened_answered_and_closed(parts, ana, clock) -> None:
    attempt_id = practice.start(parts, ana, "primer", random.Random(1))
    page = scenario_pages.scenario_page(parts, ana, attempt_id)
    assert page.unit == "primer" and page.current and page.current.verdict is None
    clock.forward(timedelta(minutes=1))
    answer_all(parts, ana, attempt_id)
    page = scenario_pages.scenario_page(parts, ana, attempt_id)
    assert page.done and all(d.verdict and d.verdict.right for d in page.decisions)
    with parts.database.reading() as session:
        row = session.scalars(select(Attempt)).one()
        assert row.closed_at == clock.now() and row.facts and row.rulebook_version


def test_an_answer_sent_twice_is_taken_once(parts, ana) -> None:
    attempt_id = opened(parts, ana)
    decision = decisions(parts, attempt_id)[0]
    for _ in range(3):
        taken = attempts.answer(
            parts, ana, attempt_id, decision.id, right_response(decision), key(1)
        )
        assert taken.decision == decision.id
    assert count(parts, Answer) == 1


def test_many_phones_sending_one_answer_at_once_store_it_once(parts, ana) -> None:
    attempt_id = opened(parts, ana)
    decision = decisions(parts, attempt_id)[0]
    failures = []

    def send() -> None:
        try:
            attempts.answer(parts, ana, attempt_id, decision.id, right_response(decision), key(7))
        except Exception as error:
            failures.append(error)

    threads = [threading.Thread(target=send) for _ in range(12)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert failures == [] and count(parts, Answer) == 1


def test_the_first_answer_stands(parts, ana) -> None:
    attempt_id = opened(parts, ana)
    decision = decisions(parts, attempt_id)[0]
    attempts.answer(parts, ana, attempt_id, decision.id, right_response(decision), key(1))
    with pytest.raises(Conflict):
        attempts.answer(parts, ana, attempt_id, decision.id, right_response(decision), key(2))
    assert count(parts, Answer) == 1


def test_a_later_decision_waits_for_the_earlier(parts, ana) -> None:
    attempt_id = opened(parts, ana)
    later = decisions(parts, attempt_id)[1]
    with pytest.raises(Conflict):
        attempts.answer(parts, ana, attempt_id, later.id, right_response(later), key(1))
    assert count(parts, Answer) == 0


def test_a_key_belongs_to_one_decision(parts, ana) -> None:
    attempt_id = opened(parts, ana)
    first, second = decisions(parts, attempt_id)[:2]
    attempts.answer(parts, ana, attempt_id, first.id, right_response(first), key(1))
    with pytest.raises(Conflict):
        attempts.answer(parts, ana, attempt_id, second.id, right_response(second), key(1))


@pytest.mark.parametrize(
    ("response", "field"),
    [
        ({}, "time"),
        ({"time": "half past ten"}, "time"),
        ({"time": "25:00"}, "time"),
        ({"time": "10,30"}, "time"),
    ],
)
def test_what_cannot_be_taken_names_the_field_and_keeps_nothing(parts, ana, response, field):
    attempt_id = opened(parts, ana)
    decision = decisions(parts, attempt_id)[0]
    assert decision.kind == "time"
    with pytest.raises(InputError) as refused:
        attempts.answer(parts, ana, attempt_id, decision.id, response, key(1))
    assert refused.value.field == field and count(parts, Answer) == 0


@pytest.mark.parametrize("bad", ["", "short", "x" * 65, "has spaces in it, which no key has"])
def test_a_key_that_is_none_is_refused(parts, ana, bad: str) -> None:
    attempt_id = opened(parts, ana)
    decision = decisions(parts, attempt_id)[0]
    with pytest.raises(InputError) as refused:
        attempts.answer(parts, ana, attempt_id, decision.id, right_response(decision), bad)
    assert refused.value.field == "key"


def test_nobody_reaches_into_anothers_scenario(parts, ana, sign_in) -> None:
    attempt_id = opened(parts, ana)
    bo = sign_in("bo")
    with pytest.raises(NotFound):
        scenario_pages.scenario_page(parts, bo, attempt_id)
    decision = decisions(parts, attempt_id)[0]
    with pytest.raises(NotFound):
        attempts.answer(parts, bo, attempt_id, decision.id, right_response(decision), key(1))


def test_an_administrator_practises_nothing(parts, sign_in) -> None:
    with pytest.raises(NotAllowed):
        practice.start(parts, sign_in("adm", roles=("administrator",)), None)


def test_an_unknown_unit_is_named(parts, ana) -> None:
    with pytest.raises(InputError) as refused:
        practice.start(parts, ana, "plumbing")
    assert refused.value.field == "unit" and "primer" in refused.value.allowed


def test_what_went_wrong_comes_back_sooner(parts, ana) -> None:
    answer_all(parts, ana, opened(parts, ana, "torch-stand", "near_miss"), wrong=True)
    answer_all(parts, ana, opened(parts, ana, "watch-end", "clean"), start=40)
    again = 0
    for seed in range(60):
        attempt_id = practice.start(parts, ana, None, random.Random(seed))
        with parts.database.reading() as session:
            row = session.scalars(select(Attempt).where(Attempt.public_id == attempt_id)).one()
            again += row.family == "torch-stand"
    # Five of forty cells are the family's; unweighted that is about 60 × 5 / 39 = 8 draws.
    assert again > 5


def test_the_record_says_what_happened_and_what_keeps_going_wrong(parts, ana) -> None:
    for number in range(2):
        answer_all(
            parts, ana, opened(parts, ana, "primer-window", "clear_fault", number),
            wrong=True, start=100 * number,
        )  # fmt: skip
    record = recordbook.my_record(parts, ana)
    primer = next(unit for unit in record.units if unit.unit == "primer")
    assert len(record.lines) == 2 and "0 of" in record.lines[0].outcome
    assert primer.watch and "2 scenarios practised" in primer.practice
    assert "nobody is signed off" in record.notice


def test_who_may_see_whose_record(parts, add_person, sign_in) -> None:
    whose = add_person("Ana Ruiz", "ana", crew="North")
    other = add_person("Bo Lind", "bo", crew="South")
    lead = sign_in("lee", roles=("supervisor",), crew="North")
    assert recordbook.record_of(parts, lead, whose).person == "Ana Ruiz"
    assert [line.name for line in recordbook.people_list(parts, lead)] == ["Ana Ruiz"]
    with pytest.raises(NotAllowed):
        recordbook.record_of(parts, lead, other)
    desk = sign_in("kim", roles=("coordinator",))
    assert {p.name for p in recordbook.people_list(parts, desk)} == {"Ana Ruiz", "Bo Lind"}
    with pytest.raises(NotAllowed):
        recordbook.record_of(parts, sign_in("cal"), whose)
    with pytest.raises(NotAllowed):
        recordbook.people_list(parts, sign_in("adm", roles=("administrator",)))


def test_people_are_found_by_name_and_by_any_crew_they_are_on(parts, add_person, sign_in) -> None:
    add_person("Ana Ruiz", "ana", crew="North")
    add_person("Nora Lind", "nora", crew="South")
    add_person("Cy 50%", "cy", crew="")
    desk = sign_in("kim", roles=("coordinator",))

    def found(text: str) -> set[str]:
        return {line.name for line in recordbook.people_list(parts, desk, text)}

    assert found("nor") == {"Ana Ruiz", "Nora Lind"}
    assert found("SOUTH") == {"Nora Lind"}
    assert found("%") == {"Cy 50%"}
    assert found("west") == set()
    lead = sign_in("lee", roles=("supervisor",), crew="South")
    assert recordbook.people_list(parts, lead, "north") == ()


def test_the_form_says_nothing_until_it_is_done(parts, ana) -> None:
    start = prove.prove_start(parts, ana, "laps")
    assert "never counts as evidence" in start.notice
    set_id = prove.prove_open(parts, ana, "laps")
    assert prove.prove_open(parts, ana, "laps") == set_id  # goes on with the one left open
    seen = []
    while (attempt_id := prove.prove_next(parts, ana, set_id)) is not None:
        assert prove.prove_next(parts, ana, set_id) == attempt_id  # asking again opens nothing
        seen.append(attempt_id)
        answer_all(parts, ana, attempt_id, start=1000 * len(seen))
        if len(seen) < start.scenarios:
            page = scenario_pages.scenario_page(parts, ana, attempt_id)
            assert all(d.verdict is None for d in page.decisions) and page.of == start.scenarios
    assert len(seen) == start.scenarios
    result = prove.prove_result(parts, ana, set_id)
    assert result.finding == "Every decision was right." and "never counts" in result.notice
    page = scenario_pages.scenario_page(parts, ana, seen[0])
    assert all(d.verdict for d in page.decisions)


def test_a_form_that_is_open_has_no_result(parts, ana) -> None:
    set_id = prove.prove_open(parts, ana, "laps")
    with pytest.raises(NotFound):
        prove.prove_result(parts, ana, set_id)


def test_who_may_read_how_somebody_answered(parts, add_person, sign_in) -> None:
    whose = add_person("Ana Ruiz", "ana", crew="North")
    ana = sign_in("ana")
    attempt_id = opened(parts, ana, "torch-stand", "near_miss")
    answer_all(parts, ana, attempt_id, wrong=True)
    desk = sign_in("kim", roles=("coordinator",))
    name, page = recordbook.scenario_of(parts, desk, whose, attempt_id)
    assert name == "Ana Ruiz" and page.current is None
    assert all(d.verdict and not d.verdict.right for d in page.decisions)
    for stranger in (sign_in("cal"), sign_in("adm", roles=("administrator",))):
        with pytest.raises(NotAllowed):
            recordbook.scenario_of(parts, stranger, whose, attempt_id)
    with pytest.raises(NotFound):
        recordbook.scenario_of(parts, desk, add_person("Bo Lind", "bo"), attempt_id)


def test_a_form_that_is_open_is_told_to_nobody(parts, add_person, sign_in) -> None:
    whose = add_person("Ana Ruiz", "ana")
    ana, desk = sign_in("ana"), sign_in("kim", roles=("coordinator",))
    attempt_id = prove.prove_next(parts, ana, prove.prove_open(parts, ana, "laps"))
    answer_all(parts, ana, attempt_id, wrong=True)
    _, page = recordbook.scenario_of(parts, desk, whose, attempt_id)
    assert all(d.verdict is None for d in page.decisions)
    line = recordbook.my_record(parts, ana).lines[0]
    assert (line.right, line.of, line.critical) == (0, 0, False)
    assert "until the form is finished" in line.outcome
