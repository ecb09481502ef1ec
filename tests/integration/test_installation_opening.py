"""Installations opened: what is stored of the job and the rules, and that it stays so."""

from __future__ import annotations

import dataclasses

import pytest
from installed import JOB, ana, count, decide_by_the_book, opened, proving, row_of

from trainer.errors import InputError
from trainer.installation.limits import limits_of
from trainer.installation.state import as_text, begin
from trainer.pack.jobs import clear_mm_of
from trainer.records.tables import (
    Installation,
    SiteRule,
    canonical,
)
from trainer.services.installations import replaying, store
from trainer.services.refusals import NotAllowed, NotFound
from trainer.services.scenarios import library

__all__ = ["ana", "opened", "proving"]


# ---- opening


def test_what_is_stored_is_the_drawn_job_and_the_limits_in_force(parts, ana, opened) -> None:
    shelf = library()
    row = row_of(parts, opened)
    job = shelf.pack.job(JOB).drawn(3, clear_mm_of(shelf.rules), "en")
    assert canonical(row.job_text) == canonical(job.plain)
    assert replaying.limits_from_plain(row.limits) == limits_of(shelf.rules)
    assert (row.purpose, row.source, row.job, row.seed) == ("practise", "pack", JOB, 3)
    assert (row.pack_digest, row.profile) == (shelf.pack.digest, shelf.rules.profile)
    assert row.closed_at is None and row.outcome is None and row.best is None


def test_it_begins_before_the_first_decision(parts, ana, opened) -> None:
    standing = store.own(parts, ana, opened)
    assert (standing.number, standing.decisions, standing.ended) == (0, (), False)
    assert as_text(standing.state) == as_text(begin(standing.job))
    assert standing.purpose == "practise" and standing.shelf.pack.jobs


def test_an_empty_one_is_taken_again_but_one_with_decisions_is_left(parts, ana, opened) -> None:
    assert store.open_installation(parts, ana, JOB) == opened
    assert store.open_installation(parts, ana, JOB, seed=3) == opened
    other = store.open_installation(parts, ana, JOB, seed=4)
    assert other != opened
    decide_by_the_book(parts, ana, other, 1)
    assert store.open_installation(parts, ana, JOB) != other


def test_who_proves_goes_on_and_does_not_draw_again(parts, ana, proving) -> None:
    decide_by_the_book(parts, ana, proving, 2)
    assert store.open_installation(parts, ana, JOB, purpose="prove") == proving
    assert store.open_installation(parts, ana, JOB, purpose="prove", seed=9) == proving


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"purpose": "learn"}, "purpose"),
        ({"seed": -1}, "seed"),
        ({"seed": 2**63}, "seed"),
        ({"seed": True}, "seed"),
    ],
)
def test_what_cannot_be_opened_names_the_field(parts, ana, given, field) -> None:
    with pytest.raises(InputError) as refused:
        store.open_installation(parts, ana, JOB, **given)
    assert refused.value.field == field
    assert count(parts, Installation) == 0


def test_a_job_nobody_knows_is_not_there(parts, ana) -> None:
    with pytest.raises(NotFound):
        store.open_installation(parts, ana, "no-such-job")


def test_an_auditor_does_not_play(parts, sign_in) -> None:
    with pytest.raises(NotAllowed):
        store.open_installation(parts, sign_in("aud", roles=("auditor",)), JOB)


# ---- the stored job wins


def test_a_job_edited_between_decisions_changes_nothing(parts, ana, opened, monkeypatch) -> None:
    decide_by_the_book(parts, ana, opened, 4)
    before = store.own(parts, ana, opened)
    spec = library().pack.jobs[JOB]
    edited = dataclasses.replace(spec, version=99, spec={**spec.spec, "by_eye_mm": 1})
    monkeypatch.setitem(library().pack.jobs, JOB, edited)
    replaying.forget_all()
    after = store.own(parts, ana, opened)
    assert as_text(after.state) == as_text(before.state)
    assert after.job.by_eye_mm == before.job.by_eye_mm != 1
    fresh = store.open_installation(parts, ana, JOB, seed=8)
    assert (row_of(parts, fresh).job_version, store.own(parts, ana, fresh).job.by_eye_mm) == (99, 1)


def test_a_rule_changed_between_decisions_changes_nothing(parts, ana, opened, clock) -> None:
    before = store.own(parts, ana, opened).limits
    with parts.database.writing() as session:
        session.add(
            SiteRule(
                subject="side-lap", value=120, unit="mm", reason="wind", person_id=ana.id,
                set_at=clock.now(),
            )
        )  # fmt: skip
    replaying.forget_all()
    assert store.own(parts, ana, opened).limits == before
    fresh = store.open_installation(parts, ana, JOB, seed=8)
    assert store.own(parts, ana, fresh).limits["side-lap"].value == 120
