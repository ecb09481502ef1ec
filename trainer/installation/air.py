"""What weather and primer are like at a place and a moment of an installation."""

from __future__ import annotations

from itertools import chain, pairwise

from trainer.installation.job import Job
from trainer.installation.state import Coat, State
from trainer.roofing.weather import dew_point_c


def spread_k(job: Job, wall: str, at: int) -> float:
    """How far the wall's face lies above the dew point, in kelvin, to a hundredth."""
    hour = job.weather.hour(at)
    return round(job.surface_c(wall, at) - dew_point_c(hour.air_c, hour.rh_pct), 2)


def damp_mm(job: Job, state: State, wall: str, start: int, end: int, at: int) -> int:
    """How much of a stretch is damp: not yet dry by itself, and not dried by anybody."""
    bands = [(part.from_mm, part.to_mm) for part in job.wall(wall).damp if at < part.dry_at]
    if state.rained_at is not None:
        bands = [(start, end)]
    dried = state.dried.get(wall, ())
    edges = {start, end, *chain.from_iterable((*bands, *dried))}
    row = sorted(edge for edge in edges if start <= edge <= end)
    return sum(
        high - low
        for low, high in pairwise(row)
        if any(a <= low < b for a, b in bands) and not any(a <= low < b for a, b in dried)
    )


def coats_on(state: State, wall: str, start: int, end: int) -> list[tuple[int, int, Coat]]:
    """The primer that counts on a stretch, newest on top: pieces from the left with their coat."""
    pieces: list[tuple[int, int, Coat]] = []
    open_parts = [(start, end)]
    for coat in reversed(state.coats):
        if coat.wall != wall:
            continue
        rest = []
        for low, high in open_parts:
            a, b = max(low, coat.from_mm), min(high, coat.to_mm)
            if a >= b:
                rest.append((low, high))
                continue
            pieces.append((a, b, coat))
            rest += [part for part in ((low, a), (b, high)) if part[0] < part[1]]
        open_parts = rest
    return sorted(pieces, key=lambda piece: piece[0])


def uncovered(state: State, wall: str, start: int, end: int) -> list[tuple[int, int]]:
    """The parts of a stretch on which no sheet lies yet, from the left."""
    parts = [(start, end)] if start < end else []
    for sheet in state.sheets.values():
        ends = sheet.on(wall)
        if ends is None:
            continue
        rest = []
        for low, high in parts:
            rest += [
                p for p in ((low, min(high, ends[0])), (max(low, ends[1]), high)) if p[0] < p[1]
            ]
        parts = rest
    return parts


def open_coats(state: State, wall: str, start: int, end: int) -> list[tuple[int, int, Coat]]:
    """The primer that a sheet laid on a stretch would go onto: where none lies yet."""
    return [
        piece
        for part in uncovered(state, wall, start, end)
        for piece in coats_on(state, wall, *part)
    ]


def bare_mm(state: State, wall: str, start: int, end: int) -> int:
    """How much of a stretch carries neither primer nor a sheet."""
    return sum(
        high - low - sum(b - a for a, b, _ in coats_on(state, wall, low, high))
        for low, high in uncovered(state, wall, start, end)
    )


def undried_ms(coat: Coat, at_mm: int, now: int) -> int:
    """What is missing to dry at a point of a coat, in thousandths of a minute; 0 when dry."""
    return max(0, coat.primed_ms(at_mm) + coat.dry_min * 1000 - now * 1000)


def wet_from_mm(coat: Coat, now: int) -> int:
    """Where the part of a coat begins that is not dry yet; its right end when all of it is dry."""
    dried = now * 1000 - coat.dry_min * 1000 - coat.start_ms
    if dried <= 0:
        return coat.from_mm
    return min(coat.to_mm, coat.from_mm + dried // coat.per_m) if coat.per_m else coat.to_mm


def touch(coat: Coat, at_mm: int, now: int) -> str:
    """What a finger finds: wet in the first half of the drying, then tacky, then dry."""
    left = undried_ms(coat, at_mm, now)
    if not left:
        return "dry"
    return "wet" if left * 2 > coat.dry_min * 1000 else "tacky"
