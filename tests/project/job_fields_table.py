"""The tables of docs/write-a-job.md, made from the job's own fields.

``python -m tests.project.job_fields_table`` puts them into the page.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from trainer.installation.job_fields import EVERY, FIELDS, MINUTES, Clock, Named
from trainer.roofing.contract import Choice, Each, Field, Flag, Kind, Nullable, Number, Pair, Record

PAGE = Path(__file__).parents[2] / "docs" / "write-a-job.md"


GROUPS = {
    "job": ("id", "version", "level", "title", "brief", "start", "leave_by", "by_eye_mm"),
    "walls": ("walls", "corners", "corner_leg_mm"),
    "things": ("openings", "loose", "gas", "melter", "extinguishers"),
    "material": ("sheet", "rolls", "paper"),
    "people": ("crew", "minutes", "lunch"),
    "weather": ("weather", "happenings"),
}
"""Which fields stand in which table."""


def tables() -> dict[str, str]:
    """Every made part of the page by its name."""
    known = {field.name: field for field in FIELDS}
    head = ("field", "what stands there", "meaning", "if absent")
    made = {
        group: _table(head, [row for name in names for row in _rows(known[name], "")])
        for group, names in GROUPS.items()
    }
    every = [row[:3] for field in EVERY.fields for row in _rows(field, "")]
    made["every"] = _table(head[:3], every)
    made["minutes"] = ", ".join(f"`{name}` {minutes}" for name, minutes in MINUTES.items()) + "."
    return made


def filled(page: str) -> str:
    """The page with every made part as it must be."""
    for name, made in tables().items():
        start, end = f"<!-- made: {name} -->\n", "<!-- /made -->"
        before, _, rest = page.partition(start)
        assert rest, f"the page has no place for {name}"
        page = f"{before}{start}{made}\n{end}{rest.partition(end)[2]}"
    return page


def _table(head: tuple[str, ...], rows: list[tuple[str, ...]]) -> str:
    lines = [head, ("---",) * len(head), *rows]
    return "\n".join(f"| {' | '.join(line)} |".replace("|  |", "| |") for line in lines)


def _rows(field: Field, way: str) -> Iterator[tuple[str, str, str, str]]:
    name = f"{way}{field.name}"
    holds = "text by language; `en` is needed" if name in ("title", "brief") else phrase(field.kind)
    yield f"`{name}`", holds, field.meaning, _absent(field)
    if field.name == "minutes" and isinstance(field.kind, Record):
        return
    inner = field.kind.inner if isinstance(field.kind, Nullable) else field.kind
    listed = isinstance(inner, Each)
    record = inner.inner if isinstance(inner, Each) else inner
    for part in record.fields if isinstance(record, Record) else ():
        yield from _rows(part, f"{name}{'[]' if listed else ''}.")


def _absent(field: Field) -> str:
    if field.required:
        return "**needed**"
    return _said(None if field.optional else field.default)


def _said(value: Any) -> str:
    if value is None or value == () or value == {}:
        return "none"
    return str(value).lower() if isinstance(value, bool) else str(value)


def phrase(kind: Kind) -> str:
    """What a field may hold, in a few words."""
    match kind:
        case Each():
            size = f"{kind.least} to {kind.most} " if kind.least and kind.most else ""
            return (
                f"list of {size}{phrase(kind.inner).removeprefix('a ').replace('block', 'blocks')}"
            )
        case Pair():
            return f"`{kind.what[kind.what.index('[') :]}`"
        case Nullable():
            return f"{phrase(kind.inner)}, or `null`"
        case Record():
            return "a block"
        case Choice():
            return ", ".join(f"`{word}`" for word in kind.words)
        case Number():
            return f"{_range(kind)} {kind.unit}".strip()
        case Clock():
            return '`"HH:MM"`'
        case Named():
            return "a short name"
        case Flag():
            return "`true`, `false`"
    return "text"


def _range(kind: Number) -> str:
    low = f"{kind.low:g}" if kind.low is not None else f"above {kind.above:g}"
    return f"{low} to {kind.high:g}" if kind.high is not None else f"from {low}"


if __name__ == "__main__":
    PAGE.write_text(filled(PAGE.read_text("utf-8")), "utf-8")
