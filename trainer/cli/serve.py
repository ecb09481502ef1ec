"""``trainer serve``: the program for real use."""

from __future__ import annotations

import click

from trainer.config import Settings
from trainer.errors import InputError

_LARGEST_REQUEST = 16 * 1024 * 1024


@click.command()
@click.option("--host", default="127.0.0.1", show_default=True, help="Address to listen on.")
@click.option(
    "--port", default=8000, show_default=True, type=click.IntRange(1, 65535), help="Port."
)
@click.option(
    "--threads", default=32, show_default=True, type=click.IntRange(4, 256),
    help="Requests worked on at a time; most of them wait for a password check or the disk.",
)  # fmt: skip
def serve(host: str, port: int, threads: int) -> None:
    """Serve the program. Brings the database up to date first.

    With https in front, set TRAINER_TRUSTED_PROXIES=1. Any WSGI server does as well, such as
    gunicorn --threads 32 "trainer.app:create_app()".

    Example: trainer serve --host 0.0.0.0 --port 8000
    """
    settings = Settings.load()
    run(settings, host, port, threads)


def run(settings: Settings, host: str, port: int, threads: int = 32) -> None:
    """Bring the database up to date and serve until stopped.

    Raises InputError when the address cannot be listened on.
    """
    from waitress import create_server

    from trainer.app import create_app, make_parts
    from trainer.services.site import make_ready

    make_ready(make_parts(settings).database, settings.site_name, settings.time_zone)
    try:
        server = create_server(
            create_app(settings), host=host, port=port, threads=threads, ident=None,
            max_request_body_size=_LARGEST_REQUEST,
        )  # fmt: skip
    except OSError as problem:
        allowed = f"an address of this machine that is free ({problem.strerror})"
        raise InputError("host and port", f"{host}:{port}", allowed) from None
    click.echo(f"Serving at http://{host}:{port}/ (stop with Ctrl+C)")
    server.run()
