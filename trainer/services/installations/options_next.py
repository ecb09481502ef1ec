"""More of the work that somebody has just done: one tap, the same person, the next sheet or lap.

It goes on with what was decided and knows nothing better: whether it is right now, the rules say
afterwards, as of any other decision.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from trainer.installation.actions import ACTIONS, FOR_ALL
from trainer.installation.laps import laps, sheets_to_lay, wall_sheet_id
from trainer.installation.state import Decision
from trainer.services.installations.options_bench import Bench
from trainer.services.installations.options_wall import far_end
from trainer.services.installations.words_decisions import decided

_MOST = 3
_EACH = 2
_LOOKED_BACK = 12

Task = tuple[str, dict[str, Any]]


@dataclass(frozen=True)
class Next:
    """One tap: the whole decision in words, its minutes, and the fields that go with it."""

    label: str
    minutes: str
    fields: tuple[tuple[str, str], ...]


def next_things(bench: Bench, decisions: Sequence[Decision]) -> tuple[Next, ...]:
    """What whoever is idle could go on with, newest work first, a few at most; and putting out."""
    found: dict[str, Next] = {}
    for last in _last_of_each(bench, decisions):
        offered = _AFTER.get(str(last["do"]), _nothing)(bench, last)
        ready = [task for do, named in offered if (task := _ready(bench, last, do, named))]
        for task in ready[:_EACH]:
            found.setdefault(task.label.partition(" ")[2], task)
    return (*tuple(found.values())[:_MOST], *_to_put_out(bench))


def _to_put_out(bench: Bench) -> Iterator[Next]:
    """Whoever stands idle by a flame of theirs can always put it out."""
    for tool, flame in bench.state.flames.items():
        if task := _ready(bench, {"who": flame.who}, "put out", {"tool": tool}):
            yield task


def _last_of_each(bench: Bench, decisions: Sequence[Decision]) -> Iterator[Decision]:
    """The last decision about everybody who stands idle, not on watch."""
    idle = {hand.id for hand in bench.free if not bench.state.people[hand.id].watching}
    for decision in reversed(decisions[-_LOOKED_BACK:]):
        if decision["do"] not in FOR_ALL and decision["who"] in idle:
            idle.remove(decision["who"])
            yield decision


def _ready(bench: Bench, last: Decision, do: str, named: Mapping[str, Any]) -> Next | None:
    """The task with its person and helper; None where nature does not allow it."""
    option = bench.option(do, named)
    if last["who"] not in [row.id for row in option.who]:
        return None
    hands = {"who": last["who"]}
    helper = last.get("with")
    if ACTIONS[do].two and helper in [row.id for row in option.helpers] and helper:
        hands["with"] = helper
    task = {**named, **hands, "do": do}
    minutes = ACTIONS[do].minutes(bench.job, bench.state, task)
    return Next(
        label=decided(bench.voice, bench.job, bench.state, task).removesuffix("."),
        minutes=bench.voice.lasting(minutes) if minutes else bench.voice.say("at once"),
        fields=(("do", do), *option.fixed, *hands.items()),
    )


def _nothing(bench: Bench, last: Decision) -> Iterator[Task]:
    yield from ()


def _after_looking(bench: Bench, last: Decision) -> Iterator[Task]:
    other = "probe" if last["do"] == "look" else "look"
    key = {"probe": "damp", "look": "behind"}
    for do, wall in ((other, last["wall"]), *((last["do"], w.id) for w in bench.job.walls)):
        if f"{key[do]} {wall}" not in bench.state.known and not _being_done(bench, do, wall):
            yield do, {"wall": wall}


def _being_done(bench: Bench, do: str, wall: str) -> bool:
    doing = [person.doing for person in bench.state.people.values() if person.doing]
    return any(task["do"] == do and task.get("wall") == wall for task in doing)


def _after_priming(bench: Bench, last: Decision) -> Iterator[Task]:
    yield "touch", {"wall": last["wall"], "at": (last["from"] + last["to"]) // 2}


def _after_touching(bench: Bench, last: Decision) -> Iterator[Task]:
    wall, at = last["wall"], last["at"]
    bare = _bare_sheets(bench, wall)
    here = next((k for k, (start, end) in bare.items() if start <= at <= end), None)
    yield from [("lay", _laying(wall, here, last))] if here is not None else []
    beyond = next((k for k, (_, end) in bare.items() if end > at and k != here), None)
    yield from _touch(bench, bare, wall, beyond)


def _after_laying(bench: Bench, last: Decision) -> Iterator[Task]:
    wall, sheet = last["wall"], last.get("through") or last["sheet"]
    lying = bench.state.sheets.get(wall_sheet_id(wall, sheet))
    if lying is not None and lying.rolled_at is None and last["do"] == "lay":
        yield "roll", {"wall": wall, "sheet": sheet}
    bare = _bare_sheets(bench, wall)
    following = next((k for k in bare if k > sheet), next(iter(bare), None))
    yield from _touch(bench, bare, wall, following)
    if following is not None:
        yield "lay", _laying(wall, following, last)


def _touch(
    bench: Bench, bare: Mapping[int, tuple[int, int]], wall: str, number: int | None
) -> Iterator[Task]:
    if number is not None:
        yield "touch", {"wall": wall, "at": far_end(bench, wall, bare[number][1])}


def _laying(wall: str, sheet: int, last: Decision) -> dict[str, Any]:
    """As the last one was laid, where the last decision was to lay."""
    rolling = "true" if last.get("rolling", last["do"] != "lay") else ""
    return {"wall": wall, "sheet": sheet, "half": last.get("half", "top"), "rolling": rolling}


def _bare_sheets(bench: Bench, wall: str) -> dict[int, tuple[int, int]]:
    """The marked sheets of a wall that do not lie yet, nor are being laid."""
    doing = [person.doing for person in bench.state.people.values() if person.doing]
    taken = {(task["wall"], task["sheet"]) for task in doing if task["do"] == "lay"}
    due = sheets_to_lay(bench.job, bench.state, wall)
    return {
        k: ends
        for k, ends in enumerate(due)
        if wall_sheet_id(wall, k) not in bench.state.sheets and (wall, k) not in taken
    }


def _after_welding(bench: Bench, last: Decision) -> Iterator[Task]:
    open_laps = [
        lap.id for lap in laps(bench.state, last["wall"]) if lap.id not in bench.state.welds
    ]
    numbers = [int(lap.rpartition(":")[2]) for lap in open_laps]
    at = last.get("through") or last.get("lap", 0)
    beyond = next((n for n in numbers if n >= at), next(iter(numbers), None))
    if beyond is not None:
        yield "weld", {"wall": last["wall"], "lap": beyond}


def _after_lighting(bench: Bench, last: Decision) -> Iterator[Task]:
    cold = sum(not strip.melted for strip in bench.state.strips)
    if last.get("tool") == "torch" and last.get("off") and cold:
        yield "preheat", {"strips": cold}
    elif last.get("tool") == "torch":
        yield from _after_welding(bench, last)


def _after_corner_sheet(bench: Bench, last: Decision) -> Iterator[Task]:
    yield "roll corner", {"corner": last["corner"], "number": last["number"]}


_AFTER: Mapping[str, Callable[[Bench, Decision], Iterator[Task]]] = {
    "look": _after_looking,
    "probe": _after_looking,
    "prime": _after_priming,
    "touch": _after_touching,
    "lay": _after_laying,
    "roll": _after_laying,
    "weld": _after_welding,
    "light": _after_lighting,
    "lay corner": _after_corner_sheet,
}
"""What each kind of work goes on with."""
