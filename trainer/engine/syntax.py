"""The syntax of a family's expressions: Python's own, cut down to what cannot do harm.

What is read here is checked node by node and refused unless it is known to be harmless. Attributes
become entries (``window.state`` is the entry "state" of the result "window"), so no attribute of a
Python object is ever reached; names that begin with an underscore do not exist; only listed
functions can be called and none can be handed round; multiplication, remainder and comprehensions
go through guards that keep them small.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from itertools import takewhile
from keyword import iskeyword
from types import CodeType
from typing import Any, NoReturn

from trainer.engine.functions import CALLABLE
from trainer.errors import TrainerError

Scope = dict[str, Any]
TIMES, REMAINDER, TURNS = "_times", "_remainder", "_turns"
"""Names of the guards in a scope; no expression can say them itself."""

_LONGEST = 2000
_DEEPEST = 40
_MOST = 10**12
_NUMBER = re.compile(r"-?\d{1,12}(\.\d{1,12})?", re.ASCII)
_COMMA = re.compile(r"\s*(-?\d+),(\d+)\s*", re.ASCII)
_PATH = re.compile(r"[a-z][a-z0-9_]*(\.[a-z][a-z0-9_]*)*", re.ASCII)
_WORDS = {"True": True, "False": False, "None": None}


class ExpressionError(TrainerError):
    """An expression that cannot be read, or that fails on the values it is given."""

    def __init__(self, source: str, reason: str) -> None:
        self.source = source
        self.reason = reason
        super().__init__(f'the expression "{source}" cannot be used: {reason}.')


@dataclass(frozen=True)
class Call:
    """One call: the function, its leading arguments that are constants, its keywords."""

    function: str
    constants: tuple[Any, ...]
    keywords: frozenset[str]


@dataclass
class Reading:
    """What an expression says: one of a constant, a path of names, or checked syntax.

    ``names`` are its free names, functions left out; ``entries`` are pairs (name, entry) that it
    looks up in free names; ``calls`` are its calls.
    """

    constant: Any = None
    path: tuple[str, ...] = ()
    tree: ast.Expression | None = None
    names: set[str] = field(default_factory=set)
    entries: set[tuple[str, str]] = field(default_factory=set)
    calls: list[Call] = field(default_factory=list)
    loops: bool = False

    @property
    def always(self) -> bool:
        """Whether it gives the same value whatever was drawn."""
        return not self.names and not self.calls

    def value(self, scope: Scope) -> Any:
        """The value under ``scope``; raises whatever Python raises."""
        if self.tree is None:
            return self._looked_up(scope) if self.path else self.constant
        if self.loops:
            scope[TURNS].again()
        return eval(self._code, scope)

    def _looked_up(self, scope: Scope) -> Any:
        first, *entries = self.path
        if first not in scope:
            raise NameError(name=first)
        value = scope[first]
        for entry in entries:
            value = value[entry]
        return value

    @cached_property
    def _code(self) -> CodeType:
        assert self.tree is not None
        return compile(ast.fix_missing_locations(self.tree), "<family>", "eval")


@lru_cache(maxsize=8192)
def read(source: str) -> Reading:
    """Reads and checks one expression. Raises ExpressionError."""
    text = source.strip()
    if text in _WORDS:
        return Reading(constant=_WORDS[text])
    if _NUMBER.fullmatch(text):
        return Reading(constant=float(text) if "." in text else int(text))
    if _PATH.fullmatch(text):
        path = tuple(text.split("."))
        if not any(map(iskeyword, path)) and path[0] not in CALLABLE:
            return Reading(
                path=path, names={path[0]}, entries={(path[0], entry) for entry in path[1:2]}
            )
    return _Reader(source).read(text)


class _Reader:
    """Goes through the syntax of one expression; refuses what is not known, guards the rest."""

    def __init__(self, source: str) -> None:
        self.source = source
        self.reading = Reading()
        self.depth = 0

    def read(self, text: str) -> Reading:
        if len(text) > _LONGEST:
            self._refuse(f"it is longer than {_LONGEST} characters")
        if comma := _COMMA.fullmatch(text):
            self._refuse(f"a number has a point: {comma[1]}.{comma[2]}")
        try:
            body = ast.parse(text, mode="eval").body
        except (SyntaxError, ValueError, RecursionError, MemoryError) as error:
            reason = error.msg if isinstance(error, SyntaxError) else error
            self._refuse(f"it is not well formed ({reason})")
        self.reading.tree = ast.Expression(self._checked(body, frozenset()))
        return self.reading

    def _refuse(self, reason: str) -> NoReturn:
        raise ExpressionError(self.source, reason) from None

    def _checked(self, node: ast.expr, bound: frozenset[str]) -> ast.expr:
        """``node`` with its guards; ``bound`` are the names of the comprehensions around it."""
        rule = _RULES.get(type(node))
        if rule is None:
            self._refuse(f"{type(node).__name__} is not allowed here")
        self.depth += 1
        if self.depth > _DEEPEST:
            self._refuse(f"it is nested more than {_DEEPEST} deep")
        checked = rule(self, node, bound)
        self.depth -= 1
        return checked

    def _all(self, nodes: list[ast.expr], bound: frozenset[str]) -> list[ast.expr]:
        return [self._checked(node, bound) for node in nodes]

    def constant(self, node: ast.Constant, bound: frozenset[str]) -> ast.expr:
        value = node.value
        if value is not None and type(value) not in (bool, int, float, str):
            self._refuse(f"{value!r} is not allowed here")
        if isinstance(value, int | float) and not abs(value) <= _MOST:
            self._refuse("a number in it is too large")
        return node

    def name(self, node: ast.Name, bound: frozenset[str]) -> ast.expr:
        if node.id.startswith("_"):
            self._refuse(f"the name {node.id} is not allowed")
        if node.id in CALLABLE:
            self._refuse(f"{node.id} is a function; it is called with brackets: {node.id}(…)")
        if node.id not in bound:
            self.reading.names.add(node.id)
        return node

    def attribute(self, node: ast.Attribute, bound: frozenset[str]) -> ast.expr:
        if node.attr.startswith("_"):
            self._refuse(f"the name {node.attr} is not allowed")
        if isinstance(node.value, ast.Name) and node.value.id not in bound:
            self.reading.entries.add((node.value.id, node.attr))
        return ast.Subscript(self._checked(node.value, bound), ast.Constant(node.attr), ast.Load())

    def subscript(self, node: ast.Subscript, bound: frozenset[str]) -> ast.expr:
        node.value = self._checked(node.value, bound)
        node.slice = self._checked(node.slice, bound)
        return node

    def slice(self, node: ast.Slice, bound: frozenset[str]) -> ast.expr:
        for end in ("lower", "upper", "step"):
            if getattr(node, end) is not None:
                setattr(node, end, self._checked(getattr(node, end), bound))
        return node

    def several(self, node: ast.List | ast.Tuple, bound: frozenset[str]) -> ast.expr:
        node.elts = self._all(node.elts, bound)
        return node

    def block(self, node: ast.Dict, bound: frozenset[str]) -> ast.expr:
        if None in node.keys:
            self._refuse("** is not allowed here")
        node.keys = [*self._all([key for key in node.keys if key], bound)]
        node.values = self._all(node.values, bound)
        return node

    def any_or_all(self, node: ast.BoolOp, bound: frozenset[str]) -> ast.expr:
        node.values = self._all(node.values, bound)
        return node

    def sign(self, node: ast.UnaryOp, bound: frozenset[str]) -> ast.expr:
        if isinstance(node.op, ast.Invert):
            self._refuse("~ is not allowed here")
        node.operand = self._checked(node.operand, bound)
        return node

    def sum(self, node: ast.BinOp, bound: frozenset[str]) -> ast.expr:
        left, right = self._all([node.left, node.right], bound)
        if isinstance(node.op, ast.Mult | ast.Mod):
            guard = TIMES if isinstance(node.op, ast.Mult) else REMAINDER
            return _call(guard, left, right)
        if not isinstance(node.op, ast.Add | ast.Sub | ast.Div | ast.FloorDiv):
            self._refuse(f"{type(node.op).__name__} is not allowed here")
        node.left, node.right = left, right
        return node

    def comparison(self, node: ast.Compare, bound: frozenset[str]) -> ast.expr:
        if any(isinstance(sign, ast.Is | ast.IsNot) for sign in node.ops):
            self._refuse("values are compared with == and !=, not with is")
        node.left, *node.comparators = self._all([node.left, *node.comparators], bound)
        return node

    def choice(self, node: ast.IfExp, bound: frozenset[str]) -> ast.expr:
        node.test, node.body, node.orelse = self._all([node.test, node.body, node.orelse], bound)
        return node

    def call(self, node: ast.Call, bound: frozenset[str]) -> ast.expr:
        if not isinstance(node.func, ast.Name) or node.func.id not in CALLABLE:
            self._refuse(f"only these can be called: {', '.join(sorted(CALLABLE))}")
        keywords = [keyword.arg for keyword in node.keywords if keyword.arg]
        if len(keywords) < len(node.keywords):
            self._refuse("** is not allowed here")
        node.args = self._all(node.args, bound)
        for keyword in node.keywords:
            keyword.value = self._checked(keyword.value, bound)
        fixed = takewhile(lambda given: isinstance(given, ast.Constant), node.args)
        constants = tuple(given.value for given in fixed if isinstance(given, ast.Constant))
        self.reading.calls.append(Call(node.func.id, constants, frozenset(keywords)))
        return node

    def comprehension(
        self, node: ast.ListComp | ast.GeneratorExp, bound: frozenset[str]
    ) -> ast.expr:
        """A list, whichever brackets it stands in: nothing half gone through is handed round."""
        self.reading.loops = True
        for part in node.generators:
            if part.is_async:
                self._refuse("async is not allowed here")
            part.iter = _call(TURNS, self._checked(part.iter, bound))
            bound |= self._targets(part.target)
            part.ifs = self._all(part.ifs, bound)
        return ast.ListComp(self._checked(node.elt, bound), node.generators)

    def _targets(self, target: ast.expr) -> frozenset[str]:
        """The names a comprehension gives to what it goes through."""
        if isinstance(target, ast.Tuple):
            return frozenset().union(*(self._targets(part) for part in target.elts))
        if not isinstance(target, ast.Name):
            self._refuse("a comprehension gives its entries plain names")
        if target.id.startswith("_") or target.id in CALLABLE:
            self._refuse(f"the name {target.id} is taken")
        return frozenset({target.id})


def _call(guard: str, *arguments: ast.expr) -> ast.expr:
    return ast.Call(ast.Name(guard, ast.Load()), list(arguments), [])


_RULES: dict[type[ast.AST], Callable[[_Reader, Any, frozenset[str]], ast.expr]] = {
    ast.Constant: _Reader.constant,
    ast.Name: _Reader.name,
    ast.Attribute: _Reader.attribute,
    ast.Subscript: _Reader.subscript,
    ast.Slice: _Reader.slice,
    ast.List: _Reader.several,
    ast.Tuple: _Reader.several,
    ast.Dict: _Reader.block,
    ast.BoolOp: _Reader.any_or_all,
    ast.UnaryOp: _Reader.sign,
    ast.BinOp: _Reader.sum,
    ast.Compare: _Reader.comparison,
    ast.IfExp: _Reader.choice,
    ast.Call: _Reader.call,
    ast.ListComp: _Reader.comprehension,
    ast.GeneratorExp: _Reader.comprehension,
}
