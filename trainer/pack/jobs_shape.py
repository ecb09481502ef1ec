"""What a job's file may hold: the job's own fields, with drawn values in their places.

Every field but the name, version, level and texts may hold what its kind takes, or what is drawn:
``{of: name}``, ``{of: name, plus: 30}`` or ``{if: name, then: …, else: …}``. The kinds of
``job_fields`` say what is allowed; here all of it that is wrong is said at once.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Collection, Iterator, Mapping
from typing import Any

from trainer.errors import InputError, shown
from trainer.installation.job_fields import EVERY, FIELDS
from trainer.pack.yaml_values import Complaint, Steps
from trainer.roofing.contract import Each, Field, Kind, Nullable, Number, Pair, Record, Text

PLAIN = ("id", "version", "level")
"""What names a job: never drawn."""
TEXTS = ("title", "brief")
"""What is said of it: by language, never drawn."""
_NAME = re.compile(r"[a-z][a-z0-9_]*", re.ASCII)
_WHOLE = Number(whole=True)
_STEP = Number(low=1, whole=True)
_BLOCK = "a block of fields"


def misshapen(data: Any) -> Iterator[Complaint]:
    """Everything in a job's file that is not there, not known, or not of its kind."""
    if not isinstance(data, Mapping):
        yield (), f"got {shown(data)}; allowed: {_BLOCK}"
        return
    given = {name: part for name, part in data.items() if name not in TEXTS}
    yield from _names(data, [*(f.name for f in FIELDS), "draws"], ())
    for field in FIELDS:
        if field.name in TEXTS:
            yield from _texts(data.get(field.name), (field.name,))
        elif field.name in PLAIN and field.name in given:
            yield from _read(field.kind, given[field.name], (field.name,))
        else:
            yield from _field(field, given, ())
    yield from _draws(given.get("draws", {}))


def _texts(value: Any, steps: Steps) -> Iterator[Complaint]:
    """A text for every language, English among them."""
    allowed = "a text for each language, English (en) among them"
    if not isinstance(value, Mapping):
        yield steps, f"{'missing' if value is None else f'got {shown(value)}'}; allowed: {allowed}"
        return
    if "en" not in value:
        yield (*steps, "en"), "missing; allowed: text, not empty"
    for language, text in value.items():
        yield from _read(Text(), text, (*steps, language))


def _field(field: Field, given: Mapping[str, Any], steps: Steps) -> Iterator[Complaint]:
    here = (*steps, field.name)
    if field.name in given:
        yield from _value(field.kind, given[field.name], here)
    elif field.required:
        yield here, f"missing; allowed: {field.kind.describe()}"


def _value(kind: Kind, value: Any, steps: Steps) -> Iterator[Complaint]:
    """What is wrong with a value of a kind, or with what is drawn in its place."""
    block = isinstance(value, Mapping)
    if block and "of" in value:
        yield from _names(value, ("of", "plus"), steps)
        yield from _name(value["of"], (*steps, "of"))
        yield from _read(_WHOLE, value.get("plus", 0), (*steps, "plus"))
    elif block and "if" in value:
        yield from _choice(kind, value, steps)
    elif block and "every" in value and steps[-1:] == ("field_laps",):
        yield from _record(EVERY, value, steps)
    else:
        yield from _direct(kind, value, steps)


def _choice(kind: Kind, value: Mapping[str, Any], steps: Steps) -> Iterator[Complaint]:
    yield from _names(value, ("if", "then", "else"), steps)
    yield from _name(value["if"], (*steps, "if"))
    for word in ("then", "else"):
        if word in value:
            yield from _value(kind, value[word], (*steps, word))
        else:
            yield (*steps, word), f"missing; allowed: {kind.describe()}"


def _direct(kind: Kind, value: Any, steps: Steps) -> Iterator[Complaint]:
    match kind:
        case Nullable():
            if value is not None:
                yield from _direct(kind.inner, value, steps)
        case Record():
            yield from _record(kind, value, steps)
        case Each() | Pair() if isinstance(value, list):
            size = Each(_Anything(), kind.least, kind.most) if isinstance(kind, Each) else None
            whole = size or Pair(_Anything(), kind.describe())
            yield from _read(whole, value, steps, kind.describe())
            for i, part in enumerate(value):
                yield from _value(kind.inner, part, (*steps, i))
        case _:
            yield from _read(kind, value, steps)


class _Anything(Kind):
    """Stands for the entries of a list while its length is looked at."""

    def describe(self) -> str:
        return "anything"

    def read(self, name: str, value: Any) -> Any:
        return value


def _record(kind: Record, value: Any, steps: Steps) -> Iterator[Complaint]:
    if not isinstance(value, Mapping):
        yield steps, f"got {shown(value)}; allowed: {kind.describe()}"
        return
    yield from _names(value, [f.name for f in kind.fields], steps)
    for field in kind.fields:
        yield from _field(field, value, steps)


def _names(value: Mapping[str, Any], known: Collection[str], steps: Steps) -> Iterator[Complaint]:
    for name in value:
        if name not in known:
            near = difflib.get_close_matches(name, known, n=1)
            hint = f" (did you mean {near[0]}?)" if near else ""
            yield (*steps, name), f"no such field; allowed: {', '.join(known)}{hint}"


def _name(value: Any, steps: Steps) -> Iterator[Complaint]:
    if not isinstance(value, str) or not _NAME.fullmatch(value):
        allowed = "a name of small letters, digits and underscores"
        yield steps, f"got {shown(value)}; allowed: {allowed}"


def _read(kind: Kind, value: Any, steps: Steps, allowed: str = "") -> Iterator[Complaint]:
    try:
        kind.read("", value)
    except InputError as error:
        yield steps, f"got {shown(value)}; allowed: {allowed or error.allowed}"


def _draws(value: Any) -> Iterator[Complaint]:
    if not isinstance(value, Mapping):
        yield ("draws",), f"got {shown(value)}; allowed: {_BLOCK}"
        return
    for name, how in value.items():
        yield from _name(name, ("draws", name))
        yield from _draw(how, ("draws", name))


def _draw(how: Any, steps: Steps) -> Iterator[Complaint]:
    if not isinstance(how, Mapping) or ("between" in how) == ("one_of" in how):
        yield steps, f"got {shown(how)}; allowed: a block of between and step, or of one_of"
        return
    yield from _names(how, ("between", "step", "one_of"), steps)
    if "step" in how:
        yield from _read(_STEP, how["step"], (*steps, "step"))
    if "one_of" in how:
        yield from _read(Each(_Anything(), least=1), how["one_of"], (*steps, "one_of"))
        return
    ends = how["between"]
    sorts = {sort_of(end) for end in ends} if isinstance(ends, list) and len(ends) == 2 else set()
    if sorts not in ({"number"}, {"time"}):
        allowed = 'two whole numbers or two times "HH:MM"'
        yield (*steps, "between"), f"got {shown(ends)}; allowed: {allowed}"
    elif ends[0] > ends[1]:
        yield (*steps, "between"), f"got {shown(ends)}; allowed: the lower end first"


_CLOCK = re.compile(r"(?:[01]\d|2[0-3]):[0-5]\d", re.ASCII)


def sort_of(value: Any) -> str:
    """What a drawn value can be used as: "flag", "number", "time" or "other"."""
    if isinstance(value, bool):
        return "flag"
    if isinstance(value, int):
        return "number"
    return "time" if isinstance(value, str) and _CLOCK.fullmatch(value) else "other"
