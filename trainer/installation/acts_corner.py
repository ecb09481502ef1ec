"""Corners: two sheets, what doubles up trimmed, hot bitumen filled in."""

from __future__ import annotations

from trainer.installation.act import Act, by_of, takes
from trainer.installation.acts_sheets import (
    LAID,
    NONE_CUT,
    cannot_roll,
    cannot_strip,
    lay_begin,
    lay_end,
    roll,
    strip,
)
from trainer.installation.job import Job
from trainer.installation.laps import corner_sheet_id
from trainer.installation.state import Decision, State
from trainer.roofing.contract import Field, Number

_CORNER = Field("corner", Number(low=0, high=9, whole=True), "which corner, from 0")
_NUMBER = Field("number", Number(low=1, high=2, whole=True), "first or second sheet")


def _cannot_lay_corner(job: Job, state: State, task: Decision) -> str:
    if task["corner"] >= len(job.corners):
        return "There is no such corner."
    if corner_sheet_id(task["corner"], task["number"]) in state.sheets:
        return "That sheet lies there already."
    if task["number"] == 2 and corner_sheet_id(task["corner"], 1) not in state.sheets:
        return "The second corner sheet goes over the first, and the first is not there."
    return "" if state.strips else NONE_CUT


def _cannot_trim(job: Job, state: State, task: Decision) -> str:
    if corner_sheet_id(task["corner"], 1) not in state.sheets:
        return "There is nothing to trim: the first corner sheet is not there."
    if corner_sheet_id(task["corner"], 2) in state.sheets:
        return "The second corner sheet lies over it."
    return ""


def _trim(job: Job, state: State, task: Decision) -> None:
    state.corners[task["corner"]].trimmed = state.now


def _cannot_fill(job: Job, state: State, task: Decision) -> str:
    if corner_sheet_id(task["corner"], 1) not in state.sheets:
        return "There is nothing to fill: no corner sheet is there."
    melter = state.flames.get("melter")
    if melter is None:
        return "There is no hot bitumen: the melter is not lit."
    left = melter.lit_at + job.minutes["heat the melter"] - state.now
    return f"The bitumen is not hot yet; it takes {left} min more." if left > 0 else ""


def _fill(job: Job, state: State, task: Decision) -> None:
    corner = state.corners[task["corner"]]
    corner.filled, corner.by = state.now, by_of(task)


_CORNER_SHEET = (_CORNER, _NUMBER)
ACTS = (
    Act(
        "lay corner",
        "corner",
        _CORNER_SHEET,
        takes("corner sheet"),
        cannot=_cannot_lay_corner,
        begin=lay_begin,
        end=lay_end,
        touches=LAID,
        two=True,
    ),
    Act(
        "roll corner",
        "corner",
        _CORNER_SHEET,
        takes("roll"),
        cannot=cannot_roll,
        end=roll,
        touches=LAID,
    ),
    Act("trim", "corner", (_CORNER,), takes("trim"), cannot=_cannot_trim, end=_trim),
    Act(
        "fill",
        "corner",
        (_CORNER,),
        takes("fill"),
        cannot=_cannot_fill,
        end=_fill,
        touches=LAID,
    ),
    Act(
        "strip corner",
        "corner",
        _CORNER_SHEET,
        takes("strip"),
        cannot=cannot_strip,
        end=strip,
        touches=LAID,
    ),
)
