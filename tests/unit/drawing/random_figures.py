"""Figures of every kind at random, within what docs/drawings.md allows; same seed, same figure."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

from tests.unit.drawing.random_elevations import after_elevation, elevation
from tests.unit.drawing.random_parts import Figure
from tests.unit.drawing.random_plans import after_plan, plan
from tests.unit.drawing.random_sections import after_section, section
from tests.unit.drawing.random_sheets import after_flat, after_lap, flat, lap_section
from tests.unit.drawing.random_timelines import after_timeline, timeline
from tests.unit.drawing.random_work import after_days, after_work, days, work


def some_figure(kind: str, seed: int) -> Figure:
    """A figure of ``kind``; every third one is answered, with overlays and states."""
    chance = Random(f"{kind} {seed}")
    figure = {
        "kind": kind,
        "id": f"{kind}-{seed}",
        "title": f"{kind} {seed}",
        "desc": "What is to be seen on the roof.",
        "parts_live": chance.random() < 0.5,
        **_MAKERS[kind](chance),
    }
    if seed % 3 == 2:
        figure |= _AFTER[kind](figure)
    return figure


def in_inches(mm: float) -> str:
    """A length as a worker reads it who measures in inches, to the sixteenth."""
    whole, part = divmod(round(mm / 25.4 * 16), 16)
    if not part:
        return f"{whole} in"
    bottom = 16
    while part % 2 == 0:
        part, bottom = part // 2, bottom // 2
    return f"{whole} {part}/{bottom} in" if whole else f"{part}/{bottom} in"


def long_winded(word: str) -> str:
    """A language with long words and letters beyond ASCII."""
    return f"{word} für Dächer"


_MAKERS: dict[str, Callable[[Random], Figure]] = {
    "parapet-section": section,
    "wall-elevation": elevation,
    "roof-plan": plan,
    "flat-pattern": flat,
    "lap-section": lap_section,
    "timeline": timeline,
    "wall-at-work": work,
    "days": days,
}


_AFTER: dict[str, Callable[[Figure], Figure]] = {
    "parapet-section": after_section,
    "wall-elevation": after_elevation,
    "roof-plan": after_plan,
    "flat-pattern": after_flat,
    "lap-section": after_lap,
    "timeline": after_timeline,
    "wall-at-work": after_work,
    "days": after_days,
}


KINDS = tuple(_MAKERS)
