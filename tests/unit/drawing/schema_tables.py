"""The fields of every kind of figure as docs/drawings.md shows them; as a module, prints them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from trainer.drawing.fields import COMMON
from trainer.drawing.kinds import AGE, LINE, POINT, SHAPE, STATE, Named, Words
from trainer.drawing.overlay_data import OVERLAY_FIELDS, OverlayKind
from trainer.drawing.registry import KINDS
from trainer.roofing.contract import Each, Field, Kind, Number, Record

HEAD = "| field | what may stand there | meaning | if absent |\n|---|---|---|---|"


def table(fields: Sequence[Field]) -> str:
    """One row for each field, those of inner objects under their path."""
    return "\n".join([HEAD, *_rows(fields, "")])


def tables() -> dict[str, str]:
    """Every table of docs/drawings.md by its name there."""
    made = {name: table(kind.fields) for name, kind in KINDS.items()}
    return {"every figure": table(COMMON), "overlays": table(OVERLAY_FIELDS)} | made


def _rows(fields: Sequence[Field], path: str) -> Iterator[str]:
    for field in fields:
        name = f"{path}{field.name}"
        yield f"| `{name}` | {_allowed(field.kind)} | {field.meaning} | {_absent(field)} |"
        inner = field.kind.inner if isinstance(field.kind, Each) else field.kind
        if isinstance(inner, Record) and not _is_range(inner):
            yield from _rows(inner.fields, f"{name}[]." if inner is not field.kind else f"{name}.")


def _absent(field: Field) -> str:
    if field.required:
        return "**needed**"
    return "–" if field.optional else _default(field.default)


def _default(value: Any) -> str:
    empty = {"[]": "none", "()": "none", "{}": "none", "''": "none"}
    return empty.get(repr(value), f"{value:g}" if isinstance(value, float) else str(value).lower())


_NAMES: tuple[tuple[Kind, str], ...] = (
    (KINDS["roof-plan"].fields[-1].kind, "`[[left, bottom], [right, top]]`"),
    (POINT, "point `[x, y]`"),
    (LINE, "2 to 60 points"),
    (SHAPE, "3 to 60 points"),
    (STATE, "open, closed, welded"),
    (AGE, "wet, dry, dead"),
)


def _allowed(kind: Kind) -> str:
    for known, words in _NAMES:
        if kind is known:
            return words
    if isinstance(kind, Each):
        most = f", at most {kind.most}" if kind.most else ""
        return (
            f"list{most}: {_allowed(kind.inner)}" if not _is_object(kind.inner) else f"list{most}"
        )
    if _is_range(kind):
        return "range"
    if _is_object(kind):
        return "object"
    if isinstance(kind, Named):
        return f"object: part id → {_allowed(kind.inner)}"
    if isinstance(kind, Number):
        return _number(kind)
    return (
        "text"
        if isinstance(kind, Words)
        else kind.describe().replace('"', "").replace(" or ", ", ")
    )


def _number(kind: Number) -> str:
    """Unit and ends; ends a million away are none."""
    unit = kind.unit or "whole number"
    high = "" if kind.high is None or kind.high >= _FAR else f"{kind.high:g}"
    low = "" if kind.low is None or kind.low <= -_FAR else f"{kind.low:g}"
    if low and high:
        return f"{unit}, {low} to {high}"
    ends = [
        f"> {kind.above:g}" if kind.above is not None else low and f"≥ {low}",
        high and f"≤ {high}",
    ]
    return ", ".join([unit, *[end for end in ends if end]])


_FAR = 1_000_000


def _is_range(kind: Kind) -> bool:
    return isinstance(kind, Record) and [f.name for f in kind.fields] == ["min", "max", "step"]


def _is_object(kind: Kind) -> bool:
    return isinstance(kind, Record | OverlayKind)


if __name__ == "__main__":
    for heading, rows in tables().items():
        print(f"\n## {heading}\n\n{rows}")
