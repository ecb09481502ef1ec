"""Every action: how long it takes and what it changes. Minutes stand in small_jobs.MINUTES."""

import pytest

from tests.unit.installation.small_jobs import (
    LIMITS,
    alone,
    corner_job,
    do,
    small_job,
    wait,
)
from tests.unit.installation.work_so_far import CORNER, CUT, LAY, LIGHT, MARK, MELTER, SITE
from trainer.installation.actions import ACTIONS, FOR_ALL
from trainer.installation.run import decide

# what has to be there before, the decision, its minutes (sums in MINUTES)
TIMES = [
    ([], do("look", wall="A"), 4),
    ([], do("probe", wall="A"), 4),
    ([], do("measure", wall="A"), 3),
    ([], do("touch", wall="A", at=10), 1),
    ([], do("ask", wall="A"), 3),
    ([], do("check rolls"), 2),
    ([], do("last look"), 5),
    ([], do("prime", wall="A", stretch=(0, 2000)), 4),  # 2 m × 2
    ([], do("prime", wall="A", stretch=(0, 2100)), 5),  # 2.1 m × 2 = 4.2, rounded up
    ([], do("prime", wall="A", stretch=(0, 2800)), 6),  # 2.8 m × 2 = 5.6, rounded up
    ([], do("dry", wall="A", stretch=(0, 2800)), 10),
    ([], do("snap", wall="A", distance=160), 3),
    ([], do("set out", wall="A", laps=[900, 1800], lap_mm=100), 5),
    ([], CUT, 6),  # 3 × 2
    ([do("look", wall="A")], do("cover", thing="vent"), 8),
    ([], do("clear", thing="bags"), 4),
    ([do("prime", wall="A", stretch=(0, 900))], do("close cans"), 1),
    (LAY, do("bag film"), 2),
    ([*MARK, CUT], do("lay", wall="A", sheet=0), 8),
    ([*MARK, CUT], do("lay", wall="A", sheet=0, helped_by="ivo"), 5),
    (LAY, do("roll", wall="A", sheet=0), 2),
    (LAY, do("strip", wall="A", sheet=0), 6),
    (LAY, do("seal", wall="A"), 8),
    ([], do("open permit"), 5),
    ([do("open permit")], do("close permit"), 4),
    ([], LIGHT, 1),
    ([], MELTER, 1),
    ([CUT, LIGHT], do("preheat", strips=3), 6),  # 3 × 2
    ([*LAY, LIGHT], do("weld", wall="A", lap=1), 3),
    ([LIGHT], do("put out"), 3),
    ([], do("move gas", wall="A", at=0, off=9000), 3),
    ([], do("change gas"), 5),
    ([], do("move extinguisher", thing="ext1", wall="A", at=0, off=0), 2),
    ([], do("watch"), 0),
    ([do("watch")], do("end watch"), 0),
    ([], do("lunch"), 30),  # the job's own
    ([], do("fetch warm rolls"), 25),
]
CORNER_TIMES = [
    (CORNER[:1], do("lay corner", corner=0, number=1), 9),
    (CORNER[:2], do("roll corner", corner=0, number=1), 2),
    (CORNER[:3], do("trim", corner=0), 3),
    ([*CORNER, MELTER, wait(20)], do("fill", corner=0), 4),
    ([*CORNER, LIGHT], do("gusset", corner=0, reach=150), 6),
    (CORNER, do("strip corner", corner=0, number=2), 6),
]
LOW = small_job(wall={"rail": False})


def minutes_of(job, before, decision):
    """How long it is from the decision until the person is free again."""
    start = alone(job, *before)
    person = decide(job, LIMITS, start, decision).people["dana"]
    return (person.until or start.now) - start.now


@pytest.mark.parametrize(("before", "decision", "expected"), TIMES)
def test_an_action_takes_its_minutes(before, decision, expected):
    assert minutes_of(small_job(**SITE), before, decision) == expected


@pytest.mark.parametrize(("before", "decision", "expected"), CORNER_TIMES)
def test_an_action_at_a_corner_takes_its_minutes(before, decision, expected):
    assert minutes_of(corner_job(), before, decision) == expected


def test_a_rail_takes_its_minutes():
    assert minutes_of(LOW, [], do("rail", wall="A")) == 15


def test_every_action_is_timed_here():
    timed = {case[1]["do"] for case in (*TIMES, *CORNER_TIMES)} | {"rail"}
    assert timed | {name for name, act in ACTIONS.items() if not act.place} == set(ACTIONS)
    assert not timed & set(FOR_ALL)
