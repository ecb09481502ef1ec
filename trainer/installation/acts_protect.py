"""Making the place safe: edge protection, what burns covered or away, cans closed, film bagged."""

from __future__ import annotations

from trainer.installation.act import Act, log, takes
from trainer.installation.job import Job
from trainer.installation.job_fields import NAME
from trainer.installation.state import Decision, State
from trainer.roofing.contract import Field

_WALL = Field("wall", NAME, "at which wall")


def _thing(job: Job, name: str) -> str:
    """What a thing on the site is: opening, behind, loose, or nothing of the kind."""
    if any(part.id == name for part in job.openings):
        return "opening"
    if any(part.id == name for wall in job.walls for part in wall.behind):
        return "behind"
    return "loose" if any(part.id == name for part in job.loose) else ""


def _cannot_cover(job: Job, state: State, task: Decision) -> str:
    kind = _thing(job, task["thing"])
    if not kind:
        return f"Nobody knows of “{task['thing']}” here."
    if kind != "loose" and not _found(job, state, task["thing"]):
        return f"Nobody knows of “{task['thing']}” here."
    if task["thing"] in state.covered:
        return "It is covered already."
    if kind == "behind" and _sheet_over(job, state, task["thing"]):
        return "A sheet lies over it; strip the sheet first."
    return ""


def _found(job: Job, state: State, name: str) -> bool:
    for wall in job.walls:
        behind = state.known.get(f"behind {wall.id}", {}).get("is", ())
        if any(part[0] == name for part in behind):
            return True
        if name in state.known.get(f"openings {wall.id}", {}).get("is", ()):
            return True
    return False


def _sheet_over(job: Job, state: State, name: str) -> bool:
    for wall in job.walls:
        for part in wall.behind:
            if part.id != name:
                continue
            for sheet in state.sheets.values():
                ends = sheet.on(wall.id)
                if ends and ends[0] < part.to_mm and part.from_mm < ends[1]:
                    return True
    return False


def _cover(job: Job, state: State, task: Decision) -> None:
    state.covered.append(task["thing"])
    log(state, "covered", thing=task["thing"])


def _cannot_clear(job: Job, state: State, task: Decision) -> str:
    if _thing(job, task["thing"]) != "loose":
        return f"“{task['thing']}” is nothing that can be carried away."
    return "It has been carried away already." if task["thing"] in state.cleared else ""


def _clear(job: Job, state: State, task: Decision) -> None:
    state.cleared.append(task["thing"])


def _rail(job: Job, state: State, task: Decision) -> None:
    state.rails.append(task["wall"])


def _cannot_rail(job: Job, state: State, task: Decision) -> str:
    standing = job.wall(task["wall"]).rail or task["wall"] in state.rails
    return "Edge protection stands there already." if standing else ""


def _cans(job: Job, state: State, task: Decision) -> None:
    state.cans = None


def _cannot_cans(job: Job, state: State, task: Decision) -> str:
    return "No can is open." if state.cans is None else ""


def _bag(job: Job, state: State, task: Decision) -> None:
    state.film = None


def _cannot_bag(job: Job, state: State, task: Decision) -> str:
    return "No film lies about." if state.film is None else ""


_THING = (Field("thing", NAME, "what"),)
_SITE = frozenset({"flame"})
ACTS = (
    Act("cover", "thing", _THING, takes("cover"), cannot=_cannot_cover, end=_cover, touches=_SITE),
    Act(
        "clear",
        "thing",
        _THING,
        takes("clear"),
        cannot=_cannot_clear,
        end=_clear,
        touches=_SITE,
        at_wall=False,
    ),
    Act("rail", "wall", (_WALL,), takes("rail"), cannot=_cannot_rail, end=_rail, at_wall=False),
    Act(
        "close cans",
        "roof",
        (),
        takes("close cans"),
        cannot=_cannot_cans,
        end=_cans,
        touches=_SITE,
        at_wall=False,
    ),
    Act(
        "bag film",
        "roof",
        (),
        takes("bag film"),
        cannot=_cannot_bag,
        end=_bag,
        touches=_SITE,
        at_wall=False,
    ),
)
