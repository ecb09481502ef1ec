"""The best day of tiny jobs against a search over every plan.

The search knows no foreman: see every_plan.py. The planner must find the best day there is, and the
bound must never lie above it. Two people, one sheet
on a wall of 900 mm, so that every order of every pair of hands can be tried; minutes made up.
"""

import pytest
from every_plan import earliest_end

from tests.unit.installation.small_jobs import LIMITS, plain_job
from trainer.installation.planner import best
from trainer.installation.read_job import read_job

CREW = [
    {"id": "dana", "name": "Dana", "torch": True, "watch": True},
    {"id": "ivo", "name": "Ivo", "watch": True},
]
QUICK = ({"set out": 0, "snap": 0, "look": 1, "probe": 1}, 15)
CASES = [
    # minutes of work that differ from the usual ones, drying
    ({}, 30),
    ({"prime a metre": 9, "lay": 4}, 20),
    ({"cut a strip": 12, "set out": 9, "snap": 9}, 10),
    ({"lay": 20, "roll": 9}, 45),
    ({"lay together": 2, "cut a strip": 1}, 30),
]


def one_sheet(minutes, dry):
    plain = plain_job(
        wall={"length_mm": 900, "field_laps": []},
        crew=CREW,
        gas={"minutes": 60, "wall": "A", "at_mm": 700, "off_mm": 12_600},
        melter={"wall": "A", "at_mm": 700, "off_mm": 7700},
        extinguishers=[{"id": "ext1", "wall": "A", "at_mm": 700, "off_mm": 4000}],
    )
    plain["minutes"] |= minutes
    plain["paper"]["dry_min"] = dry
    return read_job(plain)


def work_left(job, state):
    """All that a sheet needs, in any order that nature allows."""
    if "A" not in state.layouts:
        yield {"do": "set out", "wall": "A", "laps": [], "lap_mm": 100}
    if "A" not in state.lines:
        yield {"do": "snap", "wall": "A", "distance": 152}
    if not state.strips_cut:
        yield {"do": "cut", "strips": 1, "roll": "r1"}
    if not state.coats:
        yield {"do": "prime", "wall": "A", "from": 0, "to": 900}
    if "A:0" not in state.sheets:
        yield {"do": "lay", "wall": "A", "sheet": 0}
    elif state.sheets["A:0"].rolled_at is None:
        yield {"do": "roll", "wall": "A", "sheet": 0}


def between_bound_and_plan(minutes, dry):
    job = one_sheet(minutes, dry)
    end, looked_at = earliest_end(job, LIMITS, work_left)
    plan = best(job, LIMITS, hindsight=True)
    print(f"bound {plan.bound}, every plan {end} ({looked_at} states), planner {plan.end}")
    assert plan.clean
    assert plan.bound <= end == plan.end
    assert not plan.exact or plan.bound == end


def test_the_best_day_lies_between_the_bound_and_the_plan():
    between_bound_and_plan(*QUICK)


@pytest.mark.long
@pytest.mark.parametrize(("minutes", "dry"), CASES)
def test_the_best_day_lies_between_the_bound_and_the_plan_elsewhere(minutes, dry):
    between_bound_and_plan(minutes, dry)


def test_a_day_by_hand():
    """Ivo primes (0.9 × 2 → 2 min, dry at 450 + 1.8 + 15 = 466.8), Dana cuts and marks.

    The strip is cut at 452 and relaxed at 482; one lays it in 8, two in 5; rolled in 2: 489.
    """
    assert earliest_end(one_sheet(*QUICK), LIMITS, work_left)[0] == 450 + 2 + 30 + 5 + 2
