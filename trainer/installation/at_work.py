"""Two people cannot do one thing: what somebody works on, nobody else can begin to change."""

from __future__ import annotations

from trainer.installation.job import Job
from trainer.installation.state import Decision, State

_ANEW = ("lay", "lay corner", "strip", "strip corner")
"""Nobody can work on a sheet or corner while it is being laid or stripped, nor the other way."""
_ALONE = {"light": "tool", "cut": "roll", "rail": "wall", "cover": "thing", "clear": "thing"}
_IN_USE = (({"light", "change gas"}, {"torch", None}), ({"fill", "put out"}, {"melter", None}))
"""Work on what somebody else uses: the torch's cylinder, the melter."""
_ONCE = ("change gas", "open permit", "close permit", "fetch warm rolls")


def busy_with(job: Job, state: State, task: Decision) -> str:
    """Who is at work on what a task would change, in a sentence; "" for nobody."""
    for person in state.people.values():
        other = person.doing
        if other is not None and other["who"] != task["who"] and _clash(job, state, task, other):
            return f"{job.hand(person.id).name} is at it."
    return ""


def _clash(job: Job, state: State, task: Decision, other: Decision) -> bool:
    does = {task["do"], other["do"]}
    tools = {part.get("tool") for part in (task, other)}
    if (does, tools) in _IN_USE:
        return True
    if "set out" in does and does <= {"set out", "lay"}:
        return bool(task["wall"] == other["wall"])
    if len(does) > 1 and does.isdisjoint(_ANEW):
        return False
    if task["do"] in _ONCE:
        return len(does) == 1
    return not _things(job, state, task).isdisjoint(_things(job, state, other))


def _things(job: Job, state: State, task: Decision) -> set[str]:
    """The sheets and corners, or the one thing, that a task changes."""
    if task["do"] in _ALONE:
        return {f"{task['do']} {task[_ALONE[task['do']]]}"}
    if "corner" in task:
        return {f"corner {task['corner']}"}
    if "sheet" in task:
        return {f"sheet {task['wall']}:{task['sheet']}"}
    return _beside(job, state, task["wall"], task["lap"]) if "lap" in task else set()


def _beside(job: Job, state: State, wall: str, lap: int) -> set[str]:
    """What lies on both sides of a lap: sheets of the wall, at its ends those of a corner."""
    i, count = job.wall_index(wall), len(state.layouts[wall]["laps"]) + 1
    left = f"sheet {wall}:{lap - 1}" if lap > 0 else f"corner {i - 1}"
    right = f"sheet {wall}:{lap}" if lap < count else f"corner {i}"
    return {left, right}
