"""What is written is true: commands, settings, links and folders, held against the program."""

from __future__ import annotations

import re
import shlex
import shutil
from contextlib import suppress
from pathlib import Path

import click
import pytest

from trainer.app import make_parts
from trainer.cli import main
from trainer.config import Settings
from trainer.services.site import site

ROOT = Path(__file__).parents[2]
PAGES = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *sorted((ROOT / "docs").rglob("*.md"))]
NAMES = [str(page.relative_to(ROOT)) for page in PAGES]
TEXTS = dict(zip(NAMES, (page.read_text("utf-8") for page in PAGES), strict=True))
RUN, DEVELOPERS = TEXTS["docs/run.md"], TEXTS["DEVELOPERS.md"]
FENCE = re.compile(r"^```(\w*)\n(.*?)^```$", re.M | re.S)


def blocks(text: str, *languages: str) -> list[str]:
    return [body for language, body in FENCE.findall(text) if language in languages]


def prose(text: str) -> str:
    return FENCE.sub("", text)


# ---- commands -------------------------------------------------------------------------------


def calls(text: str) -> list[list[str]]:
    """The words after ``trainer`` of every call in a text, up to a pipe or the line's end."""
    pieces = re.split(r"[|;]|&&|\n(?!\s)", text)
    found = (re.match(r"\s*(?:\w+=\S+ |uv run )*trainer(?:\s+(.*))?$", p, re.S) for p in pieces)
    return [shlex.split(call[1] or "", comments=True) for call in found if call]


def calls_of(text: str) -> list[list[str]]:
    """Calls in fenced blocks and in inline code."""
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


@pytest.mark.parametrize("page", NAMES)
def test_a_call_that_can_be_pasted_is_one_the_program_takes(page):
    """Arguments, choices and numbers too, without running anything."""
    for words in (call for block in blocks(TEXTS[page], "sh") for call in calls(block)):
        command, rest = walked(words)
        with suppress(click.exceptions.Exit):  # --help and --list print and end
            command.make_context(command.name, rest)


def test_every_command_is_explained():
    written = {call[0] for text in TEXTS.values() for call in calls_of(text) if call}
    assert set(main.list_commands(click.Context(main))) <= written


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
NEVER = re.compile(r"quiz|trainee|leaderboard|chatbot|\bAI\b|TODO|FIXME|lorem", re.I)


@pytest.mark.parametrize("page", NAMES)
def test_no_page_names_a_host_a_machine_or_what_we_do_not_say(page):
    for pattern in (MACHINE_PATH, HOST, NEVER):
        assert pattern.findall(TEXTS[page]) == []


# ---- settings -------------------------------------------------------------------------------


SETTING = re.compile(r"TRAINER_[A-Z]\w+")


def settings_of_the_program() -> set[str]:
    """Every TRAINER_ name that the program's own source reads."""
    config = (ROOT / "trainer" / "config.py").read_text("utf-8")
    read = re.findall(r'found\.(?:text|flag|number)\(\s*"(\w+)"', config)
    read += re.findall(r"\{_PREFIX\}(\w+)", config)
    sources = "".join(p.read_text("utf-8") for p in (ROOT / "trainer").rglob("*.py"))
    return {f"TRAINER_{name.upper()}" for name in read} | set(SETTING.findall(sources))


def test_every_setting_is_explained_and_no_other():
    known = settings_of_the_program()
    assert set(SETTING.findall(RUN)) == known
    told = {name for text in TEXTS.values() for name in SETTING.findall(text)}
    assert told - known <= {"TRAINER_TESTS_MUST_RUN"}


def test_defaults_are_the_ones_the_program_has(tmp_path):
    settings = Settings.load({"TRAINER_INSTANCE": str(tmp_path)})
    rows = re.findall(r"^\| `TRAINER_(\w+)` \|[^|]*\| `([^`]*)` \|", RUN, re.M)
    assert len(rows) >= 8
    for name, told in rows:
        holder = settings.argon2 if name.startswith("ARGON2_") else settings
        value = getattr(holder, name.removeprefix("ARGON2_").lower())
        yes_or_no = {"yes": True, "no": False}
        assert yes_or_no.get(told, told) == (value if isinstance(value, bool) else str(value))


def test_the_back_up_that_is_written_there_is_a_whole_database(
    tmp_path, monkeypatch, migrated_file
):
    (script,) = blocks(RUN.split("## Back up")[1].split("\n## ")[0], "python")
    (tmp_path / "instance").mkdir()
    shutil.copy(migrated_file, tmp_path / "instance" / "trainer.db")
    monkeypatch.chdir(tmp_path)
    said: list[str] = []
    exec(script, {"print": said.append})
    (copy,) = tmp_path.glob("trainer-*.db")
    assert said == ["ok"]
    assert site(make_parts(Settings(tmp_path, f"sqlite:///{copy}", "none"))).name == "Mill Street"
