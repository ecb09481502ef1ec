"""Random days of the three hand-computed jobs: the simulator against the second interpreter.

Any decision that nature allows and the second interpreter knows is taken by both; after each their
clocks and findings (subject, place, minute) must be equal.
"""

import random
from pathlib import Path

import pytest
import yaml
from second_installation import Second

from trainer.errors import InputError
from trainer.installation.limits import limits_of
from trainer.installation.read_job import read_job
from trainer.installation.run import Impossible, decide
from trainer.installation.state import begin
from trainer.pack.rulebook import load_rulebook

LIMITS = limits_of(load_rulebook().in_force())
JOBS = yaml.safe_load((Path(__file__).parent / "installation_timelines.yaml").read_text())["jobs"]
FORWARD = {"lay", "roll", "lay corner", "roll corner", "weld", "gusset", "fill", "preheat", "cut"}


def some(plain, chance):
    """One decision of each kind that the second interpreter knows, drawn by chance."""
    wall = chance.choice(plain["walls"])
    name, long = wall["id"], wall["length_mm"]
    sheet = chance.randrange(3)
    spot = {
        "wall": name,
        "at": chance.randrange(0, long, 50),
        "off": chance.choice([0, 900, 1200, 8000]),
    }
    ends = sorted(chance.sample(range(0, long + 1, 100), 2))
    width = chance.choice([70, 100])
    laps = {2700: [850, 1700], 1900: [700], 1300: []}[long]
    lay = {
        "do": "lay",
        "wall": name,
        "sheet": sheet,
        "half": chance.choice(["top", "top", "bottom"]),
    }
    kinds = [
        {"do": "look", "wall": name},
        {"do": "measure", "wall": name},
        {"do": "check rolls"},
        {"do": "dry", "wall": name, "from": 0, "to": long},
        {"do": "prime", "wall": name, "from": 0, "to": long},
        {"do": "prime", "wall": name, "from": ends[0], "to": ends[1]},
        {"do": "snap", "wall": name, "distance": chance.choice([90, 110])},
        {"do": "set out", "wall": name, "laps": laps, "lap_mm": width},
        {"do": "cut", "strips": chance.randint(1, 3), "roll": "r1"},
        lay,
        lay | {"with": chance.choice(["dana", "ivo", "noor"])},
        {"do": "lay", "wall": name, "sheet": 0, "through": 2, "rolling": True},
        {"do": "lay", "wall": name, "sheet": 2, "through": 0, "rolling": chance.random() < 0.5},
        {"do": "roll", "wall": name, "sheet": sheet},
        {"do": "roll", "wall": name, "sheet": 0, "through": 2},
        {"do": "light", **spot},
        {"do": "preheat", "strips": chance.randint(1, 3)},
        {"do": "weld", "wall": name, "lap": sheet},
        {"do": "weld", "wall": name, "lap": 0, "through": 2},
        {"do": "put out"},
        {"do": chance.choice(["open permit", "close permit", "close cans", "bag film"])},
        {"do": chance.choice(["watch", "watch", "end watch", "last look"])},
        {"do": "seal", "wall": name},
    ]
    if plain.get("corners"):
        number = {"corner": 0, "number": chance.choice([1, 2])}
        kinds += [
            {"do": "lay corner", **number}, {"do": "lay corner", **number},
            {"do": "roll corner", **number}, {"do": "trim", "corner": 0},
            {"do": "fill", "corner": 0}, {"do": "light", **spot, "tool": "melter"},
            {"do": "put out", "tool": "melter"},
            {"do": "gusset", "corner": 0, "reach": chance.choice([90, 110])},
        ]  # fmt: skip
    return [{**kind, "who": chance.choice(["dana", "ivo", "noor"])} for kind in kinds]


def candidates(plain, state, chance):
    busy = sum(not person.free for person in state.people.values())
    if chance.random() < 0.05 + 0.25 * busy:
        return [{"do": "wait", "minutes": chance.choice([0, 0, 0, 1, 8, 25, 50])}]
    given = some(plain, chance)
    chance.shuffle(given)
    return sorted(given, key=lambda d: d["do"] not in FORWARD or chance.random() < 0.4)


def next_one(job, plain, state, chance):
    for decision in candidates(plain, state, chance):
        try:
            return decision, decide(job, LIMITS, state, decision)
        except (Impossible, InputError):
            continue
    return {"do": "wait", "minutes": 5}, decide(job, LIMITS, state, {"do": "wait", "minutes": 5})


def both_ways(name, seed, most=55):
    """A day drawn from the seed, by both; the simulator's last state."""
    plain, chance = JOBS[name]["job"], random.Random(seed)
    job, other = read_job(plain), Second(plain)
    state, taken = begin(job), []
    while len(taken) < most and state.ended is None and state.now < job.leave_by - 130:
        decision, state = next_one(job, plain, state, chance)
        taken.append(decision)
        other.take(dict(decision))
        assert other.now == state.now, taken
    state = decide(job, LIMITS, state, {"do": "leave"})
    other.take({"do": "leave"})
    found = [(f.subject, f.place, f.at) for f in state.findings]
    assert sorted(other.found) == sorted(found), taken
    assert (other.gas, other.last_flame) == (state.gas_left, state.last_flame)
    return state, taken


@pytest.mark.parametrize("name", JOBS)
@pytest.mark.parametrize("seed", range(25))
def test_a_random_day_comes_out_the_same_twice(name, seed):
    both_ways(name, seed)


@pytest.mark.long
@pytest.mark.parametrize("name", JOBS)
def test_a_thousand_random_days_come_out_the_same_twice(name):
    for seed in range(1000, 2000):
        both_ways(name, seed)


def test_random_days_come_far():
    done, found = set(), set()
    for name in JOBS:
        for seed in range(25):
            state, taken = both_ways(name, seed)
            done |= {decision["do"] for decision in taken}
            found |= {finding.subject for finding in state.findings}
    assert {"weld", "gusset", "fill", "preheat", "roll corner", "dry", "seal"} <= done
    assert len(found) >= 20, found
