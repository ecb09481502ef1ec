"""The flame as a good foreman brings it: all made ready, watched, and out as soon as it can."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from trainer.installation.acts_prepare import MOST_STRIPS
from trainer.installation.checks_flame import to_walls
from trainer.installation.foreman import Desk, Wish
from trainer.installation.laps import corner_sheet_id, lap_ids_due, laps, sheets_to_lay, unclosed
from trainer.installation.pieces import (
    melts_due,
    pieces,
    planned,
    strips_short,
)
from trainer.installation.place import Spot
from trainer.installation.wishes_lighting import HOSE, cans_and_film, lighting, made_ready, trouble

_BEYOND_MM = 600


def watch_over(desk: Desk) -> int:
    """When the watch after the last flame is over; now when there was none."""
    last = desk.state.last_flame
    return (
        desk.state.now
        if last is None or desk.skips("waits")
        else last + ceil(desk.limit("fire-watch"))
    )


def watch_wanted(desk: Desk) -> bool:
    """Whether somebody must be on watch now: a flame burns, or the watch after it runs."""
    state = desk.state
    running = state.last_flame is not None and state.now < watch_over(desk)
    return bool(state.flames) or running or desk.about_to_light


def flame_due(desk: Desk) -> bool:
    """Whether this job needs a flame at all: a corner, or two sheets that lap."""
    return bool(desk.job.corners) or any(len(planned(desk, w.id)) > 1 for w in desk.job.walls)


def preheating(desk: Desk) -> Iterator[Wish]:
    """The film comes off the strips that go under others, out on the field, before any priming."""
    state = desk.state
    short = melts_due(desk) - sum(strip.melted for strip in state.strips)
    torch = state.flames.get("torch")
    if short <= 0 or strips_short(desk) > 0 or not _all_looked(desk):
        return
    if torch is not None:
        if state.people[torch.who].free and not desk.doing("preheat"):
            yield Wish({"do": "preheat", "strips": min(short, MOST_STRIPS), "who": torch.who})
        return
    if not desk.doing("light", "prime"):
        yield from lighting(desk, "torch", _field_spots(desk))


def _field_spots(desk: Desk) -> list[Spot]:
    """Places out on the field for preheating, those beside an extinguisher first."""
    near = ceil(desk.limit("film-preheat-distance", 1000))
    spots: list[Spot] = []
    if desk.way.melt_late:
        far = ceil(desk.limit("wet-primer-to-flame")) + _BEYOND_MM
        spots = [Spot(wall.id, wall.length_mm // 2, far) for wall in desk.job.walls]
    for beside in desk.state.extinguishers.values():
        spots.append(Spot(beside.wall, beside.at_mm, max(beside.off_mm, near)))
    for wall in desk.job.walls:
        for off in (near, near + 1500, near + 4000):
            for share in (1, 3, 5):
                spots.append(Spot(wall.id, wall.length_mm * share // 6, off))
    return [spot for spot in spots if to_walls(desk.job, spot) >= near * near] or spots


def _all_looked(desk: Desk) -> bool:
    """Whether every wall was looked at and what was found is covered or away."""
    if desk.skips("closings"):
        return True
    job, state, sight = desk.job, desk.state, desk.sight
    behind = [b.id for w in job.walls for b in sight.behind(state, w.id)]
    found = (*behind, *sight.openings(state))
    covered = all(thing in state.covered for thing in found)
    cleared = all(t.id in state.cleared or t.id in state.covered for t in job.loose)
    return all(sight.looked(state, w.id) for w in job.walls) and covered and cleared


def at_the_flame(desk: Desk) -> Iterator[Wish]:
    """Whoever holds the lit torch goes on with it, or puts it out."""
    state = desk.state
    torch = state.flames.get("torch")
    if torch is not None and state.people[torch.who].free:
        short = melts_due(desk) - sum(strip.melted for strip in state.strips)
        if short > 0:
            yield from preheating(desk)
        elif _all_closed(desk):
            yield from _welding(desk, torch.who)
        yield Wish({"do": "put out", "tool": "torch", "who": torch.who})
    melter = state.flames.get("melter")
    if (
        melter is not None
        and not _to_fill(desk)
        and not desk.under_way(do="put out", tool="melter")
    ):
        yield Wish({"do": "put out", "tool": "melter"})


def _welding(desk: Desk, who: str) -> Iterator[Wish]:
    """The next gusset or row of laps that the flame may come to, gas for it in the cylinder."""
    state, job = desk.state, desk.job
    for i, corner in enumerate(state.corners):
        spot = Spot(job.walls[i + 1].id, 0)
        if corner.gusset is None and not trouble(desk, "torch", spot):
            reach = ceil(desk.limit("gusset-cover", 100))
            if state.gas_left >= job.minutes["gusset"]:
                yield Wish({"do": "gusset", "corner": i, "reach": reach, "who": who})
    for wall, number, spot in _unwelded(desk):
        found = trouble(desk, "torch", spot)
        if not found and state.gas_left >= job.minutes["weld"]:
            yield Wish({"do": "weld", "wall": wall, "lap": number, "who": who})
        elif found & {"cylinder-to-burner", "extinguisher-distance", HOSE}:
            yield from made_ready(desk, found, spot)


def _unwelded(desk: Desk) -> list[tuple[str, int, Spot]]:
    found = []
    for wall in desk.job.walls:
        for lap in laps(desk.state, wall.id):
            if lap.id not in desk.state.welds and lap.width_mm > 0:
                number = int(lap.id.rpartition(":")[2])
                found.append((wall.id, number, Spot(wall.id, lap.middle_mm)))
    return found


def _all_closed(desk: Desk) -> bool:
    """Whether every sheet lies, is rolled and bonded, and every corner is filled."""
    laid = not pieces(desk) and all(
        sheets_to_lay(desk.job, desk.state, w.id) for w in desk.job.walls
    )
    return laid and (desk.skips("closings") or not unclosed(desk.job, desk.state))


def _to_fill(desk: Desk) -> list[int]:
    if desk.skips("closings"):
        return []
    return [i for i, corner in enumerate(desk.state.corners) if corner.filled is None]


def corner_fill(desk: Desk) -> Iterator[Wish]:
    """Hot bitumen into corners whose sheets are rolled; the melter is lit once primer allows it."""
    job, state = desk.job, desk.state
    todo = _to_fill(desk)
    rolled = [
        i
        for i in todo
        if (s := state.sheets.get(corner_sheet_id(i, 2))) and s.rolled_at is not None
    ]
    melter = state.flames.get("melter")
    if melter is not None:
        hot = melter.lit_at + job.minutes["heat the melter"]
        if state.now < hot:
            desk.look_again(hot)
            return
        for i in rolled:
            if not desk.under_way(do="fill", corner=i):
                yield Wish({"do": "fill", "corner": i})
        return
    last_primed = not any(_needs_primer(desk))
    early = desk.way.melt_late and bool(rolled)
    if todo and (last_primed or early) and not desk.doing("light", "prime"):
        far = ceil(desk.limit("wet-primer-to-flame")) + _BEYOND_MM
        spots = [Spot(w.id, w.length_mm // 2, far) for w in job.walls if desk.way.melt_late]
        yield from lighting(desk, "melter", [job.melter, *spots])


def _needs_primer(desk: Desk) -> Iterator[bool]:
    from trainer.installation.air import bare_mm

    for piece in pieces(desk):
        if piece.task.get("number") != 2:
            yield any(bare_mm(desk.state, *part) for part in piece.place)


def close_up(desk: Desk) -> Iterator[Wish]:
    """Everything lies and is closed: cans shut, film bagged, and the torch comes to the wall."""
    job, state = desk.job, desk.state
    todo = [
        k for wall in job.walls for k in lap_ids_due(job, state, wall.id) if k not in state.welds
    ]
    gussets = [i for i, corner in enumerate(state.corners) if corner.gusset is None]
    if not (todo or gussets) or not _all_closed(desk) or "torch" in state.flames:
        return
    if not desk.skips("closings"):
        yield from cans_and_film(desk)
    if (
        state.gas_left < 3 * job.minutes["weld"]
        and state.gas_spare
        and not desk.doing("change gas")
    ):
        yield Wish({"do": "change gas"})
        return
    if desk.doing("close cans", "bag film", "change gas", "light", "move gas", "move extinguisher"):
        return
    spots = [Spot(job.walls[i + 1].id, 0) for i in gussets] + [s for _, _, s in _unwelded(desk)]
    if spots:
        yield from lighting(desk, "torch", spots[:1])
