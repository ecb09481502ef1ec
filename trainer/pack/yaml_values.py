"""Plain values out of YAML text, and the line on which each of them stands.

Values are built straight from the nodes of libyaml, which is quicker than PyYAML's own
constructor. Scalars are read as YAML 1.2 reads them (core schema): ``no`` is a word and ``12:30``
is a text, not 750. A field given twice, a field name that is no text, merge keys and tags are
complained about.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from typing import Any

import yaml
from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from trainer.errors import one_line, shown

try:
    from yaml import CSafeLoader as _BaseLoader
except ImportError:  # PyYAML built without libyaml: the same result, slower
    from yaml import SafeLoader as _BaseLoader  # type: ignore[assignment]

_TAG = "tag:yaml.org,2002:"

Steps = tuple[str | int, ...]
"""The way to a value: field names and list indices, from the outside in."""

Complaint = tuple[Steps, str]
"""The way to a value and what is wrong with it."""


def nodes(text: str) -> Node | None:
    """The node tree of ``text``. Raises yaml.YAMLError."""
    root: Node | None = yaml.compose(text, Loader=_Loader)
    return root


def built(node: Node | None) -> tuple[Any, tuple[Complaint, ...]]:
    """The plain value of a node tree, and what is wrong with its field names and tags.

    Raises RecursionError for a structure that is nested too deeply or refers to itself.
    """
    found: list[Complaint] = []
    return (None if node is None else _built(node, (), found)), tuple(found)


def line_of(root: Node | None, steps: Steps) -> int:
    """The line, from 1, of the value at ``steps``, or of the nearest thing around it."""
    node, line = root, 1
    for step in steps:
        found = _step(node, step)
        if found is None:
            break
        line, node = found
    return line


_STR, _SEQ, _MAP = _TAG + "str", _TAG + "seq", _TAG + "map"
_FORM = re.compile(
    r"(?:([-+]?[0-9]+)"
    r"|([-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?)"
    r"|(true|false)"
    r"|(~|null|))$"
)
_FORMS = ("", _TAG + "int", _TAG + "float", _TAG + "bool", _TAG + "null")
_FIRSTS = frozenset("-+.0123456789tf~n")


class _Loader(_BaseLoader):
    """libyaml's parser with the scalars of the YAML 1.2 core schema."""

    def resolve(self, kind: type, value: str, implicit: tuple[bool, bool]) -> str:
        """The tag of a value that bears none; PyYAML's own way does more, twice as slowly."""
        if kind is not ScalarNode:
            return _MAP if kind is MappingNode else _SEQ
        if implicit[0] and (not value or value[0] in _FIRSTS) and (form := _FORM.match(value)):
            return _FORMS[form.lastindex or 0]
        return _STR


_SCALARS: dict[str, Callable[[str], Any]] = {
    _TAG + "str": str,
    _TAG + "int": int,
    _TAG + "float": lambda text: _finite(float(text)),
    _TAG + "null": {"": None, "~": None, "null": None}.__getitem__,
    _TAG + "bool": {"true": True, "false": False}.__getitem__,
}
_PLAIN = frozenset({*_SCALARS, _TAG + "map", _TAG + "seq"})


def _built(node: Node, steps: Steps, found: list[Complaint]) -> Any:
    if node.tag not in _PLAIN:
        found.append((steps, f"got the tag {one_line(node.tag)}; allowed: plain values, no tags"))
        return None
    if isinstance(node, ScalarNode):
        return _scalar(node, steps, found)
    if isinstance(node, MappingNode):
        return _mapping(node, steps, found)
    return [_built(part, (*steps, i), found) for i, part in enumerate(node.value)]


def _scalar(node: ScalarNode, steps: Steps, found: list[Complaint]) -> Any:
    try:
        return _SCALARS[node.tag](node.value)
    except (KeyError, ValueError):  # !!int on a word, a number of 5000 digits
        found.append((steps, f"got {shown(node.value)}; allowed: a plain value of sensible size"))
        return None


def _finite(number: float) -> float:
    if math.isinf(number):
        raise ValueError("beyond every float")
    return number


def _mapping(node: MappingNode, steps: Steps, found: list[Complaint]) -> dict[str, Any]:
    made: dict[str, Any] = {}
    before: tuple[Node, Node] | None = None
    for key, part in node.value:
        name = key.value if isinstance(key, ScalarNode) else "?"
        here = (*steps, name)
        if key.tag != _TAG + "str":
            found.append(_bad_name(here, key, before))
            continue
        if name == "<<":
            found.append((here, "merge keys are not read; write the fields out"))
        elif name in made:
            found.append((here, "given twice; allowed: each field once"))
        made[name] = _built(part, here, found)
        before = (key, part)
    return made


def _bad_name(steps: Steps, key: Node, before: tuple[Node, Node] | None) -> Complaint:
    """A field name that is no text: most often the decimals of a number written with a comma."""
    if before and key.tag == before[1].tag == _TAG + "int":
        whole, digits = before[1].value, key.value
        message = f"got {whole},{digits}; allowed: a number with a point: {whole}.{digits}"
        return (*steps[:-1], before[0].value), message
    if isinstance(key, ScalarNode):
        return (
            steps,
            f"got {shown(key.value)} as a field name; allowed: a text, in quotes if need be",
        )
    return steps, "got a list or block as a field name; allowed: a text"


def _step(node: Node | None, step: str | int) -> tuple[int, Node] | None:
    """One step into a node: the line it stands on and what is there, or None."""
    if isinstance(node, MappingNode):
        for key, part in reversed(node.value):  # of a field given twice, the second
            if key.value == step:
                return key.start_mark.line + 1, part
    elif isinstance(node, SequenceNode) and isinstance(step, int) and step < len(node.value):
        part = node.value[step]
        return part.start_mark.line + 1, part
    return None
