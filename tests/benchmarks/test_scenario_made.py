"""A scenario made, beside its canonical JSON alone: goal 20 times as long or less.

Made means drawn by construction, judged, its figure drawn, written as canonical JSON and hashed.
Both sides run in one process, turn by turn, on the same seeds, and are measured in processor time.
Every cell (family × fault mode) counts; the worst is named.
Run with ``pytest tests/benchmarks/test_scenario_made.py --benchmark-enable -s``.
"""

import hashlib
import statistics
import time

from trainer.engine.explain import Telling
from trainer.engine.solve import make
from trainer.pack.pack import load_pack
from trainer.services.scenarios import figure_of

PACK = load_pack()
RULES = PACK.book.in_force()
CELLS = [(family, mode) for family in PACK.families.values() for mode in family.modes]
ROUNDS = 7
SEEDS = range(12)
GOAL = 20


def made(family, mode, seed):
    """One scenario as it is stored and shown: its bytes' hash and its drawing."""
    scenario = make(family, seed, RULES, mode)
    digest = hashlib.sha256(scenario.canonical().encode()).hexdigest()
    return digest, figure_of(Telling(family, scenario))


def seconds(work, things):
    began = time.process_time()
    for thing in things:
        work(thing)
    return time.process_time() - began


def ratio(family, mode):
    """Made over JSON alone, and microseconds to make one: the medians of the rounds."""
    scenarios = [make(family, seed, RULES, mode) for seed in SEEDS]
    rounds = []
    for _ in range(ROUNDS + 1):  # the first warms up
        whole = seconds(lambda seed: made(family, mode, seed), SEEDS)
        rounds.append((whole / seconds(lambda s: s.canonical(), scenarios), whole))
    ratios, wholes = zip(*rounds[1:], strict=True)
    return statistics.median(ratios), 1e6 * statistics.median(wholes) / len(SEEDS)


def test_every_cell_made(report):
    found = {(family.id, mode): ratio(family, mode) for family, mode in CELLS}
    by_ratio = sorted(found, key=lambda cell: -found[cell][0])
    over = [cell for cell in by_ratio if found[cell][0] > GOAL]
    print(f"\n  {len(found)} cells, {len(over)} over the goal of {GOAL}:")
    for cell in by_ratio[:5]:
        times, us = found[cell]
        print(f"    {', '.join(cell)}: {times:.1f} × its JSON, {us:.0f} µs")
    print("  all:", end="")
    report(
        median_to_json=statistics.median(times for times, _ in found.values()),
        worst_to_json=found[by_ratio[0]][0],
        slowest_us=max(us for _, us in found.values()),
    )
