"""``trainer``: the commands. Each is loaded only when it is run, so that every one starts fast."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import Any, NoReturn

import click

from trainer.errors import TrainerError, one_line

_COMMANDS = {
    "demo": ("trainer.cli.demo:demo", "Try it: an invented site, opened at once."),
    "serve": ("trainer.cli.serve:serve", "Serve the program to phones and desks."),
    "init": ("trainer.cli.init:init", "Make the database and its secret."),
    "user": ("trainer.cli.user:user", "Add people and give them passwords."),
    "calc": ("trainer.cli.calc:calc", "Work out one sum of the trade."),
    "scenario": ("trainer.cli.scenario:scenario", "List, show and check scenarios."),
    "installation": (
        "trainer.cli.installation:installation",
        "List, show and play whole parapets.",
    ),
    "recheck": ("trainer.cli.recheck:recheck", "Work out every stored record again."),
}
_TRACE = "Set TRAINER_TRACE=1 and run it again to see where."
_BAD_INPUT = 2
_FAILED = 1
_INTERRUPTED = 130


class Commands(click.Group):
    """Commands by name and one line of help; bad input is told in one plain line, status 2."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(_COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in _COMMANDS:
            return None
        module, _, name = _COMMANDS[cmd_name][0].partition(":")
        command: click.Command = getattr(import_module(module), name)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl([(name, words) for name, (_, words) in _COMMANDS.items()])

    def main(self, args: Sequence[str] | None = None, *others: Any, **named: Any) -> NoReturn:
        named["standalone_mode"] = False
        try:
            status = super().main(args, *others, **named)
        except click.ClickException as problem:
            _end(_plainly(problem), problem.exit_code)
        except TrainerError as problem:
            _end(str(problem), _BAD_INPUT)
        except click.Abort:
            _end("Stopped.", _INTERRUPTED)
        except Exception as problem:
            if "TRAINER_TRACE" in os.environ:
                raise
            _end(f"This should not have happened: {problem!r} {_TRACE}", _FAILED)
        sys.exit(status if isinstance(status, int) else 0)


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="trainer", message="%(prog)s %(version)s")
def main() -> None:
    """Train, test and record the decisions a roofing crew makes at a parapet.

    Example: trainer demo
    """


def _plainly(problem: click.ClickException) -> str:
    """What was wrong, and where to read what is allowed."""
    context = getattr(problem, "ctx", None)
    advice = f" Try: {context.command_path} --help" if context else ""
    return problem.format_message() + advice


def _end(message: str, status: int) -> NoReturn:
    click.echo(one_line(message), err=True)
    sys.exit(status)
