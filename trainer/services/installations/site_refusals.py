"""Why a job of real walls is not taken, in words for who typed it.

The core names its own fields, places and rules; a foreman reads of a wall, in the units of the
settings, and the rule as the rule book says it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from trainer.errors import InputError
from trainer.installation.job import Job
from trainer.installation.limits import limits_of
from trainer.installation.read_job import read_job
from trainer.installation.site_job import site_job
from trainer.roofing.rulebook import InForce
from trainer.services.installations import words
from trainer.services.installations.words import Voice, capital
from trainer.services.parts import Parts
from trainer.services.scenarios import library

Path = tuple[str | int, ...]

_FIELD = re.compile(r"walls\[(?P<wall>\d+)\](\.(?P<name>\w+))?")
_NAMES = {"length_mm": "length", "height_mm": "height", "cant_mm": "cant"}
_NAMES |= {"field_laps": "field_laps", "field_laps_mm": "field_laps"}
_NEARER = re.compile(r"from (\d+) to (\d+) mm comes nearer than ([\d.]+) mm")
_REST = re.compile(r"furthest lap, at (\d+) mm, the rest is (\d+) mm")
_ON_CORNER = re.compile(r"(\d+) mm or more from the lap on the corner sheets, (\d+)–(\d+)")
_KEEPS = re.compile(r"keeps ([a-z-]+)$")
_NOT_DONE = re.compile(r"has not done (.+)$")
_BEFORE = re.compile(r"(\d\d:\d\d) or later: nobody")
_CLEARANCE = "lap-clearance"


@dataclass(frozen=True)
class Problem:
    """What is wrong with the field of that path, in words."""

    path: Path
    text: str


@dataclass(frozen=True)
class Said:
    """What was typed, and what was read from it."""

    typed: Mapping[str, Any]
    fields: Mapping[str, Any]


def refused(voice: Voice, typed: str, wanted: str) -> str:
    """One field that cannot be taken as it was typed."""
    if not (typed or "").strip():
        return voice.say("Nothing is filled in yet. Wanted: %(allowed)s.") % {"allowed": wanted}
    told = voice.say("“%(value)s” cannot be taken. Wanted: %(allowed)s.")
    return told % {"value": typed.strip()[:60], "allowed": wanted}


def problem(parts: Parts, voice: Voice, said: Said, error: InputError) -> Problem:
    """The core's refusal of fields that were read: at which field, and why, in words."""
    with parts.database.reading() as session:
        rules = library(session).rules
    telling = _Telling(voice, rules, said)
    found = _FIELD.match(error.field)
    if found and found["name"]:
        return telling.of_wall(int(found["wall"]), found["name"], error)
    if error.field == "leave_by":
        return Problem(("leave_by",), telling.leave_by(error))
    if error.field == "walls":
        return telling.rule_broken(error)
    return Problem((error.field.partition("[")[0],), telling.plainly(error))


@dataclass(frozen=True)
class _Telling:
    voice: Voice
    rules: InForce
    said: Said

    @property
    def say(self) -> Callable[[str], str]:
        return self.voice.say

    def job(self) -> Job:
        return read_job(site_job(self.said.fields, limits_of(self.rules)))

    def plainly(self, error: InputError) -> str:
        wanted = self.voice.in_own_units(error.allowed)
        return refused(self.voice, str(error.value), wanted)

    def of_wall(self, i: int, name: str, error: InputError) -> Problem:
        field = _NAMES.get(name)
        if field is None:
            return Problem(("walls", i), self.plainly(error))
        if field == "field_laps":
            return Problem(("walls", i, field), self._laps(i, error))
        if field == "cant":
            wanted = self.say("not more than the wall is high")
        elif field == "length":
            wanted = self.say("long enough for a sheet between the sheets of its corners")
        else:
            return Problem(("walls", i, field), self.plainly(error))
        return Problem(("walls", i, field), refused(self.voice, self._typed(i, field), wanted))

    def _typed(self, i: int, field: str) -> str:
        return str(self.said.typed["walls"][i][field])

    def _laps(self, i: int, error: InputError) -> str:
        """Why no sheets can be set out on a wall: which stretch, and the rule."""
        wall = self.job().walls[i]
        where = {"wall": words.wall_name(self.voice, wall.id)}
        told = self._which_stretch(self.job().stretch(wall.id)[0], error.allowed, where)
        rule = self.rule(_CLEARANCE)
        ask = self.say("If it is so on the roof, ask before anybody cuts a sheet.")
        return " ".join(filter(None, (capital(told), rule, ask)))

    def _which_stretch(self, start: int, why: str, where: dict[str, str]) -> str:
        """The core counts from where the sheets begin; people from the left end of the wall."""
        stretch, length = self.voice.stretch, self.voice.length
        if found := _NEARER.search(why):
            low, high = (start + int(found[n]) for n in (1, 2))
            where |= {"stretch": stretch(low, high), "clear": length(float(found[3]))}
            told = self.say(
                "%(wall)s, %(stretch)s: a lap of the base sheet has to start there, and every"
                " place is nearer than %(clear)s to a lap of the field."
            )
        elif found := _REST.search(why):
            where |= {"at": self.voice.along(start + int(found[1])), "rest": length(int(found[2]))}
            told = self.say(
                "%(wall)s: past %(at)s the laps of the field leave no way on, and the %(rest)s"
                " that is left is narrower than the narrowest strip."
            )
        elif found := _ON_CORNER.search(why):
            low, high = int(found[2]), int(found[3])
            where |= {"stretch": stretch(low, high), "clear": length(int(found[1]))}
            told = self.say(
                "%(wall)s, %(stretch)s: there lies the lap on the sheets of the corner, and a lap"
                " of the field comes nearer than %(clear)s to it."
            )
        else:
            return f"{where['wall']}: {self.voice.in_own_units(why)}"
        return told % where

    def leave_by(self, error: InputError) -> str:
        if found := _BEFORE.match(error.allowed):
            told = self.say(
                "Nobody can be done with these walls before %(bound)s. Let the crew leave at"
                " %(bound)s or later, or take less of the wall."
            )
            return told % {"bound": found[1]}
        if found := _NOT_DONE.search(error.allowed):
            told = self.say(
                "At %(time)s the best plan found still lacks: %(what)s. Let the crew leave later,"
                " or take less of the wall."
            )
            return told % {"time": error.value, "what": self._undone(found[1])}
        return self.plainly(error)

    def _undone(self, ids: str) -> str:
        named = dict.fromkeys(self._kind_of_work(each) for each in ids.split(", "))
        return self.voice.listed(list(named))

    def _kind_of_work(self, ident: str) -> str:
        """ "the laps of wall A" from "lap A:3": the core's ids, said as work for a wall."""
        kind, _, rest = ident.partition(" ")
        name = {"wall": words.wall_name(self.voice, rest.partition(":")[0])}
        if kind == "lap":
            return self.say("welded laps on %(wall)s") % name
        if kind in ("sheet", "roll"):
            return self.say("sheets on %(wall)s") % name
        if kind == "wall":
            return self.say("the layout of %(wall)s") % name
        if kind.startswith("corner-"):
            corner = words.corner_name(self.voice, self.job(), int(kind.removeprefix("corner-")))
            return self.say("the gusset of %(corner)s") % {"corner": corner}
        if kind == "permit":
            return self.say("the end of the fire watch and a closed permit")
        return self.say("flames put out") if kind == "flame" else self.say("more")

    def rule_broken(self, error: InputError) -> Problem:
        """The rule that every plan found breaks, and where."""
        found = _KEEPS.search(error.allowed)
        place, _, time = str(error.value).partition(", ")
        if found is None:
            return Problem(("walls", 0), self.plainly(error))
        i, name = self._place(place)
        told = self.say("%(place)s, %(time)s: every plan that was found breaks a rule there.")
        told = capital(told % {"place": name, "time": time})
        return Problem(("walls", i), f"{told} {self.rule(found[1])}")

    def _place(self, place: str) -> tuple[int, str]:
        """The wall's number and the place in words, from the place of a finding."""
        job = self.job()
        kind, _, rest = place.partition(" ")
        ident = rest or kind
        letter, _, number = ident.partition(":")
        known = [wall.id for wall in job.walls]
        if letter.startswith("corner-"):
            corner = int(letter.removeprefix("corner-"))
            return corner + 1, words.corner_name(self.voice, job, corner)
        if letter not in known:
            return 0, self.say("these walls")
        if kind == "lap":
            told = self.say("lap %(n)d of %(wall)s")
            wall = words.wall_name(self.voice, letter)
            return known.index(letter), told % {"n": int(number), "wall": wall}
        if number:
            return known.index(letter), words.sheet_name(self.voice, job, ident)
        return known.index(letter), words.wall_name(self.voice, letter)

    def rule(self, subject: str) -> str:
        """The rule as the rule book says it, with its source; "" where none is in force."""
        if subject not in self.rules.by_subject:
            return ""
        told = {"rule": self.rules.sentence(subject, self.voice.system)}
        return self.say("The rule: %(rule)s") % told
