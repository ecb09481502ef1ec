"""The places of an installation that one can choose: by tapping the drawing or from the list.

Only what anybody can see or has found out is a place. Ids are made of letters, digits and dashes:
``wall-A``, ``sheet-A-0``, ``lap-A-1``, ``corner-0``, ``thing-vent``, and one for each kind of work
that belongs to no wall.
"""

from __future__ import annotations

from dataclasses import dataclass

from trainer.installation.job import Job
from trainer.installation.laps import laps, sheets_to_lay
from trainer.installation.state import State
from trainer.services.installations import words
from trainer.services.installations.figures import stretches
from trainer.services.installations.words import Voice, capital

SITE = ("crew", "rolls", "torch", "melter", "permit", "roof", "weather")


@dataclass(frozen=True)
class Place:
    """One place: ``short`` in a list under its ``group``, ``name`` in full; ``wall`` it is at."""

    id: str
    name: str
    short: str
    group: str
    wall: str = ""


def places(voice: Voice, job: Job, state: State) -> list[Place]:
    """Every place there is now, walls first, each with its sheets, laps and corners."""
    found: list[Place] = []
    for i, wall in enumerate(job.walls):
        found += _at_wall(voice, job, state, wall.id)
        if i < len(job.corners):
            found.append(_corner(voice, job, i, wall.id))
    return found + _site(voice) + _things(voice, job, state)


def _at_wall(voice: Voice, job: Job, state: State, wall: str) -> list[Place]:
    name = capital(words.wall_name(voice, wall))
    found = [Place(f"wall-{wall}", name, voice.say("Whole wall"), name, wall)]
    for number, (start, end) in enumerate(_loose_stretches(job, state, wall)):
        short = voice.stretch(start, end)
        found.append(Place(f"stretch-{wall}-{number}", f"{name}, {short}", short, name, wall))
    for number in range(len(sheets_to_lay(job, state, wall))):
        full = capital(words.sheets_name(voice, wall, number))
        short = voice.say("Sheet %(n)d") % {"n": number + 1}
        found.append(Place(f"sheet-{wall}-{number}", full, short, name, wall))
    for lap in laps(state, wall):
        number = lap.id.rpartition(":")[2]
        full = capital(words.lap_name(voice, state, lap.id))
        short = words.lap_short(voice, state, lap.id)
        found.append(Place(f"lap-{wall}-{number}", full, short, name, wall))
    return found


def _loose_stretches(job: Job, state: State, wall: str) -> list[tuple[int, int]]:
    """Stretches of a wall about a sheet wide; none once its own sheets are marked out."""
    return [] if wall in state.layouts else stretches(job, wall)


def _corner(voice: Voice, job: Job, corner: int, wall: str) -> Place:
    name = capital(words.corner_name(voice, job, corner))
    group = capital(words.wall_name(voice, wall))
    return Place(f"corner-{corner}", name, name, group, wall)


def _site(voice: Voice) -> list[Place]:
    say, group = voice.say, voice.say("People and things")
    names = {
        "crew": say("People"),
        "rolls": say("Rolls and strips"),
        "torch": say("Torch and gas"),
        "melter": say("Melter"),
        "permit": say("Permit"),
        "roof": say("The roof"),
        "weather": say("Weather"),
    }
    return [Place(name, names[name], names[name], group) for name in SITE]


def _things(voice: Voice, job: Job, state: State) -> list[Place]:
    """What can be covered, carried away or moved, as far as it is known."""
    group = voice.say("People and things")
    found = []
    for thing in known_things(job, state):
        name = words.thing_short(voice, job, thing)
        found.append(Place(f"thing-{thing}", name, name, group))
    return found


def known_things(job: Job, state: State) -> list[str]:
    """Ids of the things that lie in plain sight or have been found: none of what is hidden."""
    seen = [part.id for part in job.loose if part.id not in state.cleared]
    for wall in job.walls:
        seen += [part[0] for part in _known(state, f"behind {wall.id}")]
        seen += _known(state, f"openings {wall.id}")
    return [*dict.fromkeys(seen), *state.extinguishers]


def _known(state: State, key: str) -> list:
    entry = state.known.get(key)
    return list(entry["is"]) if entry else []


def place_of_part(part: str) -> str:
    """The place that a part of a drawing leads to: "person-dana" to the people, and so on."""
    kind, _, name = part.partition("-")
    if kind in _LEADS_TO:
        return _LEADS_TO[kind]
    return f"thing-{name}" if kind in _THINGS else part


def part_of_place(job: Job, place: str) -> str:
    """The part of a drawing that a place is drawn as; the other way round than the above."""
    kind, _, name = place.partition("-")
    if kind != "thing":
        return {"torch": "gas"}.get(place, place)
    if name in [known for known, _ in job.extinguishers]:
        return f"ext-{name}"
    if name in [hole.id for hole in job.openings]:
        return f"opening-{name}"
    return place if name in [part.id for part in job.loose] else f"behind-{name}"


_LEADS_TO = {"person": "crew", "gas": "torch"}
_THINGS = ("ext", "opening", "behind")


def numbered(place_id: str, kind: str) -> tuple[str, int] | None:
    """The wall and number of "sheet-A-2" or "lap-A-2"; None for any other place."""
    start, _, number = place_id.rpartition("-")
    if not start.startswith(f"{kind}-") or not number.isdecimal():
        return None
    return start.removeprefix(f"{kind}-"), int(number)
