"""The group of commands: nothing loaded before it is needed, and plain words when input is bad."""

from __future__ import annotations

import json
import subprocess
import sys

import click
import pytest
from click.testing import CliRunner

from trainer.cli import _COMMANDS, main
from trainer.errors import TrainerError

HEAVY = ("flask", "sqlalchemy", "alembic", "numpy", "matplotlib", "scipy", "shapely", "yaml")


def _loaded(code: str) -> set[str]:
    """The heavy libraries that a fresh Python has loaded after running ``code``."""
    report = (
        f"{code}\nimport json, sys\nprint(json.dumps([m for m in {HEAVY} if m in sys.modules]))"
    )
    done = subprocess.run(
        [sys.executable, "-c", report], capture_output=True, text=True, check=True, timeout=60
    )
    return set(json.loads(done.stdout.splitlines()[-1]))


def test_the_group_loads_nothing_heavy():
    assert _loaded("import trainer.cli") == set()


def test_its_help_loads_nothing_heavy_either():
    code = "import trainer.cli\ntry: trainer.cli.main(['--help'])\nexcept SystemExit: pass"
    assert _loaded(code) == set()


def test_the_app_loads_no_numbers_library():
    loaded = _loaded("import trainer.app")
    assert loaded & {"numpy", "matplotlib", "scipy", "shapely", "alembic"} == set()


@pytest.mark.parametrize("name", _COMMANDS)
def test_every_command_has_help_with_an_example(name):
    command = main.get_command(click.Context(main), name)
    deeper = list(command.commands) if isinstance(command, click.Group) else []
    for path in [[name, under] for under in deeper] or [[name]]:
        shown = CliRunner().invoke(main, [*path, "--help"])
        assert shown.exit_code == 0
        assert "Example:" in shown.output


def test_help_names_every_command_with_one_line():
    shown = CliRunner().invoke(main, ["--help"]).output
    for name, (_, words) in _COMMANDS.items():
        assert name in shown
        assert words in shown


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["sreve"], "No such command 'sreve'"),
        (["--loud"], "No such option"),
        (["calc", "--loud"], "No such option"),
        (["calc", "dew-point", "--loud"], "No such option"),
        (["scenario", "list", "--loud"], "No such option"),
        (["serve", "--port", "lots"], "'lots' is not a valid integer"),
        (["serve", "--port", "70000"], "70000 is not in the range"),
        (["user", "add"], "Missing argument 'NAME'"),
        (
            ["user", "add", "Ana", "--sign-in", "ana", "--role", "foreman"],
            "'foreman' is not one of",
        ),
        (["init", "--time-zone", "Mars"], 'time_zone: got "Mars"'),
    ],
)
def test_bad_input_is_one_plain_line_and_status_2(arguments, words, tmp_path):
    environment = {"TRAINER_INSTANCE": str(tmp_path)}
    done = CliRunner().invoke(main, arguments, env=environment)
    assert done.exit_code == 2
    assert done.stdout == ""
    assert words in done.stderr
    assert len(done.stderr.splitlines()) == 1


@pytest.fixture
def command(monkeypatch):
    """Make ``trainer calc`` do something else."""

    def replace(action) -> None:
        made = click.Command("calc", callback=action)
        monkeypatch.setattr(type(main), "get_command", lambda *_: made)

    return replace


def test_a_refusal_is_one_line(command):
    def refuse():
        raise TrainerError("The lap is\nshort.", "Move it.")

    command(refuse)
    done = CliRunner().invoke(main, ["calc"])
    assert (done.exit_code, done.stderr) == (2, "The lap is\\nshort. Move it.\n")


def test_a_fault_of_ours_shows_no_trace_unless_asked(command, monkeypatch):
    command(lambda: 1 / 0)
    done = CliRunner().invoke(main, ["calc"])
    assert done.exit_code == 1
    assert "ZeroDivisionError" in done.stderr
    assert "Traceback" not in done.stderr
    monkeypatch.setenv("TRAINER_TRACE", "1")
    assert isinstance(CliRunner().invoke(main, ["calc"]).exception, ZeroDivisionError)


def test_a_command_may_end_with_a_status(command):
    command(lambda: click.get_current_context().exit(3))
    assert CliRunner().invoke(main, ["calc"]).exit_code == 3
    command(lambda: None)
    assert CliRunner().invoke(main, ["calc"]).exit_code == 0


def test_stopping_is_no_fault(command):
    def stop():
        raise KeyboardInterrupt

    command(stop)
    done = CliRunner().invoke(main, ["calc"])
    assert (done.exit_code, done.stderr.strip()) == (130, "Stopped.")
