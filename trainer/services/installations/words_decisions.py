"""Decisions in words: what can be done, what somebody does, what has been done."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from trainer.installation.actions import FOR_ALL
from trainer.installation.acts_flame import spot_of
from trainer.installation.job import Job
from trainer.installation.state import State
from trainer.services.installations import words
from trainer.services.installations.words import Voice, capital
from trainer.services.installations.words_actions import told


def offer(voice: Voice, job: Job, state: State, decision: Mapping[str, Any]) -> str:
    """ "Roll sheet 3 of wall A": a sentence without its full stop."""
    return capital(_said(voice, job, state, decision, 0))


def doing(voice: Voice, job: Job, state: State, decision: Mapping[str, Any]) -> str:
    """ "Noor rolls sheet 3 of wall A"."""
    return _said(voice, job, state, decision, 1)


def done(voice: Voice, job: Job, state: State, entry: Mapping[str, Any]) -> str:
    """ "Noor has rolled sheet 3 of wall A.", from the log, where ``at`` is the minute."""
    task = {**entry, "at": entry["at_mm"]} if "at_mm" in entry else entry
    return _said(voice, job, state, task, 2) + "."


def decided(voice: Voice, job: Job, state: State, decision: Mapping[str, Any]) -> str:
    """A whole decision: "Noor lays sheets 3 to 6 of wall A, each rolled at once, with Dana."."""
    say = voice.say
    do = decision.get("do")
    if do == "wait":
        return _waited(voice, int(decision.get("minutes") or 0))
    if do in FOR_ALL:
        return _for_all(voice, str(do))
    text = doing(voice, job, state, decision)
    if decision.get("half") == "bottom":
        text += say(", lower half first")
    if decision.get("rolling"):
        row = decision.get("through") not in (None, decision.get("sheet"))
        text += say(", each rolled at once") if row else say(", rolled at once")
    if decision.get("with"):
        text += say(", with %(name)s") % {"name": words.hand_name(job, decision["with"])}
    return text + "."


def _for_all(voice: Voice, do: str) -> str:
    if do == "alarm":
        return voice.say("The alarm is raised.")
    return voice.say("All work stops.") if do == "stop" else voice.say("Everybody leaves the roof.")


def _waited(voice: Voice, minutes: int) -> str:
    if not minutes:
        return voice.say("Everybody waits until something happens.")
    return voice.say("Everybody waits %(time)s.") % {"time": voice.lasting(minutes)}


def _said(voice: Voice, job: Job, state: State, decision: Mapping[str, Any], which: int) -> str:
    texts = told(voice.language)
    text = texts[str(decision["do"])][which]
    return text % _Names(voice, job, state, decision)


class _Names(dict[str, Any]):
    """What a text may name of a decision, worded when it is asked for."""

    def __init__(self, voice: Voice, job: Job, state: State, decision: Mapping[str, Any]) -> None:
        super().__init__()
        self.about = (voice, job, state, decision)

    def __missing__(self, name: str) -> str:
        return _NAMES[name](*self.about)


_Name = Callable[[Voice, Job, State, Mapping[str, Any]], str]


def _of_sheets(voice: Voice, job: Job, state: State, task: Mapping[str, Any]) -> str:
    return words.sheets_name(voice, task["wall"], task["sheet"], task.get("through"))


def _of_laps(voice: Voice, job: Job, state: State, task: Mapping[str, Any]) -> str:
    first = words.lap_name(voice, state, f"{task['wall']}:{task['lap']}")
    through = task.get("through")
    if through is None or through == task["lap"]:
        return first
    last = words.lap_name(voice, state, f"{task['wall']}:{through}")
    return voice.say("every lap from %(first)s to %(last)s") % {"first": first, "last": last}


def _of_corner_sheet(voice: Voice, job: Job, state: State, task: Mapping[str, Any]) -> str:
    return words.corner_sheet_name(voice, job, task["corner"], task["number"])


def _laps_marked(voice: Voice, job: Job, state: State, task: Mapping[str, Any]) -> str:
    starts = [voice.along(at) for at in task["laps"]]
    if not starts:
        return voice.say("one sheet, no lap")
    width = voice.length(task["lap_mm"])
    return voice.say("laps of %(width)s at %(at)s") % {"width": width, "at": voice.listed(starts)}


_NAMES: dict[str, _Name] = {
    "who": lambda v, job, s, task: words.hand_name(job, task["who"]),
    "wall": lambda v, job, s, task: words.wall_name(v, task["wall"]),
    "stretch": lambda v, job, s, task: v.stretch(task["from"], task["to"]),
    "at": lambda v, job, s, task: v.along(task["at"]),
    "spot": lambda v, job, s, task: words.spot_name(v, spot_of(dict(task))),
    "sheets": _of_sheets,
    "laps": _of_laps,
    "corner": lambda v, job, s, task: words.corner_name(v, job, task["corner"]),
    "corner_sheet": _of_corner_sheet,
    "thing": lambda v, job, s, task: words.thing_name(v, job, task["thing"]),
    "tool": lambda v, job, s, task: words.tool_name(v, task.get("tool", "torch")),
    "strips": lambda v, job, s, task: v.count("%(n)d strip", "%(n)d strips", task["strips"]),
    "roll": lambda v, job, s, task: str(task["roll"]),
    "distance": lambda v, job, s, task: v.length(task["distance"]),
    "reach": lambda v, job, s, task: v.length(task["reach"]),
    "marks": _laps_marked,
}
