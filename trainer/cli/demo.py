"""``trainer demo``: an invented site to try the program on."""

from __future__ import annotations

import click


@click.command()
@click.option("--host", default="127.0.0.1", show_default=True, help="Address to listen on.")
@click.option(
    "--port", default=8000, show_default=True, type=click.IntRange(1, 65535), help="Port."
)
@click.option("--no-serve", is_flag=True, help="Make the demonstration, but do not serve it.")
def demo(host: str, port: int, no_serve: bool) -> None:
    """Make an invented site with a crew and three months of practice, and serve it.

    Needs no internet. A second run keeps what is there.

    Example: trainer demo --port 8080
    """
    from dataclasses import replace

    from trainer.app import make_parts
    from trainer.cli.serve import run
    from trainer.config import Settings
    from trainer.services.demo import make_demo

    settings = replace(Settings.load(given={"database": demo_database()}), demo=True)
    made = make_demo(make_parts(settings), settings.demo_password)
    click.echo("An invented site was made." if made else "The invented site is kept as it was.")
    click.echo(_TO_TRY.format(address=f"http://{host}:{port}/", password=settings.demo_password))
    if not no_serve:
        run(settings, host, port)


_TO_TRY = """
Open {address} and sign in. Everybody's password: {password}

  ikram    a new hire: read a lesson, then practise a scenario; look at My record
  bram     a worker whose corners keep going wrong: practise, and see what comes back
  dessa    reads inches and degrees Fahrenheit
  greta    the supervisor: look at the records of her crew
  cormac   the training coordinator: all records
"""


def demo_database() -> str | None:
    """Its own file beside the real one, unless the surroundings name a database."""
    import os

    from trainer.config import Settings

    if os.environ.get("TRAINER_DATABASE"):
        return None
    return f"sqlite:///{Settings.load().instance / 'demo.db'}"
