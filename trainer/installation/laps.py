"""What the sheets on the walls come to: their laps, what is closed, what is still open."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from trainer.installation.job import Job
from trainer.installation.place import Point
from trainer.installation.state import Sheet, State


class Lap(NamedTuple):
    """Where two sheets of a wall meet. ``from_mm`` ≥ ``to_mm`` where they do not reach each other.

    ``bonded``: the film was melted off the sheet beneath and both are rolled.
    """

    id: str
    wall: str
    from_mm: int
    to_mm: int
    rolled: bool
    bonded: bool
    by: int

    @property
    def width_mm(self) -> int:
        return self.to_mm - self.from_mm

    @property
    def middle_mm(self) -> int:
        return (self.from_mm + self.to_mm) // 2


class Open(NamedTuple):
    """A lap, sheet or corner that is not closed: a segment on the plan, and the decision."""

    id: str
    start: Point
    end: Point
    by: int


def wall_sheet_id(wall: str, index: int) -> str:
    return f"{wall}:{index}"


def corner_sheet_id(corner: int, number: int) -> str:
    """The id of the first (1) or second (2) sheet of a corner."""
    return f"corner-{corner}:{number}"


def sheets_to_lay(job: Job, state: State, wall: str) -> list[tuple[int, int]]:
    """The sheets a wall's set-out asks for, from the left; none before it is set out."""
    marked = state.layouts.get(wall)
    if marked is None:
        return []
    start, end = job.stretch(wall)
    starts = [start, *marked["laps"]]
    ends = [at + marked["lap_mm"] for at in marked["laps"]] + [end]
    return list(zip(starts, ends, strict=True))


def in_a_row(state: State, wall: str) -> list[tuple[tuple[int, int], Sheet]]:
    """The sheets on a wall from the left; of a corner only the one that lies on top."""
    found = []
    for sheet in state.sheets.values():
        ends = sheet.on(wall)
        if ends is None or (sheet.second and _covered(state, sheet)):
            continue
        found.append((ends, sheet))
    found.sort(key=lambda item: item[0])
    return found


def _covered(state: State, sheet: Sheet) -> bool:
    corner, _, number = sheet.id.partition(":")
    return number == "1" and f"{corner}:2" in state.sheets


def laps(state: State, wall: str) -> list[Lap]:
    """The laps on a wall, from the left."""
    row = in_a_row(state, wall)
    found = []
    for (left, a), (right, b) in pairwise(row):
        if _between(state, wall, a, b):
            continue
        under = a if a.laid_at <= b.laid_at else b
        rolled = a.rolled_at is not None and b.rolled_at is not None
        found.append(
            Lap(
                lap_id(wall, a, b),
                wall,
                right[0],
                left[1],
                rolled,
                rolled and under.melted,
                max(a.by, b.by),
            )
        )
    return found


def _between(state: State, wall: str, a: Sheet, b: Sheet) -> bool:
    """Whether a sheet that is marked out is still missing between two that lie there."""
    if wall not in state.layouts:
        return True
    return _index(state, wall, b, last=True) - _index(state, wall, a, last=False) != 1


def _index(state: State, wall: str, sheet: Sheet, *, last: bool) -> int:
    """A sheet's number on the wall: the corner before it is −1, the one after it the count."""
    if not sheet.second:
        return int(sheet.id.rpartition(":")[2])
    return len(state.layouts[wall]["laps"]) + 1 if last else -1


def lap_id(wall: str, a: Sheet, b: Sheet) -> str:
    """A lap has the name of its wall and the number of the sheet on its right."""
    if not b.second:
        return wall_sheet_id(wall, int(b.id.rpartition(":")[2]))
    return wall_sheet_id(wall, int(a.id.rpartition(":")[2]) + 1)


def all_laps(job: Job, state: State) -> Iterator[Lap]:
    for wall in job.walls:
        yield from laps(state, wall.id)


def unclosed(job: Job, state: State) -> list[Open]:
    """Everything a flame must keep away from: sheets not rolled, laps not bonded, open corners."""
    found = []
    for sheet in state.sheets.values():
        if sheet.rolled_at is None:
            found.append(_open(job, sheet.id, sheet.wall, sheet.from_mm, sheet.to_mm, sheet.by))
            if sheet.second:
                found.append(_open(job, sheet.id, *sheet.second, sheet.by))
    for lap in all_laps(job, state):
        if lap.rolled and not lap.bonded and lap.id not in state.welds:
            found.append(_open(job, f"lap {lap.id}", lap.wall, lap.from_mm, lap.to_mm, lap.by))
    for i, corner in enumerate(state.corners):
        first = state.sheets.get(corner_sheet_id(i, 1))
        if first is not None and corner.filled is None:
            second = state.sheets.get(corner_sheet_id(i, 2))
            by = max(first.by, second.by if second else 0, corner.by)
            at = job.plan[i + 1].origin
            found.append(Open(f"corner-{i}", at, at, by))
    return found


def _open(job: Job, name: str, wall: str, start: int, end: int, by: int) -> Open:
    laid = job.plan[job.wall_index(wall)]
    return Open(name, laid.point(start), laid.point(end), by)


def lap_ids_due(job: Job, state: State, wall: str) -> list[str]:
    """Every lap that a set-out wall will have, from the left."""
    count = len(state.layouts[wall]["laps"]) + 1 if wall in state.layouts else 0
    i = job.wall_index(wall)
    first = 0 if i > 0 else 1
    last = count if i < len(job.corners) else count - 1
    return [wall_sheet_id(wall, k) for k in range(first, last + 1)] if count else []


def missing(job: Job, state: State) -> list[str]:
    """What is not finished, in words of the program's own ids; empty when the job is done."""
    left = []
    for wall in job.walls:
        due = sheets_to_lay(job, state, wall.id)
        if not due:
            left.append(f"wall {wall.id}")
        for i in range(len(due)):
            if wall_sheet_id(wall.id, i) not in state.sheets:
                left.append(f"sheet {wall_sheet_id(wall.id, i)}")
        left += [f"lap {k}" for k in lap_ids_due(job, state, wall.id) if k not in state.welds]
    left += [f"roll {s.id}" for s in state.sheets.values() if s.rolled_at is None]
    for i, corner in enumerate(state.corners):
        if corner.gusset is None:
            left.append(f"corner-{i}")
    if state.flames:
        left.append("flame")
    if state.permit == "open":
        left.append("permit")
    return left
