"""``trainer init``: the database and the secret, made once and kept."""

from __future__ import annotations

import click

from trainer.app import make_parts
from trainer.config import Settings
from trainer.services.site import SiteFacts, set_up


@click.command()
@click.option("--site-name", metavar="NAME", help="Name of the roof site.")
@click.option(
    "--time-zone", metavar="ZONE", help='The site\'s time zone, such as "America/Toronto".'
)
@click.option("--profile", metavar="ID", help="Profile of the rule book; left out: its default.")
def init(site_name: str | None, time_zone: str | None, profile: str | None) -> None:
    """Make the database, or bring an older one up to date. Keeps everything that is there.

    On a database that is there, an option given changes what it names, and nothing else.

    Example: trainer init --site-name "Mill Street" --time-zone America/Toronto
    """
    settings = Settings.load(given={"site_name": site_name, "time_zone": time_zone})
    database = make_parts(settings).database
    given = {"name": site_name, "time_zone": time_zone, "profile": profile}
    told = {field: value for field, value in given.items() if value is not None}
    new = SiteFacts(settings.site_name, settings.time_zone, None)
    for change in set_up(database, new, told):
        before = change.before or "the default"
        click.echo(f"Changed: {_WORDS[change.field]}, from {before} to {change.after}")
    click.echo(f"Ready: {database.url.render_as_string()}")
    click.echo('Next: trainer user add "NAME" --sign-in NAME --role coordinator')


_WORDS = {"name": "site name", "time_zone": "time zone", "profile": "profile"}
