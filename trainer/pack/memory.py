"""Which packs were found sound before: what was checked once, byte for byte, is not checked again.

A verdict holds for the same files and the same program. Both are named by a hash, so that a changed
letter, or a changed line of code that checks, has everything checked anew. Only what is sound is
remembered. Without a folder, or in one that cannot be written, nothing is.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

_FILE = "sound-packs"
_KEPT = 8
_PROGRAM = Path(__file__).resolve().parents[1]
_CHECKERS = ("roofing", "engine", "installation", "drawing", "pack", "services")


@dataclass(frozen=True)
class Memory:
    """Verdicts in one file of ``folder``."""

    folder: Path

    def knows(self, digest: str) -> bool:
        """Whether this program found the pack of that digest sound, drawn and all."""
        return _verdict(digest) in self._lines()

    def learn(self, digest: str) -> None:
        """Keeps that the pack of that digest is sound; the oldest verdicts are forgotten."""
        kept = [line for line in self._lines() if line != _verdict(digest)]
        text = "\n".join([*kept, _verdict(digest)][-_KEPT:]) + "\n"
        fresh = self.folder / f"{_FILE}.{os.getpid()}"
        with contextlib.suppress(OSError):  # a full or read-only disk: check again next time
            fresh.write_text(text, "utf-8")
            fresh.replace(self.folder / _FILE)

    def _lines(self) -> list[str]:
        try:
            return (self.folder / _FILE).read_text("utf-8").splitlines()
        except (OSError, UnicodeDecodeError):
            return []


def _verdict(digest: str) -> str:
    return f"{digest} {_program()}"


@cache
def _program() -> str:
    """Names the program as it is now: name, time and size of every module that checks."""
    total = hashlib.sha256()
    for path, changed, size in sorted(_modules()):
        total.update(f"{path}\0{changed}\0{size}\0".encode())
    return total.hexdigest()


def _modules() -> Iterator[tuple[str, int, int]]:
    for package in _CHECKERS:
        for path in (_PROGRAM / package).rglob("*.py"):
            found = path.stat()
            yield str(path), found.st_mtime_ns, found.st_size
