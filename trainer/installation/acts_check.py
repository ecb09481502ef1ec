"""Looking, touching, measuring, asking: how what is true becomes known."""

from __future__ import annotations

from trainer.installation.act import Act, know, log, takes
from trainer.installation.air import coats_on, damp_mm, open_coats, spread_k, touch
from trainer.installation.job import Job
from trainer.installation.job_fields import MM, NAME
from trainer.installation.laps import laps
from trainer.installation.state import Decision, State
from trainer.roofing.contract import Field

_WALL = Field("wall", NAME, "at which wall")
_SEEN_MM = 1000
"""How far on either side one sees footprints and dust while kneeling there."""


def _look(job: Job, state: State, task: Decision) -> None:
    wall = job.wall(task["wall"])
    know(state, f"behind {wall.id}", [[b.id, b.from_mm, b.to_mm, b.what] for b in wall.behind])
    gaps = [o.id for o in job.openings if o.spot.wall == wall.id]
    know(state, f"openings {wall.id}", gaps)
    wrinkled = [s.id for s in state.sheets.values() if s.wrinkled and s.on(wall.id)]
    know(state, f"wrinkled {wall.id}", wrinkled)
    spoilt = [[c.from_mm, c.to_mm, c.spoilt] for c in state.coats if c.wall == wall.id and c.spoilt]
    know(state, f"spoilt {wall.id}", spoilt)
    if state.smoke_at is not None and state.smoke_wall == wall.id:
        state.smoke_answered = True
        log(state, "smoke looked at", wall=wall.id)


def _probe(job: Job, state: State, task: Decision) -> None:
    wall = job.wall(task["wall"])
    bands = [
        [d.from_mm, d.to_mm]
        for d in wall.damp
        if damp_mm(job, state, wall.id, d.from_mm, d.to_mm, state.now)
    ]
    know(state, f"damp {wall.id}", bands)
    loose = [lap.id for lap in laps(state, wall.id) if lap.rolled and not lap.bonded]
    know(state, f"not bonded {wall.id}", loose)


def _measure(job: Job, state: State, task: Decision) -> None:
    wall = task["wall"]
    hour = job.weather.hour(state.now)
    know(
        state,
        f"air {wall}",
        {
            "surface_c": job.surface_c(wall, state.now),
            "air_c": hour.air_c,
            "rh_pct": hour.rh_pct,
            "spread_k": spread_k(job, wall, state.now),
        },
    )
    know(state, f"laps {wall}", {lap.id: lap.width_mm for lap in laps(state, wall)})
    legs = {s.id: s.field_lap_mm for s in state.sheets.values() if s.on(wall)}
    know(state, f"field laps {wall}", legs)


def _touch(job: Job, state: State, task: Decision) -> None:
    wall, at = task["wall"], task["at"]
    found = coats_on(state, wall, at, at + 1)
    if not found:
        damp = bool(damp_mm(job, state, wall, at, at + 1, state.now))
        know(state, f"touch {wall} {at}", "damp" if damp else "bare")
        return
    around = open_coats(state, wall, max(0, at - _SEEN_MM), at + _SEEN_MM)
    spoilt = next((coat.spoilt for _, _, coat in around if coat.spoilt), "")
    finger = spoilt or touch(found[0][2], at, state.now)
    know(state, f"touch {wall} {at}", finger)
    know(state, f"coat {found[0][2].id}", finger)


def _cannot_touch(job: Job, state: State, task: Decision) -> str:
    if task["at"] >= job.wall(task["wall"]).length_mm:
        return "There is no wall there."
    under = any(
        ends and ends[0] <= task["at"] < ends[1]
        for ends in (s.on(task["wall"]) for s in state.sheets.values())
    )
    return "A sheet lies there; the finger does not reach what is under it." if under else ""


def _rolls(job: Job, state: State, task: Decision) -> None:
    know(state, "rolls", [roll.id for roll in job.rolls if roll.cold and not state.warm_rolls])


def _ask(job: Job, state: State, task: Decision) -> None:
    know(state, f"told {task['wall']}", job.wall(task["wall"]).told)


def _look_round(job: Job, state: State, task: Decision) -> None:
    state.looked_round = state.now
    log(state, "looked round")


ACTS = (
    Act("look", "wall", (_WALL,), takes("look"), end=_look, touches=frozenset({"smoke"})),
    Act("probe", "wall", (_WALL,), takes("probe"), end=_probe),
    Act("measure", "wall", (_WALL,), takes("measure"), end=_measure),
    Act(
        "touch",
        "wall",
        (_WALL, Field("at", MM, "where along it")),
        takes("touch"),
        cannot=_cannot_touch,
        end=_touch,
    ),
    Act("ask", "wall", (_WALL,), takes("ask"), end=_ask, at_wall=False),
    Act("check rolls", "roof", (), takes("check rolls"), end=_rolls, at_wall=False),
    Act(
        "last look",
        "roof",
        (),
        takes("last look"),
        end=_look_round,
        touches=frozenset({"end"}),
        at_wall=False,
    ),
)
