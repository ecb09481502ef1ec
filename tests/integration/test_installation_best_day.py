"""The best day of an installation: worked out once, elsewhere, under its own limits, and kept."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
from dataclasses import replace

import pytest
from installed import key

from trainer.installation.laps import missing
from trainer.installation.play import play
from trainer.services.installations import best_day, looking_back, replaying, store
from trainer.services.installations.best_day import look_back
from trainer.services.installations.looking_back import (
    Elsewhere,
    Task,
    in_another_process,
    work_out,
)

JOB = "short-crew"
IDLE = {"do": "wait", "minutes": 60}


class AtOnce:
    """Stands in for another process: whatever is asked is there before the answer."""

    def __init__(self) -> None:
        self.asked: list[str] = []

    def ask(self, name, task, then) -> bool:
        self.asked.append(name)
        then(work_out(task))
        return True


@pytest.fixture
def at_once(monkeypatch) -> AtOnce:
    monkeypatch.setattr(looking_back, "elsewhere", AtOnce())
    return looking_back.elsewhere


@pytest.fixture
def standing(parts, sign_in):
    """An installation that was idled through for an hour and left; how it is looked up again."""
    ana = sign_in("ana")
    opened = store.open_installation(parts, ana, JOB, seed=3)
    for number, decision in enumerate((IDLE, {"do": "leave"})):
        store.take(parts, ana, opened, number, decision, key(number))
    return lambda: store.own(parts, ana, opened)


def task_of(standing) -> Task:
    now = standing()
    return Task(now.job.plain, replaying.limits_as_plain(now.limits), now.decisions)


def test_its_decisions_lead_to_its_end_without_a_finding(parts, standing, at_once) -> None:
    assert look_back(parts, standing()).found is None
    found, now = look_back(parts, standing()).found, standing()
    drawn = replaying.Drawn(now.job, now.limits)
    for day in (found.forecast, found.hindsight):
        last = replaying.states(drawn, day.decisions)[-1]
        assert (last.ended, day.clean) == (day.end, True)
        assert last.findings == [] and missing(now.job, last) == []
        assert day.bound <= day.end and day.exact == (day.bound == day.end)
        assert list(day.log) == last.log and day.strips == last.strips_cut


def test_it_is_worked_out_once(parts, standing, at_once) -> None:
    look_back(parts, standing())
    first = look_back(parts, standing())
    assert first.found and first == look_back(parts, standing())
    assert len(at_once.asked) == 1


def test_what_another_simulator_found_is_found_anew(parts, standing, at_once, monkeypatch) -> None:
    look_back(parts, standing())
    monkeypatch.setattr(best_day, "SIMULATOR_VERSION", 99)
    monkeypatch.setattr(looking_back, "SIMULATOR_VERSION", 99)
    assert look_back(parts, standing()).found is None
    assert standing().row.best["simulator_version"] == 99
    assert look_back(parts, standing()).found and len(at_once.asked) == 2


def test_an_open_installation_is_not_looked_back_on(parts, sign_in, at_once) -> None:
    ana = sign_in("ana")
    opened = store.open_installation(parts, ana, JOB)
    assert look_back(parts, store.own(parts, ana, opened)) == best_day.Progress(None)
    assert at_once.asked == []


def test_the_dearest_decision_is_the_idle_hour_of_an_otherwise_good_day(standing) -> None:
    """By construction: the same good day with one hour added, and nothing else."""
    now = standing()
    good = list(play(now.job, now.limits, "book").decisions)
    drawn = replaying.Drawn(now.job, now.limits)
    before = replaying.states(drawn, good[:20])[-1]
    task = replace(task_of(standing), decisions=(*good[:20], IDLE, *good[20:]))
    idled = replaying.states(drawn, task.decisions[:21])[-1]
    found = work_out(task)["dearest"]
    assert (found["number"], found["at"]) == (21, before.now)
    assert 0 < found["minutes"] <= idled.now - before.now


def test_another_process_finds_the_same(standing) -> None:
    task = task_of(standing)
    assert in_another_process(task) == work_out(task)


def spoilt(task: Task) -> dict:
    raise SystemExit(3)


def test_a_process_that_ends_too_early_is_said() -> None:
    with pytest.raises(RuntimeError, match="ended before it was done"):
        in_another_process(Task({}, {}, ()), spoilt)


class Waited:
    """Tasks done one after the other in the background; ``kept`` is what came of them."""

    def __init__(self, work) -> None:
        self.elsewhere, self.kept = Elsewhere(work), []
        self.over = threading.Event()

    def ask(self, name: str) -> bool:
        return self.elsewhere.ask(name, Task({}, {}, ()), self._then)

    def _then(self, found) -> None:
        self.kept.append(found)
        self.over.set()


def test_what_is_under_way_is_not_begun_twice() -> None:
    go, begun = threading.Event(), []

    def work(task):
        begun.append(task)
        assert go.wait(30)
        return {}

    waited = Waited(work)
    assert waited.ask("a") and waited.ask("a")
    go.set()
    assert waited.over.wait(30) and len(begun) == 1


def test_what_went_wrong_is_said_once_and_begun_again_when_asked_again() -> None:
    answers, failed = [ValueError("no"), {"fine": True}], threading.Event()

    def work(task):
        answer = answers.pop(0)
        if isinstance(answer, Exception):
            failed.set()
            raise answer
        return answer

    waited = Waited(work)
    assert waited.ask("a") and failed.wait(30)
    for _ in range(3000):  # the thread notes it a moment after it was raised
        if not waited.ask("a"):
            break
        threading.Event().wait(0.01)
    assert waited.kept == [] and waited.ask("a")
    assert waited.over.wait(30) and waited.kept == [{"fine": True}]


_ENDS_IN_THE_MIDDLE = """
import os, sys, time
from trainer.services.installations.looking_back import Elsewhere, Task, in_another_process

def never(task):
    with open(sys.argv[1] + ".new", "w") as note:
        note.write(str(os.getpid()))
    os.rename(sys.argv[1] + ".new", sys.argv[1])
    time.sleep(3600)

if __name__ == "__main__":
    Elsewhere(lambda task: in_another_process(task, never)).ask("a", Task({}, {}, ()), print)
    while not os.path.exists(sys.argv[1]):
        time.sleep(0.05)
"""


@pytest.mark.skipif(not hasattr(os, "killpg"), reason="asks for a process by its number")
def test_the_program_ends_without_waiting_and_takes_the_other_process_with_it(tmp_path) -> None:
    script, note = tmp_path / "ends.py", tmp_path / "pid"
    script.write_text(_ENDS_IN_THE_MIDDLE)
    subprocess.run([sys.executable, script, note], check=True, timeout=60)
    with pytest.raises(ProcessLookupError):
        os.kill(int(note.read_text()), 0)
