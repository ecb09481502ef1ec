"""Whole parapets at the terminal: list the jobs, show one drawn, play it, replay a stored one."""

from __future__ import annotations

import json
import sys

import click


@click.group(help="List, show and play whole parapets; replay stored ones.")
def installation() -> None:
    pass


@installation.command("list", epilog="Example:  trainer installation list --json")
@click.option("--json", "as_json", is_flag=True, help="One JSON list instead of a table.")
def list_jobs(as_json: bool) -> None:
    """All jobs: id, version, level, title, and what the crew is told."""
    from trainer.services.installations import playing

    jobs = playing.listed()
    if as_json:
        click.echo(json.dumps(jobs, ensure_ascii=False))
        return
    for job in jobs:
        click.echo(f"{job['id']:<20} v{job['version']}  level {job['level']}  {job['title']}")


@installation.command(epilog="Example:  trainer installation show straight-wall --seed 7 --json")
@click.argument("job")
@click.option("--seed", type=int, required=True, help="Which draw: a whole number from 0.")
@click.option("--json", "as_json", is_flag=True, help="All of the drawn job, also what is hidden.")
def show(job: str, seed: int, as_json: bool) -> None:
    """One drawn job: its walls, the crew and the forecast, as the crew is told."""
    from trainer.services.installations import playing

    if as_json:
        click.echo(json.dumps(playing.shown(job, seed), ensure_ascii=False))
        return
    click.echo(playing.in_text(job, seed))


@installation.command(epilog="Example:  trainer installation play straight-wall --seed 7 --json")
@click.argument("job")
@click.option("--seed", type=int, required=True, help="Which draw: a whole number from 0.")
@click.option(
    "--by", default="book", show_default=True, type=click.Choice(("book", "careless", "random")),
    help="The way of working.",
)  # fmt: skip
@click.option("--json", "as_json", is_flag=True, help="One JSON object, every decision in it.")
def play(job: str, seed: int, by: str, as_json: bool) -> None:
    """Play a drawn job to its end: by the book, carelessly, or at random; beside the best end."""
    from trainer.services.installations import playing

    done = playing.played(job, seed, by)
    click.echo(json.dumps(done, ensure_ascii=False) if as_json else playing.played_in_text(done))


@installation.command(
    epilog="Example:  trainer installation replay Xq3-9pLm_a2T --json",
    # an id may begin with a dash, and hold an h
    context_settings={"ignore_unknown_options": True, "help_option_names": ["--help"]},
)
@click.argument("installation")
@click.option("--json", "as_json", is_flag=True, help="One JSON object, every decision in it.")
def replay(installation: str, as_json: bool) -> None:
    """Work a stored installation out again. Exit 1 if anything comes out differently."""
    from trainer.app import make_parts
    from trainer.config import Settings
    from trainer.services.installations import playing
    from trainer.services.site import require_current

    parts = make_parts(Settings.load())
    require_current(parts.database)
    done = playing.replayed(parts, installation)
    click.echo(json.dumps(done, ensure_ascii=False) if as_json else playing.played_in_text(done))
    sys.exit(1 if done["differences"] else 0)
