"""``trainer calc``: the trade's sums at a terminal, one JSON object in, one out."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager, nullcontext
from functools import partial
from pathlib import Path
from typing import Any, BinaryIO

import click

from trainer.errors import InputError, TrainerError, one_line
from trainer.services import calculators as service
from trainer.services.calculators import Field

_BAD_INPUT = 2
_BAD_LINE = 1


class _Calculators(click.Group):
    """One command for each calculator, made when it is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(service.names_and_summaries())

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        summary = service.names_and_summaries().get(cmd_name)
        return _calculator_command(cmd_name, summary) if summary else None

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args[0] not in service.names_and_summaries():
            with _bad_input_in_one_line():
                raise service.unknown_calculator(args[0])
        return super().resolve_command(ctx, args)


class _CalculatorCommand(click.Command):
    """A calculator's command: its help tells fields, results, rules, sources and an example."""

    def format_help_text(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        asked = service.calculator(str(self.name))
        formatter.write_paragraph()
        formatter.write_text(asked.summary)
        with formatter.section("Fields of the one JSON object"):
            formatter.write_dl(list(_field_rows(asked.fields)))
        with formatter.section("Results"):
            formatter.write_dl(list(asked.results.items()))
        for title, sentences in (("Rules", asked.rules), ("Sources", asked.sources)):
            if sentences:
                with formatter.section(title):
                    _write_list(formatter, sentences)
        with formatter.section("Example"):
            _write_example(formatter, str(self.name))


def _field_rows(fields: tuple[Field, ...], prefix: str = "") -> Iterator[tuple[str, str]]:
    """Name and explanation of each field, those inside a field under it as "field.name"."""
    for field in fields:
        yield prefix + field.name, f"{field.meaning}: {field.kind.describe()}{_absence(field)}"
        yield from _field_rows(field.inner_fields, f"{prefix}{field.name}.")


def _absence(field: Field) -> str:
    """What it means to leave the field out."""
    if field.required:
        return ""
    if field.default_rule:
        return f". Left out, {_rule(field.default_rule)}"
    return ". May be left out." if field.optional else f". Left out: {_json(field.default)}."


def _rule(subject: str) -> str:
    """What the rule book says on a subject; help stays readable while the rule book is not."""
    try:
        return f"the rule book: {service.rule_sentence(subject)}"
    except TrainerError:
        return f"{subject} of the rule book."


def _write_list(formatter: click.HelpFormatter, sentences: tuple[str, ...]) -> None:
    for sentence in sentences:
        formatter.write_dl([("-", sentence)])


def _write_example(formatter: click.HelpFormatter, name: str) -> None:
    """The call as it can be pasted, and its answer, which is worked out here and now."""
    example = service.EXAMPLES[name]
    indent = " " * formatter.current_indent
    formatter.write(f"{indent}echo '{_json(example)}' | trainer calc {name}\n")
    formatter.write(f"{indent}{_json(service.calculate(name, example))}\n")


def _print_list(ctx: click.Context, _option: click.Parameter, wanted: bool) -> None:
    if wanted:
        for name, summary in service.names_and_summaries().items():
            click.echo(f"{name:<16} {summary}")
        ctx.exit()


@click.group(cls=_Calculators, subcommand_metavar="NAME [FILE] [--lines]")
@click.option(
    "--list", is_eager=True, expose_value=False, is_flag=True, callback=_print_list,
    help="Name every calculator, with one line each.",
)  # fmt: skip
def calc() -> None:
    """Work out one sum of the trade: one JSON object in, one JSON object out.

    The object comes from FILE or from standard input. Bad input is told in one line that names
    the field, the value and what is allowed. `trainer calc NAME --help` tells fields, units and
    sources.

    Example: echo '{"air_c": 12, "rh_pct": 88}' | trainer calc dew-point
    """


def _calculator_command(name: str, summary: str) -> click.Command:
    options: list[click.Parameter] = [
        click.Argument(["file"], required=False),
        click.Option(["--lines"], is_flag=True, help="One object per line, one answer line each."),
    ]
    if name == "sequence":
        options.append(
            click.Option(["--steps"], metavar="JOB", help="List the steps of a job instead.")
        )
    return _CalculatorCommand(
        name, params=options, short_help=summary, callback=partial(_run, name)
    )


def _run(name: str, file: str | None, lines: bool, steps: str | None = None) -> None:
    with _bad_input_in_one_line():
        if steps is not None:
            _print_json(service.steps(steps))
        elif lines:
            _answer_lines(name, file)
        else:
            with _opened(file) as source:
                _print_json(service.answer_text(name, source.read()))


def _answer_lines(name: str, file: str | None) -> None:
    all_good = True
    with _opened(file) as source:
        for answer in service.answer_lines(name, source):
            _print_json(answer.results)
            all_good = all_good and answer.ok
    if not all_good:
        raise click.exceptions.Exit(_BAD_LINE)


def _opened(file: str | None) -> AbstractContextManager[BinaryIO]:
    """FILE, or standard input without one or for "-", as bytes."""
    if file is None or file == "-":
        return nullcontext(sys.stdin.buffer)
    try:
        return Path(file).open("rb")
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise InputError("FILE", file, f"a file that can be read ({reason.lower()})") from None


@contextmanager
def _bad_input_in_one_line() -> Iterator[None]:
    try:
        yield
    except TrainerError as error:
        click.echo(one_line(str(error)), err=True)
        raise click.exceptions.Exit(_BAD_INPUT) from None


def _json(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False)


def _print_json(value: Any) -> None:
    """One line of UTF-8; what UTF-8 cannot carry (half a surrogate pair) as JSON's own escape."""
    click.echo(_json(value).encode("utf-8", "backslashreplace"))
