"""The best layout against a constraint solver told only the rules.

Source: OR-tools CP-SAT (Perron and Furnon, Google OR-tools; the version installed). The model below
states the wall as the contract does, lap by lap and band by band: widths between narrowest and
full, every lap on one side of every field lap. It shares no arithmetic with the program. The lap
starts that any lap may have are listed one by one, which saves the solver most of its search.
"""

import random
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

import pytest
from laws.sheet_walls import assert_sound, rank
from ortools.sat.python import cp_model

from trainer.roofing.sheets import Stuck, Wall, set_out

PARTS = 100  # of a millimetre: the walls below have at most two decimals


@dataclass
class Model:
    """One number of sheets: lap starts in whole millimetres, ``clear`` in parts."""

    solver_model: cp_model.CpModel
    full: list
    clear: cp_model.IntVar


def model_of(wall, sheets, possible):
    model = cp_model.CpModel()
    lap, end = wall.side_lap_mm, wall.wall_mm - wall.side_lap_mm
    between = (model.new_int_var_from_domain(possible, f"lap {k}") for k in range(1, sheets))
    starts = [0, *between, end]
    full = []
    for near, far in pairwise(starts):
        width = far - near + lap
        model.add(width >= wall.min_sheet_mm)
        model.add(width <= wall.sheet_mm)
        full.append(model.new_bool_var("full"))
        model.add(width == wall.sheet_mm).only_enforce_if(full[-1])
    clear = model.new_int_var(parts(wall.clear_mm), 10**9, "smallest clear distance")
    for start in starts[1:-1]:
        for band in wall.field_laps:
            keep_clear(model, start, lap, band, clear)
    return Model(model, full, clear)


def keep_clear(model, start, lap, band, clear):
    """The lap lies before the field lap or behind it, by at least ``clear``."""
    before = model.new_bool_var("before")
    first, last = map(parts, band)
    model.add((start + lap) * PARTS + clear <= first).only_enforce_if(before)
    model.add(start * PARTS - clear >= last).only_enforce_if(~before)


def possible_starts(wall):
    """Every whole millimetre at which a lap keeps clear of every field lap."""
    bands = [(parts(a) - wall.side_lap_mm * PARTS, parts(b)) for a, b in wall.field_laps]
    clear = parts(wall.clear_mm)
    legal = [
        start
        for start in range(1, wall.wall_mm - wall.side_lap_mm)
        if all(start * PARTS + clear <= a or start * PARTS - clear >= b for a, b in bands)
    ]
    return cp_model.Domain.from_values(legal)


def parts(length):
    scaled = Decimal(str(length)) * PARTS
    assert scaled == int(scaled)
    return int(scaled)


def solved(model, *, maximise=None):
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 2
    solver.parameters.random_seed = 1
    if maximise is not None:
        model.maximize(maximise)
    status = solver.solve(model)
    assert status in (cp_model.OPTIMAL, cp_model.INFEASIBLE)
    return solver if status == cp_model.OPTIMAL else None


def best_rank(wall):
    """(sheets, trimmed, clear distance turned round) of the optimum, None when infeasible."""
    end = wall.wall_mm - wall.side_lap_mm
    fewest = -(-end // (wall.sheet_mm - wall.side_lap_mm))
    most = end // (wall.min_sheet_mm - wall.side_lap_mm)
    possible = possible_starts(wall)
    if possible.is_empty():
        return None
    for sheets in range(fewest, most + 1):
        model = model_of(wall, sheets, possible)
        found = solved(model.solver_model, maximise=sum(model.full))
        if found is None:
            continue
        full = round(found.objective_value)
        model.solver_model.add(sum(model.full) == full)
        if not wall.field_laps:
            return sheets, sheets - full, None
        clear = solved(model.solver_model, maximise=model.clear).value(model.clear)
        return sheets, sheets - full, -Fraction(clear, PARTS)
    return None


def random_wall(seed):
    """Walls wider than a sheet, of every sort: bands off the wall, overlapping, fractional."""
    rng = random.Random(seed)
    lap = rng.choice([50, 60, 75, 76, 100])
    sheet = rng.choice([914, 1000, 1000])
    least = rng.choice([250, 300, 400, 600, sheet - 20])
    wall = rng.randint(sheet + 1, 9000)
    clear = rng.choice([0, 0, 50, 75.5, 100, 100, 101.6, 152.4])
    decimals = rng.choice([0, 0, 1, 2])
    pitch = rng.choice([500, 800, 1000, 1000, 1400, 2500])
    bands, at = [], rng.uniform(-1500, 500)
    while at < wall + 1500:
        first = round(at, decimals)
        last = round(first + rng.choice([0, lap, 100, 150, rng.uniform(0, 400)]), decimals)
        bands.append((int(first), int(last)) if decimals == 0 else (first, last))
        at += pitch * rng.uniform(0.6, 1.4) * rng.choice([0, 1, 1, 1])
    rng.shuffle(bands)
    return Wall(wall, sheet, lap, least, tuple(bands), clear)


SEEDS = range(96)


@pytest.mark.parametrize("seed", SEEDS)
def test_optimum_of_a_random_wall(seed):
    wall = random_wall(seed)
    result, best = set_out(wall), best_rank(wall)
    if isinstance(result, Stuck):
        assert best is None
    else:
        assert_sound(wall, result)
        assert rank(result) == best


def test_the_random_walls_are_of_every_sort():
    walls = [random_wall(seed) for seed in SEEDS]
    results = [set_out(wall) for wall in walls]
    edges = [[edge for band in wall.field_laps for edge in band] for wall in walls]
    assert 10 <= sum(isinstance(result, Stuck) for result in results) <= 48
    assert sum(any(edge != int(edge) for edge in some) for some in edges) > 15
    off = [min(some) < 0 and max(some) > w.wall_mm for some, w in zip(edges, walls, strict=True)]
    assert sum(off) > 15
    assert sum(wall.clear_mm == 0 for wall in walls) > 8
    assert sum(overlapping(wall.field_laps) for wall in walls) > 15


def overlapping(bands):
    ordered = sorted(bands)
    return any(later[0] < earlier[1] for earlier, later in pairwise(ordered))


@pytest.mark.parametrize("wall_mm", [2500, 5400, 10_000])
def test_optimum_without_field_laps(wall_mm):
    wall = Wall(wall_mm, 1000, 100, 300, (), 100)
    assert rank(set_out(wall)) == best_rank(wall)
