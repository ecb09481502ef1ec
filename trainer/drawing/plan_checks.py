"""What cannot be drawn as a roof plan, said with the field, the value and what is allowed."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.drawing.markup import Point
from trainer.drawing.plan_data import Item, Plan, Thing
from trainer.drawing.plan_site_data import Hole, Rect
from trainer.errors import InputError


def check(plan: Plan) -> None:
    """Raises InputError on the first thing that cannot be drawn."""
    _check_ends(plan)
    for i, wall in enumerate(plan.walls):
        if wall.legs and len(wall.legs) != len(wall.faces) - 1:
            pieces = f"one name for each piece, {len(wall.faces) - 1}"
            raise InputError(f"walls[{i}].legs", wall.legs, pieces)
    _check_things(plan)
    _check_rectangles(plan)
    if plan.wind and plan.wind.towards == (0, 0):
        raise InputError("wind.towards", [0, 0], "some way across or up, such as [1, 0]")
    if plan.extent:
        _check_extent(plan, *plan.extent)
    drawn = (plan.walls, plan.items, plan.primer, plan.things, plan.edges, plan.guardrails)
    if not any(drawn) and not any(True for _ in places(plan)):
        raise InputError("walls", [], "at least one wall, item, thing or edge to draw")


def _check_ends(plan: Plan) -> None:
    ends: list[tuple[str, Item | Hole]] = [
        (f"items[{i}]", each) for i, each in enumerate(plan.items)
    ]
    ends += [(f"openings[{i}]", each) for i, each in enumerate(plan.openings)]
    for name, each in ends:
        given = (each.start is None) + (each.end is None)
        if given != (0 if each.at is None else 2):
            raise InputError(name, "at, from, to", "either at, or from and to")
        if each.start is not None and each.start == each.end:
            raise InputError(f"{name}.to", list(each.start), "another point than from")


def _check_things(plan: Plan) -> None:
    for i, thing in enumerate(plan.things):
        _check_thing(f"things[{i}]", thing)


def _check_thing(name: str, thing: Thing) -> None:
    if thing.holds and thing.kind != "person":
        raise InputError(f"{name}.holds", thing.holds, 'nothing unless kind is "person"')
    if thing.bent_to and thing.kind != "torch":
        raise InputError(f"{name}.bent_to", list(thing.bent_to), 'none unless kind is "torch"')


def _check_rectangles(plan: Plan) -> None:
    groups = (("obstacles", plan.obstacles), ("laid", plan.laid))
    for name, group in groups:
        for i, rect in enumerate(group):
            if rect.low[0] == rect.high[0] or rect.low[1] == rect.high[1]:
                allowed = "a corner across and up or down from it"
                raise InputError(f"{name}[{i}].to", list(rect.end), allowed)


def _check_extent(plan: Plan, corner: Point, opposite: Point) -> None:
    (left, bottom), (right, top) = corner, opposite
    if left >= right or bottom >= top:
        raise InputError("extent", plan.extent, "left < right and bottom < top")
    for name, (x, y) in places(plan):
        if not (left <= x <= right and bottom <= y <= top):
            allowed = f"inside extent ({left:g} to {right:g} across, {bottom:g} to {top:g} up)"
            raise InputError(name, [x, y], allowed)


def places(plan: Plan) -> Iterator[tuple[str, Point]]:
    """Field and place of everything that lies on the roof besides walls, items and things."""
    rects = (("obstacles", plan.obstacles), ("laid", plan.laid))
    for name, group in rects:
        for i, rect in enumerate(group):
            yield from _corners(f"{name}[{i}]", rect)
    for i, way in enumerate(plan.ways):
        for j, point in enumerate(way.points):
            yield f"ways[{i}].points[{j}]", point
    for i, hole in enumerate(plan.openings):
        ends = (("at", hole.at), ("from", hole.start), ("to", hole.end))
        yield from ((f"openings[{i}].{end}", at) for end, at in ends if at is not None)
    for i, spot in enumerate(plan.spots):
        yield f"spots[{i}].at", spot.at
    for i, fuel in enumerate(plan.combustibles):
        yield f"combustibles[{i}].at", fuel.at
    if plan.wind and plan.wind.at:
        yield "wind.at", plan.wind.at


def _corners(name: str, rect: Rect) -> Iterator[tuple[str, Point]]:
    yield f"{name}.from", rect.start
    yield f"{name}.to", rect.end
