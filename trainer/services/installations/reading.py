"""A decision as a form sends it, read in the worker's own units: texts become numbers.

What a number may be, and whether nature allows it, the core says. A field that still holds the
text it was filled with stands for exactly the value it was filled with: inches are shown rounded.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from trainer.errors import InputError, MissingField
from trainer.installation.actions import ACTIONS, FOR_ALL
from trainer.installation.state import Decision
from trainer.roofing.contract import Each, Field, Number
from trainer.services.installations.words import Voice

Form = Mapping[str, Sequence[str]]
"""What was sent: every field's texts, in order."""

_READ_UP = frozenset({"lap_mm", "distance", "reach", "off"})
"""Lengths that a rule asks at least so much of: 3 in is 77 mm, not 0.2 mm short of itself."""
_PEOPLE = ("who", "with")
_NUMBERS = ("through", "minutes")
_MOST_MM = 60_000


def read_form(voice: Voice, form: Form) -> Decision:
    """The decision a form stands for. Raises InputError naming the field as the form does."""
    do = _one(form, "do")
    if do in FOR_ALL:
        return {"do": do, **_numbers(form)}
    act = ACTIONS.get(do)
    if act is None:
        raise InputError("do", do, "one of the things that can be done here")
    decision: Decision = {"do": do}
    for field in act.fields:
        if field.name in form or field.required:
            decision[field.name] = _read(voice, form, field)
    decision |= {name: text for name in _PEOPLE if (text := _one(form, name))} | _numbers(form)
    if do == "lay":
        decision["rolling"] = _one(form, "rolling") == "true"
    return decision


def _numbers(form: Form) -> Decision:
    return {name: _whole(name, text) for name in _NUMBERS if (text := _one(form, name))}


def _one(form: Form, name: str) -> str:
    texts = form.get(name) or ("",)
    return texts[0].strip()


def _read(voice: Voice, form: Form, field: Field) -> Any:
    kind, texts = field.kind, [text.strip() for text in form.get(field.name, ())]
    texts = [text for text in texts if text]
    if isinstance(kind, Each):
        return [_length(voice, form, field.name, text) for text in texts]
    if not texts:
        raise MissingField(field.name, _wanted(voice, field))
    if isinstance(kind, Number):
        if kind.unit == "mm":
            return _length(voice, form, field.name, texts[0])
        return _whole(field.name, texts[0])
    return int(texts[0]) if field.name == "number" and texts[0].isdecimal() else texts[0]


def _wanted(voice: Voice, field: Field) -> str:
    if isinstance(field.kind, Number) and field.kind.unit == "mm":
        return voice.say("a length in %(unit)s") % {"unit": voice.units.length}
    return voice.say(field.kind.describe())


def _length(voice: Voice, form: Form, name: str, text: str) -> int:
    filled = dict(_as_filled(form, name))
    if text in filled:
        return filled[text]
    mm = voice.units.read_length(name, text)
    if not 0 <= mm <= _MOST_MM:
        wanted = voice.say("a length from 0 to %(most)s") % {"most": voice.along(_MOST_MM)}
        raise InputError(name, text, wanted)
    to_whole: Callable[[float], int] = math.ceil if name in _READ_UP else round
    return to_whole(round(mm, 3))


def _as_filled(form: Form, name: str) -> list[tuple[str, int]]:
    """The texts a field was filled with and their exact millimetres: "4200|13 ft 9 3/8 in"."""
    found = []
    for pair in form.get(f"{name}-filled", ()):
        value, _, text = pair.partition("|")
        if value.isdecimal() and len(value) <= len(str(_MOST_MM)):
            found.append((text, int(value)))
    return found


def _whole(name: str, text: str) -> int:
    if not (text.isascii() and text.isdecimal() and len(text) <= 4):
        raise InputError(name, text, "a whole number from 0 to 9999")
    return int(text)
