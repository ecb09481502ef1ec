"""Priming, laying and sealing as a good foreman orders them: no more primer than can be covered."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import ceil

from trainer.installation.acts_prepare import LEAST_PRIMED_MM, cans_beside
from trainer.installation.acts_sheets import strip_for
from trainer.installation.air import bare_mm, coats_on, open_coats, uncovered
from trainer.installation.checks import Look
from trainer.installation.checks_sheets import open_walls
from trainer.installation.foreman import Desk, Wish, best_laps, once
from trainer.installation.laps import corner_sheet_id, sheets_to_lay, wall_sheet_id
from trainer.installation.place import squared, squared_to_segment
from trainer.installation.sight import touch_at
from trainer.installation.state import Decision

_TOUCH_AGAIN_MIN = 5
_SEAL_BEFORE_RAIN_MIN = 12
_BORDERLINE_K = 4
_WORTH_KEEPING_MIN = 30


Stretch = tuple[str, int, int]
"""A wall and a stretch of it."""


@dataclass(frozen=True)
class Piece:
    """One sheet that is still to be laid: its task and the stretches it goes onto."""

    id: str
    task: Decision
    place: tuple[Stretch, ...]
    minutes: int


def ready_to_work(desk: Desk, wall_id: str) -> bool:
    """Whether one may stand at a wall: it is high enough, guarded, or the drop is small."""
    wall = desk.job.wall(wall_id)
    guarded = wall.rail or wall_id in desk.state.rails
    high = wall.height_mm >= desk.limit("guardrail-height")
    return guarded or high or wall.drop_mm <= desk.limit("unprotected-edge-height", 1e9)


@once
def pieces(desk: Desk) -> list[Piece]:
    """The sheets still to be laid, in the order in which this foreman lays them."""
    job, state, found = desk.job, desk.state, []
    for i in range(len(job.corners)):
        place = job.corner_stretches(i)
        for number in (1, 2):
            name = corner_sheet_id(i, number)
            if name not in state.sheets:
                task = {"do": "lay corner", "corner": i, "number": number}
                minutes = job.minutes["corner sheet"] + (job.minutes["roll"] if number == 2 else 3)
                found.append(Piece(name, task, place, minutes))
    for wall in job.walls:
        row = list(enumerate(planned(desk, wall.id)))
        for number, ends in reversed(row) if desk.way.from_right else row:
            name = wall_sheet_id(wall.id, number)
            if name not in state.sheets:
                task = {"do": "lay", "wall": wall.id, "sheet": number, "half": "top"}
                found.append(Piece(name, task, ((wall.id, *ends),), _sheet_minutes(desk)))
    return found


def planned(desk: Desk, wall: str) -> list[tuple[int, int]]:
    """The sheets of a wall: as it is set out, else as this foreman will set it out."""
    job, marked = desk.job, sheets_to_lay(desk.job, desk.state, wall)
    if marked:
        return marked
    start, end = job.stretch(wall)
    laps = best_laps(job, desk.limits, wall)
    ends = [*(at + job.sheet.side_lap_mm for at in laps), end]
    return list(zip([start, *laps], ends, strict=True))


def _sheet_minutes(desk: Desk) -> int:
    minutes = desk.job.minutes
    two = desk.way.together and len(desk.job.crew) > 2
    return minutes["lay together" if two else "lay"] + minutes["roll"] + minutes["touch"]


@once
def strips_short(desk: Desk) -> int:
    """How many strips must still be cut."""
    job, state = desk.job, desk.state
    due = 2 * len(job.corners)
    due += sum(len(planned(desk, wall.id)) for wall in job.walls)
    in_hand = sum(task["do"] in ("lay", "lay corner") for task in desk.doing("lay", "lay corner"))
    return due - len(state.sheets) - len(state.strips) - in_hand


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
    if not state.strips or (piece.task["do"] == "lay" and not _marked(desk, piece)):
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
    """Whether its wall is set out and its line snapped."""
    wall = piece.task["wall"]
    return wall in desk.state.layouts and wall in desk.state.lines


def _burns_under(desk: Desk, wall: str) -> bool:
    """Whether something behind the wall is known to burn and not covered yet."""
    return any(b.id not in desk.state.covered for b in desk.sight.behind(desk.state, wall))


@once
def melted_enough(desk: Desk) -> bool:
    """Whether the strips that will go under others have their film melted off."""
    return sum(strip.melted for strip in desk.state.strips) >= melts_due(desk)


@once
def melts_due(desk: Desk) -> int:
    """How many of the sheets still to be laid will go under another one."""
    job, state, due = desk.job, desk.state, 0
    for i in range(len(job.corners)):
        due += corner_sheet_id(i, 2) not in state.sheets
    for wall in job.walls:
        count = len(planned(desk, wall.id))
        missing = sum(wall_sheet_id(wall.id, k) not in state.sheets for k in range(count))
        due += max(0, missing - 1)
    return due


def closes_at(desk: Desk, piece: Piece) -> int:
    """The last minute at which a piece may be down on the primer under it."""
    parts = [c for part in piece.place for c in open_coats(desk.state, *part)]
    now = desk.state.now * 1000
    oldest = min((coat.primed_ms(low) for low, _, coat in parts), default=now)
    return oldest // 1000 + desk.job.paper.latest_min


def weather_allows(desk: Desk, wall: str) -> bool:
    """Warm enough and far enough above the dew point, measured where it is a near thing."""
    state, sight, now = desk.state, desk.sight, desk.state.now
    coldest = max(desk.job.paper.coldest_c, desk.limit("adhesive-lap-temperature", -99))
    spread = desk.limit("surface-above-dew-point", -99)
    cold = sight.surface_c(state, wall, now) - coldest
    close = sight.spread_k(state, wall, now) - spread
    humid = desk.limit("relative-humidity", 101) - sight.rh_pct(state, wall, now)
    near = min(cold, close) < _BORDERLINE_K or humid < _BORDERLINE_K
    if near and not sight.measured(state, wall):
        desk.wanted_measure = wall
        return False
    if min(cold, close, humid) < 0:
        desk.look_again(now + 15 - now % 15)
        return False
    return True


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
    job, state, sight = desk.job, desk.state, desk.sight
    todo = [p for p in pieces(desk) if p.task.get("number") != 1 or p.place]
    todo = [p for p in todo if all(ready_to_work(desk, wall) for wall, _, _ in p.place)]
    stretches: list[Stretch] = []
    clock_prime, lay_total, taken = 0, 0, 0
    limit = job.paper.latest_min - desk.way.in_hand_min
    rain = sight.rain_from(state)
    lunch = job.lunch.minutes if job.lunch and any(not p.ate for p in state.people.values()) else 0
    for piece in todo:
        long = sum(end - start for _, start, end in piece.place if piece.task.get("number") != 2)
        prime = -(-job.minutes["prime a metre"] * long // 1000)
        prime = 0 if _primed(desk, piece) else prime
        drying = max(
            job.paper.drying_min(sight.surface_c(state, w, state.now)) for w, _, _ in piece.place
        )
        down = clock_prime + prime + drying + lay_total + piece.minutes + lunch
        if down > limit or state.now + down > rain or (desk.way.batch and taken >= desk.way.batch):
            break
        clock_prime, lay_total, taken = clock_prime + prime, lay_total + piece.minutes, taken + 1
        if piece.task.get("number") != 2:
            stretches += piece.place
    return _joined(piece for part in stretches for piece in _to_prime(desk, *part))


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
