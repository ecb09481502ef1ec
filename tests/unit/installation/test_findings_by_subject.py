"""Every subject of the rule book: a state that has the finding, its twin just inside the limit.

The limits are those of ``scenarios/rulebook.yaml``, checked against their sources in
tests/published/test_rulebook_values.py. Each case names the value that goes one step too far.
"""

import pytest

from tests.unit.installation.finding_cases import CASES, SMOKE, VALUES_ONLY
from tests.unit.installation.finding_states import (
    FAR,
    PRIME,
    READY,
    after_flame,
    air,
    laid,
    lit,
    loose_at,
    low_wall,
    marked,
    nailer,
    opening_at,
    rain,
    two_laid,
)
from tests.unit.installation.small_jobs import LEAVE, LIMITS, alone, do, small_job, subjects, wait
from trainer.installation.limits import SUBJECTS


@pytest.mark.parametrize("subject", CASES)
def test_a_step_too_far_is_found(subject):
    wrong, right = CASES[subject]
    assert subject in subjects(wrong())
    assert subject not in subjects(right())


def test_every_subject_has_its_two_states():
    assert set(CASES) | set(VALUES_ONLY) == set(SUBJECTS)
    assert not set(CASES) & set(VALUES_ONLY)
    assert set(LIMITS) == set(SUBJECTS), "the rule book in force knows every subject"


@pytest.mark.parametrize(
    ("subject", "wrong", "right"),
    [
        # 6 ft = 1 829 mm in the law, 1 800 mm in the rule book
        (
            "guardrail-height",
            lambda: alone(low_wall(300, drop_mm=1801), do("look", wall="A")),
            lambda: alone(low_wall(300, drop_mm=1800), do("look", wall="A")),
        ),
        (
            "guardrail-height",
            lambda: alone(low_wall(300), do("prime", wall="A", stretch=(0, 500))),
            lambda: alone(low_wall(300), do("rail", wall="A"), PRIME),
        ),
        (
            "guardrail-height",
            lambda: alone(low_wall(300), do("look", wall="A")),
            lambda: alone(low_wall(300), do("ask", wall="A")),
        ),
        (
            "cold-storage",
            lambda: laid(small_job(weather=air(9), rolls=[{"id": "r1", "cold": True}])),
            lambda: laid(small_job(weather=air(9), rolls=[{"id": "r1", "cold": False}])),
        ),
        # 915 mm past the end of the nailer, along the wall
        (
            "torch-to-combustible",
            lambda: lit(nailer(1000), spot={"wall": "A", "at": 86, "off": 0}),
            lambda: lit(nailer(1000), spot={"wall": "A", "at": 85, "off": 0}),
        ),
        (
            "torch-to-combustible",
            lambda: lit(nailer(), spot={"wall": "A", "at": 86, "off": 0}),
            lambda: lit(
                nailer(),
                do("look", wall="A"),
                do("cover", thing="nail"),
                spot={"wall": "A", "at": 86, "off": 0},
            ),
        ),
        (
            "openings-covered",
            lambda: lit(opening_at(7700)),
            lambda: lit(opening_at(7700), do("look", wall="A"), do("cover", thing="vent")),
        ),
        (
            "combustibles-distance",
            lambda: lit(loose_at(7700)),
            lambda: lit(loose_at(7700), do("clear", thing="bags")),
        ),
        (
            "combustibles-distance",
            lambda: lit(loose_at(7700)),
            lambda: lit(loose_at(7700), do("cover", thing="bags")),
        ),
        # release film on the roof, wherever the torch is
        (
            "combustibles-distance",
            lambda: alone(small_job(), *READY, do("light", **FAR), state=laid(small_job())),
            lambda: alone(
                small_job(), do("bag film"), *READY, do("light", **FAR), state=laid(small_job())
            ),
        ),
        # the open can stands at the end of the stretch, 500 mm from the wall: 2800, 500
        (
            "wet-primer-to-flame",
            lambda: lit(small_job(), PRIME, wait(60), spot=FAR | {"at": 2800, "off": 8119}),
            lambda: lit(small_job(), PRIME, wait(60), spot=FAR | {"at": 2800, "off": 8120}),
        ),
        (
            "fire-watch",
            lambda: after_flame(do("close permit", "noor"), watched=115),
            lambda: after_flame(do("close permit", "noor"), watched=116),
        ),
        (
            "fire-watch",
            lambda: after_flame(do("end watch", "ivo"), watched=119),
            lambda: after_flame(do("end watch", "ivo")),
        ),
        (
            "watch-duties",
            lambda: alone(small_job(happenings=[SMOKE]), wait(), wait(5)),
            lambda: alone(small_job(happenings=[SMOKE]), wait(), do("look", wall="A"), wait(30)),
        ),
        # primer that the rain fell on, and primer that it did not reach in time
        (
            "wet-surface",
            lambda: laid(rain(["08:00", "08:05"])),
            lambda: laid(rain(["12:00", "12:05"])),
        ),
        (
            "wet-weather",
            lambda: laid(rain(["08:50", "08:55"])),
            lambda: laid(rain(["08:56", "09:05"])),
        ),
        (
            "defects-rejected",
            lambda: laid(small_job(weather={"gusts": [["08:54", "09:00"]]})),
            lambda: laid(small_job(weather={"gusts": [["08:55", "09:00"]]})),
        ),
        # leaving with the torch lit, and with it out
        (
            "lit-torch-left",
            lambda: alone(small_job(), LEAVE, state=lit(small_job())),
            lambda: after_flame(LEAVE),
        ),
        (
            "lit-torch-left",
            lambda: alone(small_job(), do("watch", "dana"), state=lit(small_job())),
            lambda: alone(small_job(), do("watch", "noor"), state=lit(small_job())),
        ),
        (
            "surface-above-dew-point",
            lambda: laid(small_job(weather=air(20, 78))),
            lambda: laid(small_job(weather=air(20, 77))),
        ),
    ],
)
def test_other_limits_of_a_finding(subject, wrong, right):
    assert subject in subjects(wrong())
    assert subject not in subjects(right())


def test_an_open_lap_is_found_once_both_sheets_are_rolled_and_ends_with_the_weld():
    job = small_job()
    state = two_laid(650, 100)
    rolls = [do("roll", wall="A", sheet=k) for k in (0, 1)]
    state = alone(job, *rolls, state=state)
    films = [f for f in state.findings if f.facts.get("film")]
    assert [(f.subject, f.place, f.at, f.until) for f in films] == [
        ("defects-rejected", "lap A:1", state.now, None)
    ]
    spot = {"wall": "A", "at": 2000, "off": 0}
    welds = [*READY, do("bag film"), do("light", **spot), do("weld", wall="A", lap=1)]
    state = alone(job, *welds, state=state)
    film = next(f for f in state.findings if f.facts.get("film"))
    assert film.until == state.now


def test_a_subject_without_a_rule_in_force_finds_nothing():
    without = {k: v for k, v in LIMITS.items() if k != "side-lap"}
    job = small_job()
    marks = marked(laps=[650, 1250, 1900], lap_mm=50)
    before = [*marks, do("cut", strips=2, roll="r1"), PRIME, wait(40)]
    state = alone(job, *before, do("lay", wall="A", sheet=0, through=1), limits=without)
    assert "side-lap" not in subjects(state)
    assert subjects(state) == set()


@pytest.mark.parametrize("subject", SUBJECTS)
def test_a_finding_has_its_rules_severity_and_names_a_decision(subject):
    if subject in VALUES_ONLY:
        return
    state = CASES[subject][0]()
    for finding in state.findings:
        assert finding.severity == LIMITS[finding.subject].severity
        assert 0 <= finding.cause <= state.n
        assert finding.until is None or finding.until >= finding.at
