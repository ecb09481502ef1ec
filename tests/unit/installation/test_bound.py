"""The bound never lies above a clean day, whoever plays it and from whichever state it is asked."""

import pytest

from tests.unit.installation.small_jobs import (
    CLEAN,
    LIMITS,
    corner_job,
    do,
    played,
    small_job,
    wait,
)
from trainer.installation.bound import earliest_end
from trainer.installation.foreman import Way
from trainer.installation.laps import missing
from trainer.installation.play import by_the_book, play_by
from trainer.installation.state import begin
from trainer.installation.work_left import fewest_sheets

JOBS = {
    "wall": small_job(),
    "inside": corner_job(),
    "outside": corner_job("outside"),
    "two hands": small_job(crew=[
        {"id": "dana", "name": "Dana", "torch": True, "watch": True},
        {"id": "ivo", "name": "Ivo", "torch": True, "watch": True},
    ]),
}  # fmt: skip
WAYS = [
    Way(),
    Way(hindsight=True, melt_late=True, ahead=True),
    Way(together=False, from_right=True),
    Way(mix=7, pace_pct=55, in_hand_min=0),
]


@pytest.mark.parametrize("name", JOBS)
def test_it_holds_from_every_state_of_a_clean_day(name):
    job, days = JOBS[name], 0
    for way in WAYS:
        day = play_by(job, LIMITS, by_the_book(job, LIMITS, way))
        if day.last.findings or missing(job, day.last):
            continue
        days += 1
        over = [s.now for s in day.states if earliest_end(job, LIMITS, s) > day.last.ended]
        assert over == [], way
    assert days


def test_it_is_the_end_once_the_day_is_over():
    job = small_job()
    assert earliest_end(job, LIMITS, played(job, *CLEAN)) == played(job, *CLEAN).ended


def test_what_is_being_cut_is_not_cut_once_more():
    """Three strips in 6 min from 7:30; relaxed at 8:06, whatever the minute in between."""
    job = small_job()
    state = played(job, do("cut", "noor", strips=3, roll="r1"))
    later = played(job, wait(5), state=state)
    assert (later.now, earliest_end(job, LIMITS, later)) == (
        455,
        earliest_end(job, LIMITS, state),
    )


@pytest.mark.parametrize(("long", "count"), [(2846, 3), (2847, 4), (1923, 2), (1924, 3)])
def test_the_fewest_sheets_with_the_least_lap_allowed(long, count):
    """3 in is 76.2 mm, so 77: 3 × 1000 − 2 × 77 = 2846; 2 × 1000 − 77 = 1923."""
    job = small_job(wall={"length_mm": long, "field_laps": []})
    assert fewest_sheets(job, LIMITS, "A") == count


def test_a_lap_of_the_field_can_cost_a_sheet():
    """Full sheets lap at 923–1000. A field lap at 1000–1100 puts the lap at 821–898 (102 clear):
    821 + 1000 = 1821 of 1900 mm. The lap beyond 1202 is too far for the first sheet.
    """
    laps = {"length_mm": 1900, "field_laps": [[1000, 1100]]}
    assert fewest_sheets(small_job(wall=laps), LIMITS, "A") == 3


def test_a_plan_of_fewer_sheets_than_the_printed_lap_gives_is_not_below_the_bound():
    """2 840 mm: four sheets with the printed 100 mm, three with 77 mm, and the rules hold."""
    job = small_job(wall={"length_mm": 2840, "field_laps": []})
    marks = do("set out", "ivo", wall="A", laps=[923, 1846], lap_mm=77)
    more = {"prime": {"to": 2840}}
    day = [marks if d["do"] == "set out" else d | more.get(d["do"], {}) for d in CLEAN]
    state = played(job, *day)
    assert state.findings == [] and missing(job, state) == []
    assert earliest_end(job, LIMITS, begin(job)) <= state.ended
