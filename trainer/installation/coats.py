"""Primer as a row of pieces: cut where something happens to a part of it, scraped off a stretch."""

from __future__ import annotations

from copy import copy

from trainer.installation.state import State


def cut_at(state: State, wall: str, at_mm: int) -> None:
    """Make two pieces of every coat that runs across a point; each keeps its own times."""
    pieces = []
    for coat in state.coats:
        if coat.wall != wall or not coat.from_mm < at_mm < coat.to_mm:
            pieces.append(coat)
            continue
        left, right = copy(coat), copy(coat)
        left.to_mm = at_mm
        right.start_ms, right.from_mm = coat.primed_ms(at_mm), at_mm
        pieces += [left, right]
    state.coats = pieces


def scrape(state: State, wall: str, start: int, end: int) -> None:
    """Take the primer off a stretch, together with the sheet that stuck to it."""
    cut_at(state, wall, start)
    cut_at(state, wall, end)
    state.coats = [
        coat
        for coat in state.coats
        if coat.wall != wall or coat.to_mm <= start or end <= coat.from_mm
    ]


def spoil(state: State, wall: str, start: int, end: int, kind: str) -> None:
    """Something falls on a stretch and spoils primer that no sheet covers; the first one counts."""
    cut_at(state, wall, start)
    cut_at(state, wall, end)
    for sheet in state.sheets.values():
        for edge in sheet.on(wall) or ():
            cut_at(state, wall, edge)
    covered = [ends for sheet in state.sheets.values() if (ends := sheet.on(wall))]
    for coat in state.coats:
        inside = coat.wall == wall and start <= coat.from_mm and coat.to_mm <= end
        safe = any(low <= coat.from_mm and coat.to_mm <= high for low, high in covered)
        if inside and not safe and not coat.spoilt:
            coat.spoilt, coat.spoilt_at = kind, state.now


def break_off(state: State, by: int) -> None:
    """The roller stops: what it has not reached yet carries no primer."""
    now, kept = state.now * 1000, []
    for coat in state.coats:
        if coat.by == by and coat.primed_ms(coat.to_mm) > now:
            reached = max(0, now - coat.start_ms) // coat.per_m
            state.primed_mm -= coat.to_mm - coat.from_mm - reached
            coat.to_mm = coat.from_mm + reached
        if coat.from_mm < coat.to_mm:
            kept.append(coat)
    state.coats = kept
