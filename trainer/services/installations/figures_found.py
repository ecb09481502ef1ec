"""What is known at a wall besides its sheets: primer and its times, touches, damp, what burns.

Primer shows where it is and when it was applied. How dry it is stands in the drawing only where a
finger has found it out.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator
from typing import Any

from trainer.engine.measures import say_clock
from trainer.installation.air import coats_on
from trainer.installation.job import Job
from trainer.installation.laps import in_a_row
from trainer.installation.state import Coat, State

Say = Callable[[str], str]
Data = dict[str, Any]
Band = tuple[int, int]
Piece = tuple[int, int, Coat]

_NEAR_MM = 500
"""Of two touches nearer than this only the later one is told."""

_IN_THE_WALL_MM = 300
"""An opening further out belongs to the roof, not to the wall."""

_AT_THE_WALL_MM = 1500
"""A flame nearer than this is drawn at the wall."""

_SLIVER_MM = 20


def found_at(job: Job, state: State, wall_id: str, say: Say) -> Data:
    """The fields of a wall's drawing that tell what lies open on it and what was found."""
    covered = [ends for ends, _ in in_a_row(state, wall_id)]
    return {
        "primer": list(_primer(job, state, wall_id, covered, say)),
        "things": [*_touches(state, wall_id, covered, say), *_flames(state, wall_id)],
        "behind": list(_behind(state, wall_id, say)),
        "openings": list(_openings(job, state, wall_id, say)),
        "damp": list(_damp(job, state, wall_id, covered, say)),
        "spoilt": list(_spoilt(state, wall_id, covered, say)),
    }


def known(state: State, key: str) -> Any:
    """What is known under a key; an empty tuple while nobody has found it out."""
    told = state.known.get(key)
    return () if told is None else told["is"]


def part_chosen(chosen: str, parts: Collection[str]) -> str:
    """The part that shows a place: its own id, or what the place's thing is drawn as; else ""."""
    kind, _, name = chosen.partition("-")
    drawn_as = [f"{word}-{name}" for word in _DRAWN_AS] if kind == "thing" else []
    others = [chosen, *drawn_as, *(("gas",) if chosen == "torch" else ())]
    return next((part for part in others if part in parts), "")


_DRAWN_AS = ("opening", "behind", "ext")


def with_cover(text: str, covered: bool, say: Say) -> str:
    """A thing's name, and that it is covered."""
    return f"{text}, {say('covered')}" if covered else text


def _primer(job: Job, state: State, wall_id: str, covered: list[Band], say: Say) -> Iterator[Data]:
    """Primer that lies open, from when to when it was applied, as far as the roller has come."""
    long = job.wall(wall_id).length_mm
    for low, high, coat in _joined(_so_far(coats_on(state, wall_id, 0, long), state.now)):
        for a, b in uncovered(low, high, covered):
            began, ended = coat.primed_ms(a) // 1000, coat.primed_ms(b) // 1000
            times = (
                say_clock(began) if ended - began < 2 else f"{say_clock(began)}–{say_clock(ended)}"
            )
            label = f"{say('primed')} {times}"
            yield {"from_mm": a, "to_mm": b, "label": label, "short": say_clock(began)}


def _so_far(pieces: Iterable[Piece], now: int) -> Iterator[Piece]:
    """Pieces without what the roller has not reached yet."""
    for low, high, coat in pieces:
        come = high
        if coat.per_m:
            come = coat.from_mm + (now * 1000 - coat.start_ms) // coat.per_m
        if min(high, come) > low:
            yield low, min(high, come), coat


def _joined(pieces: Iterable[Piece]) -> Iterator[Piece]:
    """Pieces of one run of the roller as one."""
    last: Piece | None = None
    for low, high, coat in pieces:
        if last and last[1] == low and last[2].primed_ms(low) == coat.primed_ms(low):
            last = (last[0], high, last[2])
            continue
        if last:
            yield last
        last = (low, high, coat)
    if last:
        yield last


def uncovered(low: int, high: int, covered: Iterable[Band]) -> list[Band]:
    """What of a stretch lies open under the bands that cover it, but for slivers."""
    parts = [(low, high)]
    for start, end in covered:
        parts = [
            piece
            for a, b in parts
            for piece in ((a, min(b, start)), (max(a, end), b))
            if piece[1] - piece[0] > _SLIVER_MM
        ]
    return parts


def _touches(state: State, wall_id: str, covered: list[Band], say: Say) -> Iterator[Data]:
    """What fingers found, the latest at each place, where it still lies open as it was."""
    found = []
    for key, told in state.known.items():
        if key.startswith(f"touch {wall_id} "):
            at = int(key.rpartition(" ")[2])
            under = any(a <= at < b for a, b in covered)
            if not under and not _primed_since(state, wall_id, at, told["at"]):
                found.append((told["at"], at, told["is"]))
    kept: list[tuple[int, int, str]] = []
    for when, at, finger in sorted(found, reverse=True):
        if all(abs(at - other) >= _NEAR_MM for _, other, _ in kept):
            kept.append((when, at, finger))
    for when, at, finger in sorted(kept, key=lambda item: item[1]):
        yield {"at_mm": at, "kind": "touch", "label": f"{say(finger)} {say_clock(when)}"}


def _primed_since(state: State, wall_id: str, at: int, when: int) -> bool:
    pieces = coats_on(state, wall_id, at, at + 1)
    return bool(pieces) and pieces[0][2].primed_ms(at) > when * 1000


def _flames(state: State, wall_id: str) -> Iterator[Data]:
    for tool, flame in state.flames.items():
        if flame.spot.wall == wall_id and flame.spot.off_mm <= _AT_THE_WALL_MM:
            yield {"at_mm": flame.spot.at_mm, "kind": tool}


def _behind(state: State, wall_id: str, say: Say) -> Iterator[Data]:
    for name, a, b, what in known(state, f"behind {wall_id}"):
        covered = name in state.covered
        label = with_cover(say(what), covered, say)
        yield {"from_mm": a, "to_mm": b, "id": f"behind-{name}", "label": label, "covered": covered}


def _openings(job: Job, state: State, wall_id: str, say: Say) -> Iterator[Data]:
    found = known(state, f"openings {wall_id}")
    for hole in job.openings:
        if hole.id in found and hole.spot.off_mm <= _IN_THE_WALL_MM:
            covered = hole.id in state.covered
            label = with_cover(say(hole.what), covered, say)
            at = hole.spot.at_mm
            yield {"at_mm": at, "id": f"opening-{hole.id}", "label": label, "covered": covered}


def _damp(job: Job, state: State, wall_id: str, covered: list[Band], say: Say) -> Iterator[Data]:
    """Damp stretches as they were when found, where nobody dried, primed or covered them since."""
    told = state.known.get(f"damp {wall_id}")
    if not told:
        return
    long = job.wall(wall_id).length_mm
    over = [*covered, *((low, high) for low, high in state.dried.get(wall_id, ()))]
    over += [(a, b) for a, b, _ in _so_far(coats_on(state, wall_id, 0, long), state.now)]
    for low, high in told["is"]:
        for a, b in uncovered(low, high, over):
            yield {"from_mm": a, "to_mm": b, "label": f"{say('damp')} {say_clock(told['at'])}"}


def _spoilt(state: State, wall_id: str, covered: list[Band], say: Say) -> Iterator[Data]:
    """Primer found spoilt, where it was neither primed again nor covered since."""
    told = state.known.get(f"spoilt {wall_id}")
    if not told:
        return
    for low, high, what in told["is"]:
        again = [
            (a, b)
            for a, b, coat in coats_on(state, wall_id, low, high)
            if coat.primed_ms(a) > told["at"] * 1000
        ]
        for a, b in uncovered(low, high, [*covered, *again]):
            yield {"from_mm": a, "to_mm": b, "label": say(what)}
