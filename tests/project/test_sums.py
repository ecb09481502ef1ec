"""docs/sums.md is true: every field, every example, every written sum and the drawn corner."""

from __future__ import annotations

import json
import math
import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from click.testing import CliRunner

from trainer.cli import main
from trainer.engine.margin import value_at
from trainer.pack.pack import load_pack
from trainer.roofing.calculators import calculator, names_and_summaries
from trainer.roofing.contract import Calculator, Field, Record
from trainer.roofing.corners import Corner, base_legs, base_patch, fold, slits, top_legs, top_patch
from trainer.roofing.kinds import Choice, Each, Either, Flag, Kind, Nullable, Number, Pair, Text

DOCS = Path(__file__).parents[2] / "docs"
SUMS = (DOCS / "sums.md").read_text("utf-8")
SECTIONS = dict(re.findall(r"^## ([a-z-]+): .*?\n(.*?)(?=^## |\Z)", SUMS, re.M | re.S))


def blocks(text: str, language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```$", text, re.M | re.S)


def phrase(kind: Kind) -> str:
    """What a field may hold, as docs/sums.md says it."""
    match kind:
        case Number():
            return f"{_range(kind)} {kind.unit}".strip()
        case Choice():
            return ", ".join(f"`{word}`" for word in kind.words)
        case Each():
            least = f" of {kind.least} or more" if kind.least else ""
            return f"list{least}: {phrase(kind.inner)}"
        case Either():
            return " or ".join(map(phrase, kind.kinds))
        case Nullable():
            return f"{phrase(kind.inner)}, or null"
        case Pair():
            unit = f" {kind.inner.unit}" if isinstance(kind.inner, Number) else ""
            return kind.what.removeprefix("a ") + unit
        case Flag():
            return "true, false"
        case Record():
            return "object"
        case Text():
            return "text"
    return "time"


def _range(number: Number) -> str:
    low = f"> {_plain(number.above)}" if number.above is not None else _plain(number.low)
    if number.high is not None:
        low = f"{low} to {_plain(number.high)}"
    elif low and number.above is None:
        low = f"≥ {low}"
    return ("whole, " if number.whole else "") + (low or "any")


def _plain(limit: float | None) -> str:
    return "" if limit is None else f"{limit:,.10g}".replace("-", "−").replace(",", " ")


def absence(field: Field) -> str:
    if field.default_rule:
        return f"; left out: rule `{field.default_rule}`"
    if field.optional:
        return "; may be left out"
    return "" if field.required else f"; left out: {json.dumps(field.default)}"


def field_rows(asked: Calculator, fields=None, prefix: str = "") -> list[tuple[str, str, str]]:
    """Name, meaning and what is allowed for every field, those inside another as "field.name"."""
    rows = []
    for field in asked.fields if fields is None else fields:
        rows.append((prefix + field.name, field.meaning, phrase(field.kind) + absence(field)))
        rows += field_rows(asked, field.inner_fields, f"{prefix}{field.name}.")
    return rows


def test_every_calculator_has_its_section_in_the_order_of_the_work():
    assert list(SECTIONS) == list(names_and_summaries())


@pytest.mark.parametrize("name", SECTIONS)
def test_fields_and_results_are_the_calculators_own(name):
    rows = re.findall(r"^\| `([\w.]+)` \| (.*?) \| (.*?) \|$", SECTIONS[name], re.M)
    assert rows == field_rows(calculator(name))
    results = re.findall(r"^- `(\w+)`: (.*)$", SECTIONS[name], re.M)
    assert results == list(calculator(name).results.items())


@pytest.mark.parametrize("name", SECTIONS)
def test_a_section_says_where_it_is_from_and_where_it_ends(name):
    assert "- **Source.**" in SECTIONS[name]
    assert "- **Checked against**" in SECTIONS[name]
    assert "- **Not covered.**" in SECTIONS[name]


def example(name: str) -> tuple[str, str]:
    """What is piped into the calculator, and what stands beside it as the answer."""
    (call,), (answer,) = blocks(SECTIONS[name], "sh"), blocks(SECTIONS[name], "json")
    given = re.fullmatch(rf"echo '(.*)' \| trainer calc {name}\n", call, re.S)
    assert given is not None, call
    return given[1], answer


@pytest.mark.parametrize("name", SECTIONS)
def test_an_example_gives_exactly_what_it_says(name):
    given, answer = example(name)
    done = CliRunner().invoke(main, ["calc", name], input=given)
    assert (done.exit_code, done.stderr) == (0, "")
    assert done.stdout == " ".join(answer.split()) + "\n"


def numbers(text: str) -> list[str]:
    return re.findall(r"\d\d:\d\d|-?\d+(?:\.\d+)?", text)


def minute(clock: str) -> int:
    return int(clock[:2]) * 60 + int(clock[3:])


def worked(line: str) -> tuple[float, str]:
    """The value of the left side of a written sum, and what stands on its right."""
    expression, _, result = line.rpartition(" = ")
    expression = re.sub(r"^[^=]*?: ", "", expression)
    expression = re.sub(r"(\d\d):(\d\d)", lambda at: str(minute(at[0])), expression)
    expression = re.sub(r"√(\d+)", r"sqrt(\1)", expression).replace("√", "sqrt")
    for sign, python in (
        ("×", "*"), ("÷", "/"), ("−", "-"), ("²", "**2"), ("^", "**"), ("°", ""),
        ("⌈", "ceil("), ("⌉", ")"), ("⌊", "floor("), ("⌋", ")"),
    ):  # fmt: skip
        expression = expression.replace(sign, python)
    known = {
        "sqrt": math.sqrt, "ln": math.log, "ceil": math.ceil, "floor": math.floor,
        "sin": lambda a: math.sin(math.radians(a)), "cot": lambda a: 1 / math.tan(math.radians(a)),
    }  # fmt: skip
    return eval(expression, {"__builtins__": {}}, known), result


WRITTEN = [line for block in blocks(SUMS, "sum") for line in block.splitlines()]


@pytest.mark.parametrize("line", WRITTEN)
def test_a_written_sum_comes_to_what_it_says(line):
    value, result = worked(line)
    said = numbers(result.replace("−", "-"))[0]
    if ":" in said:
        assert value == minute(said)
    else:
        half_a_digit = 0.5 * 10 ** -len(said.partition(".")[2])
        assert value == pytest.approx(float(said), abs=half_a_digit + 1e-9)


@pytest.mark.parametrize("name", [name for name in SECTIONS if blocks(SECTIONS[name], "sum")])
def test_the_written_sum_ends_where_the_calculator_does(name):
    (written,) = blocks(SECTIONS[name], "sum")
    results = " ".join(worked(line)[1] for line in written.splitlines()).replace("−", "-")
    assert plainly(results) & plainly(example(name)[1])


def plainly(text: str) -> set[str]:
    """The numbers and times of a text, 45.0 as 45."""
    return {n if ":" in n else f"{float(n):g}" for n in numbers(text)}


def test_the_drawn_corner_is_the_corner_of_the_example():
    corner = Corner(**json.loads(example("corner")[0]))
    picture = ET.fromstring((DOCS / "img" / "corner.svg").read_text("utf-8"))
    drawn = {
        part.get("id"): [[float(n) for n in at.split(",")] for at in part.get("points").split()]
        for part in picture.iter()
        if part.get("points")
    }
    run = max(x for x, _ in drawn["base-leg-1"])
    shapes = {
        "base-bare": base_patch(corner), "top-double": top_patch(corner), "fold": fold(corner),
        **{f"base-leg-{i}": leg for i, leg in enumerate(base_legs(corner, run), 1)},
        **{f"top-leg-{i}": leg for i, leg in enumerate(top_legs(corner, run), 1)},
        **{f"slit-{i}": slit for i, slit in enumerate(slits(corner), 1)},
    }  # fmt: skip
    for name, points in shapes.items():
        expected = [pytest.approx(list(point), abs=0.01) for point in points]
        assert drawn[name] == expected, name


def test_the_margins_that_are_worked_out_are_the_engines():
    """100 mm and 4 in are the two statements of `lap-clearance`; the tolerance is the family's."""
    spec = load_pack().family("flashing-laps").margin
    assert spec is not None
    scope = {spec.rule: {"low": 100, "high": 4 * 25.4, "direction": "at least"}}
    (written,) = blocks(SUMS.split("## Margin and tolerance")[1].split("\n## ")[0], "sum")
    results = [float(numbers(worked(line)[1])[0]) for line in written.splitlines()]
    assert results == [value_at(spec, margin, scope) for margin in (1.4, -2.5)]
