"""Scenarios at the terminal: list the families, show one drawn, check them all."""

from __future__ import annotations

import json
import sys
from pathlib import Path

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
@click.option("--only", "what", type=click.Choice(["draws", "content"]), default=None)
@click.option("--json", "as_json", is_flag=True, help="One JSON object with everything found.")
def check(seeds: int, only: str, what: str | None, as_json: bool) -> None:
    """Draw every family × fault mode with many seeds; report what is unsound, and what is hard to
    read, too long, easily guessed, too much alike or missing (exit 1)."""
    from trainer.services import catalogue, checking

    cells = len(catalogue.cells(only))
    label = f"{cells} cells × {seeds} seeds"
    with click.progressbar(length=cells, label=label, file=sys.stderr) as bar:
        report = checking.check(only, seeds, what or "", lambda: bar.update(1))
    if as_json:
        click.echo(json.dumps(report.plain(), ensure_ascii=False))
    else:
        click.echo("\n".join(report.lines()))
        found = f"{len(report.unsound)} unsound, {len(report.findings)} to mend in the content"
        click.echo(f"{report.drawn} scenarios drawn, {found}.", err=not report.clean)
    sys.exit(0 if report.clean else 1)


@scenario.command(epilog="Example:  trainer scenario gallery --family torch-stand --seeds 2")
@click.option(
    "--out", type=click.Path(file_okay=False), help="Folder for the pages; else instance/gallery."
)
@click.option("--family", "only", default="", help="Only this family.")
@click.option("--seeds", default=3, show_default=True, type=click.IntRange(1, 100))
def gallery(out: str | None, only: str, seeds: int) -> None:
    """Write pages with every drawing of every cell, on both grounds, to look through."""
    from trainer.config import Settings
    from trainer.services.gallery import write_gallery

    settings = Settings.load()
    folder = Path(out) if out else settings.instance / "gallery"
    made = write_gallery(folder, settings.static, only, seeds)
    click.echo(
        f"{made.figures} drawings of {made.cells} cells, {made.median_ms:.1f} ms each (median);"
        f" slowest {made.slowest}, {made.slowest_ms:.1f} ms."
    )
    click.echo(f"Open {made.index}")
