"""The short form of a job from a real wall, as it is typed: lengths in a person's own units.

What is typed is a mapping of texts: ``name``, ``start``, ``leave_by`` and ``walls``, each with
``length``, ``height``, ``cant``, ``field_laps``, ``lap_width``, ``told``, ``corner`` (how the next
wall meets it) and ``behind``: stretches with ``what``, ``start`` and ``end``. A field is named by
its path: ``("walls", 0, "behind", 0, "end")``.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from threading import Lock
from typing import Any

from trainer.engine.typed import read_clock
from trainer.errors import InputError, TrainerError
from trainer.installation.job import Wall
from trainer.installation.job_fields import COMBUSTIBLE
from trainer.installation.limits import limits_of
from trainer.installation.site_job import FORM, LONGEST_NAME, MOST_WALLS, site_job, wall_letter
from trainer.records.queries import site_jobs
from trainer.records.tables import canonical
from trainer.roofing.contract import Each, Number
from trainer.services.installations.jobs import make_site_job
from trainer.services.installations.site_pages import drawn_job
from trainer.services.installations.site_refusals import Path, Problem, Said, problem, refused
from trainer.services.installations.words import Voice, voice_of
from trainer.services.parts import Parts
from trainer.services.permissions import require
from trainer.services.person import SignedIn
from trainer.services.scenarios import library, units_of

__all__ = ["COMBUSTIBLE", "MOST_BEHIND", "MOST_WALLS", "NotMade", "blank", "make", "wall_letter"]

Typed = Mapping[str, Any]

MOST_BEHIND = 10
_MOST_LAPS = 60
_USUAL_LAP_MM = 100
_NOTHING = {"what": "", "start": "", "end": ""}
_METRES = re.compile(r"\d\s*m$", re.ASCII)
_BETWEEN = re.compile(r"[,;\n]")
_ROUNDED_MM = 1.6
"""Half an eighth of an inch: a limit that is said in inches may be that far off."""


def _kinds() -> dict[str, Number]:
    """What each length of a wall may be, by its name in the form."""
    wall = {field.name: field.kind for field in FORM[1].inner_fields}
    laps = wall["field_laps_mm"]
    assert isinstance(laps, Each)
    kinds = {
        "length": wall["length_mm"],
        "height": wall["height_mm"],
        "cant": wall["cant_mm"],
        "lap_width": wall["field_lap_width_mm"],
        "along": laps.inner,
    }
    return {name: kind for name, kind in kinds.items() if isinstance(kind, Number)}


_KINDS = _kinds()
_ONE_AT_A_TIME = Lock()
"""Looking for a plan takes all of a core, for seconds: everybody else's pages come first."""


class NotMade(TrainerError):
    """The form cannot be taken yet: what is wrong, each problem at its field."""

    def __init__(self, problems: Sequence[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__(" ".join(found.text for found in problems))


def blank(person: SignedIn) -> dict[str, Any]:
    """A form with one wall, filled in where most walls are alike. Raises NotAllowed."""
    require(person, "job.make")
    width = "100" if person.length_unit == "mm" else "4"
    behind = [dict(_NOTHING)]
    wall = {"cant": "0", "lap_width": width, "told": "masonry", "behind": behind}
    return {"name": "", "walls": [wall], "start": "07:00", "leave_by": "16:30"}


def like(parts: Parts, person: SignedIn, job_id: str) -> dict[str, Any]:
    """A form filled in as for a job there is, to make another. Raises NotFound, NotAllowed."""
    job, units = drawn_job(parts, person, job_id), units_of(person)

    def text(mm: int) -> str:
        return str(mm) if units.length == "mm" else units.say_length(mm).removesuffix(" in")

    walls = [_wall_as_typed(wall, text) for wall in job.walls]
    for wall, corner in zip(walls, job.corners, strict=False):
        wall["corner"] = corner
    clock = voice_of(person).clock
    times = {"start": clock(job.start), "leave_by": clock(job.leave_by)}
    return {**blank(person), "name": job.title, "walls": walls, **times}


def _wall_as_typed(wall: Wall, text: Callable[[int], str]) -> dict[str, Any]:
    width = max((end - start for start, end in wall.field_laps), default=_USUAL_LAP_MM)
    return {
        "length": text(wall.length_mm),
        "height": text(wall.height_mm),
        "cant": text(wall.cant_mm),
        "lap_width": text(width),
        "field_laps": ", ".join(text(start) for start, _ in wall.field_laps),
        "told": wall.told,
        "behind": [
            {"what": part.what, "start": text(part.from_mm), "end": text(part.to_mm)}
            for part in wall.behind
        ]
        or [dict(_NOTHING)],
    }


def make(parts: Parts, person: SignedIn, typed: Typed) -> str:
    """Keep the job that was typed; its public id. Handed to nobody yet.

    Raises NotAllowed, and NotMade with everything that cannot be taken, or, where all of it can,
    with why no plan does these walls: which rule, which stretch.
    """
    require(person, "job.make")
    voice = voice_of(person)
    reading = _Reading(voice)
    fields = reading.form(typed)
    if reading.problems:
        raise NotMade(reading.problems)
    try:
        with _ONE_AT_A_TIME:
            return _same(parts, person, fields) or make_site_job(parts, person, fields)
    except InputError as error:
        raise NotMade([problem(parts, voice, Said(typed, fields), error)]) from error


def _same(parts: Parts, person: SignedIn, fields: Mapping[str, Any]) -> str:
    """The very same job, made by the same person before: a form may be sent twice."""
    with parts.database.reading() as session:
        spec = canonical(site_job(fields, limits_of(library(session).rules)))
        made = site_jobs.specs_by(session, person.id)
    return next((job for job, known in made.items() if canonical(known) == spec), "")


class _Reading:
    """Reads every field, and keeps what is wrong with each."""

    def __init__(self, voice: Voice) -> None:
        self.voice = voice
        self.say = voice.say
        self.problems: list[Problem] = []

    def form(self, typed: Typed) -> dict[str, Any]:
        walls = typed["walls"]
        start = self._clock(("start",), typed["start"])
        leave_by = self._clock(("leave_by",), typed["leave_by"])
        if start and leave_by and start >= leave_by:
            wanted = self.say("later than %(time)s") % {"time": start}
            self._refuse(("leave_by",), typed["leave_by"], wanted)
        return {
            "name": self._text(("name",), typed["name"], LONGEST_NAME),
            "walls": [self._wall(i, wall, i + 1 == len(walls)) for i, wall in enumerate(walls)],
            "start": start,
            "leave_by": leave_by,
        }

    def _wall(self, i: int, wall: Typed, last: bool) -> dict[str, Any]:
        at: Path = ("walls", i)
        long = self._length((*at, "length"), wall["length"], "length")
        return {
            "corner": None if last else self._corner(i, wall["corner"]),
            "length_mm": long,
            "height_mm": self._length((*at, "height"), wall["height"], "height"),
            "cant_mm": self._length((*at, "cant"), wall["cant"] or "0", "cant"),
            "field_laps_mm": self._laps((*at, "field_laps"), wall["field_laps"], long),
            "field_lap_width_mm": self._length(
                (*at, "lap_width"), wall["lap_width"] or "100 mm", "lap_width"
            ),
            "told": self._text((*at, "told"), wall["told"], LONGEST_NAME),
            "behind": [
                part
                for k, stretch in enumerate(wall["behind"])
                if (part := self._behind((*at, "behind", k), stretch, long))
            ],
        }

    def _corner(self, i: int, typed: str | None) -> str | None:
        if typed in ("inside", "outside"):
            return typed
        names = {"this": wall_letter(i), "next": wall_letter(i + 1)}
        told = self.say("Say how wall %(next)s meets wall %(this)s.") % names
        self.problems.append(Problem(("walls", i, "corner"), told))
        return None

    def _laps(self, path: Path, typed: str, long: int | None) -> list[int]:
        """Positions with commas between them; what is wrong with the first that cannot be taken."""
        texts = [text.strip() for text in _BETWEEN.split(typed or "") if text.strip()]
        known = len(self.problems)
        if len(texts) > _MOST_LAPS:
            self._refuse(path, typed, self.say("at most %(n)d positions") % {"n": _MOST_LAPS})
        found = []
        for text in texts:
            at = self._length(path, text, "along", self._list_of_lengths())
            if at is not None and long is not None and at >= long:
                wanted = self.say("a place on the wall, before %(end)s")
                self._refuse(path, text, wanted % {"end": self.voice.along(long)})
            if len(self.problems) > known:
                return []
            found.append(at or 0)
        return found

    def _behind(self, path: Path, typed: Typed, long: int | None) -> dict[str, Any] | None:
        """One stretch that burns; without ends the whole wall. None where nothing does."""
        what, ends = typed["what"] or "", (typed["start"] or "", typed["end"] or "")
        if not what and any(ends):
            told = self.say("Say what burns there, or leave both ends empty.")
            self.problems.append(Problem((*path, "what"), told))
        if what not in COMBUSTIBLE:
            return None
        start = self._length((*path, "start"), ends[0] or "0", "along")
        end = self._length((*path, "end"), ends[1], "along") if ends[1] else long
        if start is not None and end is not None and long is not None:
            self._check_ends((*path, "end"), ends[1], (start, end, long))
        return {"what": what, "from_mm": start, "to_mm": end}

    def _check_ends(self, path: Path, typed: str, mm: tuple[int, int, int]) -> None:
        start, end, long = mm
        if not start < end <= long:
            given = {"from": self.voice.along(start), "to": self.voice.along(long)}
            self._refuse(path, typed, self.say("past %(from)s, and %(to)s at most") % given)

    def _text(self, path: Path, typed: str, longest: int) -> str:
        text = " ".join((typed or "").split())
        if not text or len(text) > longest or not text.isprintable():
            self._refuse(path, text, self.say("1 to %(n)d letters or digits") % {"n": longest})
        return text

    def _clock(self, path: Path, typed: str) -> str:
        try:
            return self.voice.clock(read_clock(str(path[-1]), typed or ""))
        except InputError as error:
            self._refuse(path, typed, error.allowed)
            return ""

    def _length(self, path: Path, typed: str, kind: str, wanted: str = "") -> int | None:
        """Whole millimetres; metres are taken too, where the unit is said."""
        units, text = self.voice.units, (typed or "").strip()
        metres = units.length == "mm" and _METRES.search(text)
        try:
            mm = (units.read_distance if metres else units.read_length)(str(path[-1]), text)
        except InputError as error:
            self._refuse(path, typed, wanted or error.allowed)
            return None
        low, high = int(_KINDS[kind].low or 0), int(_KINDS[kind].high or 0)
        near = _ROUNDED_MM if units.length == "in" else 0
        if low - near <= mm <= high + near:
            return min(max(round(mm), low), high)
        self._refuse(path, typed, self.voice.stretch(low, high))
        return None

    def _list_of_lengths(self) -> str:
        example = "600, 1600, 2600" if self.voice.units.length == "mm" else "24, 63 1/2, 8 ft 6 in"
        return self.say("lengths with commas between them: %(example)s") % {"example": example}

    def _refuse(self, path: Path, typed: str, wanted: str) -> None:
        self.problems.append(Problem(path, refused(self.voice, typed, wanted)))
