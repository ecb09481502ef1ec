"""A good foreman: for any state, what to do next so that nothing goes wrong and no time is lost.

No order of steps is written down here. Every wish says when it makes sense, who can do it, and
from when it may make sense later; the first wish that somebody idle can do is done. What comes out
is a plan, never a judgement: whether it keeps the rules, the findings say.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import wraps
from math import ceil
from typing import Any, TypeVar

from trainer.installation.draw_job import layout
from trainer.installation.job import Job
from trainer.installation.limits import Limits, value
from trainer.installation.run import cannot
from trainer.installation.sight import Sight
from trainer.installation.state import Decision, Person, State

_SWAPPED = 0.3


@dataclass(frozen=True)
class Way:
    """How a foreman likes to work: what may be chosen freely among plans that keep the rules.

    ``batch`` is how many sheets are primed in one go, 0 for as many as can be laid in time.
    ``from_right`` lays walls from the right. ``together``: two lay a sheet where two are idle.
    ``in_hand_min`` is kept before the primer closes. ``melt_late``: prime first, and melt film far
    out while it dries. ``ahead``: prime the next stretch while the last sheets of one go down.
    ``pace_pct``: how much of the laying time counts when a stretch to prime is chosen; less than
    100 trusts several hands. ``mix`` above 0 swaps wishes now and then, each number its own way.
    """

    batch: int = 0
    from_right: bool = False
    together: bool = True
    in_hand_min: int = 10
    pace_pct: int = 100
    melt_late: bool = False
    ahead: bool = False
    mix: int = 0
    hindsight: bool = False
    skips: frozenset[str] = frozenset()


@dataclass
class Wish:
    """Something worth doing now. ``for_whom``: who may; "" anybody."""

    task: Decision
    skill: str = ""
    needs_idle: int = 1


@dataclass
class Desk:
    """The foreman's desk for one decision: the state, and the minutes at which to look again."""

    job: Job
    limits: Limits
    state: State
    way: Way
    sight: Sight
    later: list[int] = field(default_factory=list)
    wanted_measure: str = ""
    """A wall whose air should be measured before anything is decided there."""
    about_to_light: bool = False
    kept: dict[str, Any] = field(default_factory=dict)
    """What was worked out for this decision already."""

    def look_again(self, at: int) -> None:
        if at > self.state.now:
            self.later.append(at)

    def limit(self, subject: str, otherwise: float = 0) -> float:
        return value(self.limits, subject, otherwise)

    def skips(self, what: str) -> bool:
        return what in self.way.skips

    @property
    def idle(self) -> list[Person]:
        return [p for p in self.state.people.values() if p.free and not p.watching]

    def doing(self, *names: str) -> list[Decision]:
        """What is being done now of these kinds, queued work included."""
        tasks = []
        for person in self.state.people.values():
            mine = person.doing is not None and person.doing["who"] == person.id
            row = [person.doing, *person.queue] if mine else []
            tasks += [task for task in row if task and task["do"] in names]
        return tasks

    def under_way(self, **like: object) -> bool:
        """Whether somebody does such a thing now."""
        return any(
            all(task.get(k) == v for k, v in like.items()) for task in self.doing(str(like["do"]))
        )


_T = TypeVar("_T")


def once(work_out: Callable[[Desk], _T]) -> Callable[[Desk], _T]:
    """Worked out once for a decision: the state on the desk does not change."""

    @wraps(work_out)
    def kept(desk: Desk) -> _T:
        if work_out.__name__ not in desk.kept:
            desk.kept[work_out.__name__] = work_out(desk)
        found: _T = desk.kept[work_out.__name__]
        return found

    return kept


def advise(job: Job, limits: Limits, state: State, way: Way) -> Decision:
    """The next decision of a good foreman, in any state that is not over."""
    from trainer.installation.wishes import wishes

    desk = Desk(job, limits, state, way, Sight(job, way.hindsight))
    for wish in wishes(desk) if not way.mix else _mixed(desk, wishes(desk)):
        given = _given(desk, wish)
        if given is not None:
            return given
    return _wait(desk)


def _mixed(desk: Desk, wished: Iterator[Wish]) -> list[Wish]:
    """The wishes, two neighbours swapped now and then: another way that may be better."""
    found = list(wished)
    chance = random.Random(desk.way.mix * 100_003 + desk.state.n)
    if len(found) > 1 and chance.random() < _SWAPPED:
        i = chance.randrange(len(found) - 1)
        found[i], found[i + 1] = found[i + 1], found[i]
    return found


def _given(desk: Desk, wish: Wish) -> Decision | None:
    """The wish as a decision, with somebody idle who can do it; None when nobody can."""
    task = wish.task
    if "who" not in task and task["do"] in ("alarm", "leave", "stop"):
        return task
    if "who" in task:
        return task if not cannot(desk.job, desk.state, {**task, "by": 0}) else None
    people = list(_by_skill(desk, wish.skill))
    for person in people:
        full = {**task, "who": person.id}
        if task.get("with"):
            others = [p for p in desk.idle if p.id != person.id]
            if not others:
                continue
            full["with"] = min(others, key=lambda p: _worth(desk, p)).id
        if not cannot(desk.job, desk.state, {**full, "by": 0}):
            return full
    return None


def _by_skill(desk: Desk, skill: str) -> Iterator[Person]:
    """Idle people who may do it, those first who are missed least elsewhere."""
    able = [p for p in desk.idle if not skill or getattr(desk.job.hand(p.id), skill)]
    yield from sorted(able, key=lambda p: _worth(desk, p, skill))


def _worth(desk: Desk, person: Person, skill: str = "") -> tuple[int, int]:
    """How much somebody is missed at another place: the only torch last for other work."""
    hand = desk.job.hand(person.id)
    order = list(desk.state.people)
    holds = any(f.who == person.id for f in desk.state.flames.values() if f.tool == "torch")
    need = 4 * holds + 2 * (hand.torch and skill != "torch") + (hand.watch and skill != "watch")
    return need, order.index(person.id)


def _wait(desk: Desk) -> Decision:
    """Until somebody is done, or until the next minute at which it is worth looking again."""
    state = desk.state
    ends = [p.until for p in state.people.values() if p.until is not None]
    soonest = min([*desk.later, *ends], default=state.now + 15)
    return {"do": "wait", "minutes": max(1, soonest - state.now)}


def best_laps(job: Job, limits: Limits, wall: str) -> list[int]:
    """Lap starts of the best set-out of a wall, on the wall; [] when there is none."""
    found = layout(job, wall, ceil(value(limits, "lap-clearance")))
    start = job.stretch(wall)[0]
    return [start + low for low, _ in getattr(found, "laps", ())]
