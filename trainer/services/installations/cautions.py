"""The usual cautions of each place, in a line: what burns, what gives off vapour, where one falls.

They say what any data sheet and permit say first, and leave the numbers to these.
"""

from __future__ import annotations

from trainer.installation.job import Job
from trainer.installation.laps import wall_sheet_id
from trainer.installation.state import State
from trainer.services.installations.places import numbered
from trainer.services.installations.words import Voice


def caution_at(voice: Voice, job: Job, state: State, place: str) -> str:
    """What to mind at a place, or ""; common practice, no source."""
    say = voice.say
    if place == "torch":
        flame = say("Flame burns people and roofs: the permit says where it may be.")
        gas = say("Gas is heavier than air: cylinder upright, shut off when the flame is out.")
        return f"{flame} {gas}"
    if place == "melter" or place.startswith("corner-"):
        return _hot(voice)
    if place.startswith("lap-"):
        return say("Flame burns people and roofs: the permit says where it may be.")
    return _at_wall(voice, job, state, place)


def _hot(voice: Voice) -> str:
    return voice.say(
        "Hot bitumen sticks and burns deep: gloves, sleeves and face shield as the data sheet asks."
    )


def _at_wall(voice: Voice, job: Job, state: State, place: str) -> str:
    """An open edge and solvent primer, where one works at a wall that is not covered yet."""
    sheet = numbered(place, "sheet")
    at = sheet or numbered(place, "stretch")
    wall = place.removeprefix("wall-") if place.startswith("wall-") else at[0] if at else ""
    if wall not in [part.id for part in job.walls]:
        return ""
    said = []
    if not (job.wall(wall).rail or wall in state.rails):
        said.append(voice.say("The edge is open: local rules say what has to stand there first."))
    if not sheet or wall_sheet_id(*sheet) not in state.sheets:
        said.append(voice.say("Solvent primer and its vapour catch fire: read its data sheet."))
    return " ".join(said)
