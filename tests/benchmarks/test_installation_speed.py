"""Installations against floors in the same run: a step, a replay, the best day.

A decision with its findings costs at most 3 times one JSON dump of the state it leads to; replaying
grows with the number of decisions and no faster; the best day of a 12 m wall with one corner costs
at most 200 replays of its own plan. Measured in processor time, turn by turn, the median of rounds.
Run with ``pytest tests/benchmarks/test_installation_speed.py --benchmark-enable -s``.
"""

from __future__ import annotations

import json
import statistics
import time

from tests.unit.installation.small_jobs import plain_job
from trainer.installation.limits import limits_of
from trainer.installation.planner import best
from trainer.installation.play import play
from trainer.installation.read_job import read_job
from trainer.installation.run import decide
from trainer.installation.state import as_text, begin, plain
from trainer.pack.jobs import clear_mm_of
from trainer.pack.pack import load_pack

PACK = load_pack()
RULES = PACK.book.in_force()
LIMITS, CLEAR_MM = limits_of(RULES), clear_mm_of(RULES)
JOBS = {name: spec.drawn(1, CLEAR_MM) for name, spec in PACK.jobs.items()}
ROUNDS = 5
STEP_GOAL, PLAN_GOAL = 3, 200


def seconds(work):
    began = time.process_time()
    work()
    return time.process_time() - began


def ratio(work, floor):
    """Median of the rounds' work over floor; the first round warms up."""
    rounds = [seconds(work) / seconds(floor) for _ in range(ROUNDS + 1)]
    return statistics.median(rounds[1:])


def step_ratio(job):
    """Every decision of a day once more, over a canonical dump of every state it led to."""
    day = play(job, LIMITS, "book")
    pairs = list(zip(day.states, day.decisions, strict=False))
    texts = [plain(state) for state in day.states[1:]]
    return ratio(
        lambda: [decide(job, LIMITS, state, decision) for state, decision in pairs],
        lambda: [dumped(text) for text in texts],
    )


def dumped(text):
    """A state, plain already, as canonical JSON."""
    return json.dumps(text, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def test_a_step_with_its_findings(report):
    ratios = {name: step_ratio(job) for name, job in JOBS.items()}
    worst = max(ratios, key=ratios.get)
    print("  worst:", worst)
    report(worst=ratios[worst], median=statistics.median(ratios.values()), goal=STEP_GOAL)


def twelve_metres():
    """Walls of 7 and 5 m with an inside corner, laps of the field every metre."""
    wall = plain_job()["walls"][0]
    walls = [
        wall | {"id": name, "length_mm": long, "field_laps": [[at, at + 100] for at in laps]}
        for name, long, laps in (
            ("A", 7000, range(300, 6000, 1000)),
            ("B", 5000, range(700, 4000, 1000)),
        )
    ]
    return read_job(plain_job(walls=walls, corners=["inside"], gas={
        "minutes": 200, "wall": "A", "at_mm": 5000, "off_mm": 6000,
    }))  # fmt: skip


def replayed(job, decisions):
    state = begin(job)
    for decision in decisions:
        state = decide(job, LIMITS, state, decision)
    return state


def test_the_best_day_of_twelve_metres_and_a_corner(report):
    job = twelve_metres()
    plan = best(job, LIMITS, hindsight=False)
    assert plan.clean and as_text(replayed(job, plan.decisions)) == as_text(plan.last)
    cost = ratio(
        lambda: best(job, LIMITS, hindsight=False),
        lambda: replayed(job, plan.decisions),
    )
    report(over_replay=cost, goal=PLAN_GOAL, end_over_bound=plan.end - plan.bound, tried=plan.tried)


def test_replay_is_linear(report):
    """Ten times as many stored days cost ten times as much, and twice the decisions about twice."""
    job = JOBS["u-shape"]
    decisions = play(job, LIMITS, "book").decisions
    half = len(decisions) // 2
    days = ratio(
        lambda: [replayed(job, decisions[:20]) for _ in range(100)],
        lambda: [replayed(job, decisions[:20]) for _ in range(10)],
    )
    length = ratio(lambda: replayed(job, decisions), lambda: replayed(job, decisions[:half]))
    report(hundred_to_ten=days, whole_to_half=length)
