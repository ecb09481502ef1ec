"""Laying as a good foreman orders it: on dry, sound primer, and rolled at once."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from trainer.installation.acts_sheets import strip_for
from trainer.installation.air import bare_mm
from trainer.installation.foreman import Desk, Wish
from trainer.installation.laps import corner_sheet_id
from trainer.installation.pieces import (
    Piece,
    closes_at,
    melted_enough,
    pieces,
    planned,
    weather_allows,
)
from trainer.installation.sight import touch_at
from trainer.installation.state import Decision

_TOUCH_AGAIN_MIN = 5


def laying(desk: Desk) -> Iterator[Wish]:
    """Roll what lies, trim before it is covered, and lay what lies on dry, sound primer."""
    if not desk.skips("closings"):
        yield from _rolling(desk)
    for piece in pieces(desk):
        if _being_laid(desk, piece) or not _within_reach(desk, piece):
            continue
        yield from _lay(desk, piece)
        if piece.task.get("number") == 1:
            continue


def _rolling(desk: Desk) -> Iterator[Wish]:
    state = desk.state
    for sheet in state.sheets.values():
        if sheet.rolled_at is not None:
            continue
        corner, _, number = sheet.id.partition(":")
        if sheet.second is None:
            task: Decision = {"do": "roll", "wall": sheet.wall, "sheet": int(number)}
        elif number == "2":
            task = {"do": "roll corner", "corner": int(corner.partition("-")[2]), "number": 2}
        else:
            yield from _trimming(desk, int(corner.partition("-")[2]))
            continue
        if not desk.under_way(**task):
            yield Wish(task)


def _trimming(desk: Desk, corner: int) -> Iterator[Wish]:
    if desk.state.corners[corner].trimmed is None and not desk.under_way(do="trim", corner=corner):
        yield Wish({"do": "trim", "corner": corner})


def _being_laid(desk: Desk, piece: Piece) -> bool:
    like = {k: v for k, v in piece.task.items() if k != "half"}
    return desk.under_way(**like)


def _within_reach(desk: Desk, piece: Piece) -> bool:
    """Whether its primer is on, and what must lie beneath lies there."""
    if piece.task.get("number") == 2:
        corner = piece.task["corner"]
        if corner_sheet_id(corner, 1) not in desk.state.sheets:
            return False
        if desk.state.corners[corner].trimmed is None and not desk.skips("closings"):
            return False
    elif piece.task["do"] == "lay" and _corner_waits(desk, piece):
        return False
    return not any(bare_mm(desk.state, *part) for part in piece.place)


def _corner_waits(desk: Desk, piece: Piece) -> bool:
    """Whether a corner sheet that this one laps onto is not there yet."""
    job, state = desk.job, desk.state
    i = job.wall_index(piece.task["wall"])
    last = len(planned(desk, piece.task["wall"])) - 1
    if piece.task["sheet"] == 0 and i > 0 and corner_sheet_id(i - 1, 2) not in state.sheets:
        return True
    at_end = piece.task["sheet"] == last and i < len(job.corners)
    return at_end and corner_sheet_id(i, 2) not in state.sheets


def _lay(desk: Desk, piece: Piece) -> Iterator[Wish]:
    """Lay it, or find out what is missing to it."""
    state, sight = desk.state, desk.sight
    if desk.skips("waits"):
        if "torch" not in state.flames and state.strips and melted_enough(desk):
            yield Wish(piece.task)
        return
    if "torch" in state.flames or not _can_be_covered(desk, piece):
        return
    gusty = sight.gusty(state, desk.job.minutes["lay"] + 2)
    two = desk.way.together and len(desk.idle) > 1
    touched = [sight.sound(state, *part) for part in piece.place]
    if piece.task.get("number") == 2:
        touched = [True]  # it goes onto the first sheet
    if None in touched:
        part = piece.place[touched.index(None)]
        task = {"do": "touch", "wall": part[0], "at": touch_at(state, *part)}
        if not desk.under_way(**task):
            yield Wish(task)
        return
    if not all(touched):
        desk.look_again(state.now + _TOUCH_AGAIN_MIN)
        return
    if (two or gusty) and len(desk.state.people) > 1:
        yield Wish({**piece.task, "with": "somebody"}, needs_idle=2)
    if not gusty:
        yield Wish(piece.task)


def _can_be_covered(desk: Desk, piece: Piece) -> bool:
    """Dry by the clock, relaxed, warm enough, no rain before it is down, what burns covered."""
    state, sight = desk.state, desk.sight
    first = piece.task.get("number") != 2
    if first:
        dry = max(sight.dry_at(state, *part) for part in piece.place)
        if dry > state.now:
            desk.look_again(dry)
            return False
        if any(sight.spoilt(state, *part) for part in piece.place):
            return False
        if closes_at(desk, piece) < state.now + piece.minutes:
            return False
    if not state.strips or not _marked(desk, piece):
        return False
    strip = strip_for(desk.job, state, piece.task)
    relaxed = strip.cut_at + ceil(desk.limit("relaxing-time"))
    if relaxed > state.now:
        desk.look_again(relaxed)
        return False
    if not melted_enough(desk):
        return False
    if sight.rain_from(state) < state.now + piece.minutes or desk.job.weather.raining(state.now):
        return False
    if state.rain_over is not None and desk.limit("dry-since-rain"):
        return False
    walls = {wall for wall, _, _ in piece.place}
    return all(weather_allows(desk, wall) and not _burns_under(desk, wall) for wall in walls)


def _marked(desk: Desk, piece: Piece) -> bool:
    """Whether its walls have their line, and its own wall is set out."""
    set_out = piece.task["do"] != "lay" or piece.task["wall"] in desk.state.layouts
    return set_out and all(wall in desk.state.lines for wall, _, _ in piece.place)


def _burns_under(desk: Desk, wall: str) -> bool:
    """Whether something behind the wall is known to burn and not covered yet."""
    return any(b.id not in desk.state.covered for b in desk.sight.behind(desk.state, wall))
