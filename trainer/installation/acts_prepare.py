"""Making ready for sheets: dry walls, primer, lines, set-out, strips."""

from __future__ import annotations

from trainer.installation.act import Act, by_of, takes
from trainer.installation.air import damp_mm, spread_k
from trainer.installation.job import Job
from trainer.installation.job_fields import MM, NAME
from trainer.installation.place import Spot
from trainer.installation.state import Coat, Decision, State, Strip
from trainer.roofing.contract import Each, Field, Number

_WALL = Field("wall", NAME, "at which wall")
_ENDS = (Field("from", MM, "from here"), Field("to", MM, "to here"))
MOST_STRIPS = 40
"""What is cut, or has its film melted off, in one go."""

_COUNT = Number(low=1, high=MOST_STRIPS, whole=True)
LEAST_PRIMED_MM = 100


def _no_stretch(job: Job, state: State, task: Decision) -> str:
    long = job.wall(task["wall"]).length_mm
    if not task["from"] < task["to"] <= long:
        return f"Wall {task['wall']} runs from 0 to {long} mm; that is no stretch of it."
    return ""


def _cannot_prime(job: Job, state: State, task: Decision) -> str:
    if reason := _no_stretch(job, state, task):
        return reason
    if task["to"] - task["from"] < LEAST_PRIMED_MM:
        return f"The roller is wider than that: prime {LEAST_PRIMED_MM} mm or more."
    for sheet in state.sheets.values():
        ends = sheet.on(task["wall"])
        if ends and ends[0] <= task["from"] and task["to"] <= ends[1]:
            return "A sheet lies there already."
    return ""


def _prime_minutes(job: Job, state: State, task: Decision) -> int:
    long: int = task["to"] - task["from"]
    return -(-job.minutes["prime a metre"] * long // 1000)


def _prime_begin(job: Job, state: State, task: Decision) -> None:
    wall, start, end = task["wall"], task["from"], task["to"]
    surface = job.surface_c(wall, state.now)
    state.coats_made += 1
    state.coats.append(
        Coat(
            id=state.coats_made,
            wall=wall,
            from_mm=start,
            to_mm=end,
            start_ms=state.now * 1000,
            per_m=job.minutes["prime a metre"],
            dry_min=job.paper.drying_min(surface),
            spread_k=spread_k(job, wall, state.now),
            rh_pct=job.weather.hour(state.now).rh_pct,
            damp_mm=damp_mm(job, state, wall, start, end, state.now),
            rain=job.weather.raining(state.now),
            by=by_of(task),
        )
    )
    state.cans = by_of(task)
    state.cans_at = cans_beside(wall, end)
    state.primed_mm += end - start
    if job.weather.raining(state.now):
        state.coats[-1].spoilt, state.coats[-1].spoilt_at = "rain", state.now


def _prime_end(job: Job, state: State, task: Decision) -> None:
    """Whoever closed the cans meanwhile closed them over a roller that was still dipped in."""
    state.cans = by_of(task) if state.cans is None else state.cans


def cans_beside(wall: str, end: int) -> Spot:
    """Where the open cans stand: at the end of the stretch that is primed, half a metre out."""
    return Spot(wall, end, 500)


def _dry(job: Job, state: State, task: Decision) -> None:
    if state.rained_at is None or state.rained_at < state.people[task["who"]].since:
        state.dried.setdefault(task["wall"], []).append([task["from"], task["to"]])


def _cannot_dry(job: Job, state: State, task: Decision) -> str:
    if job.weather.raining(state.now):
        return "It rains: nothing gets dry now."
    return _no_stretch(job, state, task)


def _snap(job: Job, state: State, task: Decision) -> None:
    state.lines[task["wall"]] = {"distance_mm": task["distance"], "by": by_of(task)}


def _cannot_snap(job: Job, state: State, task: Decision) -> str:
    cant = job.wall(task["wall"]).cant_mm
    if task["distance"] <= cant:
        return f"The line would lie on the cant, which reaches {cant} mm from the wall."
    return ""


def _set_out(job: Job, state: State, task: Decision) -> None:
    state.layouts[task["wall"]] = {
        "laps": list(task["laps"]),
        "lap_mm": task["lap_mm"],
        "by": by_of(task),
    }


def _cannot_set_out(job: Job, state: State, task: Decision) -> str:
    wall, width = task["wall"], job.sheet.width_mm
    if any(s.wall == wall and not s.second for s in state.sheets.values()):
        return "Sheets lie on this wall already; the marks are under them."
    start, end = job.stretch(wall)
    laps = [*task["laps"]]
    if laps != sorted(set(laps)) or any(not start < at < end for at in laps):
        return f"Laps go from left to right, each once, between {start} and {end} mm."
    starts = [start, *laps]
    ends = [at + task["lap_mm"] for at in laps] + [end]
    for number, (low, high) in enumerate(zip(starts, ends, strict=True), start=1):
        if high - low > width:
            return f"Sheet {number} would be {high - low} mm wide; a sheet is {width} mm."
        if high > end:
            return f"Sheet {number} would reach past {end} mm, where the last one ends."
    return ""


def _cut_minutes(job: Job, state: State, task: Decision) -> int:
    return job.minutes["cut a strip"] * int(task["strips"])


def _cannot_cut(job: Job, state: State, task: Decision) -> str:
    rolls = {roll.id: roll for roll in job.rolls}
    if task["roll"] not in rolls:
        return f"There is no roll {task['roll']}. Rolls: {', '.join(rolls)}."
    left = job.strips_per_roll - state.cut_from.get(task["roll"], 0)
    if task["strips"] > left:
        return f"Roll {task['roll']} gives {left} more."
    return ""


def _cut(job: Job, state: State, task: Decision) -> None:
    roll = next(roll for roll in job.rolls if roll.id == task["roll"])
    cold = roll.cold and not state.warm_rolls
    for _ in range(task["strips"]):
        state.strips.append(Strip(roll.id, cold, state.now, by_of(task)))
    state.strips_cut += task["strips"]
    state.cut_from[roll.id] = state.cut_from.get(roll.id, 0) + task["strips"]


ACTS = (
    Act(
        "prime",
        "wall",
        (_WALL, *_ENDS),
        _prime_minutes,
        cannot=_cannot_prime,
        begin=_prime_begin,
        end=_prime_end,
        touches=frozenset({"coat", "flame"}),
    ),
    Act("dry", "wall", (_WALL, *_ENDS), takes("dry"), cannot=_cannot_dry, end=_dry),
    Act(
        "snap",
        "wall",
        (_WALL, Field("distance", MM, "from the wall's face")),
        takes("snap"),
        cannot=_cannot_snap,
        end=_snap,
    ),
    Act(
        "set out",
        "wall",
        (
            _WALL,
            Field("laps", Each(MM, most=60), "where each lap starts, from the left"),
            Field("lap_mm", Number("mm", low=1, high=400, whole=True), "how wide each lap is"),
        ),
        takes("set out"),
        cannot=_cannot_set_out,
        end=_set_out,
    ),
    Act(
        "cut",
        "roof",
        (Field("strips", _COUNT, "how many"), Field("roll", NAME, "from which roll")),
        _cut_minutes,
        cannot=_cannot_cut,
        end=_cut,
        at_wall=False,
    ),
)
