"""A scenario made, beside its canonical JSON alone: goal 20 times as long or less.

Made means drawn by construction, judged, its figure drawn, written as canonical JSON and hashed.
Both sides run in one process, turn by turn, on the same seeds, and are measured in processor time.
Run with ``pytest tests/benchmarks/test_scenario_made.py --benchmark-enable -s``.
"""

import hashlib
import statistics
import time

import pytest

from trainer.engine.explain import Telling
from trainer.engine.solve import make
from trainer.pack.pack import load_pack
from trainer.services.scenarios import figure_of

PACK = load_pack()
RULES = PACK.book.in_force()
ROUNDS = 15
SEEDS = range(40)


def made(family, seed):
    """One scenario as it is stored and shown: its bytes' hash and its drawing."""
    scenario = make(family, seed, RULES)
    digest = hashlib.sha256(scenario.canonical().encode()).hexdigest()
    return digest, figure_of(Telling(family, scenario))


def seconds(work, things):
    began = time.process_time()
    for thing in things:
        work(thing)
    return time.process_time() - began


@pytest.mark.parametrize("name", list(PACK.families))
def test_scenario_made(report, name):
    family = PACK.families[name]
    scenarios = [make(family, seed, RULES) for seed in SEEDS]
    parts = {
        "made": lambda: seconds(lambda seed: made(family, seed), SEEDS),
        "figure": lambda: seconds(lambda s: figure_of(Telling(family, s)), scenarios),
        "json": lambda: seconds(lambda s: s.canonical(), scenarios),
    }
    for measure in parts.values():
        measure()
    rounds = [{part: measure() for part, measure in parts.items()} for _ in range(ROUNDS)]
    print(f"  {name}:", end="")
    report(
        to_canonical_json=statistics.median(r["made"] / r["json"] for r in rounds),
        **{f"{part}_us": _microseconds(r[part] for r in rounds) for part in parts},
    )


def _microseconds(rounds):
    return 1e6 * statistics.median(rounds) / len(SEEDS)
