"""Days side by side for the debrief: yours and the best one, to one scale."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from trainer.drawing import draw
from trainer.engine.measures import say_clock
from trainer.installation.job import Job

Say = Callable[[str], str]
Entry = Mapping[str, Any]


@dataclass(frozen=True)
class Block:
    """What somebody (``who``, an id) does from a minute to a minute of the day.

    ``kind``: look, prepare, prime, lay, flame, watch, lunch or errand; between blocks one waits.
    """

    who: str
    from_min: int
    to_min: int
    kind: str


@dataclass(frozen=True)
class Mark:
    """Something at a minute: "rain", "flame-out", "smoke" or "end", with a word beside it."""

    at_min: int
    kind: str
    label: str = ""


@dataclass(frozen=True)
class Found:
    """A finding at its minute, under the number it has in the list; ``grave`` when critical."""

    at_min: int
    label: str
    grave: bool = False


@dataclass(frozen=True)
class Track:
    """What one person does; ``name`` as it is written."""

    name: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True)
class Day:
    """One day: its name, everybody's track, showers as (from, to), marks."""

    name: str
    tracks: tuple[Track, ...]
    rain: tuple[tuple[int, int], ...] = ()
    marks: tuple[Mark, ...] = ()


_KINDS = {
    "look": ("look", "probe", "measure", "touch", "ask", "check rolls", "last look"),
    "prime": ("prime",),
    "lay": (
        "lay", "lay corner", "roll", "roll corner", "trim", "fill", "strip", "strip corner", "seal",
    ),
    "flame": ("light", "preheat", "weld", "gusset", "put out"),
    "lunch": ("lunch",),
    "errand": ("fetch warm rolls", "alarm"),
}  # fmt: skip
_KIND_OF = {action: kind for kind, actions in _KINDS.items() for action in actions}


def day_figure(
    rows: Sequence[Day],
    *,
    say: Say,
    start: int,
    end: int,
    findings: Sequence[Found] = (),
    name: str = "day",
    width: int = 358,
    live: bool = False,
) -> str:
    """The days one above the other as SVG; ``findings`` stand on the first.

    ``start`` and ``end`` are the first and last minute drawn. With ``live`` findings can be
    tapped: "finding-0"…; of findings close together the id of the first stands for all.
    """
    days = [_day(day, start, end) for day in rows]
    days[0]["findings"] = [
        {"at_min": _within(f.at_min, start, end), "label": f.label, "grave": f.grave}
        for f in findings
    ]
    title = " / ".join(day.name for day in rows)
    data = {
        "kind": "days",
        "id": name,
        "title": title,
        "desc": say("What everybody did, hour by hour."),
        "width": width,
        "parts_live": live,
        "from_min": start,
        "to_min": end,
        "days": days,
    }
    return draw(data, say)


def _day(day: Day, start: int, end: int) -> dict[str, Any]:
    return {
        "name": day.name,
        "tracks": [
            {"name": track.name, "blocks": list(_shown(track.blocks, start, end))}
            for track in day.tracks
        ],
        "rain": [
            {"from_min": max(a, start), "to_min": min(b, end)}
            for a, b in day.rain
            if max(a, start) < min(b, end)
        ],
        "marks": [
            {"at_min": mark.at_min, "kind": mark.kind, "label": mark.label}
            for mark in day.marks
            if start <= mark.at_min <= end
        ],
    }


def _shown(blocks: Iterable[Block], start: int, end: int) -> Iterable[dict[str, Any]]:
    """Blocks of one kind that follow each other as one, as far as they are drawn."""
    joined: list[Block] = []
    for block in sorted(blocks, key=lambda block: block.from_min):
        last = joined[-1] if joined else None
        if last and last.kind == block.kind and block.from_min <= last.to_min:
            joined[-1] = Block(last.who, last.from_min, max(last.to_min, block.to_min), last.kind)
        else:
            joined.append(block)
    for block in joined:
        low, high = max(block.from_min, start), min(block.to_min, end)
        if low < high:
            yield {"from_min": low, "to_min": high, "kind": block.kind}


def _within(minute: int, start: int, end: int) -> int:
    return min(max(minute, start), end)


def day_of(
    job: Job,
    log: Sequence[Entry],
    *,
    name: str,
    ended: int,
    say: Say,
    people: Sequence[str] = (),
) -> Day:
    """A day from the log of its last state; ``people`` (ids) are the tracks, else the crew."""
    who = list(people) or [hand.id for hand in job.crew]
    blocks = blocks_of(job, log, who, ended)
    tracks = tuple(
        Track(job.hand(hand).name, tuple(block for block in blocks if block.who == hand))
        for hand in who
    )
    return Day(name, tracks, _showers(log, ended), tuple(_marks(log, ended, say)))


def blocks_of(job: Job, log: Sequence[Entry], people: Iterable[str], ended: int) -> list[Block]:
    """Who did what when, from a state's log.

    A watch lasts until its person begins something else, or until ``ended``. Work that was broken
    off (stop, alarm, gas out, leaving) ends where it was dropped.
    """
    done = [entry for entry in log if entry["kind"] in ("done", "dropped")]
    found = []
    for who in people:
        own = [e for e in done if who in (e.get("who"), e.get("with"))]
        for i, entry in enumerate(own):
            if entry["do"] == "watch":
                begun = int(entry["at"])
                over = min((int(e["since"]) for e in own[i + 1 :]), default=ended)
                found.append(Block(who, begun, over, "watch"))
            else:
                kind = _KIND_OF.get(entry["do"], "prepare")
                found.append(Block(who, int(entry["since"]), int(entry["at"]), kind))
    return [block for block in found if block.from_min < block.to_min]


def _showers(log: Sequence[Entry], ended: int) -> tuple[tuple[int, int], ...]:
    begun = [int(e["at"]) for e in log if e["kind"] == "rain"]
    over = [int(e["at"]) for e in log if e["kind"] == "rain over"]
    return tuple((a, min((b for b in over if b > a), default=ended)) for a in begun)


def _marks(log: Sequence[Entry], ended: int, say: Say) -> Iterable[Mark]:
    """Rain, smoke, the last flame out, and when everybody was off the roof."""
    for kind in ("rain", "smoke"):
        for entry in log:
            if entry["kind"] == kind:
                yield Mark(int(entry["at"]), kind)
    out = [int(entry["at"]) for entry in log if entry["kind"] == "flame out"]
    if out:
        yield Mark(max(out), "flame-out")
    yield Mark(ended, "end", say_clock(ended))
