"""What can be done at a place, and the fields that are filled in for it, worded and prefilled."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

from trainer.services.installations.words import Voice
from trainer.services.pages import Row

EntryKind = Literal["length", "lengths", "count", "choice", "tick"]


@dataclass(frozen=True)
class Entry:
    """One field of an option.

    ``raw``: the obvious values, in millimetres where it is a length; none where there is no obvious
    one. ``texts`` say them as the worker types them. ``rows`` are what a choice chooses from.
    ``needed``: whether it may stay empty.
    """

    name: str
    kind: EntryKind
    label: str
    raw: tuple[Any, ...] = ()
    texts: tuple[str, ...] = ()
    unit: str = ""
    rows: tuple[Row, ...] = ()
    needed: bool = True
    hint: str = ""

    @property
    def text(self) -> str:
        return self.texts[0] if self.texts else ""

    @property
    def pairs(self) -> tuple[tuple[str, str], ...]:
        """Each text with the exact value it stands for: inches on a page are rounded."""
        return tuple(
            (text, f"{value}|{text}") for text, value in zip(self.texts, self.raw, strict=True)
        )


@dataclass(frozen=True)
class Option:
    """One thing that can be done: the sentence, its minutes, its fields, who can do it.

    ``fixed`` go with the form as they are. ``by`` and ``helper`` are chosen beforehand: who did the
    like last. ``cannot`` is nature's reason why not now, or "".
    """

    id: str
    act: str
    label: str
    minutes: str
    fixed: tuple[tuple[str, str], ...] = ()
    entries: tuple[Entry, ...] = ()
    who: tuple[Row, ...] = ()
    helpers: tuple[Row, ...] = ()
    by: str = ""
    helper: str = ""
    cannot: str = ""


def length(voice: Voice, name: str, label: str, mm: int | None, hint: str = "") -> Entry:
    """A length to type; ``mm`` is the obvious value, None where there is none."""
    raw = () if mm is None else (mm,)
    texts = tuple(typed(voice, value) for value in raw)
    return Entry(name, "length", label, raw, texts, _sign(voice), hint=hint)


def lengths(voice: Voice, name: str, label: str, values: Sequence[int], hint: str = "") -> Entry:
    """A row of lengths, with room for one more."""
    texts = tuple(typed(voice, value) for value in values)
    return Entry(
        name, "lengths", label, tuple(values), texts, _sign(voice), needed=False, hint=hint
    )


def count(name: str, label: str, value: int) -> Entry:
    return Entry(name, "count", label, (value,), (str(value),))


def choice(
    name: str, label: str, rows: Sequence[Row], value: str = "", needed: bool = True
) -> Entry:
    """One of a few; ``value`` is chosen beforehand."""
    return Entry(name, "choice", label, (value,), (value,), rows=tuple(rows), needed=needed)


def tick(name: str, label: str, on: bool) -> Entry:
    return Entry(name, "tick", label, (on,), ("true" if on else "",), needed=False)


def typed(voice: Voice, mm: int) -> str:
    """A length as one would type it: "4200" or "13 ft 9 3/8 in"."""
    return voice.units.say_length(mm) if voice.units.length == "in" else str(mm)


def _sign(voice: Voice) -> str:
    return "" if voice.units.length == "in" else "mm"
