"""``trainer init``: the database and the secret, made once and kept."""

from __future__ import annotations

import click

from trainer.app import make_parts
from trainer.config import Settings
from trainer.services.site import make_ready


@click.command()
@click.option("--site-name", metavar="NAME", help="Name of the roof site, for a new database.")
@click.option(
    "--time-zone", metavar="ZONE", help='The site\'s time zone, such as "America/Toronto".'
)
@click.option("--profile", metavar="ID", help="Profile of the rule book; left out: its default.")
def init(site_name: str | None, time_zone: str | None, profile: str | None) -> None:
    """Make the database, or bring an older one up to date. Keeps everything that is there.

    Example: trainer init --site-name "Mill Street" --time-zone America/Toronto
    """
    settings = Settings.load(given={"site_name": site_name, "time_zone": time_zone})
    database = make_parts(settings).database
    make_ready(database, settings.site_name, settings.time_zone, profile)
    click.echo(f"Ready: {database.url.render_as_string()}")
    click.echo('Next: trainer user add "NAME" --sign-in NAME --role coordinator')
