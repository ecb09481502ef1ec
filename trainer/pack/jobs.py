"""The reader of ``scenarios/jobs``: YAML into jobs that can be drawn, all of a file's problems.

A file is read in three steps, each only where the one before found nothing to mend: its shape, what
its draws and their names say of each other, and a few draws: every range at both ends, every choice
of a list, and some seeds.
"""

from __future__ import annotations

import difflib
import math
import random
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import product
from typing import Any

from trainer.errors import InputError, shown
from trainer.installation.draw_job import draw_job, drawn, layout
from trainer.installation.job import Job
from trainer.installation.read_job import read_job
from trainer.pack.jobs_shape import TEXTS, misshapen, sort_of
from trainer.pack.positions import Document, PackError
from trainer.pack.yaml_values import Complaint, Steps
from trainer.roofing.rulebook import InForce
from trainer.roofing.sheets import Stuck

SEEDS_TRIED = 4


@dataclass(frozen=True)
class JobSpec:
    """One file of ``scenarios/jobs``. ``spec`` is all of it, as ``draw_job`` takes it."""

    id: str
    version: int
    level: int
    title: Mapping[str, str]
    brief: Mapping[str, str]
    spec: Mapping[str, Any] = field(repr=False, compare=False)

    def title_in(self, language: str) -> str:
        return self.title.get(language) or self.title["en"]

    def brief_in(self, language: str) -> str:
        return self.brief.get(language) or self.brief["en"]

    def drawn(self, seed: int, clear_mm: int, language: str = "en") -> Job:
        """The job of a seed (from 0), its texts in a language, or in English where it has none.

        ``clear_mm``: what laps keep from laps of the field, see :func:`clear_mm_of`. Raises
        InputError for a seed that is no whole number from 0, or when nothing can be drawn.
        """
        texts = {"title": self.title_in(language), "brief": self.brief_in(language)}
        return draw_job({**self.spec, **texts}, seed, clear_mm)


def clear_mm_of(rules: InForce) -> int:
    """What the rules in force ask laps to keep from laps of the field: whole millimetres, up.

    0 where no rule in force gives a number that may mark anybody.
    """
    if "lap-clearance" not in rules.by_subject or not rules.may_grade("lap-clearance"):
        return 0
    return math.ceil(rules.rule("lap-clearance").value or 0)


def job_of(document: Document, clear_mm: int = 0) -> JobSpec:
    """The job in a file. Raises PackError with all that is wrong in its shape, sense and draws."""
    if document.sound:
        return _spec(document.content)
    found = [*document.found, *misshapen(document.content)]
    if isinstance(document.content, Mapping):
        found += _misnamed(document.content)
    if not found:
        found += _undrawable(_spec(document.content), clear_mm)
    if found:
        told = [document.problem(*each) for each in found]
        raise PackError(sorted(told, key=lambda problem: problem.line))
    return _spec(document.content)


def _spec(data: Mapping[str, Any]) -> JobSpec:
    return JobSpec(
        data["id"], data["version"], data["level"], data["title"], data["brief"], spec=data
    )


# ---- what the draws and their names say of each other ---------------------------------------


def _misnamed(data: Mapping[str, Any]) -> Iterator[Complaint]:
    draws = data.get("draws")
    draws = draws if isinstance(draws, Mapping) else {}
    used = set()
    for steps, word, name, part in _uses(data):
        used.add(name)
        yield from _odd_use((*steps, word), name, part, draws)
    for name in draws:
        if name not in used:
            yield ("draws", name), "drawn and never used"


def _uses(part: Any, steps: Steps = ()) -> Iterator[tuple[Steps, str, str, Mapping[str, Any]]]:
    """Every use of a drawn value: where, by which word, its name, and the block it stands in."""
    if isinstance(part, Mapping):
        for word in ("of", "if"):
            if isinstance(part.get(word), str):
                yield steps, word, part[word], part
        for key, value in part.items():
            if steps or key not in ("draws", *TEXTS):
                yield from _uses(value, (*steps, key))
    elif isinstance(part, list):
        for i, value in enumerate(part):
            yield from _uses(value, (*steps, i))


def _odd_use(
    steps: Steps, name: str, part: Mapping[str, Any], draws: Mapping[str, Any]
) -> Iterator[Complaint]:
    if name not in draws:
        near = difflib.get_close_matches(name, draws, n=1)
        hint = f" (did you mean {near[0]}?)" if near else ""
        known = ", ".join(draws) or "there are none"
        yield steps, f"got {shown(name)}; allowed: one of the draws: {known}{hint}"
        return
    sorts = _sorts(draws[name])
    if steps[-1] == "if" and sorts != {"flag"}:
        yield steps, f"got {shown(name)}; allowed: a draw with one_of: [true, false]"
    if part.get("plus") and sorts not in ({"number"}, {"time"}):
        yield steps, f"got {shown(name)} with plus; allowed: a draw of whole numbers or of times"


def _sorts(how: Any) -> set[str]:
    values = (how.get("one_of") or how.get("between")) if isinstance(how, Mapping) else ()
    return {sort_of(value) for value in values} if isinstance(values, list) else set()


# ---- a few draws ----------------------------------------------------------------------------


class _Ends(random.Random):
    """Draws no chance: ranges at one end, lists at one place."""

    def __init__(self, place: int, end: int) -> None:
        super().__init__(0)
        self.place, self.end = place, end

    def choice(self, seq: Any) -> Any:
        return seq[self.place % len(seq)]

    def randrange(self, start: int, stop: int | None = None, step: int = 1) -> int:
        return range(start, stop or start, step)[self.end]


def _undrawable(job: JobSpec, clear_mm: int) -> Iterator[Complaint]:
    """What comes to nothing when it is drawn, each place once."""
    said: set[Steps] = set()
    for complaint in (*_at_the_ends(job), *_by_seed(job, clear_mm)):
        if complaint[0] not in said:
            said.add(complaint[0])
            yield complaint


def _at_the_ends(job: JobSpec) -> Iterator[Complaint]:
    texts = {"title": job.title["en"], "brief": job.brief["en"]}
    lists = [len(how.get("one_of", ())) for how in job.spec.get("draws", {}).values()]
    for place, end in product(range(max([1, *lists])), (0, -1)):
        try:
            read_job(drawn({**job.spec, **texts}, _Ends(place, end)))
        except InputError as error:
            yield _complaint(error, "at the end of a range, or with one entry of a list")
        except (TypeError, ValueError) as error:
            yield ("draws",), f"these draws cannot be put in: {error} (at the end of a range)"


def _by_seed(job: JobSpec, clear_mm: int) -> Iterator[Complaint]:
    for seed in range(SEEDS_TRIED):
        try:
            made = job.drawn(seed, clear_mm)
        except InputError as error:
            yield _complaint(error, f"with seed {seed}")
            continue
        except (TypeError, ValueError) as error:
            yield ("draws",), f"these draws cannot be put in: {error} (with seed {seed})"
            continue
        due, there = strips_due(made, clear_mm), len(made.rolls) * made.strips_per_roll
        if there < due:
            message = (
                f"got strips for {there} sheets; allowed: for {due} or more (with seed {seed})"
            )
            yield ("rolls",), message


def strips_due(job: Job, clear_mm: int) -> int:
    """How many strips a job takes: the fewest sheets on its walls, and two at every corner."""
    count = 2 * len(job.corners)
    for wall in job.walls:
        found = layout(job, wall.id, clear_mm)
        count += 0 if isinstance(found, Stuck) else len(found.sheets)
    return count


def _complaint(error: InputError, when: str) -> Complaint:
    message = str(error).removeprefix(f"{error.field}: ")
    return _steps(error.field), f"{message} ({when})"


def _steps(name: str) -> Steps:
    """A field's name as the way to it: ``walls[0].length_mm``."""
    parts = re.findall(r"[^.\[\]\s]+", name)
    return tuple(int(part) if part.isdigit() else part for part in parts)
