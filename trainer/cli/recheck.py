"""``trainer recheck``: every stored mark and installation, worked out again."""

from __future__ import annotations

import sys

import click


@click.command()
def recheck() -> None:
    """Work every stored mark and installation out again; list what comes out differently.

    Exit 1 if anything does.

    Example: trainer recheck
    """
    from trainer.app import make_parts
    from trainer.config import Settings
    from trainer.services import rechecking
    from trainer.services.site import require_current

    parts = make_parts(Settings.load())
    require_current(parts.database)
    total, found = rechecking.count(parts), []
    label = f"{total} scenarios and installations"
    with click.progressbar(
        rechecking.every(parts), length=total, label=label, file=sys.stderr
    ) as bar:
        for differences in bar:
            found += differences
    for difference in found:
        click.echo(difference)
    click.echo(f"{label} worked out again, {len(found)} differences.")
    sys.exit(1 if found else 0)
