"""What an installation shows of the eight units: from findings, and from work done without any."""

from __future__ import annotations

import pytest
from installed import JOB

from trainer.installation.actions import ACTIONS
from trainer.installation.limits import SUBJECTS, limits_of
from trainer.installation.play import play
from trainer.installation.state import Finding, State
from trainer.pack.jobs import clear_mm_of
from trainer.services.installations.evidence import (
    UNIT_OF_ACTION,
    UNIT_OF_SUBJECT,
    evidence,
    unit_of_finding,
    units_of_subjects,
)
from trainer.services.scenarios import library

PACK, RULES = library().pack, library().rules
UNIT_OF = units_of_subjects(PACK.families.values())
WITHOUT_UNIT = {"lunch", "wait for the all-clear"}


def played(by: str, job_id: str = JOB):
    job = PACK.job(job_id).drawn(3, clear_mm_of(RULES))
    return play(job, limits_of(RULES), by)


def of(done) -> dict:
    rows = evidence(done.last, done.decisions, UNIT_OF, PACK.units)
    return {row.unit: row for row in rows}


def test_every_subject_and_every_kind_of_decision_has_a_unit_of_the_pack() -> None:
    assert set(SUBJECTS) <= set(UNIT_OF)
    assert set(ACTIONS) - WITHOUT_UNIT == set(UNIT_OF_ACTION)
    assert {*UNIT_OF.values(), *UNIT_OF_ACTION.values()} == set(PACK.units)


def test_the_unit_of_a_subject_is_where_most_families_ask_about_it() -> None:
    """Counted by hand from the families of the pack."""
    wanted = {
        "primer-never-after": "primer",
        "fire-watch": "fire-watch",
        "gusset-cover": "corners",
        "side-lap": "laps",
        "cylinder-to-burner": "flame",
        "openings-covered": "hazards",
        "t-joint-cut": "corners",
        "end-of-day-seal": "placing",
    }
    assert {subject: UNIT_OF[subject] for subject in wanted} == wanted
    named = {s for family in PACK.families.values() for s in family.rules.values()}
    assert set(SUBJECTS) - named <= set(UNIT_OF_SUBJECT)


def test_a_day_by_the_book_shows_every_unit_it_has_work_of_and_contradicts_none() -> None:
    rows = of(played("book", "inside-corner"))
    assert list(rows) == list(PACK.units)
    assert all(row.showed for row in rows.values())
    assert not any(row.contradicted or row.critical for row in rows.values())


def test_each_finding_stands_once_in_its_unit_with_its_decision() -> None:
    done = played("careless")
    rows = of(done)
    told = [part for row in rows.values() for part in row.contradicted]
    assert done.last.findings and len(told) == len(done.last.findings)
    for row in rows.values():
        for part in row.contradicted:
            assert unit_of_finding(part.finding, UNIT_OF) == row.unit
            assert part.number == part.finding.cause
        assert not {part.number for part in told} & set(row.showed)


def test_what_was_shown_is_a_decision_of_that_unit() -> None:
    done = played("book")
    for unit, row in of(done).items():
        assert all(UNIT_OF_ACTION[done.decisions[n - 1]["do"]] == unit for n in row.showed)


@pytest.mark.parametrize("severity", ["critical", "quality"])
def test_work_that_was_not_done_or_went_wrong_shows_nothing(severity) -> None:
    state = State(now=600)
    state.log = [
        {"at": 500, "kind": "done", "n": 1, "do": "look"},
        {"at": 510, "kind": "done", "n": 2, "do": "prime"},
        {"at": 520, "kind": "broke off", "n": 3, "who": "ivo"},
    ]
    state.findings = [Finding("wet-surface", "wall A", severity, 510, 2, {})]
    decisions = [{"do": "look"}, {"do": "prime"}, {"do": "weld"}, {"do": "wait"}]
    rows = {row.unit: row for row in evidence(state, decisions, UNIT_OF, PACK.units)}
    assert rows["hazards"].showed == (1,)
    assert rows["primer"].showed == () and rows["laps"].showed == ()
    assert [part.number for part in rows["primer"].contradicted] == [2]
    assert rows["primer"].critical == (severity == "critical")


def test_a_lap_left_on_its_film_contradicts_laps_and_a_wrinkle_placing() -> None:
    state = State(now=600)
    film, wrinkle = (
        Finding("defects-rejected", place, "quality", 510, 1, facts)
        for place, facts in (("lap A:1", {"film": True}), ("A:1", {}))
    )
    state.findings = [film, wrinkle]
    rows = {row.unit: row for row in evidence(state, [{"do": "lay"}], UNIT_OF, PACK.units)}
    assert [part.finding for part in rows["laps"].contradicted] == [film]
    assert [part.finding for part in rows["placing"].contradicted] == [wrinkle]


def test_the_same_look_again_shows_nothing_new() -> None:
    state = State(now=600)
    state.log = [{"at": 500 + n, "kind": "done", "n": n, "do": "look"} for n in (1, 2, 3)]
    decisions = [
        {"do": "look", "who": w, "wall": x} for w, x in (("a", "A"), ("b", "A"), ("a", "B"))
    ]
    rows = {row.unit: row for row in evidence(state, decisions, UNIT_OF, PACK.units)}
    assert rows["hazards"].showed == (1, 3)
