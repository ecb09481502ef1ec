"""What a good foreman wishes for, most urgent first: safety, people, making ready, work, flame."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from trainer.installation.acts_prepare import MOST_STRIPS
from trainer.installation.foreman import Desk, Wish, best_laps
from trainer.installation.laps import missing
from trainer.installation.pieces import (
    melted_enough,
    pieces,
    ready_to_work,
    strips_short,
)
from trainer.installation.state import Person
from trainer.installation.wishes_flame import (
    at_the_flame,
    close_up,
    corner_fill,
    flame_due,
    preheating,
    watch_over,
    watch_wanted,
)
from trainer.installation.wishes_laying import laying
from trainer.installation.wishes_priming import priming, sealing


def wishes(desk: Desk) -> Iterator[Wish]:
    """Every wish that makes sense now, in order; the minutes to look again are left on the desk."""
    yield from _smoke(desk)
    yield from _over(desk)
    yield from _lunch(desk)
    yield from _posts(desk)
    yield from at_the_flame(desk)
    yield from sealing(desk)
    yield from laying(desk)
    yield from _edges(desk)
    yield from _looking(desk)
    yield from priming(desk)
    yield from _cutting(desk)
    yield from _marking(desk)
    yield from _protecting(desk)
    yield from preheating(desk)
    yield from corner_fill(desk)
    yield from close_up(desk)


def _smoke(desk: Desk) -> Iterator[Wish]:
    state = desk.state
    if state.smoke_at is None or state.smoke_answered:
        return
    if desk.under_way(do="look", wall=state.smoke_wall):
        return
    if desk.job.minutes["look"] + state.now < state.smoke_at + 5:
        holding = {flame.who for flame in state.flames.values() if flame.tool == "torch"}
        for person in desk.idle:
            if person.id not in holding:
                yield Wish({"do": "look", "wall": state.smoke_wall, "who": person.id})
    yield Wish({"do": "alarm"})


def _over(desk: Desk) -> Iterator[Wish]:
    """Everything is welded and the watch is over: the last look, the permit, home."""
    job, state = desk.job, desk.state
    left = missing(job, state)
    if desk.skips("closings"):
        left = [part for part in left if not part.startswith("roll ")]
    if state.flames or (left and left != ["permit"]):
        return
    over = watch_over(desk)
    closing = job.minutes["close permit"]
    paper = over - (closing if state.permit == "open" else 0)
    begin = paper - job.minutes["last look"]  # in the last minutes of the watch
    if state.now < begin:
        desk.look_again(begin)
        return
    looked = state.looked_round is not None and state.looked_round >= over - closing
    looked = looked or state.last_flame is None or desk.skips("closings")
    if not looked and not desk.under_way(do="last look"):
        yield Wish({"do": "last look"})
    if state.now < paper:
        desk.look_again(paper)
        return
    if state.permit == "open" and not desk.under_way(do="close permit"):
        yield Wish({"do": "close permit"})
    desk.look_again(over)
    if state.now >= over and looked and not left and state.smoke_answered:
        yield Wish({"do": "leave"})


def _lunch(desk: Desk) -> Iterator[Wish]:
    """By turns, so that the watch never has a gap; nobody eats with the torch in hand."""
    job, state = desk.job, desk.state
    if job.lunch is None:
        return
    if state.now < job.lunch.from_at:
        desk.look_again(job.lunch.from_at)
        return
    desk.look_again(job.lunch.by)
    holding = {flame.who for flame in state.flames.values() if flame.tool == "torch"}
    watchers = _watchers(desk)
    for person in desk.idle:
        if not person.ate and person.id not in holding:
            yield Wish({"do": "lunch", "who": person.id})
    spare = len(watchers) > 1 or not watch_wanted(desk)
    for person in watchers:
        if not person.ate and spare:
            yield Wish({"do": "lunch", "who": person.id})
            return
    if any(not person.ate for person in watchers):
        for person in desk.idle:
            if person.ate and job.hand(person.id).watch and person.id not in holding:
                yield Wish({"do": "watch", "who": person.id})


def _watchers(desk: Desk) -> list[Person]:
    """The trained people on watch."""
    people = desk.state.people.values()
    return [p for p in people if p.watching and desk.job.hand(p.id).watch]


def _posts(desk: Desk) -> Iterator[Wish]:
    """One on watch is enough; the last goes when all is done, or sheets wait for hands."""
    people = [p for p in desk.state.people.values() if p.watching]
    trained = _watchers(desk)
    done = not watch_wanted(desk) and missing(desk.job, desk.state) in ([], ["permit"])
    if desk.state.last_flame is not None and not watch_wanted(desk):
        no_flame_soon = melted_enough(desk) and all(c.filled for c in desk.state.corners)
        done = done or (bool(pieces(desk)) and no_flame_soon)
    desk.look_again(watch_over(desk))
    for person in people:
        spare = len(trained) > 1 or person not in trained
        if (spare or done) and (person.ate or desk.job.lunch is None or done):
            yield Wish({"do": "end watch", "who": person.id})
            return


def _edges(desk: Desk) -> Iterator[Wish]:
    for wall in desk.job.walls:
        if not ready_to_work(desk, wall.id) and not desk.under_way(do="rail", wall=wall.id):
            yield Wish({"do": "rail", "wall": wall.id})


def _looking(desk: Desk) -> Iterator[Wish]:
    if desk.skips("closings"):
        return
    state, sight = desk.state, desk.sight
    for wall in desk.job.walls:
        if not ready_to_work(desk, wall.id):
            continue
        if not sight.looked(state, wall.id) and not desk.under_way(do="look", wall=wall.id):
            yield Wish({"do": "look", "wall": wall.id})
        if not sight.probed(state, wall.id) and not desk.under_way(do="probe", wall=wall.id):
            yield Wish({"do": "probe", "wall": wall.id})


def _cutting(desk: Desk) -> Iterator[Wish]:
    """Strips are cut early, since they lie for a while before they go on."""
    job, state = desk.job, desk.state
    if desk.doing("cut", "fetch warm rolls"):
        return
    cold = [roll.id for roll in job.rolls if roll.cold and not state.warm_rolls]
    freezing = _coldest_air(desk) < desk.limit("cold-storage-from", -99)
    if cold and freezing and not desk.sight.hindsight and "rolls" not in state.known:
        if not desk.doing("check rolls"):
            yield Wish({"do": "check rolls"})
        return
    short = strips_short(desk)
    usable = [roll.id for roll in job.rolls if not (freezing and roll.id in cold)]
    for roll in usable:
        left = job.strips_per_roll - state.cut_from.get(roll, 0)
        if short > 0 and left > 0:
            yield Wish({"do": "cut", "strips": min(short, left, MOST_STRIPS), "roll": roll})
            return
    if short > 0 and cold and freezing:
        yield Wish({"do": "fetch warm rolls"})


def _coldest_air(desk: Desk) -> int:
    """The coldest air from now on."""
    path = desk.sight.hour
    return min(path(at).air_c for at in range(desk.state.now, desk.job.leave_by, 30))


def _marking(desk: Desk) -> Iterator[Wish]:
    job, state = desk.job, desk.state
    for wall in job.walls:
        if not ready_to_work(desk, wall.id):
            continue
        if wall.id not in state.layouts and not desk.under_way(do="set out", wall=wall.id):
            laps = best_laps(job, desk.limits, wall.id)
            task = {"do": "set out", "wall": wall.id, "laps": laps}
            yield Wish({**task, "lap_mm": job.sheet.side_lap_mm})
        if wall.id not in state.lines and not desk.under_way(do="snap", wall=wall.id):
            lap = ceil(desk.limit("lap-onto-field", 100))
            yield Wish({"do": "snap", "wall": wall.id, "distance": wall.cant_mm + lap})


def _protecting(desk: Desk) -> Iterator[Wish]:
    """What burns is carried away or covered before any flame, and before a sheet hides it."""
    if desk.skips("closings"):
        return
    job, state, sight = desk.job, desk.state, desk.sight
    for loose in job.loose:
        gone = loose.id in state.cleared or loose.id in state.covered
        if not gone and not desk.under_way(do="clear", thing=loose.id):
            yield Wish({"do": "clear", "thing": loose.id})
    behind = [part.id for wall in job.walls for part in sight.behind(state, wall.id)]
    for thing in (*behind, *sight.openings(state)):
        if thing not in state.covered and not desk.under_way(do="cover", thing=thing):
            yield Wish({"do": "cover", "thing": thing})
    if state.permit == "none" and flame_due(desk) and not desk.doing("open permit"):
        yield Wish({"do": "open permit"})
