"""A flame on the roof against the rule book: what is near it, who holds it, who watches."""

from __future__ import annotations

import math
from collections.abc import Iterable

from trainer.installation.air import uncovered, wet_from_mm
from trainer.installation.checks import Check, Fact, Facts, Look
from trainer.installation.job import Job
from trainer.installation.laps import unclosed
from trainer.installation.limits import value
from trainer.installation.place import Point, Spot, squared, squared_to_segment
from trainer.installation.state import Coat, Flame, Person, State

_HOLDING = ("light", "preheat", "weld", "gusset", "put out")
"""Actions in which the torch stays in hand."""


def _near(look: Look) -> Facts:
    """Laps, sheets and corners that are not closed."""
    limit = value(look.limits, "flame-to-unclosed")
    if not look.state.flames or not limit:
        return
    still = unclosed(look.job, look.state)
    for flame, at in _lit(look):
        for part in still:
            gap = squared_to_segment(at, part.start, part.end)
            if gap < limit * limit:
                facts = {"distance_mm": _root(gap), "required_mm": limit, "open": part.id}
                place = f"{flame.tool} {part.id}"
                yield Fact("flame-to-unclosed", place, max(flame.by, part.by), facts)


def _burns(look: Look) -> Facts:
    """What burns in or behind the parapet, lies loose, or lets sparks in."""
    job, state, limits = look.job, look.state, look.limits
    band, far = value(limits, "flame-free-band"), value(limits, "combustibles-distance")
    for flame, at in _lit(look):
        for wall in job.walls:
            laid = job.plan[job.wall_index(wall.id)]
            for part in wall.behind:
                gap = squared_to_segment(at, laid.point(part.from_mm), laid.point(part.to_mm))
                if gap < band * band and part.id not in state.covered:
                    facts = {"distance_mm": _root(gap), "what": part.what}
                    yield Fact("torch-to-combustible", f"{flame.tool} {part.id}", flame.by, facts)
        for loose in job.loose:
            gap = squared(at, job.placed(loose.spot))
            away = loose.id in state.cleared or loose.id in state.covered
            if gap < far * far and not away:
                facts = {"distance_mm": _root(gap), "required_mm": far, "what": loose.what}
                place = f"{flame.tool} {loose.id}"
                yield Fact("combustibles-distance", place, flame.by, facts)
        for gap_in in job.openings:
            gap = squared(at, job.placed(gap_in.spot))
            if gap < far * far and gap_in.id not in state.covered:
                facts = {"distance_mm": _root(gap), "what": gap_in.what}
                yield Fact("openings-covered", f"{flame.tool} {gap_in.id}", flame.by, facts)
        if state.film is not None and flame.tool == "torch":
            facts = {"what": "release film"}
            place = f"{flame.tool} film"
            yield Fact("combustibles-distance", place, max(flame.by, state.film), facts)


def _wet_primer(look: Look) -> Facts:
    """Primer that is not dry, and open cans."""
    job, state = look.job, look.state
    limit = value(look.limits, "wet-primer-to-flame")
    for flame, at in _lit(look):
        for coat in state.coats:
            gap = _to_wet(look, coat, at)
            if gap is not None and gap < limit * limit:
                facts = {"wall": coat.wall, "distance_mm": _root(gap), "required_mm": limit}
                place = f"{flame.tool} primer {coat.id}"
                yield Fact("wet-primer-to-flame", place, max(flame.by, coat.by), facts)
        if state.cans is not None and state.cans_at is not None:
            gap = squared(at, job.placed(state.cans_at))
            if gap < limit * limit:
                facts = {"distance_mm": _root(gap), "required_mm": limit}
                place = f"{flame.tool} open can"
                yield Fact("wet-primer-to-flame", place, max(flame.by, state.cans), facts)


def _to_wet(look: Look, coat: Coat, at: Point) -> int | None:
    """The square of the distance to what of a coat is neither dry nor under a sheet; or None."""
    laid = look.job.plan[look.job.wall_index(coat.wall)]
    start = wet_from_mm(coat, look.state.now)
    parts = uncovered(look.state, coat.wall, start, coat.to_mm) if start < coat.to_mm else []
    gaps = (squared_to_segment(at, laid.point(low), laid.point(high)) for low, high in parts)
    return min(gaps, default=None)


def _ready(look: Look) -> Facts:
    """Permit, extinguisher, cylinder, the distance for preheating, the hand that holds it."""
    job, state, limits = look.job, look.state, look.limits
    for flame, at in _lit(look):
        if state.permit != "open":
            yield Fact("permit-content", flame.tool, max(flame.by, state.permit_by), {})
        most = value(limits, "extinguisher-distance")
        way = _nearest(at, (job.placed(spot) for spot in state.extinguishers.values()))
        if most and (way is None or way > most * most):
            facts = {"distance_mm": None if way is None else _root(way), "most_mm": most}
            moved = max((state.moved.get(name, 0) for name in state.extinguishers), default=0)
            yield Fact("extinguisher-distance", flame.tool, max(flame.by, moved), facts)
        least = value(limits, "cylinder-to-burner")
        if state.gas is not None:
            gap = squared(at, job.placed(state.gas))
            if gap < least * least:
                facts = {"distance_mm": _root(gap), "required_mm": least}
                by = max(flame.by, state.moved.get("gas", 0))
                yield Fact("cylinder-to-burner", flame.tool, by, facts)
    torch = state.flames.get("torch")
    if torch is not None:
        yield from _in_hand(look, torch)


def _in_hand(look: Look, torch: Flame) -> Facts:
    job, state = look.job, look.state
    person = state.people[torch.who]
    doing = person.doing["do"] if person.doing else ""
    if not job.hand(torch.who).torch:
        yield Fact("extinguisher-training", f"torch {torch.who}", torch.by, {})
    if person.watching or (doing and doing not in _HOLDING):
        by = person.doing["by"] if person.doing else person.by
        yield Fact("lit-torch-left", "torch", max(torch.by, int(by)), {"doing": doing or "watch"})
    if person.doing and doing == "preheat":
        yield from _preheating(look, torch, int(person.doing["by"]))


def _preheating(look: Look, torch: Flame, by: int) -> Facts:
    """Film is melted away from every parapet, not only from the one the strips are meant for."""
    least, gap = value(look.limits, "film-preheat-distance"), to_walls(look.job, torch.spot)
    if gap < least * least:
        facts = {"distance_mm": _root(gap), "required_mm": least}
        yield Fact("film-preheat-distance", "torch", max(torch.by, by), facts)


def to_walls(job: Job, spot: Spot) -> int:
    """The square of the distance from a spot to the nearest wall."""
    at, walls = job.placed(spot), zip(job.plan, job.walls, strict=True)
    return min(
        squared_to_segment(at, laid.origin, laid.point(wall.length_mm)) for laid, wall in walls
    )


def _watch(look: Look) -> Facts:
    """Somebody trained watches while anything burns, and until the watch after it is over."""
    job, state, limits = look.job, look.state, look.limits
    watching = [p for p in state.people.values() if p.watching]
    trained = [p for p in watching if job.hand(p.id).watch]
    for person in watching:
        if not job.hand(person.id).watch:
            yield Fact("watch-duties", f"watch {person.id}", person.by, {"trained": False})
    cause = max([f.by for f in state.flames.values()] + [_latest(state.people.values())])
    if state.flames:
        each = value(limits, "watchers-per-torch", 1)
        if len(trained) < each:
            facts = {"watching": len(trained), "required": each}
            yield Fact("watchers-per-torch", "watch", cause, facts)
        return
    length = value(limits, "fire-watch")
    if state.last_flame is None or state.now >= state.last_flame + length:
        return
    over = {"last_flame": state.last_flame, "watch_min": length}
    if not trained or state.ended is not None:
        yield Fact("fire-watch", "watch", max(state.flame_by, cause, left_by(state)), over)
    if state.permit == "closed":
        yield Fact("fire-watch", "permit", max(state.flame_by, state.permit_by), over)


def left_by(state: State) -> int:
    """The decision by which everybody left; 0 while they are there, or were made to."""
    return state.n if state.end == "left" else 0


def _latest(people: Iterable[Person]) -> int:
    return max((person.by for person in people), default=0)


def _lit(look: Look) -> list[tuple[Flame, Point]]:
    return [(flame, look.job.placed(flame.spot)) for flame in look.state.flames.values()]


def _nearest(at: Point, points: Iterable[Point]) -> int | None:
    return min((squared(at, point) for point in points), default=None)


def _root(square: int) -> int:
    """A distance in whole millimetres, for words; verdicts compare squares."""
    return round(math.sqrt(square))


def near_what_burns(job: Job, covered: Iterable[str], at: Point, band_mm: float) -> str:
    """The wall at which a flame heats something that burns behind it, or ""."""
    for wall in job.walls:
        laid = job.plan[job.wall_index(wall.id)]
        for part in wall.behind:
            gap = squared_to_segment(at, laid.point(part.from_mm), laid.point(part.to_mm))
            if gap < band_mm * band_mm and part.id not in covered:
                return wall.id
    return ""


_WHILE_LIT = frozenset({"flame", "sheet", "coat", "person"})
CHECKS = (
    Check("near", _WHILE_LIT, _near),
    Check("burns", frozenset({"flame", "sheet"}), _burns),
    Check("wet primer", _WHILE_LIT, _wet_primer),
    Check("ready", frozenset({"flame", "watch", "person"}), _ready),
    Check("watch", frozenset({"flame", "watch", "person", "end"}), _watch),
)
