"""Reads the files of the scenario pack so that every complaint names its file, line and field.

``read`` gives a :class:`Document`; ``problems`` compares it with a JSON Schema and gives all that
is wrong in it at once. Lines are looked up only when there is something to complain about.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any

import yaml
from yaml.nodes import Node

from trainer.errors import TrainerError, one_line
from trainer.pack.schema import Shape
from trainer.pack.yaml_values import Complaint, Steps, built, line_of, nodes

_ROOT = Path(__file__).resolve().parents[2]


@dataclass(frozen=True)
class Problem:
    """One thing wrong in a file: its line (0: the whole file), the field, and what is allowed."""

    file: str
    line: int
    where: str
    message: str
    steps: Steps = field(default=(), compare=False)

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}" if self.line else self.file
        return (
            f"{place}: {self.where}: {self.message}" if self.where else f"{place}: {self.message}"
        )


class PackError(TrainerError):
    """Files of the pack that cannot be taken: all their problems, a line each."""

    def __init__(self, problems: list[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))


@dataclass(frozen=True)
class Document:
    """One file: its text, and its value once asked for."""

    file: str
    text: str = field(repr=False)
    content: Any = field(repr=False)
    found: tuple[Complaint, ...] = ()
    """What was wrong with field names, found while reading: the way to it and a message."""
    sound: bool = False
    """This very text was checked before, and nothing was wrong: it need not be checked again."""

    @property
    def value(self) -> Any:
        """The plain value. Raises PackError when a field is given twice or has no proper name."""
        if self.found:
            raise PackError(self.own_problems())
        return self.content

    def own_problems(self) -> list[Problem]:
        return [self.problem(steps, message) for steps, message in self.found]

    def problem(self, steps: Steps, message: str) -> Problem:
        """A complaint about the value at ``steps``, with its line."""
        return Problem(self.file, self.line(steps), where(steps), message, steps)

    def line(self, steps: Steps) -> int:
        """The line, from 1, of the value at ``steps``, or of the nearest thing around it."""
        return line_of(self._root, steps)

    @cached_property
    def _root(self) -> Node | None:
        return nodes(self.text)


def read(path: Path | str, sound: bool = False) -> Document:
    """The file at ``path``, in UTF-8. Raises PackError: not there, not text, not YAML."""
    path = Path(path)
    file = _shown_path(path)
    return parse(_text(path, file), file, sound)


def parse(text: str, file: str, sound: bool = False) -> Document:
    """``text`` as the content of ``file``. Raises PackError when it is not YAML."""
    try:
        content, found = built(nodes(text))
    except yaml.YAMLError as error:
        raise PackError([_syntax(file, text, error)]) from None
    except RecursionError:
        raise PackError([Problem(file, 0, "", "nested too deeply, or refers to itself")]) from None
    return Document(file, text, content, found, sound)


def problems(document: Document, schema: Mapping[str, Any] | Shape) -> list[Problem]:
    """Everything that is wrong in a document, in the order of its lines; empty when it is sound.

    A schema that many files share is best made a :class:`Shape` once.
    """
    if document.sound:
        return []
    shape = schema if isinstance(schema, Shape) else Shape(schema)
    found = [*document.found, *shape.complaints(document.content)]
    return sorted((document.problem(*each) for each in found), key=lambda problem: problem.line)


def where(steps: Steps) -> str:
    """``steps`` as a person writes them: ``rules[3].unit``."""
    text = "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in steps)
    return one_line(text.removeprefix("."))


def _shown_path(path: Path) -> str:
    """The path from the project's folder where it lies in it: no machine's folders in a message."""
    absolute = path.absolute()
    return (absolute.relative_to(_ROOT) if absolute.is_relative_to(_ROOT) else path).as_posix()


def _text(path: Path, file: str) -> str:
    try:
        data = path.read_bytes()
    except OSError as error:
        reason = "no such file" if isinstance(error, FileNotFoundError) else error.strerror
        raise PackError([Problem(file, 0, "", f"cannot be read: {reason}")]) from None
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise PackError([Problem(file, line, "", "not UTF-8; save the file as UTF-8")]) from None


_ADVICE = (
    ("mapping values are not allowed", 'put a text that holds ": " in quotes'),
    (" at '\\t'", "indent with spaces, not with a tab"),
    ("expected <block end>", "look at the indentation here and in the line above"),
    ("could not find expected ':'", "a field name needs a colon and a space after it"),
    ("quoted scalar", "a quote is opened and not closed"),
    ("undefined alias", "a text that begins with * stands in quotes"),
)


def _syntax(file: str, text: str, error: yaml.YAMLError) -> Problem:
    reason = _reason(text, error)
    advice = [advice for sign, advice in _ADVICE if sign in reason]
    message = one_line("; ".join([f"not readable as YAML: {reason}", *advice]))
    return Problem(file, _error_line(text, error), "", message)


def _error_line(text: str, error: yaml.YAMLError) -> int:
    if isinstance(error, yaml.MarkedYAMLError):
        mark = error.problem_mark or error.context_mark
        return mark.line + 1 if mark else 0
    position = getattr(error, "position", None)
    return text.count("\n", 0, position) + 1 if isinstance(position, int) else 0


def _reason(text: str, error: yaml.YAMLError) -> str:
    if not isinstance(error, yaml.MarkedYAMLError):
        return str(getattr(error, "reason", error))
    reason = " ".join(part for part in (error.context, error.problem) if part)
    if mark := error.problem_mark:
        at = text.splitlines()[mark.line : mark.line + 1]
        reason += f" at {at[0][mark.column :][:1]!r}" if at and at[0][mark.column :] else ""
    return reason
