"""Passwords: which are good enough, and how they are kept and checked.

Policy: NIST SP 800-63B-4, 3.1.1.2 (at least 15 characters where the password stands alone, no
composition rules, a list of refused values) and OWASP ASVS 5.0 chapter 6, both from memory, held
against published cases in the tests. Kept with Argon2id.
"""

from __future__ import annotations

import os
import threading
import unicodedata
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from enum import StrEnum
from functools import cached_property

from argon2 import PasswordHasher, Type
from argon2.exceptions import InvalidHashError, VerifyMismatchError

from trainer.services.refusals import TooManyAtOnce

SHORTEST = 15
LONGEST = 256
_LEAST_OWN_LETTERS = 6
_SHORTEST_WORD = 3
_WAITING = 24

# common bases and keyboard runs, from memory
_COMMON_TEXT = """
password passwort passwd contrasena contraseña motdepasse senha parola haslo geheim secret
qwertyuiop qwertzuiop azertyuiop qwerty qwertz azerty asdfghjkl asdfgh asdf zxcvbnm zxcvb
letmein welcome bienvenido bienvenue admin administrator root user guest login signin
changeme default iloveyou monkey dragon football baseball sunshine princess superman
batman master hello abcdefghijklmnop abcdefgh abcdef abcd abc trustno summer winter spring
autumn 1234567890 0123456789 9876543210 0987654321 12345 54321 1234 4321 123 321 000 111
222 333 444 555 666 777 888 999 1q2w3e4r5t 1q2w3e4r 1q2w3e 1qaz2wsx qazwsx
roofing roofer roof parapet flashing torch
"""
_COMMON = tuple(_COMMON_TEXT.split())


class PasswordProblem(StrEnum):
    """Why a password is refused."""

    SHORT = "short"
    LONG = "long"
    COMMON = "common"
    OWN_WORDS = "own words"


def password_problem(password: str, own_words: Iterable[str] = ()) -> PasswordProblem | None:
    """Why ``password`` will not do, or None when it will.

    ``own_words``: the person's name, sign-in name, and the site's. A listed word may stand in a
    password as long as enough letters beside it do not come from any list.
    """
    password = _composed(password)
    if len(password) < SHORTEST:
        return PasswordProblem.SHORT
    if len(password) > LONGEST:
        return PasswordProblem.LONG
    if len(set(password.casefold())) == 1 or _made_of(password, _COMMON):
        return PasswordProblem.COMMON
    if _made_of(password, (*_COMMON, *_words(own_words))):
        return PasswordProblem.OWN_WORDS
    return None


def _made_of(password: str, listed: Iterable[str]) -> bool:
    """Whether little remains of the password once the listed words are taken out."""
    rest = password.casefold()
    for word in sorted(listed, key=len, reverse=True):  # parts must not hide wholes
        rest = rest.replace(word, " ")
    taken = rest != password.casefold()
    return taken and sum(character.isalpha() for character in rest) < _LEAST_OWN_LETTERS


def _words(texts: Iterable[str]) -> Iterator[str]:
    for text in texts:
        for word in (text, *text.split()):
            if len(word) >= _SHORTEST_WORD:
                yield _composed(word).casefold()


def _composed(password: str) -> str:
    """One form for letters that keyboards send in two ways; otherwise exactly as typed."""
    return unicodedata.normalize("NFC", password)


class Passwords:
    """Keeps and checks passwords, few at a time, so that a storm of sign-ins leaves room to work.

    One check takes tens of milliseconds and ``memory_kib`` of memory on purpose.
    """

    def __init__(self, memory_kib: int, passes: int, lanes: int, waiting: int = _WAITING) -> None:
        self._hasher = PasswordHasher(
            time_cost=passes, memory_cost=memory_kib, parallelism=lanes, type=Type.ID
        )
        self._at_work = threading.BoundedSemaphore(max(1, (os.cpu_count() or 2) // 2))
        self._admitted = threading.BoundedSemaphore(waiting)

    def hash(self, password: str) -> str:
        """What is kept in place of the password."""
        with self._place():
            return self._hasher.hash(_composed(password))

    def verify(self, kept: str | None, password: str) -> bool:
        """Whether the password is the one kept; the same work when there is none to check.

        Raises TooManyAtOnce when too many are waiting.
        """
        with self._place():
            return self._matches(kept or self._nobodys, password) and kept is not None

    def outdated(self, kept: str) -> bool:
        """Whether the password was kept at another cost than today's."""
        return self._hasher.check_needs_rehash(kept)

    @cached_property
    def _nobodys(self) -> str:
        return self._hasher.hash("nobody's password")

    def _matches(self, kept: str, password: str) -> bool:
        try:
            return self._hasher.verify(kept, _composed(password))
        except (VerifyMismatchError, InvalidHashError, UnicodeEncodeError):
            return False

    @contextmanager
    def _place(self) -> Iterator[None]:
        if not self._admitted.acquire(blocking=False):
            raise TooManyAtOnce
        try:
            with self._at_work:
                yield
        finally:
            self._admitted.release()
