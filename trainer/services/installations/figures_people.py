"""Where people are drawn on the roof plan: at their work, and never on top of anything else."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import product

from trainer.installation.actions import ACTIONS
from trainer.installation.job import Job
from trainer.installation.laps import sheets_to_lay
from trainer.installation.place import Point, Spot
from trainer.installation.state import Decision, Person, State

_STANDS_MM = 650
"""How far from the wall somebody stands who works at it."""

_BY_THE_ROLLS_MM = 2400
"""How far from the first wall somebody stands who has nothing to do."""

_APART, _TORCH = 33.0, 92.0
"""User units from one symbol to the next, and from a flame's tip to whoever holds the torch."""


def stands(job: Job, state: State, person: Person, back_mm: int) -> Spot:
    """Where somebody is: behind the torch they hold or watch, at their work, or by the rolls.

    ``back_mm`` is how far behind a flame whoever holds the torch is drawn.
    """
    torch = state.flames.get("torch")
    if torch is not None and torch.who == person.id:
        return replace(torch.spot, off_mm=torch.spot.off_mm + back_mm)
    if person.doing is not None and (spot := works_at(job, state, person.doing)):
        return spot
    if torch is not None and person.watching:
        return replace(torch.spot, off_mm=torch.spot.off_mm + back_mm * 3 // 2)
    first = job.walls[0]
    return Spot(first.id, first.length_mm // 4, _BY_THE_ROLLS_MM)


def works_at(job: Job, state: State, task: Decision) -> Spot | None:
    """Where somebody stands who does this; None away from the walls."""
    if "corner" in task:
        wall = job.walls[task["corner"]]
        return Spot(wall.id, max(0, wall.length_mm - job.corner_leg_mm), _STANDS_MM)
    act = ACTIONS.get(task["do"])
    if "wall" not in task or act is None or not act.at_wall:
        return None
    wall = job.wall(task["wall"])
    return Spot(wall.id, _along(job, state, task, wall.length_mm), _STANDS_MM)


def _along(job: Job, state: State, task: Decision, long: int) -> int:
    """How far along its wall a task is done; in the middle where it has no place of its own."""
    if "at" in task:
        return min(int(task["at"]), long)
    if "from" in task:
        return int(task["from"] + task["to"]) // 2
    due = sheets_to_lay(job, state, task["wall"])
    number = task.get("sheet", task.get("lap"))
    if number is None or not due:
        return long // 2
    low, high = due[min(int(number), len(due) - 1)]
    return low if "lap" in task else (low + high) // 2


class Ground:
    """The roof with what stands on it; finds room for one symbol after the other."""

    def __init__(self, job: Job, taken: Iterable[Point], mm_per_unit: float) -> None:
        self.job = job
        self.taken = list(taken)
        self.step_mm = round(_APART * mm_per_unit)
        self.back_mm = round(_TORCH * mm_per_unit)

    def place(self, spot: Spot) -> Point:
        """The nearest place on the roof where nothing stands yet, else the spot itself."""
        step, laid = self.step_mm, self.job.plan[self.job.wall_index(spot.wall)]
        tried = (
            laid.point(spot.at_mm + aside * step, spot.off_mm + out * step)
            for out, aside in product((0, 1, -1, 2, -2, 3), (0, 1, -1, 2, -2, 3, -3, 4, -4))
        )
        free = (at for at in tried if self._on_the_roof(at) and self._clear(at))
        at = next(free, self.job.placed(spot))
        self.taken.append(at)
        return at

    def _clear(self, at: Point) -> bool:
        far = self.step_mm * 19 // 20
        return all(max(abs(at[0] - u), abs(at[1] - v)) >= far for u, v in self.taken)

    def _on_the_roof(self, at: Point) -> bool:
        """Whether a point is neither behind a wall nor too near to one for a symbol."""
        near = min(_STANDS_MM - 50, self.step_mm // 2)
        for laid, wall in zip(self.job.plan, self.job.walls, strict=True):
            x, y = at[0] - laid.origin[0], at[1] - laid.origin[1]
            along = x * laid.along[0] + y * laid.along[1]
            off = x * laid.out[0] + y * laid.out[1]
            if 0 <= along <= wall.length_mm and off < near:
                return False
            if -near < along < wall.length_mm + near and abs(off) < near:
                return False
        return True
