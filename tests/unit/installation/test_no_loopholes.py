"""Ways round the rules that somebody could try, and sums that a foreman would make otherwise."""

import pytest

from tests.unit.installation.finding_states import FAR, READY, after_flame, lit, low_wall
from tests.unit.installation.small_jobs import (
    LEAVE,
    LIMITS,
    MINUTES,
    alone,
    corner_job,
    do,
    played,
    small_job,
    standing,
    subjects,
    wait,
)
from trainer.installation.laps import missing
from trainer.installation.run import Impossible

CORNER_MARKS = [
    do("snap", wall="A", distance=160),
    do("snap", wall="B", distance=160),
    do("set out", wall="A", laps=[900], lap_mm=100),
    do("set out", wall="B", laps=[], lap_mm=100),
]
CORNER_PRIMER = [
    do("prime", wall="A", stretch=(0, 2300)),
    do("prime", wall="B", stretch=(0, 1300)),
    do("close cans"),
]


def finding(state, subject):
    return next(f for f in state.findings if f.subject == subject)


def strip_cut(job, *before, spot):
    return alone(job, *READY, do("cut", strips=1, roll="r1"), *before, do("light", **spot))


# ---- the flame -------------------------------------------------------------------------------


@pytest.mark.parametrize(("at", "is_found"), [(1301, True), (1300, False)])
def test_film_is_preheated_away_from_every_wall(at, is_found):
    """2 300 mm along wall A stands wall B: 999 mm before it, though 3 m from wall A."""
    job = corner_job()
    state = strip_cut(job, spot={"wall": "A", "at": at, "off": 1200})
    state = alone(job, do("preheat", strips=1), state=state)
    assert ("film-preheat-distance" in subjects(state)) is is_found
    if is_found:
        assert finding(state, "film-preheat-distance").facts["distance_mm"] == 2300 - at


def test_preheating_near_is_the_fault_of_whoever_preheats():
    job = small_job()
    state = strip_cut(job, spot={"wall": "A", "at": 1400, "off": 300})
    state = alone(job, do("preheat", strips=1), state=state)
    preheated = next(e["n"] for e in state.log if e.get("do") == "preheat")
    assert finding(state, "film-preheat-distance").cause == preheated


def test_the_cylinder_was_moved_by_whoever_moved_it():
    job = small_job()
    state = lit(job)
    state = played(job, do("move gas", "noor", wall="A", at=1400, off=8000), wait(), state=state)
    moved = next(e["n"] for e in state.log if e.get("do") == "move gas")
    assert finding(state, "cylinder-to-burner").cause == moved


def test_the_extinguisher_was_carried_away_by_whoever_did():
    job = small_job()
    away = do("move extinguisher", "noor", thing="ext1", wall="A", at=0, off=30_000)
    state = played(job, away, wait(), state=lit(job))
    moved = next(e["n"] for e in state.log if e.get("do") == "move extinguisher")
    assert finding(state, "extinguisher-distance").cause == moved


def test_the_cylinder_is_not_carried_off_from_a_lit_torch():
    job = small_job()
    with pytest.raises(Impossible, match="The hose reaches 15 m"):
        played(job, do("move gas", "noor", wall="A", at=1400, off=30_000), state=lit(job))


def test_nobody_lights_the_torch_while_the_cylinder_is_changed():
    job = small_job()
    state = played(job, do("change gas", "noor"))
    with pytest.raises(Impossible, match="Noor is at it"):
        played(job, do("light", **FAR), state=state)


def test_the_melter_burns_until_the_corner_is_filled():
    job = corner_job()
    state = alone(
        job,
        *CORNER_MARKS,
        do("cut", strips=1, roll="r1"),
        *CORNER_PRIMER,
        wait(40),
        do("lay corner", corner=0, number=1),
        do("light", "noor", tool="melter", wall="A", at=1000, off=7700),
        wait(20),
    )
    state = played(job, do("fill", corner=0), state=state)
    with pytest.raises(Impossible, match="Dana is at it"):
        played(job, do("put out", "ivo", tool="melter"), state=state)


@pytest.mark.parametrize("action", ["light", "move gas", "move extinguisher"])
def test_nothing_stands_behind_the_next_wall(action):
    """Wall C of a U faces wall A, 4 m before it: what lies behind C is not this roof."""
    a, b = {"length_mm": 3000}, {"length_mm": 4000}
    walls = [
        {"id": i, "height_mm": 300, "top_mm": 250, **long}
        for i, long in (("A", a), ("B", b), ("C", a))
    ]
    gas = {"minutes": 60, "wall": "B", "at_mm": 2000, "off_mm": 6000}
    melter = {"wall": "B", "at_mm": 2000, "off_mm": 2000}
    job = small_job(
        walls=walls,
        corners=["inside", "inside"],
        gas=gas,
        melter=melter,
        extinguishers=[{"id": "ext1", "wall": "B", "at_mm": 900}],
    )
    more = {"thing": "ext1"} if action == "move extinguisher" else {}
    near = do(action, wall="A", at=1000, off=3999, **more)
    played(job, near)
    with pytest.raises(Impossible, match="Wall C stands 4000 mm before wall A there"):
        played(job, near | {"off": 4001})


# ---- primer and what is dry ------------------------------------------------------------------


def test_two_who_dry_a_wall_between_them_dry_all_of_it():
    job = small_job(weather={"rain": [["07:31", "07:35"]]})
    state = alone(
        job,
        wait(5),
        do("dry", wall="A", stretch=(0, 1500)),
        do("dry", wall="A", stretch=(1400, 2800)),
        do("prime", wall="A", stretch=(0, 2800)),
    )
    assert "wet-surface" not in subjects(state)


def test_what_half_was_dried_is_half_damp():
    damp = [{"from_mm": 200, "to_mm": 700, "dry_at": "15:00"}]
    state = alone(
        small_job(wall={"damp": damp}),
        do("dry", wall="A", stretch=(0, 400)),
        do("prime", wall="A", stretch=(0, 2800)),
    )
    assert finding(state, "wet-surface").facts["damp_mm"] == 300


def test_a_can_that_is_closed_over_somebodys_roller_is_opened_again():
    job = small_job()
    state = played(job, do("prime", wall="A", stretch=(0, 2800)), do("close cans", "noor"))
    state = alone(job, wait(10), state=state)
    assert state.cans == 1


# ---- sheets ----------------------------------------------------------------------------------


def test_a_weld_ends_where_another_sheet_comes_over_it():
    """A lap onto the first corner sheet is welded; then the second comes down on top of it."""
    job = corner_job()
    state = alone(
        job,
        *CORNER_MARKS,
        do("cut", strips=4, roll="r1"),
        *CORNER_PRIMER,
        wait(40),
        do("lay corner", corner=0, number=1),
        do("lay", wall="A", sheet=1),
        do("lay", wall="B", sheet=0),
        do("light", wall="A", at=1400, off=0),
        do("weld", wall="A", lap=2),
        do("put out"),
        do("trim", corner=0),
        do("lay corner", corner=0, number=2),
    )
    assert "lap A:2" in missing(job, state)


def test_stripping_tears_the_seal_open():
    job = small_job()
    state = alone(
        job,
        do("set out", wall="A", laps=[900, 1800], lap_mm=100),
        do("cut", strips=2, roll="r1"),
        do("lay", wall="A", sheet=0, through=1),
        do("seal", wall="A"),
        do("strip", wall="A", sheet=1),
        LEAVE,
    )
    assert "end-of-day-seal" in subjects(state)


def test_a_corner_sheet_needs_a_line_on_both_its_walls():
    job = corner_job()
    lines = [mark for mark in CORNER_MARKS if mark != do("snap", wall="B", distance=160)]
    state = alone(job, *lines, do("cut", strips=1, roll="r1"), do("lay corner", corner=0, number=1))
    found = finding(state, "lap-onto-field")
    assert (found.place, found.facts["lap_mm"]) == ("corner-0:1", 60)


# ---- people ----------------------------------------------------------------------------------


@pytest.mark.parametrize(("off", "is_found"), [(1828, True), (1829, False)])
def test_out_on_the_roof_nobody_stands_at_the_edge(off, is_found):
    state = played(low_wall(300), do("light", wall="A", at=1400, off=off))
    assert ("guardrail-height" in subjects(state)) is is_found


def test_going_home_is_what_ends_a_watch_too_early():
    state = after_flame(LEAVE, watched=100)
    assert finding(state, "fire-watch").cause == state.n
    state = alone(small_job(), do("put out"), wait(121), LEAVE, state=lit(small_job()))
    assert finding(state, "last-inspection").cause == state.n


def test_the_permit_may_be_closed_in_the_very_minute_the_watch_is_over():
    job, minutes = small_job(), small_job().minutes["close permit"]
    early = after_flame(do("close permit", "noor"), watched=120 - minutes - 1)
    assert standing(early) == {"fire-watch"} and LIMITS["fire-watch"].value == 120
    state = after_flame(do("close permit", "noor"), LEAVE, watched=120 - minutes)
    assert state.findings == [] and job.start < state.ended == state.last_flame + 120


@pytest.mark.parametrize("crew", [("dana", "noor", "ivo"), ("noor", "dana", "ivo")])
def test_what_is_done_in_the_same_minute_is_done_whoever_is_named_first(crew):
    """The can is shut at 7:46, in the minute in which the torch burns."""
    hands = {
        "dana": {"id": "dana", "name": "Dana", "torch": True, "watch": True},
        "ivo": {"id": "ivo", "name": "Ivo", "watch": True},
        "noor": {"id": "noor", "name": "Noor"},
    }
    job = small_job(crew=[hands[name] for name in crew], paper=_dry_at_once())
    state = alone(job, *READY, do("prime", wall="A", stretch=(0, 500)), wait(1))
    state = played(job, do("close cans", "noor"), do("light", wall="A", at=400, off=0), state=state)
    state = played(job, wait(1), state=state)
    assert "torch" in state.flames and state.cans is None
    assert subjects(state) == set()


def _dry_at_once():
    slower = [[-50, 100]]
    return {"dry_min": 0, "coldest_c": 5, "slower": slower}


def test_who_goes_on_with_a_row_of_their_own_lends_no_hand():
    """Dana's roll and Noor's sheet are done in the same minute; Noor rolls hers, Dana waits."""
    job = corner_job(minutes={**MINUTES, "roll": 8, "lay": 8})
    state = alone(job, *CORNER_MARKS, do("cut", strips=3, roll="r1"), *CORNER_PRIMER, wait(40))
    row = do("lay", wall="A", sheet=0, through=1, rolling=True, helped_by="noor")
    state = played(
        job, row, wait(), do("lay", "noor", wall="B", sheet=0, rolling=True), state=state
    )
    state = played(job, wait(8), state=state)
    assert state.log[-1]["kind"] == "broke off" and state.log[-1]["why"] == "Noor is busy."
    state = alone(job, wait(8), state=state)
    assert state.sheets["B:0"].rolled_at is not None and not state.people["noor"].queue
