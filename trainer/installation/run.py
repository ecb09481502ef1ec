"""Takes one decision: checks that nature allows it, lets time run, and lets the rule book look.

Time moves by itself only when nobody is idle. Whatever happens on the way (somebody is done, a
shower, the cylinder runs out) happens at its minute, and after each the findings are brought up
to date.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from trainer.errors import InputError, TrainerError
from trainer.installation.act import log
from trainer.installation.actions import ACTIONS, FOR_ALL
from trainer.installation.acts_crew import drop, drop_all, raise_alarm
from trainer.installation.acts_flame import extinguish
from trainer.installation.at_work import busy_with
from trainer.installation.findings import bring_up_to_date
from trainer.installation.happen import happen_until, next_happening, smoulder
from trainer.installation.job import Job
from trainer.installation.limits import Limits
from trainer.installation.read_decision import read_decision, row_of
from trainer.installation.state import Decision, Person, State, copied
from trainer.roofing.clock import hhmm

LONGEST_QUIET_MIN = 60
"""Waiting until something happens ends after this, whatever happens."""


class Impossible(TrainerError):
    """Nature does not allow it: a sheet that is not there cannot be rolled."""


class Ended(TrainerError):
    """The installation is over; nothing more can be decided."""


def decide(job: Job, limits: Limits, state: State, decision: Mapping[str, Any]) -> State:
    """The state after a decision. The given state stays as it is.

    Raises InputError for a decision that cannot be read, Impossible where nature does not allow
    it, Ended when the installation is over.
    """
    if state.ended is not None:
        raise Ended("This installation is over.")
    read = read_decision(job, decision)
    new = copied(state)
    new.n += 1
    if new.n == 1:
        happen_until(job, limits, new)  # what came before the crew did
    if read["do"] in FOR_ALL:
        _for_all(job, limits, new, read)
    else:
        _give(job, limits, new, read)
    seen = len(new.log)
    while new.ended is None and _nobody_idle(new) and not _noticed(new, seen):
        _pass(job, limits, new, _next(job, new))
    return new


def _give(job: Job, limits: Limits, state: State, read: Decision) -> None:
    """Give a person a task, or a row of them; the first begins now."""
    person = state.people[read["who"]]
    _must_be_free(job, state, person)
    if "with" in read:
        if read["with"] == read["who"]:
            raise InputError("with", read["with"], "somebody else")
        _must_be_free(job, state, state.people[read["with"]])
    tasks = [{**task, "by": state.n} for task in row_of(read)]
    reason = cannot(job, state, tasks[0])
    if reason:
        raise Impossible(reason)
    person.queue = tasks[1:]
    _start(job, limits, state, person, tasks[0])


def _must_be_free(job: Job, state: State, person: Person) -> None:
    if not person.free:
        name = job.hand(person.id).name
        at = hhmm(person.until) if person.until else ""
        raise Impossible(f"{name} is busy until {at}.")


def cannot(job: Job, state: State, task: Decision) -> str:
    """Why nature does not allow a task now, in a sentence; "" where it does."""
    person = state.people[task["who"]]
    hungry = job.lunch is not None and state.now >= job.lunch.by and not person.ate
    if hungry and task["do"] not in ("lunch", "put out", "watch", "end watch"):
        return f"{job.hand(person.id).name} has had no lunch and will not go on without."
    return ACTIONS[task["do"]].cannot(job, state, task) or busy_with(job, state, task)


def _start(job: Job, limits: Limits, state: State, person: Person, task: Decision) -> None:
    act = ACTIONS[task["do"]]
    touched = {"person"}
    hands = [person] + ([state.people[task["with"]]] if "with" in task else [])
    for hand in hands:
        if hand.watching:
            touched.add("watch")
            hand.watching, hand.by = False, int(task["by"])
    for hand in hands:
        hand.doing, hand.since = task, state.now
        hand.until = state.now + act.minutes(job, state, task)
    act.begin(job, state, task)
    smoulder(job, limits, state)
    touched |= act.touches
    if person.until == state.now:
        _finish(job, limits, state, [person], touched)
        return
    bring_up_to_date(job, limits, state, touched)


def _finish(
    job: Job, limits: Limits, state: State, people: Sequence[Person], touched: Iterable[str] = ()
) -> None:
    """What is done in one minute is done: what it changes, the findings, what follows in a row."""
    all_touched = {"person", *touched}
    for person in people:
        all_touched |= _done(job, limits, state, person)
    bring_up_to_date(job, limits, state, all_touched)
    for person in people:
        if person.queue and person.free and state.ended is None:
            _go_on(job, limits, state, person)


def _done(job: Job, limits: Limits, state: State, person: Person) -> frozenset[str]:
    """A task is done and its hands are free; what may be wrong now."""
    task = person.doing
    if task is None:
        return frozenset()
    act, since = ACTIONS[task["do"]], person.since
    act.end(job, state, task)
    smoulder(job, limits, state)
    for hand in state.people.values():
        if hand.doing is task:
            hand.doing, hand.until = None, None
    state.log.append(
        {"at": state.now, "since": since, "kind": "done", "n": task["by"], **_said(task)}
    )
    return act.touches


def _go_on(job: Job, limits: Limits, state: State, person: Person) -> None:
    """The next of a row, or the end of the row where nature does not allow it."""
    following = dict(person.queue.pop(0))
    reason = cannot(job, state, following)
    helper = following.get("with")
    if not reason and helper and not _at_hand(state.people[helper]):
        reason = f"{job.hand(helper).name} is busy."
    if reason:
        person.queue = []
        log(state, "broke off", who=person.id, why=reason)
        return
    _start(job, limits, state, person, following)


def _at_hand(person: Person) -> bool:
    return person.free and not person.queue


_KEPT_OUT = ("strip", "laying", "by")


def _said(task: Decision) -> dict[str, Any]:
    """The task for the log, where ``at`` is the minute: a place along the wall is ``at_mm``."""
    return {"at_mm" if k == "at" else k: v for k, v in task.items() if k not in _KEPT_OUT}


def _nobody_idle(state: State) -> bool:
    """Whether time must move: somebody works, and nobody stands about."""
    people = state.people.values()
    working = any(not person.free for person in people)
    return working and not any(person.free and not person.watching for person in people)


def _for_all(job: Job, limits: Limits, state: State, read: Decision) -> None:
    if read["do"] == "wait":
        _wait(job, limits, state, read["minutes"])
    elif read["do"] == "stop":
        drop_all(state)
        log(state, "stopped")
        bring_up_to_date(job, limits, state, {"person", "watch", "flame"})
    elif read["do"] == "alarm":
        raise_alarm(job, state)
        bring_up_to_date(job, limits, state, {"flame", "watch", "person", "smoke"})
    else:
        drop_all(state)
        _end(job, limits, state, "left")


def _wait(job: Job, limits: Limits, state: State, minutes: int) -> None:
    """Wait so long, or until somebody is done; what everybody notices always ends it."""
    until = state.now + (minutes or LONGEST_QUIET_MIN)
    noticed = len(state.log)
    while state.ended is None and state.now < until:
        busy = sum(not person.free for person in state.people.values())
        _pass(job, limits, state, min(until, _next(job, state)))
        if _noticed(state, noticed):
            return
        if not minutes and sum(not p.free for p in state.people.values()) < busy:
            return


def _noticed(state: State, since: int) -> bool:
    """Whether something was written down since that everybody notices at once."""
    return any(entry["kind"] in NOTICED for entry in state.log[since:])


NOTICED = ("rain", "rain over", "gas out", "smoke", "gusts", "gust", "broke off")
"""What everybody on the roof notices at once."""


def _next(job: Job, state: State) -> int:
    """The next minute at which anything happens; the leaving time if nothing does before."""
    ends = [p.until for p in state.people.values() if p.until is not None]
    return min([job.leave_by, *ends, next_happening(job, state)])


def _pass(job: Job, limits: Limits, state: State, to: int) -> None:
    """Let time run to a minute at which something happens, and let it happen."""
    if "torch" in state.flames:
        state.gas_left = max(0, state.gas_left - (to - state.now))
    state.now = to
    _gas_out(job, limits, state)
    touched = happen_until(job, limits, state)  # first, so that a finger finds what fell just now
    if touched:
        bring_up_to_date(job, limits, state, touched)
    people = [p for p in state.people.values() if p.until is not None and p.until <= to]
    done = [p for p in people if p.doing is None or p.doing["who"] == p.id]
    if done:
        _finish(job, limits, state, done)
    if to >= job.leave_by and state.ended is None:
        drop_all(state)
        _end(job, limits, state, "leaving time")


def _gas_out(job: Job, limits: Limits, state: State) -> None:
    """The cylinder is empty: the torch goes out, and what was being done with it is not done."""
    if state.gas_left > 0 or "torch" not in state.flames:
        return
    holder = state.people[state.flames["torch"].who]
    extinguish(state, "torch", state.flames["torch"].by)
    log(state, "gas out", who=holder.id)
    if holder.doing is not None and ACTIONS[holder.doing["do"]].flame:
        unfinished = holder.until is None or holder.until > state.now
        if (unfinished or holder.doing["do"] == "light") and holder.doing["do"] != "put out":
            drop(state, holder)
    bring_up_to_date(job, limits, state, {"flame", "watch", "person"})


def _end(job: Job, limits: Limits, state: State, how: str) -> None:
    """Everybody is off the roof."""
    for person in state.people.values():
        person.watching = False
    state.ended, state.end = state.now, how
    log(state, "off the roof", how=how)
    bring_up_to_date(job, limits, state, {"end", "watch", "flame", "person", "smoke"})
