"""How an installation is talked about: its places, things and times, in a person's own units.

The core counts sheets, laps and corners from 0 and everything in millimetres; people count from 1
and read what they chose in the settings.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field

from trainer.engine.measures import Units, say_clock, say_duration
from trainer.installation.job import Job
from trainer.installation.place import Spot
from trainer.installation.state import State
from trainer.roofing.units import System
from trainer.services.person import SignedIn
from trainer.services.scenarios import language_of, units_of
from trainer.services.speech import plural_speaker, speaker

_METRES_FROM_MM = 1000
_ARTICLE = re.compile(r"^(an?|the) ")
_MM_IN_TEXT = re.compile(r"(\d+) mm\b")


@dataclass(frozen=True)
class Voice:
    """How one person is spoken to: language, and units of length and temperature."""

    language: str = "en"
    units: Units = field(default_factory=Units)

    @property
    def say(self) -> Callable[[str], str]:
        return speaker(self.language)

    @property
    def plural(self) -> Callable[[str, str, int], str]:
        return plural_speaker(self.language)

    @property
    def system(self) -> System:
        return "us" if self.units.length == "in" else "metric"

    def count(self, one: str, many: str, n: int) -> str:
        """A number of things: "1 strip", "3 strips"; both texts hold ``%(n)d``."""
        return self.plural(one, many, n) % {"n": n}

    def length(self, mm: float) -> str:
        return unbroken(self.units.say_length(mm))

    def reach(self, mm: float) -> str:
        """A length in a sum, to the millimetre: "60 mm", "1.247 m"."""
        if self.units.length == "in" or abs(mm) < _METRES_FROM_MM:
            return self.length(mm)
        return unbroken(f"{round(mm) / 1000:g} m")

    def along(self, mm: int) -> str:
        """A place along a wall or a distance on the roof: "600 mm", "4.2 m", to the millimetre."""
        if self.units.length == "in" or abs(mm) < _METRES_FROM_MM or mm % 10:
            return self.length(mm) if mm else "0"
        return unbroken(self.units.say_distance(mm))

    def stretch(self, start: int, end: int) -> str:
        ends = {"from": self.along(start), "to": self.along(end)}
        return self.say("%(from)s to %(to)s") % ends

    def clock(self, at: int) -> str:
        return say_clock(at)

    def lasting(self, minutes: float) -> str:
        return unbroken(say_duration(minutes))

    def in_own_units(self, text: str) -> str:
        """A sentence of the core with its millimetres said as this person reads them."""
        return _MM_IN_TEXT.sub(lambda found: self.length(int(found[1])), text)

    def listed(self, parts: list[str]) -> str:
        """ "a", "a and b", "a, b and c"."""
        if len(parts) < 2:
            return "".join(parts)
        ends = {"all": ", ".join(parts[:-1]), "last": parts[-1]}
        return self.say("%(all)s and %(last)s") % ends


def unbroken(text: str) -> str:
    """A number with its unit, never parted at the end of a line."""
    return text.replace(" ", "\N{NO-BREAK SPACE}")


def voice_of(person: SignedIn | None) -> Voice:
    """How this person wants to be spoken to."""
    return Voice(language_of(person), units_of(person))


def capital(text: str) -> str:
    """The text with its first letter large, the rest as it stands."""
    return text[:1].upper() + text[1:]


def hand_name(job: Job, hand_id: str) -> str:
    return job.hand(hand_id).name


def wall_name(voice: Voice, wall_id: str) -> str:
    return voice.say("wall %(id)s") % {"id": wall_id}


def corner_name(voice: Voice, job: Job, corner: int) -> str:
    """ "corner A–B", by the walls that meet there."""
    walls = {"left": job.walls[corner].id, "right": job.walls[corner + 1].id}
    return voice.say("corner %(left)s–%(right)s") % walls


def corner_sheet_name(voice: Voice, job: Job, corner: int, number: int) -> str:
    name = {"corner": corner_name(voice, job, corner)}
    if number == 1:
        return voice.say("the first sheet of %(corner)s") % name
    return voice.say("the second sheet of %(corner)s") % name


def sheets_name(voice: Voice, wall_id: str, first: int, last: int | None = None) -> str:
    """ "sheet 3 of wall A", "sheets 3 to 6 of wall A"; both numbers from 0."""
    names = {"wall": wall_name(voice, wall_id), "first": first + 1, "last": (last or 0) + 1}
    if last is None or last == first:
        return voice.say("sheet %(first)d of %(wall)s") % names
    return voice.say("sheets %(first)d to %(last)d of %(wall)s") % names


def sheet_name(voice: Voice, job: Job, sheet_id: str) -> str:
    """A sheet by its id: "A:2" or "corner-0:1"."""
    place, _, number = sheet_id.rpartition(":")
    if place.startswith("corner-"):
        corner = int(place.removeprefix("corner-"))
        return corner_sheet_name(voice, job, corner, int(number))
    return sheets_name(voice, place, int(number))


def lap_parts(state: State, lap_id: str) -> tuple[str, int, int]:
    """The wall of a lap, its number, and how many sheets are marked on the wall."""
    wall, _, number = lap_id.rpartition(":")
    count = len(state.layouts[wall]["laps"]) + 1 if wall in state.layouts else 0
    return wall, int(number), count


def lap_short(voice: Voice, state: State, lap_id: str) -> str:
    """ "Lap 1–2", for a list under its wall."""
    _, number, count = lap_parts(state, lap_id)
    if number in (0, count):
        sheet = {"sheet": 1 if number == 0 else count}
        return voice.say("Lap %(sheet)d–corner") % sheet
    return voice.say("Lap %(left)d–%(right)d") % {"left": number, "right": number + 1}


def lap_name(voice: Voice, state: State, lap_id: str) -> str:
    """ "the lap of sheets 1 and 2 of wall A"."""
    wall, number, count = lap_parts(state, lap_id)
    names = {"wall": wall_name(voice, wall), "left": number, "right": number + 1}
    if number in (0, count):
        names["left"] = 1 if number == 0 else count
        return voice.say("the lap of sheet %(left)d of %(wall)s on the corner sheet") % names
    return voice.say("the lap of sheets %(left)d and %(right)d of %(wall)s") % names


def spot_name(voice: Voice, spot: Spot) -> str:
    """ "wall A at 2.4 m, 1.5 m out"."""
    at = voice.along(spot.at_mm) if spot.at_mm else voice.say("its left end")
    names = {"wall": wall_name(voice, spot.wall), "at": at}
    if not spot.off_mm:
        return voice.say("%(wall)s at %(at)s") % names
    return voice.say("%(wall)s at %(at)s, %(off)s out") % {**names, "off": voice.along(spot.off_mm)}


def tool_name(voice: Voice, tool: str) -> str:
    return voice.say("the melter") if tool == "melter" else voice.say("the torch")


def things(job: Job) -> dict[str, str]:
    """What each thing on the site is, by id: openings, what burns behind, what lies loose.

    For words only: whoever lists things asks what is known of them first.
    """
    found = {part.id: part.what for part in (*job.openings, *job.loose)}
    found |= {part.id: part.what for wall in job.walls for part in wall.behind}
    several = len(job.extinguishers) > 1
    for number, (name, _) in enumerate(job.extinguishers, start=1):
        found[name] = f"extinguisher {number}" if several else "extinguisher"
    return found


def thing_name(voice: Voice, job: Job, thing: str) -> str:
    """ "the timber nailer"; a thing by its own id where the job does not know it."""
    return the_thing(voice, things(job).get(thing, thing))


def thing_short(voice: Voice, job: Job, thing: str) -> str:
    """ "Roof hatch": the same for a list of places."""
    return capital(_ARTICLE.sub("", voice.say(things(job).get(thing, thing))))


def the_thing(voice: Voice, what: str) -> str:
    """ "the roof hatch" from "a roof hatch", as jobs name things."""
    return voice.say("the %(what)s") % {"what": _ARTICLE.sub("", voice.say(what))}


def coat_stretch(voice: Voice, state: State, coat_id: int) -> str:
    """Where a coat of primer lies now: "wall A, 0 to 4 m"; its pieces as one stretch."""
    pieces = [coat for coat in state.coats if coat.id == coat_id]
    if not pieces:
        return ""
    start, end = min(c.from_mm for c in pieces), max(c.to_mm for c in pieces)
    wall = wall_name(voice, pieces[0].wall)
    return f"{wall}, {voice.stretch(start, end)}"
