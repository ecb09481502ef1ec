"""Is the example worked by hand whole: every drawn value given, every decision answered?"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from trainer.engine.flaws import Flaw, Path
from trainer.engine.functions import minute
from trainer.engine.spec import GO, DecisionSpec, Family, Mode, Worked


def worked_flaws(family: Family) -> Iterator[Flaw]:
    """Everything wrong with the example that can be told without working it out."""
    if family.worked is not None:
        yield from _values(family, family.worked)
        yield from _answers(family, family.worked)
    for language, words in family.words.items():
        path: Path = ("words", language, "worked")
        if family.worked is not None and not words.worked:
            yield Flaw(path, f'the example worked by hand has no words in "{language}"')
        if family.worked is None and words.worked:
            yield Flaw(path, "the family has no example worked by hand; give it one: worked")


def _values(family: Family, worked: Worked) -> Iterator[Flaw]:
    mode = family.modes.get(worked.mode)
    if mode is None:
        yield Flaw(("worked", "mode"), f"the family has no mode {worked.mode}")
        return
    for name in family.values:
        if name not in worked.values and not _is_formula(family, mode, name):
            yield Flaw(("worked", "values", name), f"missing; the mode {mode.id} draws it")
    for name, value in worked.values.items():
        yield from _value(family, mode, name, value)


def _value(family: Family, mode: Mode, name: str, value: Any) -> Iterator[Flaw]:
    path: Path = ("worked", "values", name)
    if name not in family.values:
        yield Flaw(path, "the family has no value of this name")
    elif _is_formula(family, mode, name):
        yield Flaw(path, "it is worked out by a formula; only what is drawn is given by hand")
    elif name.endswith("_at") and isinstance(value, str) and not _is_clock(value):
        yield Flaw(path, f'got "{value}"; allowed: a time of day such as "16:05"')


def _is_formula(family: Family, mode: Mode, name: str) -> bool:
    return mode.values.get(name, family.values[name]).formula is not None


def _answers(family: Family, worked: Worked) -> Iterator[Flaw]:
    specs = {spec.id: spec for spec in family.decisions}
    for name in specs:
        if name not in worked.answers and specs[name].when is None:
            yield Flaw(("worked", "answers", name), "missing; every decision has its answer")
    for name, stated in worked.answers.items():
        path: Path = ("worked", "answers", name)
        if name not in specs:
            yield Flaw(path, "no decision has this name")
        elif not _FITS[specs[name].kind](specs[name], stated):
            yield Flaw(path, f"got {stated!r}; allowed: {_allowed(specs[name])}")


def _allowed(spec: DecisionSpec) -> str:
    rows = ", ".join(option.id for option in spec.options if option.id != GO)
    return _ALLOWED[spec.kind].replace("ROWS", rows)


def _is_clock(value: Any) -> bool:
    try:
        minute(value)
    except ValueError:
        return False
    return True


def _is_number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _is_row(spec: DecisionSpec, value: Any) -> bool:
    return value in [option.id for option in spec.options]


def _is_place(spec: DecisionSpec, value: Any) -> bool:
    """A candidate, a place along the one axis, or one number for each axis."""
    if isinstance(value, list):
        return len(value) == len(spec.axes) and all(map(_is_number, value))
    return _is_row(spec, value) or (_is_number(value) and len(spec.axes) == 1)


def _is_grounds(spec: DecisionSpec, value: Any) -> bool:
    if isinstance(value, list):
        return bool(value) and all(_is_row(spec, ground) and ground != GO for ground in value)
    return value == GO or _is_row(spec, value)


def _is_texts(spec: DecisionSpec, value: Any) -> bool:
    return isinstance(value, list) and all(isinstance(part, str) for part in value)


_FITS: Mapping[str, Callable[[DecisionSpec, Any], bool]] = {
    "choose": _is_row,
    "go_stop": _is_grounds,
    "mark": lambda _, value: isinstance(value, str),
    "find": _is_texts,
    "place": _is_place,
    "measure": lambda _, value: _is_number(value),
    "time": lambda _, value: _is_clock(value),
    "order": _is_texts,
}
_ALLOWED: Mapping[str, str] = {
    "choose": "one of ROWS",
    "go_stop": "go, one of ROWS, or a list of those",
    "mark": "the id of one part, a text",
    "find": "a list of ids of parts, empty where nothing is wrong",
    "place": "one of ROWS, or the place itself in millimetres, a number for each axis",
    "measure": "a number",
    "time": 'a time of day such as "16:05"',
    "order": "a list of steps",
}
