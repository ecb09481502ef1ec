"""People at the edge, smoke, and the last look before everybody leaves."""

from __future__ import annotations

from trainer.installation.actions import ACTIONS
from trainer.installation.checks import Check, Fact, Facts, Look
from trainer.installation.checks_flame import left_by
from trainer.installation.limits import value

ANSWER_SMOKE_WITHIN_MIN = 5
"""Common practice, no source: smoke is looked for at once."""
AT_THE_EDGE_MM = 1829
"""Nearer than 6 ft somebody works at the edge: where a warning line may stand, 29 CFR 1926.502
(f)(1)(i), from memory."""


def _edge(look: Look) -> Facts:
    """Work at a wall that is too low to hold anybody, above a drop, without edge protection."""
    job, state = look.job, look.state
    least = value(look.limits, "guardrail-height")
    deep = value(look.limits, "unprotected-edge-height", 1e9)
    for person in state.people.values():
        task = person.doing
        if task is None or not ACTIONS[task["do"]].at_wall:
            continue
        if int(task.get("off", 0)) >= AT_THE_EDGE_MM:
            continue
        for wall_id in walls_of(look, task):
            wall = job.wall(wall_id)
            guarded = wall.rail or wall_id in state.rails or wall.height_mm >= least
            if not guarded and wall.drop_mm > deep:
                facts = {"height_mm": wall.height_mm, "required_mm": least}
                place = f"{person.id} at wall {wall_id}"
                yield Fact("guardrail-height", place, int(task["by"]), facts)


def walls_of(look: Look, task: dict[str, object]) -> list[str]:
    """The walls at which somebody stands who does this."""
    if "wall" in task:
        return [str(task["wall"])]
    if "corner" in task:
        corner = int(str(task["corner"]))
        return [look.job.walls[corner].id, look.job.walls[corner + 1].id]
    return []


def _smoke(look: Look) -> Facts:
    state = look.state
    if state.smoke_at is None or state.smoke_answered:
        return
    if state.now >= state.smoke_at + ANSWER_SMOKE_WITHIN_MIN or state.ended is not None:
        facts = {"smoke_at": state.smoke_at, "within_min": ANSWER_SMOKE_WITHIN_MIN}
        yield Fact("watch-duties", "smoke", state.n, facts)


def _leaving(look: Look) -> Facts:
    state = look.state
    if state.ended is None:
        return
    if state.flames:
        by = max(flame.by for flame in state.flames.values())
        yield Fact("lit-torch-left", "roof", max(by, left_by(state)), {"doing": "leave"})
    looked = state.looked_round
    if state.last_flame is not None and (looked is None or looked < state.last_flame):
        yield Fact("last-inspection", "roof", max(state.flame_by, left_by(state)), {})


CHECKS = (
    Check("edge", frozenset({"person"}), _edge),
    Check("smoke", frozenset({"smoke", "end"}), _smoke),
    Check("leaving", frozenset({"end"}), _leaving),
)
