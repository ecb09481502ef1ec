"""Reads every file of the pack, collecting problems instead of stopping at the first."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from trainer.pack.agreement import Files, Read, disagreements
from trainer.pack.content import lesson_of, misconceptions_of, terms_of, units_of
from trainer.pack.families import family_of
from trainer.pack.jobs import clear_mm_of, job_of
from trainer.pack.positions import Document, PackError, Problem, read
from trainer.pack.rulebook import load_rulebook

Made = TypeVar("Made")


def read_files(root: Path, sound: bool = False) -> Files:
    """Everything in the pack at ``root``. Raises PackError with every problem of every file.

    ``sound``: these very files were checked before, and nothing was wrong.
    """
    reader = _Reader(root, sound)
    files = reader.files()
    found = [*reader.found, *(() if sound else disagreements(files))]
    if found:
        raise PackError(found)
    return files


class _Reader:
    def __init__(self, root: Path, sound: bool) -> None:
        self.root = root
        self.sound = sound
        self.found: list[Problem] = []
        self.unread: list[Document] = []

    def files(self) -> Files:
        book = self._tried(lambda: load_rulebook(self.root / "rulebook.yaml", self.sound))
        terms = self._one("terms.yaml", terms_of)
        subjects = book.subjects if book else None
        known = terms.made if terms else None
        clear_mm = clear_mm_of(book.in_force()) if book else 0
        return Files(
            book=book,
            units=self._one("units.yaml", units_of),
            terms=terms,
            misconceptions=self._one("misconceptions.yaml", misconceptions_of),
            families=self._all("families", lambda found: family_of(found, subjects, known)),
            lessons=self._all("lessons", lesson_of),
            jobs=self._all("jobs", lambda found: job_of(found, clear_mm)),
            unread=frozenset(filter(None, map(_family_named, self.unread))),
        )

    def _tried(self, make: Callable[[], Made]) -> Made | None:
        try:
            return make()
        except PackError as error:
            self.found += error.problems
            return None

    def _read(self, path: Path, make: Callable[[Document], Made]) -> Read[Made] | None:
        document = self._tried(lambda: read(path, self.sound))
        made = self._tried(lambda: make(document)) if document else None
        if document and made is not None:
            return Read(document, made)
        self.unread += [document] if document else []
        return None

    def _one(self, name: str, make: Callable[[Document], Made]) -> Read[Made] | None:
        return self._read(self.root / name, make)

    def _all(self, folder: str, make: Callable[[Document], Made]) -> tuple[Read[Made], ...]:
        paths = sorted((self.root / folder).rglob("*.yaml"))
        read_ones = [self._read(path, make) for path in paths]
        return tuple(one for one in read_ones if one is not None)


def _family_named(document: Document) -> str:
    name = document.content.get("family") if isinstance(document.content, dict) else None
    return name if isinstance(name, str) else ""
