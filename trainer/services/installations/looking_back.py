"""Looking back on a finished installation in another process: it takes seconds.

Pages never wait for it. One piece of work is done at a time, each in a process of its own that
ends with it. Both the thread that waits for it and the process are daemons: the program ends when
it is told to, whatever is still being worked out. (A ``ProcessPoolExecutor`` is waited for at the
end of the program, by its own design.)
"""

from __future__ import annotations

import logging
import multiprocessing
import os
import signal
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from multiprocessing.connection import Connection
from queue import SimpleQueue
from threading import Lock, Thread
from typing import Any

from trainer.installation import SIMULATOR_VERSION
from trainer.installation.debrief import best_days, dearest
from trainer.installation.planner import Plan
from trainer.installation.state import Decision, State
from trainer.services.installations.replaying import drawn_from, states

_LONGEST_S = 300
_YIELDS = 10
"""How far the work steps back behind the pages (nice)."""

Found = dict[str, Any]


@dataclass(frozen=True)
class Task:
    """An installation as it is stored: the drawn job, its limits, the decisions that stand."""

    job_text: Mapping[str, Any]
    limits: Mapping[str, Any]
    decisions: tuple[Decision, ...]


Work = Callable[[Task], Found]


def work_out(task: Task) -> Found:
    """The best days of a job, and the decision that cost most, as plain values to be stored.

    Keys: ``simulator_version``; ``forecast`` and ``hindsight``, each a plan with ``end``,
    ``bound``, ``strips``, ``clean``, ``exact``, ``decisions``, ``log``; ``dearest``, None or
    ``number``, ``at`` (when it was taken) and ``minutes``. Raises what reading and replaying raise.
    """
    drawn = drawn_from(task.job_text, task.limits)
    days = best_days(drawn.job, drawn.limits)
    passed = states(drawn, task.decisions)
    cost = dearest(drawn.job, drawn.limits, passed)
    return {
        "simulator_version": SIMULATOR_VERSION,
        "forecast": _plain(days.forecast),
        "hindsight": _plain(days.hindsight),
        "dearest": cost and _taken_at(cost.number, cost.minutes, passed),
    }


def _plain(plan: Plan) -> Found:
    return {
        "end": plan.end,
        "bound": plan.bound,
        "strips": plan.strips,
        "clean": plan.clean,
        "exact": plan.exact,
        "decisions": list(plan.decisions),
        "log": plan.last.log,
    }


def _taken_at(number: int, minutes: int, passed: Sequence[State]) -> Found:
    return {"number": number, "minutes": minutes, "at": passed[number - 1].now}


def in_another_process(task: Task, work: Work = work_out) -> Found:
    """What ``work`` makes of the task, elsewhere. Raises RuntimeError when nothing comes of it."""
    context = multiprocessing.get_context("spawn")
    ours, theirs = context.Pipe(duplex=False)
    process = context.Process(target=_report, args=(theirs, work, task), daemon=True)
    process.start()
    theirs.close()
    try:
        if ours.poll(_LONGEST_S):
            found: Found = ours.recv()
            return found
        raise RuntimeError(f"not worked out within {_LONGEST_S} s")
    except EOFError:
        raise RuntimeError("the process ended before it was done") from None
    finally:
        ours.close()
        process.terminate()
        process.join()


def _report(result: Connection, work: Work, task: Task) -> None:
    """The whole life of the other process; nobody may be left to hear the result."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    with suppress(OSError, AttributeError):
        os.nice(_YIELDS)
    found = work(task)
    with suppress(OSError):
        result.send(found)


class Elsewhere:
    """Tasks by name, done one after the other in the background of this process."""

    def __init__(self, work: Work = in_another_process) -> None:
        self._work = work
        self._lock = Lock()
        self._underway: set[str] = set()
        self._failed: set[str] = set()
        self._queue: SimpleQueue[tuple[str, Task, Callable[[Found], None]]] = SimpleQueue()
        self._thread: Thread | None = None

    def ask(self, name: str, task: Task, then: Callable[[Found], None]) -> bool:
        """Begin, unless it is under way; ``then`` gets what was found. False: it went wrong.

        What went wrong is said once; whoever asks again begins it again.
        """
        with self._lock:
            if name in self._failed:
                self._failed.discard(name)
                return False
            if name not in self._underway:
                self._underway.add(name)
                self._queue.put((name, task, then))
                self._wake()
        return True

    def _wake(self) -> None:
        if self._thread is None or not self._thread.is_alive():
            self._thread = Thread(target=self._go_on, name="looking-back", daemon=True)
            self._thread.start()

    def _go_on(self) -> None:
        while True:
            name, task, then = self._queue.get()
            try:
                then(self._work(task))
            except Exception:  # whatever it was: the page says so, the log says what
                logging.getLogger(__name__).exception("looking back on %s", name)
                self._over(name, failed=True)
            else:
                self._over(name, failed=False)

    def _over(self, name: str, *, failed: bool) -> None:
        with self._lock:
            self._underway.discard(name)
            if failed:
                self._failed.add(name)


elsewhere = Elsewhere()
"""Where this process has its looking back done."""
