"""People: watch, lunch, errands; and what stops everything: stop work, alarm, leave."""

from __future__ import annotations

from trainer.installation.act import Act, by_of, log, takes
from trainer.installation.acts_flame import extinguish
from trainer.installation.coats import break_off
from trainer.installation.job import Job
from trainer.installation.state import Decision, Person, State

ALL_CLEAR = "wait for the all-clear"
"""What everybody but the watch does after the alarm; nobody can be told to do it."""


def _never(job: Job, state: State, task: Decision) -> str:
    return "That comes of the alarm alone."


def _watch(job: Job, state: State, task: Decision) -> None:
    state.people[task["who"]].watching = True
    state.people[task["who"]].by = by_of(task)


def _cannot_watch(job: Job, state: State, task: Decision) -> str:
    return "This person stands on watch." if state.people[task["who"]].watching else ""


def _end_watch(job: Job, state: State, task: Decision) -> None:
    state.people[task["who"]].by = by_of(task)


def _cannot_end_watch(job: Job, state: State, task: Decision) -> str:
    return "" if state.people[task["who"]].watching else "This person is not on watch."


def _no_time(job: Job, state: State, task: Decision) -> int:
    return 0


def _lunch_minutes(job: Job, state: State, task: Decision) -> int:
    return job.lunch.minutes if job.lunch else 0


def _cannot_eat(job: Job, state: State, task: Decision) -> str:
    if job.lunch is None:
        return "The day ends before lunch."
    if state.people[task["who"]].ate:
        return "This person has eaten."
    return "It is too early for lunch." if state.now < job.lunch.from_at else ""


def _eat(job: Job, state: State, task: Decision) -> None:
    state.people[task["who"]].ate = True


def _fetch(job: Job, state: State, task: Decision) -> None:
    state.warm_rolls = True
    state.cut_from = {}
    state.known["rolls"] = {"at": state.now, "is": []}


def _cannot_fetch(job: Job, state: State, task: Decision) -> str:
    return "Warm rolls are on the roof already." if state.warm_rolls else ""


def raise_alarm(job: Job, state: State) -> None:
    """Everybody drops what they do; flames go out; all but the watch wait for the all-clear."""
    for tool in list(state.flames):
        extinguish(state, tool, state.n)
    drop_all(state)
    for person in state.people.values():
        if not person.watching:
            person.doing = {"do": ALL_CLEAR, "who": person.id, "by": state.n}
            person.since, person.until = state.now, state.now + job.minutes["alarm"]
    state.smoke_answered = True
    state.smoulder_at = None
    log(state, "alarm")


def drop_all(state: State) -> None:
    """Whoever works stops; what they were doing stays undone."""
    for person in state.people.values():
        if person.doing is not None and person.doing["do"] == "prime":
            break_off(state, by_of(person.doing))
        drop(state, person)


def drop(state: State, person: Person) -> None:
    """What somebody was doing is not done, nor what was to follow; it is written down."""
    task = person.doing
    if task is not None and task["who"] == person.id:
        said = {k: task[k] for k in ("do", "who", "with", "wall") if k in task}
        log(state, "dropped", since=person.since, **said)
    person.doing, person.until, person.queue = None, None, []


ACTS = (
    Act(
        "watch", "crew", (), _no_time, cannot=_cannot_watch, end=_watch,
        touches=frozenset({"watch", "flame"}), at_wall=False,
    ),
    Act(
        "end watch", "crew", (), _no_time, cannot=_cannot_end_watch, end=_end_watch,
        touches=frozenset({"watch", "flame"}), at_wall=False,
    ),
    Act(
        "lunch", "crew", (), _lunch_minutes, cannot=_cannot_eat, end=_eat, at_wall=False,
    ),
    Act(
        "fetch warm rolls", "crew", (), takes("fetch warm rolls"), cannot=_cannot_fetch,
        end=_fetch, at_wall=False,
    ),
    Act(ALL_CLEAR, "", (), takes("alarm"), cannot=_never, at_wall=False),
)  # fmt: skip
