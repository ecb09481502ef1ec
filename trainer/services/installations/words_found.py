"""What looking, probing, measuring, touching and asking found out, in words."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from trainer.installation.job import Job
from trainer.installation.state import State
from trainer.services.installations import words
from trainer.services.installations.words import Voice

_MOST_TOUCHES = 6

Word = Callable[[Voice, Job, State, Any], str]


def about_wall(voice: Voice, job: Job, state: State, wall_id: str) -> list[str]:
    """Everything that was found out about a wall, a line for each way of looking."""
    lines = []
    for do, verb in _verbs(voice).items():
        at = _last(state, do, wall_id)
        if at is not None and (found := _found(voice, job, state, do, wall_id)):
            names = {"time": voice.clock(at), "verb": verb, "found": found}
            lines.append(voice.say("%(time)s %(verb)s: %(found)s.") % names)
    return lines + _touches(voice, state, wall_id)


def found_by(voice: Voice, job: Job, state: State, done: Mapping[str, Any]) -> str:
    """What came out of an action of the log; empty once something newer is known."""
    do, at, wall = done["do"], done["at"], done.get("wall", "")
    if do == "touch":
        entry = state.known.get(f"touch {wall} {done.get('at_mm')}")
        return voice.say(entry["is"]) if entry and entry["at"] == at else ""
    if do not in _FINDS or _last(state, do, wall) != at:
        return ""
    return _found(voice, job, state, do, wall)


def _verbs(voice: Voice) -> dict[str, str]:
    say = voice.say
    return {
        "ask": say("asked"),
        "look": say("looked"),
        "probe": say("probed"),
        "measure": say("measured"),
    }


def _last(state: State, do: str, wall_id: str) -> int | None:
    """When somebody last found out something in that way."""
    entry = state.known.get(f"{_FINDS[do][0][0]} {wall_id}")
    return None if entry is None else int(entry["at"])


def _found(voice: Voice, job: Job, state: State, do: str, wall_id: str) -> str:
    said = []
    for kind, word in _FINDS[do]:
        entry = state.known.get(f"{kind} {wall_id}")
        if entry is not None and (text := word(voice, job, state, entry["is"])):
            said.append(text)
    return "; ".join(said)


def _told(voice: Voice, job: Job, state: State, text: str) -> str:
    return voice.say("the papers say %(text)s") % {"text": text}


def _behind(voice: Voice, job: Job, state: State, parts: list[list[Any]]) -> str:
    if not parts:
        return voice.say("nothing behind it burns")
    found = [
        voice.say("%(what)s from %(stretch)s")
        % {"what": voice.say(what), "stretch": voice.stretch(start, end)}
        for _, start, end, what in parts
    ]
    return voice.say("behind it %(what)s") % {"what": voice.listed(found)}


def _openings(voice: Voice, job: Job, state: State, names: list[str]) -> str:
    if not names:
        return voice.say("no opening at it")
    found = [words.thing_name(voice, job, name) for name in names]
    return voice.say("%(what)s lets sparks in") % {"what": voice.listed(found)}


def _damp(voice: Voice, job: Job, state: State, bands: list[list[int]]) -> str:
    if not bands:
        return voice.say("nowhere damp")
    said = voice.listed([voice.stretch(*band) for band in bands])
    return voice.say("damp at %(bands)s") % {"bands": said}


def _air(voice: Voice, job: Job, state: State, air: dict[str, Any]) -> str:
    names = {
        "surface": voice.units.say_temperature(air["surface_c"]),
        "air": voice.units.say_temperature(air["air_c"]),
        "humid": f"{air['rh_pct']} %",
        "spread": voice.units.say_difference(air["spread_k"]),
    }
    text = "face %(surface)s, air %(air)s, humidity %(humid)s, %(spread)s above the dew point"
    return voice.say(text) % names


def _laps(voice: Voice, job: Job, state: State, widths: dict[str, int]) -> str:
    named = [(words.lap_short(voice, state, lap), width) for lap, width in widths.items()]
    return voice.say("laps: %(each)s") % {"each": _each(voice, named)} if named else ""


def _field_laps(voice: Voice, job: Job, state: State, legs: dict[str, int]) -> str:
    named = [(words.sheet_name(voice, job, sheet), leg) for sheet, leg in legs.items()]
    return voice.say("onto the field: %(each)s") % {"each": _each(voice, named)} if named else ""


def _each(voice: Voice, named: Iterable[tuple[str, int]]) -> str:
    """One length where all are the same; else each with its name."""
    named = list(named)
    lengths = {mm for _, mm in named}
    if len(lengths) == 1:
        return voice.length(lengths.pop())
    return voice.listed([f"{name} {voice.length(mm)}" for name, mm in named])


def _wrinkled(voice: Voice, job: Job, state: State, sheets: list[str]) -> str:
    names = voice.listed([words.sheet_name(voice, job, sheet) for sheet in sheets])
    return voice.say("wrinkles in %(sheets)s") % {"sheets": names} if sheets else ""


def _spoilt(voice: Voice, job: Job, state: State, parts: list[list[Any]]) -> str:
    said = [f"{voice.say(kind)} {voice.stretch(start, end)}" for start, end, kind in parts]
    return voice.say("primer spoilt: %(what)s") % {"what": voice.listed(said)} if said else ""


def _loose(voice: Voice, job: Job, state: State, found: list[str]) -> str:
    names = [words.lap_name(voice, state, lap) for lap in found]
    return voice.say("not bonded: %(laps)s") % {"laps": voice.listed(names)} if names else ""


_FINDS: dict[str, tuple[tuple[str, Word], ...]] = {
    "ask": (("told", _told),),
    "look": (
        ("behind", _behind),
        ("openings", _openings),
        ("wrinkled", _wrinkled),
        ("spoilt", _spoilt),
    ),
    "probe": (("damp", _damp), ("not bonded", _loose)),
    "measure": (("air", _air), ("laps", _laps), ("field laps", _field_laps)),
}
"""Keys of ``state.known`` that each way of looking sets; the first one it sets always."""


def _touches(voice: Voice, state: State, wall_id: str) -> list[str]:
    lines = []
    for key, entry in state.known.items():
        kind, _, rest = key.partition(" ")
        wall, _, at = rest.rpartition(" ")
        if kind == "touch" and wall == wall_id:
            names = {
                "time": voice.clock(entry["at"]),
                "at": voice.along(int(at)),
                "finger": voice.say(entry["is"]),
            }
            lines.append(
                (entry["at"], voice.say("%(time)s touched at %(at)s: %(finger)s.") % names)
            )
    lines.sort(key=lambda line: line[0])
    return [text for _, text in lines[-_MOST_TOUCHES:]]
