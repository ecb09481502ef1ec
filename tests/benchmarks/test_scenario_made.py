"""A scenario made, beside its canonical JSON alone: goal 20 times as long or less.

Made means drawn by construction, judged, its figure drawn, written as canonical JSON and hashed.
Both sides run in one process, turn by turn, on the same seeds. Run with
``pytest tests/benchmarks/test_scenario_made.py --benchmark-enable -s``; a figure is printed and
recorded, nothing here fails for being slow.
"""

import hashlib
import statistics
import time

import pytest

from trainer.drawing import draw
from trainer.engine.explain import Telling
from trainer.engine.solve import make
from trainer.pack.pack import load_pack

PACK = load_pack()
RULES = PACK.book.in_force()
ROUNDS = 15
SEEDS = range(40)


@pytest.fixture(autouse=True)
def only_when_asked_for(request):
    off, on = (request.config.getoption(f"benchmark_{word}") for word in ("disable", "enable"))
    if off and not on:
        pytest.skip("benchmarks are switched on with --benchmark-enable")


def made(family, seed):
    """One scenario as it is stored and shown: its bytes' hash and its drawing."""
    scenario = make(family, seed, RULES)
    telling = Telling(family, scenario)
    figure = draw(telling.figure(), length=telling.units.say_length)
    return hashlib.sha256(scenario.canonical().encode()).hexdigest(), figure


def seconds(work, things):
    began = time.perf_counter()
    for thing in things:
        work(thing)
    return time.perf_counter() - began


@pytest.mark.parametrize("name", list(PACK.families))
def test_scenario_made(benchmark, capsys, name):
    family = PACK.families[name]
    scenarios = [make(family, seed, RULES) for seed in SEEDS]
    alone, drawings = [], []

    def canonical_first():
        alone.append(seconds(lambda scenario: scenario.canonical(), scenarios))
        drawings.append(seconds(lambda s: draw(Telling(family, s).figure()), scenarios))
        return (lambda seed: made(family, seed), SEEDS), {}

    benchmark.pedantic(seconds, setup=canonical_first, rounds=ROUNDS, warmup_rounds=1)
    ours = benchmark.stats.stats.data
    ratios = [whole / json for whole, json in zip(ours, alone[-ROUNDS:], strict=True)]
    benchmark.extra_info["made_over_canonical_json"] = ratio = statistics.median(ratios)
    whole, json, figure = (
        1e6 * statistics.median(part) / len(SEEDS) for part in (ours, alone, drawings)
    )
    with capsys.disabled():
        print(
            f"\n{name}: {whole:.0f} µs made, {figure:.0f} of them its figure, canonical JSON alone"
            f" {json:.0f} µs: {ratio:.1f} times as long ({min(ratios):.1f} to {max(ratios):.1f})"
        )
