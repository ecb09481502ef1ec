"""The whole scenario pack, read and checked together: all its problems at once, or none."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from pathlib import Path

from trainer.engine.spec import Family
from trainer.engine.trial import FigureCheck
from trainer.errors import InputError
from trainer.pack.agreement import Files
from trainer.pack.content import Lesson, Unit
from trainer.pack.drawable import deep_problems
from trainer.pack.families import Terms
from trainer.pack.jobs import JobSpec
from trainer.pack.memory import Memory
from trainer.pack.place import SCENARIOS
from trainer.pack.positions import PackError, Problem
from trainer.pack.reading import read_files
from trainer.roofing.rulebook import RuleBook

State = tuple[tuple[str, int, int], ...]


@dataclass(frozen=True)
class Pack:
    """Everything in ``scenarios/``. ``every_family`` and ``every_job`` also hold versions that are
    no longer drawn, so that old answers and installations can be worked out again."""

    book: RuleBook
    units: Mapping[str, Unit]
    every_family: Mapping[tuple[str, int], Family]
    lessons: Mapping[str, Lesson]
    terms: Terms
    misconceptions: Mapping[str, Mapping[str, str]]
    digest: str
    every_job: Mapping[tuple[str, int], JobSpec] = field(default_factory=dict)

    @cached_property
    def families(self) -> Mapping[str, Family]:
        """The newest version of every family, in the order of the units."""
        order = list(self.units)
        newest = {name: family for (name, _), family in sorted(self.every_family.items())}
        return dict(sorted(newest.items(), key=lambda item: order.index(item[1].unit)))

    def family(self, name: str, version: int | None = None) -> Family:
        """A family by name, the newest unless a version is asked for. Raises InputError."""
        if name not in self.families:
            raise InputError("family", name, f"one of {', '.join(self.families)}")
        if version is None:
            return self.families[name]
        found = self.every_family.get((name, version))
        if found is None:
            known = ", ".join(str(v) for n, v in self.every_family if n == name)
            raise InputError("family version", version, f"of {name}: {known}")
        return found

    @cached_property
    def jobs(self) -> Mapping[str, JobSpec]:
        """The newest version of every job, the easier levels first."""
        newest = {name: self.every_job[name, version] for name, version in sorted(self.every_job)}
        return dict(sorted(newest.items(), key=lambda item: (item[1].level, item[0])))

    def job(self, name: str, version: int | None = None) -> JobSpec:
        """A job by name, the newest unless a version is asked for. Raises InputError."""
        if name not in self.jobs:
            raise InputError("job", name, f"one of {', '.join(self.jobs) or 'none'}")
        if version is None:
            return self.jobs[name]
        found = self.every_job.get((name, version))
        if found is None:
            known = ", ".join(str(v) for n, v in self.every_job if n == name)
            raise InputError("job version", version, f"of {name}: {known}")
        return found

    def families_of(self, unit: str) -> tuple[Family, ...]:
        return tuple(family for family in self.families.values() if family.unit == unit)

    def unit(self, unit: str) -> Unit:
        """A unit by id. Raises InputError."""
        if unit not in self.units:
            raise InputError("unit", unit, f"one of {', '.join(self.units)}")
        return self.units[unit]

    def misconception(self, name: str, language: str) -> str:
        words = self.misconceptions.get(language) or self.misconceptions["en"]
        return words.get(name, "")


def load_pack(root: Path | None = None, figure_check: FigureCheck | None = None) -> Pack:
    """The pack in ``root``, kept while its files stay as they are.

    With ``figure_check`` a few scenarios of every family are drawn too, and their figures. Raises
    PackError with every problem of every file.
    """
    root = root or SCENARIOS
    try:
        state = tuple(sorted(_state(str(root))))
    except OSError:
        state = ()  # reading it says what is wrong
    _, pack, sound = _load(root, state)
    if figure_check and not sound and (found := _deep(root, state, figure_check)):
        raise PackError(list(found))
    return pack


def remember_in(folder: Path) -> None:
    """From now on, packs that are found sound are remembered in ``folder``."""
    _memories[:] = [Memory(folder)]


_memories: list[Memory] = []


@lru_cache(maxsize=4)
def _deep(root: Path, state: State, figure_check: FigureCheck) -> tuple[Problem, ...]:
    files, pack, _ = _load(root, state)
    found = tuple(deep_problems(files, figure_check))
    if not found:
        for memory in _memories:
            memory.learn(pack.digest)
    return found


def _state(folder: str) -> Iterator[tuple[str, int, int]]:
    """Name, time and size of every file of the pack: they tell whether any has changed."""
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.is_dir():
                yield from _state(entry.path)
            elif entry.name.endswith(".yaml"):
                found = entry.stat()
                yield entry.path, found.st_mtime_ns, found.st_size


@lru_cache(maxsize=4)
def _load(root: Path, state: State) -> tuple[Files, Pack, bool]:
    """The files, the pack they make, and whether that very pack was found sound before."""
    digest = _digest(root, state)
    sound = any(memory.knows(digest) for memory in _memories)
    files = read_files(root, sound)
    assert files.book and files.units and files.terms and files.misconceptions
    pack = Pack(
        files.book,
        {unit.id: unit for unit in files.units.made},
        {(read.made.id, read.made.version): read.made for read in files.families},
        {read.made.unit: read.made for read in files.lessons},
        files.terms.made,
        files.misconceptions.made,
        digest,
        {(read.made.id, read.made.version): read.made for read in files.jobs},
    )
    return files, pack, sound


def _digest(root: Path, state: State) -> str:
    """SHA-256 over names and contents of all files of the pack."""
    total = hashlib.sha256()
    for path in sorted(Path(name) for name, *_ in state):
        total.update(path.relative_to(root).as_posix().encode() + b"\0")
        total.update(hashlib.sha256(path.read_bytes()).digest())
    return total.hexdigest()
