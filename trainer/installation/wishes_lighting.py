"""Making a place ready for a flame, as a good foreman does: nothing near, a watch, then light."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.installation.acts_flame import beyond_hose
from trainer.installation.air import undried_ms
from trainer.installation.checks import Look
from trainer.installation.checks_flame import CHECKS
from trainer.installation.foreman import Desk, Wish
from trainer.installation.place import Spot, squared
from trainer.installation.state import Flame, copied

HOSE = "hose"
"""Nature's ground against a torch so far from its cylinder."""
_NO_PLACE = "no place"
"""Nature's ground against a spot beyond the roof."""
_LOOK = frozenset({"near", "burns", "wet primer", "ready"})


def trouble(desk: Desk, tool: str, spot: Spot) -> set[str]:
    """What the rule book would find if this tool burned at this spot now."""
    if desk.way.skips:
        return set()  # somebody careless does not ask
    state = copied(desk.state)
    who = next(hand.id for hand in desk.job.crew if hand.torch)
    state.flames = {tool: Flame(tool, spot, who, state.now, 0)}
    look = Look(desk.job, state, desk.limits)
    found = {
        fact.subject
        for check in CHECKS
        if check.name in _LOOK
        for fact in check.find(look)
        if fact.subject in desk.limits
    } - {"lit-torch-left"}
    if desk.job.off_the_roof(spot):
        found.add(_NO_PLACE)
    return found | {HOSE} if tool == "torch" and beyond_hose(desk.job, state, spot) else found


def lighting(desk: Desk, tool: str, spots: list[Spot]) -> Iterator[Wish]:
    """Make the place ready, post the watch, light: whatever comes next of it."""
    job, state = desk.job, desk.state
    if tool == "torch" and desk.doing("lay", "lay corner", "prime"):
        return  # they drop film and open cans
    good, worst = None, set[str]()
    for spot in spots:
        worst = trouble(desk, tool, spot)
        if not worst:
            good = spot
            break
    if good is None:
        yield from made_ready(desk, worst, spots[0])
        return
    watched = desk.skips("waits") or any(
        p.watching and job.hand(p.id).watch for p in state.people.values()
    )
    if not watched:
        for person in desk.idle:
            hand = job.hand(person.id)
            others = [p for p in state.people.values() if not p.watching and p is not person]
            if hand.watch and any(job.hand(p.id).torch for p in others):
                desk.about_to_light = True
                yield Wish({"do": "watch", "who": person.id})
        return
    task = {"do": "light", "tool": tool, "wall": good.wall, "at": good.at_mm, "off": good.off_mm}
    yield Wish(task, skill="torch" if tool == "torch" else "")


def made_ready(desk: Desk, found: set[str], spot: Spot) -> Iterator[Wish]:
    """What takes a ground against the flame away."""
    state = desk.state
    if "permit-content" in found and not desk.doing("open permit"):
        yield Wish({"do": "open permit"})
    yield from cans_and_film(desk)
    if "wet-primer-to-flame" in found:
        ends = [c.to_mm for c in state.coats]
        left = max(
            (undried_ms(c, at, state.now) for c, at in zip(state.coats, ends, strict=True)),
            default=0,
        )
        desk.look_again(state.now + max(1, -(-left // 1000)))
    if found & {"cylinder-to-burner", HOSE} and not desk.doing("move gas"):
        yield from _moved(desk, "gas", spot)
    if "extinguisher-distance" in found and not desk.doing("move extinguisher"):
        yield from _moved(desk, "extinguisher", spot)


def cans_and_film(desk: Desk) -> Iterator[Wish]:
    """Open cans and loose film go away before the torch comes."""
    if desk.state.cans is not None and not desk.doing("close cans", "prime"):
        yield Wish({"do": "close cans"})
    if desk.state.film is not None and not desk.doing("bag film", "lay", "lay corner"):
        yield Wish({"do": "bag film"})


def _moved(desk: Desk, what: str, spot: Spot) -> Iterator[Wish]:
    """Gas well clear of the flame and within its hose, an extinguisher beside the work."""
    wall = desk.job.wall(spot.wall)
    if what == "gas":
        at = min(wall.length_mm, spot.at_mm)
        off = spot.off_mm - 5000 if spot.off_mm > 6000 else spot.off_mm + 7000
        if desk.job.off_the_roof(Spot(wall.id, at, off)):
            at, off = _aside(desk, spot)
        yield Wish({"do": "move gas", "wall": wall.id, "at": at, "off": off})
        return
    name = next(iter(desk.state.extinguishers), "")
    if name:
        task = {"do": "move extinguisher", "thing": name, "wall": wall.id}
        yield Wish({**task, "at": spot.at_mm, "off": 2000})


def _aside(desk: Desk, spot: Spot) -> tuple[int, int]:
    """Along the wall and out from it where the other wall is too near: as far off as it can be."""
    wall, at = desk.job.wall(spot.wall), desk.job.placed(spot)
    places = [
        Spot(wall.id, along, off)
        for along in range(0, wall.length_mm + 1, 500)
        for off in range(1000, 9000, 500)
    ]
    free = [place for place in places if not desk.job.off_the_roof(place)]
    best = max(free, key=lambda place: squared(desk.job.placed(place), at), default=spot)
    return best.at_mm, best.off_mm
