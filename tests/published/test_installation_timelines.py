"""Days of three small jobs, their sums worked out by hand, against the simulator.

The numbers and the sums beside them stand in installation_timelines.yaml; nothing there was made by
a program. No document was found that lays such a day out: limits are the rule book's, minutes of
work and drying are made up for the jobs, common practice, no source.
"""

from pathlib import Path

import pytest
import yaml
from second_installation import Second

from trainer.installation.laps import missing
from trainer.installation.limits import limits_of
from trainer.installation.read_job import read_job
from trainer.installation.run import decide
from trainer.installation.state import begin
from trainer.pack.rulebook import load_rulebook

LIMITS = limits_of(load_rulebook().in_force())
JOBS = yaml.safe_load((Path(__file__).parent / "installation_timelines.yaml").read_text())["jobs"]
DAYS = [(name, day) for name, job in JOBS.items() for day in job["days"]]


def decisions(name, day):
    """The decisions as a person takes them, without the clock beside them."""
    rows = JOBS[name]["days"][day]["decisions"]
    return [{k: v for k, v in row.items() if k not in ("done", "now")} for row in rows]


def played(name, day):
    job = read_job(JOBS[name]["job"])
    states = [begin(job)]
    for decision in decisions(name, day):
        states.append(decide(job, LIMITS, states[-1], decision))
    return job, states


@pytest.mark.parametrize(("name", "day"), DAYS)
def test_the_clock_after_every_decision(name, day):
    _, states = played(name, day)
    for row, state in zip(JOBS[name]["days"][day]["decisions"], states[1:], strict=True):
        assert state.now == row["now"], row


@pytest.mark.parametrize(("name", "day"), DAYS)
def test_when_each_ones_work_is_done(name, day):
    _, states = played(name, day)
    rows = JOBS[name]["days"][day]["decisions"]
    for number, row in enumerate(rows, start=1):
        if "done" not in row:
            continue
        ends = [e["at"] for e in states[-1].log if e["kind"] == "done" and e["n"] == number]
        assert ends[0] == row["done"], row


@pytest.mark.parametrize(("name", "day"), DAYS)
def test_the_findings_and_their_minutes(name, day):
    job, states = played(name, day)
    found = [[f.subject, f.place, f.at] for f in states[-1].findings]
    assert sorted(found) == sorted(JOBS[name]["days"][day]["findings"])
    assert missing(job, states[-1]) == JOBS[name]["days"][day]["missing"]


@pytest.mark.parametrize(("name", "day"), DAYS)
def test_primer_strips_gas_and_flame(name, day):
    expected = JOBS[name]["days"][day]
    _, states = played(name, day)
    ready = {}
    for state in states:
        for coat in state.coats:
            dry = (coat.primed_ms(coat.to_mm) + coat.dry_min * 1000) / 1000
            ready[coat.id] = max(ready.get(coat.id, 0), dry)
    sheets = states[-1].sheets.values()
    assert ready == expected["ready_at"]
    assert {sheet.id: sheet.laying.age_min for sheet in sheets} == expected["ages"]
    assert {sheet.id: sheet.laying.relaxed_min for sheet in sheets} == expected["relaxed"]
    assert states[-1].last_flame == expected["last_flame"]
    assert states[-1].gas_left == expected["gas_left"]


def second(name, day):
    interpreter = Second(JOBS[name]["job"])
    for row in JOBS[name]["days"][day]["decisions"]:
        interpreter.take({k: v for k, v in row.items() if k not in ("done", "now")})
        yield row, interpreter


@pytest.mark.parametrize(("name", "day"), DAYS)
def test_the_second_interpreter_comes_to_the_same_day(name, day):
    expected = JOBS[name]["days"][day]
    for row, after in second(name, day):
        assert after.now == row["now"], row
    assert sorted(map(list, after.found)) == sorted(expected["findings"])
    assert {name: sheet["age"] for name, sheet in after.sheets.items()} == expected["ages"]
    assert {name: s["relaxed"] for name, s in after.sheets.items()} == expected["relaxed"]
    assert (after.last_flame, after.gas) == (expected["last_flame"], expected["gas_left"])
