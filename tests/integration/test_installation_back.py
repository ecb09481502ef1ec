"""Stepping back, the end of an installation, and states that are kept or worked out again."""

from __future__ import annotations

import pytest
from installed import (
    LOOK,
    WAIT,
    ana,
    count,
    decide_by_the_book,
    key,
    next_by_the_book,
    opened,
    proving,
    row_of,
)
from sqlalchemy import update

from trainer.installation.run import Ended
from trainer.installation.state import as_text
from trainer.records.tables import (
    InstallationDecision,
)
from trainer.services.installations import replaying, store
from trainer.services.installations.replaying import states
from trainer.services.refusals import Conflict

__all__ = ["ana", "opened", "proving"]


# ---- taking back


def test_the_last_decision_is_taken_back_and_not_deleted(parts, ana, opened, clock) -> None:
    for number, decision in enumerate((LOOK, WAIT)):
        store.take(parts, ana, opened, number, decision, key(number))
    before = as_text(store.own(parts, ana, opened).state)
    assert store.take_back(parts, ana, opened, 2, key(5)) == store.Taken(opened, 1, False)
    assert store.take_back(parts, ana, opened, 2, key(5)) == store.Taken(opened, 1, False)
    standing = store.own(parts, ana, opened)
    assert standing.decisions == (LOOK,) and as_text(standing.state) != before
    assert [step.taken_back_at for step in standing.steps] == [None, clock.now()]
    store.take(parts, ana, opened, 1, WAIT, key(6))
    assert as_text(store.own(parts, ana, opened).state) == before


def test_going_another_way_after_stepping_back(parts, ana, opened) -> None:
    store.take(parts, ana, opened, 0, LOOK, key(1))
    store.take_back(parts, ana, opened, 1, key(2))
    other = {"do": "measure", "who": "dana", "wall": "A"}
    store.take(parts, ana, opened, 0, other, key(3))
    standing = store.own(parts, ana, opened)
    assert standing.decisions == (other,)
    drawn = replaying.Drawn(standing.job, standing.limits)
    assert as_text(standing.state) == as_text(states(drawn, [other])[-1])


def test_a_decision_sent_again_after_it_was_taken_back_is_not_taken_again(
    parts, ana, opened
) -> None:
    store.take(parts, ana, opened, 0, LOOK, key(1))
    store.take_back(parts, ana, opened, 1, key(2))
    assert store.take(parts, ana, opened, 0, LOOK, key(1)) == store.Taken(opened, 1, False)
    assert store.own(parts, ana, opened).number == 0


def test_what_cannot_be_taken_back(parts, ana, opened, proving) -> None:
    with pytest.raises(Conflict, match="Nothing has been decided"):
        store.take_back(parts, ana, opened, 0, key(1))
    store.take(parts, ana, opened, 0, LOOK, key(2))
    with pytest.raises(Conflict, match="This page was old"):
        store.take_back(parts, ana, opened, 0, key(3))
    store.take(parts, ana, proving, 0, LOOK, key(4))
    with pytest.raises(Conflict, match="while you prove"):
        store.take_back(parts, ana, proving, 1, key(5))
    assert store.own(parts, ana, proving).number == store.own(parts, ana, opened).number == 1


# ---- the end


def test_the_last_decision_closes_it_with_its_outcome(parts, ana, opened, clock) -> None:
    assert store.take(parts, ana, opened, 0, {"do": "leave"}, key(1)).ended
    row = row_of(parts, opened)
    assert row.closed_at == clock.now()
    assert row.outcome["how"] == "left" and "wall A" in row.outcome["missing"]
    assert row.outcome["findings"] == {"critical": 0, "quality": 0}
    with pytest.raises(Ended):
        store.take(parts, ana, opened, 1, WAIT, key(2))
    with pytest.raises(Ended):
        store.take_back(parts, ana, opened, 1, key(3))
    assert store.take(parts, ana, opened, 0, {"do": "leave"}, key(1)).ended


def test_a_whole_day_by_the_book_ends_clean(parts, ana, proving) -> None:
    standing = decide_by_the_book(parts, ana, proving)
    outcome = row_of(parts, proving).outcome
    assert standing.ended and outcome["missing"] == []
    assert outcome["findings"] == {"critical": 0, "quality": 0}
    assert outcome["ended"] == standing.state.ended


def test_the_end_is_stored_with_its_decision_or_not_at_all(parts, ana, opened, monkeypatch) -> None:
    def broken(*given):
        raise RuntimeError("the power went")

    monkeypatch.setattr(store.queries, "close", broken)
    with pytest.raises(RuntimeError):
        store.take(parts, ana, opened, 0, {"do": "leave"}, key(1))
    assert count(parts, InstallationDecision) == 0
    assert not store.own(parts, ana, opened).ended


# ---- kept and worked out again


def test_a_new_process_works_out_the_same_state_byte_for_byte(parts, ana, opened) -> None:
    kept = as_text(decide_by_the_book(parts, ana, opened, 25).state)
    replaying.forget_all()
    assert as_text(store.own(parts, ana, opened).state) == kept


def test_a_page_after_a_decision_replays_nothing(parts, ana, opened, monkeypatch) -> None:
    decide_by_the_book(parts, ana, opened, 6)
    asked = []
    monkeypatch.setattr(replaying, "decide", lambda *given: asked.append(given))
    assert store.own(parts, ana, opened).number == 6
    assert asked == []


def test_a_decision_leaves_the_kept_state_before_it_alone(parts, ana, opened) -> None:
    decide_by_the_book(parts, ana, opened, 5)
    before = store.own(parts, ana, opened)
    text = as_text(before.state)
    store.take(parts, ana, opened, 5, next_by_the_book(before), key(77))
    assert as_text(before.state) == text


def test_what_another_version_decided_is_said_plainly(parts, ana, opened) -> None:
    store.take(parts, ana, opened, 0, LOOK, key(1))
    with parts.database.writing() as session:
        session.execute(
            update(InstallationDecision).values(decision={"do": "sing"}, state_digest="0" * 64)
        )
    with pytest.raises(Conflict, match=r"another version of the program: decision 1"):
        store.own(parts, ana, opened)
