"""A job from a real wall: what a supervisor says of it in a short form, the rest as on a usual day.

Weather, crew, sheet and rolls are those of a fair day with an invented crew. Cylinder, melter and
extinguishers are put where the distances in force are kept, as far as the shape of the roof allows.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from trainer.errors import InputError
from trainer.installation.job_fields import CLOCK, COMBUSTIBLE, MM, WALL
from trainer.installation.limits import Limits, value
from trainer.installation.place import (
    Laid,
    Point,
    facing,
    lay_out,
    squared,
    squared_to_segment,
)
from trainer.roofing.clock import hhmm
from trainer.roofing.contract import (
    Choice,
    Each,
    Field,
    Nullable,
    Number,
    Record,
    Text,
    check_fields,
    no_rule,
)

LONGEST_NAME = 120
MOST_WALLS = 6
_LIMITED = {field.name: field.kind for field in WALL.fields}
_BEHIND = Record(
    (
        Field("what", Choice(COMBUSTIBLE), "what burns"),
        Field("from_mm", MM, "left end"),
        Field("to_mm", MM, "right end"),
    )
)
_WALL = Record(
    (
        Field("length_mm", _LIMITED["length_mm"], "length"),
        Field("height_mm", _LIMITED["height_mm"], "roof to top of parapet"),
        Field("cant_mm", _LIMITED["cant_mm"], "leg of the cant", 0),
        Field(
            "corner", Nullable(Choice(("inside", "outside"))), "how the next wall meets it", None
        ),
        Field(
            "field_laps_mm", Each(MM, most=60), "where laps of the field start, from the left", ()
        ),
        Field("field_lap_width_mm", Number("mm", low=20, high=400, whole=True), "how wide", 100),
        Field("behind", Each(_BEHIND, most=10), "what burns in or behind it", ()),
        Field("told", Text(), "what the foreman says when asked what it is made of", "masonry"),
    )
)
FORM = (
    Field("name", Text(), "what the crew calls it"),
    Field("walls", Each(_WALL, least=1, most=MOST_WALLS), "the walls, from the left"),
    Field("start", CLOCK, "when the crew is on the roof", 7 * 60),
    Field("leave_by", CLOCK, "when everybody must be off the roof", 16 * 60 + 30),
)
"""The short form. ``corner`` is given for every wall but the last."""

_SHEET = {"width_mm": 1000, "side_lap_mm": 100, "least_mm": 300, "roll_mm": 8000}
_STEP_MM = 500
_FARTHEST_MM = 20_000
_HOSE_MM = 14_500


def site_job(form: Mapping[str, Any], limits: Limits) -> dict[str, Any]:
    """The specification of a job with these walls. Raises InputError naming the field.

    ``limits`` give the distances that cylinder, melter and extinguishers keep.
    """
    given = check_fields(FORM, form, no_rule)
    if len(given["name"]) > LONGEST_NAME or not given["name"].isprintable():
        raise InputError("name", given["name"], f"1 to {LONGEST_NAME} printable characters")
    walls = given["walls"]
    corners = _corners(walls)
    laid = lay_out([wall["length_mm"] for wall in walls], corners)
    return {
        "id": "site-job",
        "version": 1,
        "level": _level(walls),
        "title": given["name"].strip(),
        "brief": given["name"].strip(),
        "start": hhmm(given["start"]),
        "leave_by": hhmm(given["leave_by"]),
        "walls": [_wall(i, wall) for i, wall in enumerate(walls)],
        "corners": corners,
        "sheet": dict(_SHEET),
        "rolls": [{"id": f"r{n + 1}"} for n in range(_rolls(walls))],
        "paper": {
            "dry_min": 35,
            "coldest_c": 5,
            "slower": [[15, 100], [10, 130], [-50, 180]],
        },
        "crew": [
            {"id": "dana", "name": "Dana", "torch": True, "watch": True},
            {"id": "ivo", "name": "Ivo", "torch": True, "watch": True},
            {"id": "noor", "name": "Noor", "watch": True},
        ],
        **_things(_Roof(walls, laid), limits),
        "by_eye_mm": 60,
        "weather": _fair(),
    }


def _corners(walls: Sequence[Mapping[str, Any]]) -> list[str]:
    for i, wall in enumerate(walls[:-1]):
        if wall["corner"] is None:
            raise InputError(f"walls[{i}].corner", None, "inside or outside: a wall follows it")
    if walls[-1]["corner"] is not None:
        last = len(walls) - 1
        raise InputError(f"walls[{last}].corner", walls[-1]["corner"], "none: no wall follows it")
    return [wall["corner"] for wall in walls[:-1]]


def _level(walls: Sequence[Mapping[str, Any]]) -> int:
    """1 for a straight wall with nothing behind it, up to 4."""
    burns = any(wall["behind"] for wall in walls)
    return min(4, 1 + min(2, len(walls) - 1) + burns)


def _wall(i: int, wall: Mapping[str, Any]) -> dict[str, Any]:
    letter = wall_letter(i)
    long, width = wall["length_mm"], wall["field_lap_width_mm"]
    for k, part in enumerate(wall["behind"]):
        if not part["from_mm"] < part["to_mm"] <= long:
            field = f"walls[{i}].behind[{k}].to_mm"
            raise InputError(field, part["to_mm"], f"> from_mm ({part['from_mm']}) and ≤ {long}")
    for k, start in enumerate(wall["field_laps_mm"]):
        if start >= long:
            raise InputError(f"walls[{i}].field_laps_mm[{k}]", start, f"on the wall, < {long}")
    return {
        "id": letter,
        "length_mm": long,
        "height_mm": wall["height_mm"],
        "cant_mm": wall["cant_mm"],
        "field_laps": [[at, min(at + width, long)] for at in sorted(wall["field_laps_mm"])],
        "behind": [{"id": f"{letter}-{k + 1}", **part} for k, part in enumerate(wall["behind"])],
        "told": wall["told"],
    }


def wall_letter(i: int) -> str:
    """The letter of the wall of that number, counted from 0."""
    return "ABCDEF"[i]


def _rolls(walls: Sequence[Mapping[str, Any]]) -> int:
    """Rolls that are surely enough: strips half a sheet wide, and every corner twice over."""
    girth = max(wall["height_mm"] + wall["cant_mm"] for wall in walls) + 500
    strips = sum(2 * wall["length_mm"] // _SHEET["width_mm"] + 6 for wall in walls)
    return min(30, int(-(-strips // max(1, _SHEET["roll_mm"] // girth))) + 1)


def _fair() -> dict[str, Any]:
    air = [
        {"at": "06:00", "air_c": 13, "rh_pct": 65},
        {"at": "09:00", "air_c": 16, "rh_pct": 60},
        {"at": "12:00", "air_c": 20, "rh_pct": 50},
    ]
    return {"path": air, "forecast": {"air": [dict(hour) for hour in air]}}


class _Roof:
    """The walls on the plan, and what lies how far from them."""

    def __init__(self, walls: Sequence[Mapping[str, Any]], laid: Sequence[Laid]) -> None:
        self.walls, self.laid = walls, laid
        self.lengths = [wall["length_mm"] for wall in walls]
        ends = zip(walls, laid, strict=True)
        self._segments = [(part.origin, part.point(wall["length_mm"])) for wall, part in ends]

    def nearest(self, at: Point) -> int:
        """The square of the distance to the nearest wall."""
        return min(squared_to_segment(at, *segment) for segment in self._segments)

    def farthest(self, at: Point) -> int:
        """The square of the distance to the farthest end of a wall."""
        return max(squared(at, end) for segment in self._segments for end in segment)

    def spots(self) -> Iterator[tuple[Point, dict[str, Any]]]:
        """Places to put something, on a grid before every wall."""
        for i, (wall, part) in enumerate(zip(self.walls, self.laid, strict=True)):
            for at in range(0, wall["length_mm"] + 1, _STEP_MM):
                across = facing(self.laid, self.lengths, i, at)
                roof_ends = across[1] - _STEP_MM if across else _FARTHEST_MM
                for off in range(1500, roof_ends, _STEP_MM):
                    spot = {"wall": wall_letter(i), "at_mm": at, "off_mm": off}
                    yield part.point(at, off), spot

    def best(self, worth: Callable[[Point], Any]) -> dict[str, Any]:
        """The first of the spots that are worth most."""
        return max(self.spots(), key=lambda found: worth(found[0]))[1]

    def point(self, spot: Mapping[str, Any]) -> Point:
        return self.laid["ABCDEF".index(spot["wall"])].point(spot["at_mm"], spot["off_mm"])


def _things(roof: _Roof, limits: Limits) -> dict[str, Any]:
    """Cylinder, melter and extinguishers: clear of each other and within reach of the work."""
    burner = value(limits, "cylinder-to-burner") + 100
    dry = value(limits, "wet-primer-to-flame") + 600
    gas = roof.best(lambda at: _clear_and_near(roof, at, burner))
    cylinder = roof.point(gas)
    melter = roof.best(
        lambda at: (
            min(squared(at, cylinder), burner * burner),
            *_clear_and_near(roof, at, dry),
        )
    )
    return {
        "gas": {"minutes": 240, "spare": 2, **gas},
        "melter": melter,
        "extinguishers": _extinguishers(roof, [roof.point(melter)], limits),
    }


def _clear_and_near(roof: _Roof, at: Point, least: float) -> tuple[float, int]:
    """First to keep the distance, as far as it can be kept, then to be near every wall."""
    return min(roof.nearest(at), least * least), -roof.farthest(at)


def _extinguishers(roof: _Roof, also: Sequence[Point], limits: Limits) -> list[dict[str, Any]]:
    """Up to four, each put where it reaches most of what the others do not reach yet."""
    reach = (value(limits, "extinguisher-distance", _HOSE_MM) - 100) ** 2
    left = [*also, *_along(roof)]
    placed: list[dict[str, Any]] = []
    while left and len(placed) < 4:

        def reached(at: Point, left: Sequence[Point] = left) -> int:
            return sum(squared(at, point) <= reach for point in left)

        spot = roof.best(reached)
        at = roof.point(spot)
        placed.append({"id": f"ext{len(placed) + 1}", **spot})
        left = [point for point in left if squared(at, point) > reach]
    return placed


def _along(roof: _Roof) -> Iterator[Point]:
    """Points along every wall, a metre apart, its ends among them."""
    for wall, part in zip(roof.walls, roof.laid, strict=True):
        for at in {*range(0, wall["length_mm"], 1000), wall["length_mm"]}:
            yield part.point(at)
