"""One wall of an installation as a drawing: what is seen or has been found out, nothing else.

How dry primer is, what is in the parapet, damp and openings stand in the drawing only once they are
in ``state.known``.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import pairwise
from typing import Any

from trainer.drawing import draw
from trainer.engine.measures import say_clock
from trainer.installation.job import Job
from trainer.installation.laps import (
    Lap,
    corner_sheet_id,
    in_a_row,
    laps,
    sheets_to_lay,
    wall_sheet_id,
)
from trainer.installation.state import Sheet, State
from trainer.services.installations.figures_found import Band, Data, Say, found_at, part_chosen

Length = Callable[[float], str]

_ROW_MM = 3400
"""Wall in one row on a phone: read at arm's length, and every sheet wide enough for a thumb."""

_FIELD_MM = 100
"""Field drawn beyond what the sheets reach."""


def wall_figure(
    job: Job,
    state: State,
    wall_id: str,
    *,
    say: Say,
    length: Length,
    chosen: str = "",
    name: str = "wall",
    width: int = 358,
    names: Mapping[str, str] | None = None,
    live: bool = True,
) -> str:
    """The wall ``wall_id`` as it is known now, as SVG.

    ``width`` in user units, 280 to 800. Parts to tap: "wall-A", "stretch-A-0"… (until it is set
    out), "sheet-A-0"… (marked out or laid), "lap-A-1"…, "corner-0"…, "opening-ID", "behind-ID".
    ``names`` replaces what a part is called; ``chosen`` is the part or
    place with the ring.
    """
    data = wall_data(job, state, wall_id, say=say, length=length)
    ringed = part_chosen(chosen, part_ids(data))
    data |= {
        "id": name,
        "width": width,
        "parts_live": live,
        "states": {ringed: "chosen"} if ringed else {},
    }
    _rename(data, names or {})
    return draw(data, say, length)


def part_ids(data: Data) -> set[str]:
    """The ids of all parts of a figure that can be tapped."""
    found = {
        part["id"]
        for many in data.values()
        if isinstance(many, list)
        for part in many
        if isinstance(part, Mapping) and part.get("id")
    }
    return found | ({data["caption"]["id"]} if "caption" in data else set())


def stretches(job: Job, wall_id: str) -> list[Band]:
    """The stretches of a wall, about a sheet wide: what "stretch-A-0"… stand for, in mm."""
    long = job.wall(wall_id).length_mm
    count = max(1, round(long / job.sheet.width_mm))
    edges = [0, *(round(long * i / count / 100) * 100 for i in range(1, count)), long]
    return list(pairwise(edges))


def wall_data(job: Job, state: State, wall_id: str, *, say: Say, length: Length) -> Data:
    """The drawing as plain data for ``trainer.drawing.draw``."""
    wall = job.wall(wall_id)
    title = say("Wall %(id)s") % {"id": wall.id}
    sunny = any(start <= state.now < end for start, end in wall.sun)
    light = say("in the sun") if sunny else say("in the shade")
    reach = [s.field_lap_mm for s in state.sheets.values() if s.on(wall.id)]
    line = state.lines.get(wall.id)
    deep = max([100, *reach, line["distance_mm"] if line else 0]) + _FIELD_MM
    data: Data = {
        "kind": "wall-at-work",
        "title": title,
        "desc": f"{title}, {length(wall.length_mm)}, {light}, {say_clock(state.now)}.",
        "wall_mm": wall.length_mm,
        "height_mm": wall.height_mm,
        "field_mm": max(deep, 200),
        "row_mm": _ROW_MM,
        "caption": {"id": f"wall-{wall.id}", "label": f"{title}, {light}"},
        "light": "sun" if sunny else "shade",
        "rail": wall.rail or wall.id in state.rails,
        "field_laps": [{"from_mm": a, "to_mm": b} for a, b in wall.field_laps],
        "sealed": wall.id in state.sealed,
        **_lying(job, state, wall_id, say, length),
        **found_at(job, state, wall_id, say),
    }
    if line:
        data["chalk_mm"] = line["distance_mm"]
    return data


def _rename(data: Data, names: Mapping[str, str]) -> None:
    """Keep the names of parts that are there; letters on the drawing stay as they are."""
    data["said"] = {ident: text for ident, text in names.items() if ident in part_ids(data)}


def _lying(job: Job, state: State, wall_id: str, say: Say, length: Length) -> Data:
    row = sorted(in_a_row(state, wall_id), key=lambda item: item[1].laid_at)
    data: Data = {
        "sheets": [_sheet(ends, sheet) for ends, sheet in row],
        "laps": [_lap(job, state, lap, length, say) for lap in laps(state, wall_id)],
        "corners": _corners(job, state, wall_id, say),
    }
    if wall_id in state.layouts:
        data["marks"] = _marks(job, state, wall_id)
    else:
        data["stretches"] = _stretches(job, wall_id, length)
    return data


def _stretches(job: Job, wall_id: str, length: Length) -> list[Data]:
    return [
        {
            "from_mm": a,
            "to_mm": b,
            "id": f"stretch-{wall_id}-{i}",
            "label": f"{length(a)} – {length(b)}",
        }
        for i, (a, b) in enumerate(stretches(job, wall_id))
    ]


def _marks(job: Job, state: State, wall_id: str) -> list[Data]:
    return [
        {"from_mm": a, "to_mm": b, "id": f"sheet-{wall_id}-{i}", "label": str(i + 1)}
        for i, (a, b) in enumerate(sheets_to_lay(job, state, wall_id))
        if wall_sheet_id(wall_id, i) not in state.sheets
    ]


def _sheet(ends: Band, sheet: Sheet) -> Data:
    """A corner sheet is part of its corner, not one of its own."""
    data: Data = {
        "from_mm": ends[0],
        "to_mm": ends[1],
        "rolled": sheet.rolled_at is not None,
        "field_lap_mm": sheet.field_lap_mm,
    }
    if sheet.second:
        return data
    number = int(sheet.id.rpartition(":")[2])
    return data | {"id": f"sheet-{sheet.wall}-{number}", "label": str(number + 1)}


def _lap(job: Job, state: State, lap: Lap, length: Length, say: Say) -> Data:
    """A lap as one sees it; one that a probe found unbonded is open, whatever the roller did."""
    wall, _, number = lap.id.partition(":")
    left, right = _sides(state, lap)
    width = (_since(state, f"laps {wall}", left, right) or {}).get(lap.id)
    film = lap.id not in state.welds and _film_in(state, lap)
    told = [say("film in the lap")] if film else []
    if width is not None and width < job.sheet.side_lap_mm:
        told.append(length(width))
    return {
        "from_mm": min(lap.from_mm, lap.to_mm),
        "to_mm": max(lap.from_mm, lap.to_mm),
        "id": f"lap-{wall}-{number}",
        "state": lap_state(state, lap),
        "left_on_top": left.laid_at > right.laid_at,
        "label": ", ".join(told),
    }


def lap_state(state: State, lap: Lap) -> str:
    """How far a lap is, as far as it is seen or known: "open", "closed" or "welded"."""
    if lap.id in state.welds:
        return "welded"
    return "closed" if lap.rolled and not _film_in(state, lap) else "open"


def _film_in(state: State, lap: Lap) -> bool:
    """Whether a probe found film in the lap, as it lies now."""
    return lap.id in (_since(state, f"not bonded {lap.wall}", *_sides(state, lap)) or ())


def _sides(state: State, lap: Lap) -> tuple[Sheet, Sheet]:
    """The sheets that a lap joins."""
    row = in_a_row(state, lap.wall)
    left = next(sheet for (_, end), sheet in row if end == lap.to_mm)
    return left, next(sheet for (start, _), sheet in row if start == lap.from_mm)


def _since(state: State, key: str, left: Sheet, right: Sheet) -> Any:
    """What was found out, if both sheets lay there then as they lie now."""
    told = state.known.get(key)
    if told is None or told["at"] < max(left.laid_at, right.laid_at):
        return None
    return told["is"]


def _corners(job: Job, state: State, wall_id: str, say: Say) -> list[Data]:
    i = job.wall_index(wall_id)
    ends = ([("left", i - 1)] if i > 0 else []) + ([("right", i)] if i < len(job.corners) else [])
    return [
        {
            "end": end,
            "leg_mm": job.corner_leg_mm,
            "id": f"corner-{corner}",
            "slit": slit_of(state, corner),
            "label": corner_words(job, state, corner, say),
        }
        for end, corner in ends
    ]


def slit_of(state: State, corner: int) -> str:
    """How far a corner is: "none" without its first sheet, "open", "filled", "gusset"."""
    made = state.corners[corner]
    if made.gusset is not None:
        return "gusset"
    if corner_sheet_id(corner, 1) not in state.sheets:
        return "none"
    return "open" if made.filled is None else "filled"


def corner_words(job: Job, state: State, corner: int, say: Say) -> str:
    """A corner and how far it is, in words."""
    kind = say("inside corner") if job.corners[corner] == "inside" else say("outside corner")
    kind = f"{kind} {job.walls[corner].id}–{job.walls[corner + 1].id}"
    slit = slit_of(state, corner)
    first, second = (corner_sheet_id(corner, n) in state.sheets for n in (1, 2))
    told = {
        "none": "",
        "open": say("slit open") if second else say("first sheet, slit open"),
        "filled": say("slit filled"),
        "gusset": say("gusset set"),
    }[slit]
    trimmed = first and not second and state.corners[corner].trimmed is not None
    return ", ".join(text for text in (kind, told, say("trimmed") if trimmed else "") if text)
