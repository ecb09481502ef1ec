"""Sheets: laid, rolled, trimmed, filled, stripped again, sealed for the night."""

from __future__ import annotations

from dataclasses import replace

from trainer.installation.act import Act, by_of, log, takes
from trainer.installation.air import bare_mm, open_coats, spread_k, undried_ms
from trainer.installation.coats import scrape
from trainer.installation.job import Job
from trainer.installation.job_fields import NAME
from trainer.installation.laps import corner_sheet_id, laps, sheets_to_lay, wall_sheet_id
from trainer.installation.state import Corner, Decision, Laying, Sheet, State, Strip
from trainer.roofing.contract import Choice, Field, Number

_WALL = Field("wall", NAME, "at which wall")
_SHEET = Field("sheet", Number(low=0, high=99, whole=True), "its number from the left, from 0")
_HALF = Field("half", Choice(("top", "bottom")), "which half is stuck down first", "top")
NONE_CUT = "No strip is cut."

Place = tuple[tuple[str, int, int], ...]


def _lay_minutes(job: Job, state: State, task: Decision) -> int:
    return job.minutes["lay together" if task.get("with") else "lay"]


def _cannot_lay(job: Job, state: State, task: Decision) -> str:
    marked = sheets_to_lay(job, state, task["wall"])
    if not marked:
        return f"Wall {task['wall']} is not set out yet."
    if task["sheet"] >= len(marked):
        return f"Wall {task['wall']} has {len(marked)} sheets, numbered from 0."
    if wall_sheet_id(task["wall"], task["sheet"]) in state.sheets:
        return "That sheet lies there already."
    return "" if state.strips else NONE_CUT


def place_of(job: Job, state: State, task: Decision) -> Place:
    """The stretches of wall that a sheet about to be laid will cover."""
    if task["do"] == "lay":
        return ((task["wall"], *sheets_to_lay(job, state, task["wall"])[task["sheet"]]),)
    return job.corner_stretches(task["corner"])


def lay_begin(job: Job, state: State, task: Decision) -> None:
    """Takes the best strip at hand, and keeps what it will lie on."""
    covered = state.corners[task["corner"]] if task["do"] == "lay corner" else None
    strip = strip_for(job, state, task)
    state.strips.remove(strip)
    task["strip"] = {"melted": strip.melted}
    laying = _ground(job, state, place_of(job, state, task))
    laying.cold = strip.cold
    laying.relaxed_min = state.now - strip.cut_at
    task["laying"] = laying
    if covered is not None:
        covered.filled = None


def strip_for(job: Job, state: State, task: Decision) -> Strip:
    """The strip that is taken for a sheet: its film off if another goes over it, the oldest cut."""
    wanted = _goes_under(job, state, task)
    return max(state.strips, key=lambda s: (s.melted == wanted, -s.cut_at))


def _goes_under(job: Job, state: State, task: Decision) -> bool:
    """Whether another sheet will lap over this one: then its film should have been melted off."""
    if task["do"] == "lay corner":
        return task["number"] == 2 and any(
            wall_sheet_id(wall, i) not in state.sheets
            for wall, i in _beside_corner(job, state, task["corner"])
        )
    wall, number = task["wall"], task["sheet"]
    last = len(sheets_to_lay(job, state, wall)) - 1
    i = job.wall_index(wall)
    left = corner_sheet_id(i - 1, 2) if number == 0 else wall_sheet_id(wall, number - 1)
    right = corner_sheet_id(i, 2) if number == last else wall_sheet_id(wall, number + 1)
    ends = (i == 0 and number == 0, i == len(job.walls) - 1 and number == last)
    return any(
        name not in state.sheets and not end for name, end in zip((left, right), ends, strict=True)
    )


def _beside_corner(job: Job, state: State, corner: int) -> list[tuple[str, int]]:
    before, after = job.walls[corner].id, job.walls[corner + 1].id
    return [(before, max(0, len(sheets_to_lay(job, state, before)) - 1)), (after, 0)]


def _ground(job: Job, state: State, place: Place) -> Laying:
    """What a sheet begun now goes onto."""
    now, air = state.now, job.weather.hour(state.now).air_c
    laying = Laying(air_c=air, rain=job.weather.raining(now))
    laying.surface_c = min(job.surface_c(wall, now) for wall, _, _ in place)
    laying.spread_k = min(spread_k(job, wall, now) for wall, _, _ in place)
    laying.bare_mm = sum(bare_mm(state, *part) for part in place)
    undried = 0
    for wall, start, end in place:
        for _, high, coat in open_coats(state, wall, start, end):
            undried = max(undried, undried_ms(coat, high, now))
            laying.spoilt = laying.spoilt or coat.spoilt
    laying.undried_min = -(-undried // 1000)
    if state.rain_over is not None:
        laying.since_rain_min = now - state.rain_over
    return laying


def lay_end(job: Job, state: State, task: Decision) -> None:
    place = place_of(job, state, task)
    gusty = not task.get("with") and _gust_between(job, state.people[task["who"]].since, state.now)
    sheet = _laid(job, state, task, place, gusty=gusty)
    state.sheets[sheet.id] = sheet
    state.film = by_of(task)
    for covered, _, _ in place:
        state.sealed.pop(covered, None)
    _bury_welds(state, place)
    if task["do"] == "lay corner" and task["number"] == 2:
        corner = state.corners[task["corner"]]
        corner.trimmed_before = corner.trimmed is not None
        corner.by = by_of(task)
    if gusty:
        log(state, "gust", sheet=sheet.id)


def _laid(job: Job, state: State, task: Decision, place: Place, *, gusty: bool) -> Sheet:
    """The sheet as it lies now, on what it was begun on."""
    (wall, start, end), second = place[0], place[1] if len(place) > 1 else None
    lap, line_by = min(_lap_onto_field(job, state, part[0]) for part in place)
    begun: Laying = task["laying"]
    rain = begun.rain or job.weather.raining(state.now - 1)
    return Sheet(
        id=sheet_id_of(task),
        wall=wall,
        from_mm=start,
        to_mm=end,
        begun=state.people[task["who"]].since,
        laid_at=state.now,
        by=by_of(task),
        laying=replace(begun, age_min=_oldest_min(state, place), rain=rain),
        melted=task["strip"]["melted"],
        wrinkled=gusty or task.get("half", "top") == "bottom",
        field_lap_mm=lap,
        line_by=line_by,
        second=second,
    )


def _lap_onto_field(job: Job, state: State, wall: str) -> tuple[int, int]:
    """The lap at a wall, and the decision that snapped its line; by eye where there is none."""
    line = state.lines.get(wall)
    if line is None:
        return job.by_eye_mm, 0
    return line["distance_mm"] - job.wall(wall).cant_mm, line["by"]


def _bury_welds(state: State, place: Place) -> None:
    """What was welded there lies beneath now: the new sheet's own laps are still to be welded."""
    for wall, start, end in place:
        for lap in laps(state, wall):
            if lap.from_mm < end and start < lap.to_mm:
                state.welds.pop(lap.id, None)


def sheet_id_of(task: Decision) -> str:
    """The id of the sheet that a task lays, rolls or strips."""
    if "corner" in task:
        return corner_sheet_id(task["corner"], task["number"])
    return wall_sheet_id(task["wall"], task["sheet"])


def _oldest_min(state: State, place: Place) -> float:
    ages = [
        state.now * 1000 - coat.primed_ms(low)
        for wall, start, end in place
        for low, _, coat in open_coats(state, wall, start, end)
    ]
    return max(ages, default=0) / 1000


def _gust_between(job: Job, start: int, end: int) -> bool:
    return any(low < end and start < high for low, high in job.weather.gusts)


def roll(job: Job, state: State, task: Decision) -> None:
    name = sheet_id_of(task)
    state.sheets[name].rolled_at = state.now
    if "corner" in task:
        corner = state.corners[task["corner"]]
        if corner.filled is not None:
            corner.filled = None  # the roller drags the hot bitumen out again
            corner.by = by_of(task)
            log(state, "bitumen dragged out", corner=task["corner"])
        if task["number"] == 2:  # the roller on the second sheet presses the first as well
            state.sheets[corner_sheet_id(task["corner"], 1)].rolled_at = state.now


def cannot_roll(job: Job, state: State, task: Decision) -> str:
    if sheet_id_of(task) not in state.sheets:
        return "There is nothing to roll: that sheet is not there."
    return ""


def strip(job: Job, state: State, task: Decision) -> None:
    name = sheet_id_of(task)
    for wall, start, end in _stretches(state.sheets[name]):
        touching = [lap.id for lap in laps(state, wall) if lap.from_mm < end and start < lap.to_mm]
        for lap in touching:
            state.welds.pop(lap, None)
        state.redone_mm += end - start
        state.sealed.pop(wall, None)
        scrape(state, wall, start, end)
    del state.sheets[name]
    if "corner" in task:
        state.corners[task["corner"]] = Corner(by=by_of(task))


def _stretches(sheet: Sheet) -> Place:
    first = (sheet.wall, sheet.from_mm, sheet.to_mm)
    return (first, sheet.second) if sheet.second else (first,)


def cannot_strip(job: Job, state: State, task: Decision) -> str:
    name = sheet_id_of(task)
    if name not in state.sheets:
        return "That sheet is not there."
    if (
        "corner" in task
        and task["number"] == 1
        and corner_sheet_id(task["corner"], 2) in state.sheets
    ):
        return "The second corner sheet lies over it."
    return ""


def _seal(job: Job, state: State, task: Decision) -> None:
    state.sealed[task["wall"]] = by_of(task)


def _cannot_seal(job: Job, state: State, task: Decision) -> str:
    if not any(sheet.on(task["wall"]) for sheet in state.sheets.values()):
        return "No sheet lies on this wall: there is no edge to seal."
    return ""


LAID = frozenset({"sheet", "flame", "end"})
ACTS = (
    Act(
        "lay",
        "sheet",
        (_WALL, _SHEET, _HALF),
        _lay_minutes,
        cannot=_cannot_lay,
        begin=lay_begin,
        end=lay_end,
        touches=LAID,
        two=True,
    ),
    Act(
        "roll",
        "sheet",
        (_WALL, _SHEET),
        takes("roll"),
        cannot=cannot_roll,
        end=roll,
        touches=LAID,
    ),
    Act(
        "strip",
        "sheet",
        (_WALL, _SHEET),
        takes("strip"),
        cannot=cannot_strip,
        end=strip,
        touches=LAID,
    ),
    Act(
        "seal",
        "wall",
        (_WALL,),
        takes("seal"),
        cannot=_cannot_seal,
        end=_seal,
        touches=LAID,
    ),
)
