"""Is every decision of a family whole: asked for what its kind needs, with one right answer?"""

from __future__ import annotations

from collections.abc import Iterator

from trainer.engine.expression import Expression, ExpressionError
from trainer.engine.flaws import Flaw, Known, Path, expression_flaws
from trainer.engine.spec import GO, MEASURED_IN, DecisionSpec, Family, OptionSpec

_NEEDS = {
    "choose": ("options",),
    "go_stop": ("answer", "options"),
    "mark": ("answer", "parts"),
    "find": ("answer", "parts"),
    "place": ("answer", "axes", "from", "to", "options"),
    "measure": ("answer", "tolerance", "unit"),
    "time": ("answer",),
    "order": ("parts", "job"),
}
_OPTION_NEEDS = {
    "choose": ("right",),
    "go_stop": ("right",),
    "mark": ("when",),
    "find": ("when",),
    "place": ("at",),
    "measure": ("value",),
    "time": ("value",),
    "order": (),
}
_FIELDS = {"from": "low", "to": "high", "from_y": "low_y", "to_y": "high_y"}
"""Names in the file, where the program has others."""


def decision_flaws(family: Family, known: Known) -> Iterator[Flaw]:
    """Everything wrong with the decisions; ``known`` is what their expressions may use."""
    ids: set[str] = set()
    for place, spec in enumerate(family.decisions):
        path: Path = ("decisions", place)
        if spec.id in ids:
            yield Flaw((*path, "id"), f"two decisions are called {spec.id}")
        ids.add(spec.id)
        yield from _shape(path, spec)
        yield from _expressions(path, spec, known)
        yield from _options(path, spec, known)
        yield from _always_right(path, spec)


def _field(spec: DecisionSpec, name: str) -> object:
    return getattr(spec, _FIELDS.get(name, name))


def _shape(path: Path, spec: DecisionSpec) -> Iterator[Flaw]:
    needs = _NEEDS[spec.kind]
    if spec.axes == "xy":
        needs += ("from_y", "to_y")
    for name in needs:
        if not _field(spec, name):
            yield Flaw(path, f'a decision of kind {spec.kind} needs "{name}"')
    if spec.kind == "measure" and spec.unit and spec.unit not in MEASURED_IN:
        allowed = ", ".join(MEASURED_IN)
        yield Flaw((*path, "unit"), f'got "{spec.unit}"; allowed: {allowed}')


def _expressions(path: Path, spec: DecisionSpec, known: Known) -> Iterator[Flaw]:
    over = known.also(over_answer(spec))
    danger = known.also({"response", "answer"}) if spec.kind in ("measure", "time") else over
    yield from expression_flaws((*path, "answer"), spec.answer, over)
    yield from expression_flaws((*path, "dangerous"), spec.dangerous, danger)
    for name in ("critical", "when", "parts", "tolerance", "job", *_FIELDS):
        expression = _field(spec, name)
        if isinstance(expression, Expression):
            yield from expression_flaws((*path, name), expression, known)


def over_answer(spec: DecisionSpec) -> frozenset[str]:
    """The names that the answer of a decision is stated over, besides the scenario's."""
    if spec.kind == "place":
        return frozenset(spec.axes)
    return frozenset({"part"} if spec.kind in ("mark", "find") else ())


def _options(path: Path, spec: DecisionSpec, known: Known) -> Iterator[Flaw]:
    over_part = known.also({"part"}) if spec.kind in ("mark", "find") else known
    ids: set[str] = set()
    for place, option in enumerate(spec.options):
        where = (*path, "options", place)
        if option.id in ids:
            yield Flaw((*where, "id"), f"two options are called {option.id}")
        ids.add(option.id)
        yield from (Flaw(where, message) for message in _option_shape(spec, option))
        for name in ("right", "when", "critical", "at", "at_y", "value"):
            yield from expression_flaws((*where, name), getattr(option, name), over_part)


def _option_shape(spec: DecisionSpec, option: OptionSpec) -> Iterator[str]:
    needs = () if _is_go(spec, option) else _OPTION_NEEDS[spec.kind]
    if spec.axes == "xy" and spec.kind == "place":
        needs += ("at_y",)
    for name in needs:
        if getattr(option, name) is None:
            yield f'option {option.id} of a decision of kind {spec.kind} needs "{name}"'
    if _is_go(spec, option) and (option.right or option.critical or option.when):
        yield "the option go says only what mistake is behind it; answer says when it is right"
    if spec.kind == "order" and " before " not in option.id:
        yield f'option {option.id} is not of the form "a step before a step"'


def _is_go(spec: DecisionSpec, option: OptionSpec) -> bool:
    return spec.kind == "go_stop" and option.id == GO


def _always_right(path: Path, spec: DecisionSpec) -> Iterator[Flaw]:
    """Whether more than one option of a choice, or none, is right whatever is drawn."""
    if spec.kind != "choose" or not all(option.right for option in spec.options):
        return
    always = [_constant(option.right) for option in spec.options]
    right = [o.id for o, value in zip(spec.options, always, strict=True) if value is True]
    if len(right) > 1 and all(o.when is None for o in spec.options if o.id in right):
        yield Flaw((*path, "options"), f"{' and '.join(right)} are both right, always; one may be")
    if always and all(value is False for value in always):
        yield Flaw((*path, "options"), "no option is ever right; exactly one has to be")


def _constant(expression: Expression | None) -> bool | None:
    """Whether an expression holds, where that does not depend on what is drawn."""
    if expression is None:
        return None
    try:
        return bool(expression.value({})) if expression.reading.always else None
    except ExpressionError:
        return None
