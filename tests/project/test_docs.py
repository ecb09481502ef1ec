"""What is written is true: commands, settings, sums, links and folders of the docs, held against the program."""

from __future__ import annotations

import json
import math
import re
import shlex
import xml.etree.ElementTree as ET
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from trainer.cli import main
from trainer.config import Settings
from trainer.roofing.calculators import calculator, names_and_summaries
from trainer.roofing.contract import Calculator, Field, Record
from trainer.roofing.corners import Corner, base_legs, base_patch, fold, slits, top_legs, top_patch
from trainer.roofing.kinds import Choice, Each, Either, Flag, Kind, Nullable, Number, Pair, Text

ROOT = Path(__file__).parents[2]
PAGES = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *sorted((ROOT / "docs").rglob("*.md"))]
NAMES = [str(page.relative_to(ROOT)) for page in PAGES]
TEXTS = dict(zip(NAMES, (page.read_text("utf-8") for page in PAGES), strict=True))
SUMS, RUN, DEVELOPERS = TEXTS["docs/sums.md"], TEXTS["docs/run.md"], TEXTS["DEVELOPERS.md"]
FENCE = re.compile(r"^```(\w*)\n(.*?)^```$", re.M | re.S)


def blocks(text: str, *languages: str) -> list[str]:
    return [body for language, body in FENCE.findall(text) if language in languages]


def prose(text: str) -> str:
    return FENCE.sub("", text)


# ---- commands -------------------------------------------------------------------------------


def calls(text: str) -> list[list[str]]:
    """The words after ``trainer`` of every call in a text, up to a pipe, a comment or its end."""
    found = []
    for piece in re.split(r"[|;]|&&|\n(?!\s)", text.replace("\\\n", " ")):
        call = re.match(r"\s*(?:\w+=\S+ |\$ |uv run )*(?:\S+/)?trainer(?:\s+(.*))?$", piece, re.S)
        if call and "'" not in (call[1] or "").replace("'", "", 2):
            found.append(shlex.split(call[1] or "", comments=True))
    return found


def calls_of(text: str) -> list[list[str]]:
    inline = re.findall(r"`([^`\n]+)`", prose(text))
    return [call for part in (*blocks(text, "", "sh"), *inline) for call in calls(part)]


def walked(words: list[str]) -> tuple[click.Command, list[str]]:
    """The command that the words lead to, and the words that are left."""
    command: click.Command = main
    words = list(words)
    while isinstance(command, click.Group) and words and not words[0].startswith("-"):
        name = words.pop(0)
        found = command.get_command(click.Context(command), name)
        assert found is not None, f"there is no command {name!r} in {command.name}"
        command = found
    return command, words


@pytest.mark.parametrize("page", NAMES)
def test_every_command_and_option_that_is_written_exists(page):
    for words in calls_of(TEXTS[page]):
        command, rest = walked(words)
        known = {o for p in command.get_params(click.Context(command)) for o in p.opts}
        options = {word.partition("=")[0] for word in rest if word.startswith("-")}
        known |= {"-h", "--help", "-"}
        assert options <= known, f"trainer {shlex.join(words)}"


def test_every_command_is_explained():
    written = {tuple(call) for text in TEXTS.values() for call in calls_of(text)}
    named = {tuple(walked(list(call))[0].name for _ in "x") for call in written}
    assert {name for name in main.list_commands(click.Context(main))} <= {
        call[0] for call in written if call
    }, named


@pytest.mark.parametrize("page", NAMES)
def test_modules_and_paths_in_commands_exist(page):
    for block in (*blocks(TEXTS[page], "", "sh"), *re.findall(r"`([^`\n]+)`", TEXTS[page])):
        for module in re.findall(r"python -m ((?:tests|trainer)[\w.]*)", block):
            assert (ROOT / f"{module.replace('.', '/')}.py").is_file(), module
        for path in re.findall(r"(?:pytest |^)(tests/[\w/.]+|\.ci/run)", block):
            assert (ROOT / path).exists(), path


# ---- links, folders, words ------------------------------------------------------------------


def anchors(text: str) -> set[str]:
    headings = re.findall(r"^#+ (.*)$", prose(text), re.M)
    return {re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-") for heading in headings}


@pytest.mark.parametrize("page", NAMES)
def test_every_link_leads_somewhere_in_the_project(page):
    for target in re.findall(r"\]\(([^)\s]+)\)", TEXTS[page]):
        path, _, anchor = target.partition("#")
        file = (ROOT / page).parent / path if path else ROOT / page
        assert file.exists(), target
        assert file.resolve().is_relative_to(ROOT), target
        if anchor:
            assert anchor in anchors(file.read_text("utf-8")), target


def folders(path: Path) -> set[str]:
    """Folders and modules of a folder as the house names them."""
    found = {f"{p.name}/" for p in path.iterdir() if p.is_dir() and p.name[0] not in "_."}
    return found | {p.name for p in path.glob("*.py") if not p.name.startswith("_")}


def test_the_house_is_the_one_that_stands():
    house = blocks(DEVELOPERS.split("## The house")[1], "")[0]
    named: dict[str, set[str]] = {"": set()}
    for line in house.splitlines():
        if top := re.match(r"(\w+)/", line):
            inside = top[1]
            named[""].add(f"{inside}/")
        else:
            entries = re.findall(r"(?:^|\s{2})(\w+/|\w+\.py)(?=\s)", line)
            named.setdefault(inside, set()).update(entries)
    assert named[""] == folders(ROOT) - {"dist/", "build/"}
    assert named["trainer"] == folders(ROOT / "trainer")
    assert named["tests"] == folders(ROOT / "tests") - {"conftest.py"}


MACHINE_PATH = re.compile(r"(?<![\w.])/(?:work|tmp|home|root|usr|opt|etc|var|mnt|srv|Users)\b")
HOST = re.compile(r"\b[\w-]+\.(?:org|com|net|io|dev|gov|edu)\b")
NEVER = re.compile(r"seed document|quiz|trainee|leaderboard|chatbot|\bAI\b|TODO|FIXME|lorem", re.I)


@pytest.mark.parametrize("page", NAMES)
def test_no_page_names_a_host_a_machine_or_what_we_do_not_say(page):
    for pattern in (MACHINE_PATH, HOST, NEVER):
        assert pattern.findall(TEXTS[page]) == []


# ---- settings -------------------------------------------------------------------------------


def settings_of_the_program() -> set[str]:
    """Every TRAINER_ name that the program's own source reads."""
    config = (ROOT / "trainer" / "config.py").read_text("utf-8")
    read = re.findall(r'found\.(?:text|flag|number)\(\s*"(\w+)"', config)
    read += re.findall(r"\{_PREFIX\}(\w+)", config)
    sources = "".join(p.read_text("utf-8") for p in (ROOT / "trainer").rglob("*.py"))
    return {f"TRAINER_{name.upper()}" for name in read} | set(re.findall(r"TRAINER_[A-Z]\w+", sources))


def test_every_setting_is_explained_and_no_other():
    told = {name for text in TEXTS.values() for name in re.findall(r"TRAINER_[A-Z]\w+", text)}
    assert told - {"TRAINER_TESTS_MUST_RUN"} == settings_of_the_program()
    assert set(re.findall(r"TRAINER_[A-Z]\w+", RUN)) == settings_of_the_program()


def test_defaults_are_the_ones_the_program_has(tmp_path):
    settings = Settings.load({"TRAINER_INSTANCE": str(tmp_path)})
    rows = re.findall(r"^\| `TRAINER_(\w+)` \|[^|]*\| `([^`]*)` \|", RUN, re.M)
    assert len(rows) >= 8
    for name, told in rows:
        holder = settings.argon2 if name.startswith("ARGON2_") else settings
        value = getattr(holder, name.removeprefix("ARGON2_").lower())
        assert told == ({True: "yes", False: "no"}[value] if isinstance(value, bool) else str(value))


# ---- the sums -------------------------------------------------------------------------------

SECTIONS = dict(re.findall(r"^## ([a-z-]+): .*?\n(.*?)(?=^## |\Z)", SUMS, re.M | re.S))


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
            return kind.what.removeprefix("a ") + (f" {kind.inner.unit}" if _is_number(kind) else "")
        case Flag():
            return "true, false"
        case Record():
            return "object"
        case Text():
            return "text"
    return "time"


def _is_number(pair: Pair) -> bool:
    return isinstance(pair.inner, Number)


def _range(number: Number) -> str:
    low = f"> {_plain(number.above)}" if number.above is not None else _plain(number.low)
    high = _plain(number.high)
    if high:
        said = f"{low} to {high}"
    else:
        said = low if low.startswith(">") or not low else f"≥ {low}"
    return ("whole, " if number.whole else "") + (said or "any")


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


def worked(line: str) -> tuple[float, str]:
    """The value of the left side of a written sum, and what stands on its right."""
    expression, _, result = line.rpartition(" = ")
    expression = re.sub(r"^[^=]*?: ", "", expression)
    expression = re.sub(r"(\d\d):(\d\d)", r"(\1*60+\2)", expression)
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
        assert value == int(said[:2]) * 60 + int(said[3:])
    else:
        assert value == pytest.approx(float(said), abs=0.5 * 10 ** -len(said.partition(".")[2]) + 1e-9)


@pytest.mark.parametrize("name", [n for n in SECTIONS if blocks(SECTIONS[n], "sum")])
def test_the_written_sum_ends_where_the_calculator_does(name):
    results = [worked(line)[1] for line in blocks(SECTIONS[name], "sum")[0].splitlines()]
    reached = {number for result in results for number in numbers(result.replace("−", "-"))}
    answers = {f"{float(n):g}" if ":" not in n else n for n in numbers(example(name)[1])}
    assert answers & {f"{float(n):g}" if ":" not in n else n for n in reached}


def test_the_drawn_corner_is_the_corner_of_the_example():
    corner = Corner(**json.loads(example("corner")[0]))
    picture = ET.fromstring((ROOT / "docs" / "img" / "corner.svg").read_text("utf-8"))
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
