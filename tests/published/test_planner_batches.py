"""The batch-priming part of a day against OR-tools CP-SAT, which knows nothing of the simulator.

How many sheets to prime in one go, when, and who lays which: two pairs of hands (the third
watches), primer that must be dry and must not be too old. CP-SAT finds the shortest time from the
first stroke of the roller to the last sheet rolled; no plan of the program can be shorter. Limits
are made up, common practice, no source.
"""

import pytest
from ortools.sat.python import cp_model

from tests.unit.installation.small_jobs import LIMITS, plain_job
from trainer.installation.planner import best
from trainer.installation.read_job import read_job

LAP, WIDE = 100, 1000
HANDS = 2

CASES = [
    # sheets, minutes a metre, drying, latest
    (3, 2, 30, 180),
    (4, 2, 30, 60),
    (5, 4, 20, 60),
]


def wall_job(sheets, per_m, dry, latest):
    long = sheets * (WIDE - LAP) + LAP
    plain = plain_job(
        wall={"length_mm": long, "field_laps": []},
        gas={"minutes": 90, "wall": "A", "at_mm": long // 2, "off_mm": 12_400},
    )
    plain["minutes"]["prime a metre"] = per_m
    plain["paper"] |= {"dry_min": dry, "latest_min": latest, "plan_min": latest}
    return read_job(plain)


class Batches:
    """The model. Times in minutes; a batch ends after sheet k where ``cut[k]`` is true."""

    def __init__(self, job):
        self.model, self.job = cp_model.CpModel(), job
        self.end = 300
        wide = job.sheet.width_mm - job.sheet.side_lap_mm
        self.count = (job.walls[0].length_mm - job.sheet.side_lap_mm) // wide
        self.ends = [min((k + 1) * wide + LAP, job.walls[0].length_mm) for k in range(self.count)]
        self.work = []
        self.prime()
        self.lay()
        self.model.add_cumulative(*zip(*self.work, strict=True), HANDS)

    def time(self, name):
        return self.model.new_int_var(0, self.end, name)

    def prime(self):
        """One optional interval for every batch from sheet i to sheet j; every sheet in one."""
        model, per = self.model, self.job.minutes["prime a metre"]
        self.batches = []
        for i in range(self.count):
            start_mm = 0 if i == 0 else self.ends[i - 1]
            for j in range(i, self.count):
                taken, start = model.new_bool_var(f"b{i}{j}"), self.time(f"s{i}{j}")
                minutes = -(-per * (self.ends[j] - start_mm) // 1000)
                span = model.new_optional_fixed_size_interval_var(start, minutes, taken, f"p{i}{j}")
                self.work.append((span, 1))
                self.batches.append((i, j, taken, start, start_mm))
        for k in range(self.count):
            model.add_exactly_one(t for i, j, t, _, _ in self.batches if i <= k <= j)

    def lay(self):
        model, times = self.model, self.job.minutes
        self.last = self.time("last")
        for k in range(self.count):
            start, down = self.time(f"l{k}"), self.time(f"d{k}")
            two = model.new_bool_var(f"two{k}")
            for hands, minutes, chosen in (
                (1, times["lay"], two.negated()),
                (2, times["lay together"], two),
            ):
                span = model.new_optional_interval_var(start, minutes, down, chosen, f"l{k}{hands}")
                self.work.append((span, hands))
            rolled = self.time(f"r{k}")
            self.work.append((model.new_fixed_size_interval_var(rolled, times["roll"], f"r{k}"), 1))
            model.add(rolled >= down)
            model.add(self.last >= rolled + times["roll"])
            self.primer(k, start, down)

    def primer(self, k, start, down):
        """Dry where it was primed last when begun, not too old where first when down."""
        paper, per = self.job.paper, self.job.minutes["prime a metre"]
        for i, j, taken, begun, start_mm in self.batches:
            if i <= k <= j:
                right = per * (self.ends[k] - start_mm)
                left = per * ((0 if k == 0 else self.ends[k - 1]) - start_mm)
                # thousandths of a minute, whole
                self.model.add(
                    1000 * start >= 1000 * (begun + paper.dry_min) + right
                ).only_enforce_if(taken)
                self.model.add(
                    1000 * down <= 1000 * (begun + paper.latest_min) + left
                ).only_enforce_if(taken)

    def shortest(self):
        self.model.minimize(self.last)
        solver = cp_model.CpSolver()
        solver.parameters.max_time_in_seconds = 10
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 1
        status = solver.solve(self.model)
        assert status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
        return int(solver.best_objective_bound), status == cp_model.OPTIMAL


def taken_by(plan):
    """Minutes from the first stroke of the roller to the last sheet rolled, in a plan."""
    log = [e for e in plan.last.log if e["kind"] == "done"]
    first = min(e["since"] for e in log if e["do"] == "prime")
    return max(e["at"] for e in log if e["do"] == "roll") - first


@pytest.mark.parametrize(("sheets", "per_m", "dry", "latest"), CASES)
def test_no_plan_beats_the_solver(sheets, per_m, dry, latest):
    job = wall_job(sheets, per_m, dry, latest)
    plan = best(job, LIMITS, hindsight=True)
    assert plan.clean
    shortest, _ = Batches(job).shortest()
    assert shortest <= taken_by(plan)
    print(f"solver {shortest}, plan {taken_by(plan)}")
