"""Scenarios at the terminal: list the families, show one drawn, check them all."""

from __future__ import annotations

import json
import sys

import click


@click.group(help="List, show and check the scenario families.")
def scenario() -> None:
    pass


@scenario.command("list", epilog="Example:  trainer scenario list --json")
@click.option("--json", "as_json", is_flag=True, help="One JSON list instead of a table.")
def list_families(as_json: bool) -> None:
    """All families: id, version, unit, severity, fault modes, title."""
    from trainer.services import catalogue

    families = catalogue.families()
    if as_json:
        click.echo(json.dumps(families, ensure_ascii=False))
        return
    for family in families:
        click.echo(
            f"{family['id']:<16} v{family['version']}  {family['unit']:<11} {family['severity']:<9}"
            f" {family['title']}  ({', '.join(family['modes'])})"
        )


@scenario.command(epilog="Example:  trainer scenario show primer-window --seed 7 --json")
@click.argument("family")
@click.option("--seed", type=int, required=True, help="Which draw: a whole number from 0.")
@click.option("--mode", default="", help="Fault mode; drawn from the seed when left out.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object with everything.")
def show(family: str, seed: int, mode: str, as_json: bool) -> None:
    """One scenario: situation, decisions, the computed answers, the drawing."""
    from trainer.services import catalogue

    shown = catalogue.shown(family, seed, mode)
    if as_json:
        click.echo(json.dumps(shown, ensure_ascii=False))
        return
    click.echo(catalogue.in_text(shown))


@scenario.command(epilog="Example:  trainer scenario check --seeds 20")
@click.option("--seeds", default=200, show_default=True, type=click.IntRange(1, 100_000))
@click.option("--family", "only", default="", help="Only this family.")
def check(seeds: int, only: str) -> None:
    """Draw every family × fault mode with many seeds and report what is unsound (exit 1)."""
    from trainer.services import catalogue

    cells = catalogue.cells(only)
    found = []
    with click.progressbar(
        cells, label=f"{len(cells)} cells × {seeds} seeds", file=sys.stderr
    ) as bar:
        for family, mode in bar:
            found += catalogue.unsound(family, mode, seeds)
    for problem in found:
        click.echo(problem)
    drawn = len(cells) * seeds
    click.echo(f"{drawn} scenarios drawn, {len(found)} unsound.", err=bool(found))
    sys.exit(1 if found else 0)
