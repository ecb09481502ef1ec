"""The flame: permit, light, preheat, set the gusset, weld, put out; gas and extinguishers."""

from __future__ import annotations

from trainer.installation.act import Act, by_of, held, log, takes
from trainer.installation.acts_prepare import MOST_STRIPS
from trainer.installation.job import Job
from trainer.installation.job_fields import MM, NAME
from trainer.installation.laps import corner_sheet_id, laps
from trainer.installation.place import Spot, squared
from trainer.installation.state import Decision, Flame, State
from trainer.roofing.contract import Choice, Field, Number

HOSE_MM = 15_000
"""How far the torch reaches from its cylinder."""

_WALL = Field("wall", NAME, "at which wall")
_SPOT = (_WALL, Field("at", MM, "along it"), Field("off", MM, "out from it"))
_TOOL = Field("tool", Choice(("torch", "melter")), "torch or melter", "torch")
_NOT_IN_HAND = "The lit torch is not in this person's hand."


def spot_of(task: Decision) -> Spot:
    """Where an action with a spot of its own takes place."""
    return Spot(task["wall"], task["at"], task["off"])


_HOSE_TOO_SHORT = f"The hose reaches {HOSE_MM // 1000} m from the cylinder."


def _too_far(job: Job, state: State, spot: Spot) -> str:
    return _HOSE_TOO_SHORT if beyond_hose(job, state, spot) else ""


def beyond_hose(job: Job, state: State, spot: Spot) -> bool:
    """Whether a spot lies farther from the cylinder than the hose reaches."""
    if state.gas is None:
        return False
    return squared(job.placed(spot), job.placed(state.gas)) > HOSE_MM**2


def _cannot_light(job: Job, state: State, task: Decision) -> str:
    if reason := job.off_the_roof(spot_of(task)):
        return reason
    flame = state.flames.get(task["tool"])
    if flame is not None and (task["tool"] == "melter" or flame.who != task["who"]):
        return (
            "It is lit already." if task["tool"] == "melter" else "Somebody else holds the torch."
        )
    if task["tool"] == "torch" and state.gas_left <= 0:
        return "The cylinder is empty."
    return _too_far(job, state, spot_of(task)) if task["tool"] == "torch" else ""


def _light(job: Job, state: State, task: Decision) -> None:
    tool = task["tool"]
    lit = state.flames[tool].lit_at if tool in state.flames else state.now
    state.flames[tool] = Flame(tool, spot_of(task), task["who"], lit, by_of(task))


def _carry(job: Job, state: State, task: Decision, spot: Spot) -> None:
    flame = state.flames["torch"]
    flame.spot, flame.by = spot, by_of(task)


def _cannot_preheat(job: Job, state: State, task: Decision) -> str:
    if not held(state, "torch", task["who"]):
        return _NOT_IN_HAND
    cold = sum(not strip.melted for strip in state.strips)
    return f"{cold} strips lie there with their film on." if task["strips"] > cold else ""


def _preheat_minutes(job: Job, state: State, task: Decision) -> int:
    return job.minutes["preheat a strip"] * int(task["strips"])


def _preheat(job: Job, state: State, task: Decision) -> None:
    left = task["strips"]
    for strip in state.strips:
        if left and not strip.melted:
            strip.melted = True
            left -= 1


def _cannot_weld(job: Job, state: State, task: Decision) -> str:
    lap = next((p for p in laps(state, task["wall"]) if p.id == lap_name(task)), None)
    if lap is None:
        return "There is no lap: its two sheets are not both there."
    if lap.width_mm <= 0:
        return "The sheets do not reach each other there."
    if not held(state, "torch", task["who"]):
        return _NOT_IN_HAND
    if lap_name(task) in state.welds:
        return "That lap is welded already."
    return _too_far(job, state, Spot(lap.wall, lap.middle_mm))


def lap_name(task: Decision) -> str:
    """The id of the lap that a task welds."""
    return f"{task['wall']}:{task['lap']}"


def _weld_begin(job: Job, state: State, task: Decision) -> None:
    lap = next(p for p in laps(state, task["wall"]) if p.id == lap_name(task))
    _carry(job, state, task, Spot(lap.wall, lap.middle_mm))


def _weld(job: Job, state: State, task: Decision) -> None:
    state.welds[lap_name(task)] = by_of(task)


def _cannot_gusset(job: Job, state: State, task: Decision) -> str:
    if task["corner"] >= len(job.corners):
        return "There is no such corner."
    if corner_sheet_id(task["corner"], 2) not in state.sheets:
        return "The corner's two sheets are not both there."
    if state.corners[task["corner"]].gusset is not None:
        return "A gusset is set there already."
    if not held(state, "torch", task["who"]):
        return _NOT_IN_HAND
    return _too_far(job, state, Spot(job.walls[task["corner"] + 1].id, 0))


def _gusset_begin(job: Job, state: State, task: Decision) -> None:
    _carry(job, state, task, Spot(job.walls[task["corner"] + 1].id, 0))


def _gusset(job: Job, state: State, task: Decision) -> None:
    corner = state.corners[task["corner"]]
    corner.gusset, corner.reach_mm, corner.by = state.now, task["reach"], by_of(task)


def _cannot_put_out(job: Job, state: State, task: Decision) -> str:
    flame = state.flames.get(task["tool"])
    if flame is None:
        return "It is not lit."
    if task["tool"] == "torch" and flame.who != task["who"]:
        return "Somebody else holds the torch."
    return ""


def _put_out(job: Job, state: State, task: Decision) -> None:
    extinguish(state, task["tool"], by_of(task))


def extinguish(state: State, tool: str, by: int) -> None:
    """A flame goes out; the watch after it begins."""
    del state.flames[tool]
    state.last_flame, state.flame_by = state.now, by
    log(state, "flame out", tool=tool)


def _move_gas(job: Job, state: State, task: Decision) -> None:
    state.gas, state.moved["gas"] = spot_of(task), by_of(task)


def _cannot_move_gas(job: Job, state: State, task: Decision) -> str:
    if reason := job.off_the_roof(spot_of(task)):
        return reason
    torch = state.flames.get("torch")
    if torch is None:
        return ""
    far = squared(job.placed(torch.spot), job.placed(spot_of(task))) > HOSE_MM**2
    return _HOSE_TOO_SHORT if far else ""


def _change_gas(job: Job, state: State, task: Decision) -> None:
    state.gas_spare -= 1
    state.gas_left = job.gas.minutes


def _cannot_change_gas(job: Job, state: State, task: Decision) -> str:
    if not state.gas_spare:
        return "There is no spare cylinder on the roof."
    return (
        "Put the torch out first: its hose hangs on the cylinder."
        if "torch" in state.flames
        else ""
    )


def _move_extinguisher(job: Job, state: State, task: Decision) -> None:
    state.extinguishers[task["thing"]] = spot_of(task)
    state.moved[task["thing"]] = by_of(task)


def _cannot_move_extinguisher(job: Job, state: State, task: Decision) -> str:
    if task["thing"] not in state.extinguishers:
        return f"There is no extinguisher {task['thing']}."
    return job.off_the_roof(spot_of(task))


def _open_permit(job: Job, state: State, task: Decision) -> None:
    state.permit, state.permit_by = "open", by_of(task)


def _cannot_open_permit(job: Job, state: State, task: Decision) -> str:
    return "The permit is open already." if state.permit == "open" else ""


def _close_permit(job: Job, state: State, task: Decision) -> None:
    state.permit, state.permit_by = "closed", by_of(task)


def _cannot_close_permit(job: Job, state: State, task: Decision) -> str:
    return "No permit is open." if state.permit != "open" else ""


_FLAME = frozenset({"flame"})
ACTS = (
    Act(
        "open permit", "roof", (), takes("open permit"), cannot=_cannot_open_permit,
        end=_open_permit, at_wall=False,
    ),
    Act(
        "light", "roof", (_TOOL, *_SPOT), takes("light"), cannot=_cannot_light, end=_light,
        touches=_FLAME, flame=True,
    ),
    Act(
        "preheat", "roof",
        (Field("strips", Number(low=1, high=MOST_STRIPS, whole=True), "how many"),),
        _preheat_minutes, cannot=_cannot_preheat, end=_preheat, touches=_FLAME, flame=True,
        at_wall=False,
    ),
    Act(
        "weld", "lap", (_WALL, Field("lap", Number(low=0, high=99, whole=True), "its number")),
        takes("weld"), cannot=_cannot_weld, begin=_weld_begin, end=_weld, touches=_FLAME,
        flame=True,
    ),
    Act(
        "gusset", "corner",
        (
            Field("corner", Number(low=0, high=9, whole=True), "which corner, from 0"),
            Field("reach", MM, "past the corner point"),
        ),
        takes("gusset"), cannot=_cannot_gusset, begin=_gusset_begin, end=_gusset,
        touches=frozenset({"flame", "sheet"}), flame=True,
    ),
    Act(
        "put out", "roof", (_TOOL,), takes("put out"), cannot=_cannot_put_out, begin=_put_out,
        touches=frozenset({"flame", "watch"}), flame=True, at_wall=False,
    ),
    Act(
        "move gas", "roof", _SPOT, takes("move gas"), cannot=_cannot_move_gas, end=_move_gas,
        touches=_FLAME, at_wall=False,
    ),
    Act(
        "change gas", "roof", (), takes("change gas"), cannot=_cannot_change_gas, end=_change_gas,
        at_wall=False,
    ),
    Act(
        "move extinguisher", "roof", (Field("thing", NAME, "which"), *_SPOT),
        takes("move extinguisher"), cannot=_cannot_move_extinguisher, end=_move_extinguisher,
        touches=_FLAME, at_wall=False,
    ),
    Act(
        "close permit", "roof", (), takes("close permit"), cannot=_cannot_close_permit,
        end=_close_permit, touches=frozenset({"watch", "end"}), at_wall=False,
    ),
)  # fmt: skip
