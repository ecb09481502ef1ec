"""How fast a wall is set out, beside OR-tools CP-SAT on the same walls in the same run.

Run with ``pytest tests/benchmarks/test_sheets.py --benchmark-enable``. A figure is printed and
recorded, nothing here fails for being slow; a layout that is not the solver's optimum does fail.

The solver gets every help that is cheap to give: lap starts restricted to the stretch of wall a lap
can reach with the sheets before and behind it, gaps between field laps found beforehand, one
weighted objective once the number of sheets is known, and the number of threads that was fastest
when tried at each length.
"""

import gc
import math
import random
import statistics
import time
from itertools import pairwise

import pytest
from ortools.sat.python import cp_model

from trainer.roofing.sheets import Layout, Wall, set_out

ROUNDS = 5
THREADS = {10: 1, 50: 1, 500: 8}
WEIGHT = 10_000  # more than any clear distance on these walls: a trim outweighs it


@pytest.fixture(autouse=True)
def only_when_asked_for(request):
    off, on = (request.config.getoption(f"benchmark_{word}") for word in ("disable", "enable"))
    if off and not on:
        pytest.skip("benchmarks are switched on with --benchmark-enable")


def wall_of(metres, seed):
    """A field lap 100 mm wide about every metre; 100 mm to keep clear."""
    rng = random.Random(seed)
    at, bands = rng.randrange(1000), []
    while at < metres * 1000:
        bands.append((at, at + 100))
        at += rng.randrange(900, 1100)
    return Wall(metres * 1000, 1000, 100, 400, tuple(bands), 100)


def feasible_walls(metres, count):
    walls = (wall_of(metres, seed) for seed in range(100))
    found = [wall for wall in walls if isinstance(set_out(wall), Layout)]
    return found[:count]


def rank(wall):
    layout = set_out(wall)
    return len(layout.sheets), layout.trimmed, layout.min_clear_mm


def solver_rank(wall, threads):
    """(sheets, trimmed, clear distance) of the solver's optimum."""
    sheets = -(-wall.end // wall.steps.full)
    while True:
        model = SolverModel(wall, sheets)
        if model.solve(threads):
            break
        sheets += 1
    model.ask_for_fewest_trims_and_most_clear()
    solver = model.solve(threads)
    trimmed = sheets - sum(solver.boolean_value(full) for full in model.full)
    return sheets, trimmed, solver.value(model.clear)


class SolverModel:
    def __init__(self, wall, sheets):
        self.model = cp_model.CpModel()
        self.wall, self.sheets = wall, sheets
        self.gaps = gaps_of(wall)
        self.possible = True
        between = [self._lap_start(k) for k in range(1, sheets)]
        self.starts = [0, *between, wall.end]
        if self.possible:
            for near, far in pairwise(self.starts):
                self.model.add_linear_constraint(far - near, *wall.steps)

    def _stretch(self, lap):
        """Where lap number ``lap`` can lie with full sheets on one side of it."""
        least, full = self.wall.steps
        left = self.sheets - lap
        return (
            max(lap * least, self.wall.end - left * full),
            min(lap * full, self.wall.end - left * least),
        )

    def _lap_start(self, lap):
        low, high = self._stretch(lap)
        pieces = [(max(a, low), min(b, high)) for a, b, _, _ in self.gaps if a <= high and b >= low]
        if not pieces:
            self.possible = False
            return 0
        domain = cp_model.Domain.from_intervals([list(piece) for piece in pieces])
        return self.model.new_int_var_from_domain(domain, f"lap {lap}")

    def ask_for_fewest_trims_and_most_clear(self):
        self.full = [self.model.new_bool_var("full") for _ in range(self.sheets)]
        for k, full in enumerate(self.full):
            step = self.starts[k + 1] - self.starts[k]
            self.model.add(step >= self.wall.steps.full).only_enforce_if(full)
        self.clear = self.model.new_int_var(0, WEIGHT - 1, "smallest clear distance")
        for lap in range(1, self.sheets):
            self._bound_clear(lap)
        self.model.maximize(sum(self.full) * WEIGHT + self.clear)

    def _bound_clear(self, lap):
        low, high = self._stretch(lap)
        start, inside = self.starts[lap], []
        for first, last, before, after in self.gaps:
            if first > high or last < low:
                continue
            here = self.model.new_bool_var("in this gap")
            inside.append(here)
            limits = (max(first, low), min(last, high))
            self.model.add_linear_constraint(start, *limits).only_enforce_if(here)
            if before is not None:
                self.model.add(self.clear <= start - before).only_enforce_if(here)
            if after is not None:
                self.model.add(self.clear <= after - start).only_enforce_if(here)
        self.model.add_exactly_one(inside)

    def solve(self, threads):
        if not self.possible:
            return None
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = threads
        status = solver.solve(self.model)
        return solver if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None


def gaps_of(wall):
    """First and last lap start between neighbouring field laps, and the edges that bound them."""
    edges = [None, *(edge for band in wall.field_laps for edge in band), None]
    gaps = []
    for before, following in zip(edges[::2], edges[1::2], strict=True):
        after = None if following is None else following - wall.side_lap_mm
        first = 1 if before is None else before + wall.clear_mm
        last = wall.end - 1 if after is None else after - wall.clear_mm
        if first <= last:
            gaps.append((first, last, before, after))
    return gaps


@pytest.mark.parametrize("metres", [10, 50, 500])
def test_against_cp_sat(benchmark, capsys, metres):
    walls = iter(feasible_walls(metres, ROUNDS))
    theirs, waiting = [], []

    def solver_first():
        wall = next(walls)
        began = time.perf_counter()
        waiting.append((wall, solver_rank(wall, THREADS[metres])))
        theirs.append(time.perf_counter() - began)
        gc.collect()  # the solver's models are no work of ours
        return (wall,), {}

    benchmark.pedantic(set_out, setup=solver_first, rounds=ROUNDS)
    assert [rank(wall) for wall, _ in waiting] == [optimum for _, optimum in waiting]
    ours = benchmark.stats.stats.data
    ratios = [solver / own for solver, own in zip(theirs, ours, strict=True)]
    benchmark.extra_info["cp_sat_over_ours"] = ratio = statistics.median(ratios)
    with capsys.disabled():
        print(
            f"\n{metres} m: {1000 * statistics.median(ours):.2f} ms, CP-SAT "
            f"{1000 * statistics.median(theirs):.1f} ms, {ratio:.0f} times as long "
            f"({min(ratios):.0f} to {max(ratios):.0f})"
        )


def test_growth_with_the_wall(benchmark, capsys):
    lengths = [62, 125, 250, 500, 1000]
    walls = {metres: feasible_walls(metres, ROUNDS) for metres in lengths}
    seconds = {metres: [] for metres in lengths}
    for i in range(ROUNDS):
        for metres in lengths:
            began = time.perf_counter()
            set_out(walls[metres][i])
            seconds[metres].append(time.perf_counter() - began)
    medians = [statistics.median(seconds[metres]) for metres in lengths]
    logs = [[math.log(value) for value in values] for values in (lengths, medians)]
    exponent = statistics.linear_regression(*logs).slope
    benchmark.extra_info["growth_exponent"] = exponent
    benchmark.pedantic(set_out, args=(walls[1000][0],), rounds=ROUNDS)
    with capsys.disabled():
        shown = ", ".join(
            f"{metres} m {1000 * median:.1f} ms"
            for metres, median in zip(lengths, medians, strict=True)
        )
        print(f"\ngrowth exponent {exponent:.2f}: {shown}")
