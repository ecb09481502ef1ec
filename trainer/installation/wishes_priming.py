"""Priming and sealing as a good foreman orders them: no more primer than can be covered in time."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from trainer.installation.acts_prepare import LEAST_PRIMED_MM, cans_beside
from trainer.installation.air import bare_mm, coats_on, uncovered
from trainer.installation.checks import Look
from trainer.installation.checks_sheets import open_walls
from trainer.installation.foreman import Desk, Wish
from trainer.installation.pieces import (
    Piece,
    Stretch,
    closes_at,
    melted_enough,
    pieces,
    ready_to_work,
    strips_short,
    weather_allows,
)
from trainer.installation.place import squared, squared_to_segment

_SEAL_BEFORE_RAIN_MIN = 12
_WORTH_KEEPING_MIN = 30


def priming(desk: Desk) -> Iterator[Wish]:
    """Prime as much as can be laid in time, once nothing that burns is alight."""
    state = desk.state
    wet = state.rain_over is not None and desk.limit("dry-since-rain")
    if desk.job.weather.raining(state.now) or wet or desk.doing("light"):
        return
    for part in _half_primed(desk):
        yield from _prime(desk, part)
    melted = melted_enough(desk) or desk.way.melt_late
    cut = strips_short(desk) <= 0 or desk.way.melt_late
    if not _busy_with_primer(desk) and melted and cut:
        batch = _batch(desk)
        walls = dict.fromkeys(wall for wall, _, _ in batch)
        allowed = [weather_allows(desk, wall) for wall in walls]  # each may ask to be measured
        if all(allowed):
            for part in batch:
                yield from _prime(desk, part)
    yield from _measuring(desk)


def _prime(desk: Desk, part: Stretch) -> Iterator[Wish]:
    """Prime a stretch; what is damp on it is dried first."""
    wall, start, end = part
    seen = desk.sight.looked(desk.state, wall) and desk.sight.probed(desk.state, wall)
    if not seen and not desk.skips("closings"):
        return
    damp = [b for b in desk.sight.damp(desk.state, wall) if b[0] < end and start < b[1]]
    if damp:
        task = {"do": "dry", "wall": wall, "from": damp[0][0], "to": damp[0][1]}
        if not desk.under_way(**task):
            yield Wish(task)
    elif desk.under_way(do="prime", wall=wall) or not _far_from_flames(desk, part):
        return
    elif weather_allows(desk, wall):
        yield Wish({"do": "prime", "wall": wall, "from": start, "to": end})


def _far_from_flames(desk: Desk, part: Stretch) -> bool:
    """Whether whatever burns is far enough from a stretch, and from the can beside it."""
    wall, start, end = part
    laid, limit = desk.job.plan[desk.job.wall_index(wall)], desk.limit("wet-primer-to-flame")
    for flame in desk.state.flames.values():
        at = desk.job.placed(flame.spot)
        primer = squared_to_segment(at, laid.point(start), laid.point(end))
        can = squared(at, desk.job.placed(cans_beside(wall, end)))
        if min(primer, can) < limit * limit:
            return False
    return True


def _half_primed(desk: Desk) -> Iterator[Stretch]:
    """What is missing under a corner sheet of which the other side is primed already."""
    for piece in pieces(desk):
        bare = [bool(bare_mm(desk.state, *part)) for part in piece.place]
        if any(bare) and not all(bare) and piece.task.get("number") == 1:
            for part in piece.place:
                yield from _to_prime(desk, *part)


def _measuring(desk: Desk) -> Iterator[Wish]:
    wall = desk.wanted_measure
    if wall and not desk.under_way(do="measure", wall=wall):
        yield Wish({"do": "measure", "wall": wall})


def _busy_with_primer(desk: Desk) -> bool:
    """Whether primer lies there that is still to be covered, sound and in time."""
    primed = [piece for piece in pieces(desk) if _primed(desk, piece)]
    if not desk.way.ahead:
        return bool(primed or desk.doing("lay", "lay corner"))
    return sum(piece.minutes for piece in primed) > desk.job.paper.dry_min


def _primed(desk: Desk, piece: Piece) -> bool:
    """Whether its primer is on and will do."""
    if piece.task.get("number") == 2:
        return False
    on = not any(bare_mm(desk.state, *part) for part in piece.place)
    return on and not _lost(desk, piece)


def _lost(desk: Desk, piece: Piece) -> bool:
    """Whether its primer cannot be covered any more: spoilt, or closed before it could be down."""
    spoilt = any(desk.sight.spoilt(desk.state, *part) for part in piece.place)
    return spoilt or closes_at(desk, piece) < desk.state.now + piece.minutes


def _batch(desk: Desk) -> list[Stretch]:
    """The stretches to prime now: pieces in laying order that all get down in time."""
    stretches: list[Stretch] = []
    limit = desk.job.paper.latest_min - desk.way.in_hand_min
    rain = desk.sight.rain_from(desk.state) - desk.state.now
    primed, free, taken = 0, 0, 0
    for piece in pieces(desk):
        if not all(ready_to_work(desk, wall) for wall, _, _ in piece.place):
            continue
        minutes, ready = _primed_by(desk, piece, primed)
        down = max(ready, free) + piece.minutes * desk.way.pace_pct // 100
        late = down - primed + _lunch_between(desk) > limit or down > rain
        if late or (desk.way.batch and taken >= desk.way.batch):
            break
        primed, free, taken = primed + minutes, down, taken + 1
        if piece.task.get("number") != 2:
            stretches += piece.place
    return _joined(piece for part in stretches for piece in _to_prime(desk, *part))


def _primed_by(desk: Desk, piece: Piece, begun: int) -> tuple[int, int]:
    """Minutes of priming for a piece, and when it is dry, both from now."""
    if piece.task.get("number") == 2:
        return 0, begun
    job, now = desk.job, desk.state.now
    long = sum(end - start for _, start, end in piece.place)
    minutes = 0 if _primed(desk, piece) else -(-job.minutes["prime a metre"] * long // 1000)
    coldest = min(desk.sight.surface_c(desk.state, wall, now) for wall, _, _ in piece.place)
    return minutes, begun + minutes + job.paper.drying_min(coldest)


def _lunch_between(desk: Desk) -> int:
    """Minutes that lunch may take out of a batch."""
    lunch = desk.job.lunch
    hungry = any(not person.ate for person in desk.state.people.values())
    return lunch.minutes if lunch and hungry else 0


def _to_prime(desk: Desk, wall: str, start: int, end: int) -> list[Stretch]:
    """The parts of a stretch without primer that will still be good when it is covered."""
    return [
        part
        for low, high in uncovered(desk.state, wall, start, end)
        for part in _bare_parts(desk, wall, low, high)
    ]


def _bare_parts(desk: Desk, wall: str, start: int, end: int) -> list[Stretch]:
    parts, at = [], start
    for low, high, coat in coats_on(desk.state, wall, start, end):
        closes = coat.primed_ms(low) // 1000 + desk.job.paper.latest_min
        lost = closes < desk.state.now + _WORTH_KEEPING_MIN
        if lost or desk.sight.spoilt(desk.state, wall, start, end):
            continue
        if at < low:
            parts.append((wall, at, low))
        at = high
    if at < end:
        parts.append((wall, at, end))
    long = [part for part in parts if part[2] - part[1] >= LEAST_PRIMED_MM]
    return long or ([(wall, start, end)] if parts else [])


def _joined(stretches: Iterable[Stretch]) -> list[Stretch]:
    """Neighbouring stretches of a wall as one."""
    found: list[Stretch] = []
    for wall, start, end in stretches:
        near = [f for f in found if f[0] == wall and f[1] <= end and start <= f[2]]
        for other in near:
            found.remove(other)
            start, end = min(start, other[1]), max(end, other[2])
        found.append((wall, start, end))
    return found


def sealing(desk: Desk) -> Iterator[Wish]:
    """Open edges are sealed before a shower, and before the crew must leave."""
    job, state = desk.job, desk.state
    rain = desk.sight.rain_from(state)
    soon = min(rain, job.leave_by) - job.minutes["seal"] - _SEAL_BEFORE_RAIN_MIN
    if rain < 10**6:
        desk.look_again(soon)
    if state.now < soon:
        return
    for wall, _, _ in open_walls(Look(job, state, desk.limits)):
        if not desk.under_way(do="seal", wall=wall):
            yield Wish({"do": "seal", "wall": wall})
