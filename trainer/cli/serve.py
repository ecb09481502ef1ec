"""``trainer serve``: the program for real use."""

from __future__ import annotations

import gc
from typing import TYPE_CHECKING

import click

from trainer.config import Settings
from trainer.errors import InputError

if TYPE_CHECKING:
    from flask import Flask

_CONNECTIONS = 1000  # a phone keeps one or two open
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

    Raises InputError when the address cannot be listened on, TrainerError for a broken pack.
    """
    from waitress import create_server

    app = _ready_app(settings)
    try:
        server = create_server(
            app, host=host, port=port, threads=threads, ident=None, asyncore_use_poll=True,
            connection_limit=_CONNECTIONS, max_request_body_size=_LARGEST_REQUEST,
            # the app itself reads what a proxy adds, and only from as many as are trusted
            clear_untrusted_proxy_headers=not settings.trusted_proxies,
        )  # fmt: skip
    except OSError as problem:
        allowed = f"an address of this machine that is free ({problem.strerror})"
        raise InputError("host and port", f"{host}:{port}", allowed) from None
    click.echo(f"Serving at http://{host}:{port}/ (stop with Ctrl+C)")
    server.run()


def _ready_app(settings: Settings) -> Flask:
    """The app with its database up to date and its pack read, so that nobody waits for either."""
    from trainer.app import create_app, make_parts
    from trainer.services.scenarios import checked_pack
    from trainer.services.site import make_ready

    make_ready(make_parts(settings).database, settings.site_name, settings.time_zone)
    app = create_app(settings)
    checked_pack()
    # what is here now stays: the collector need not look through it in the middle of an answer
    gc.collect()
    gc.freeze()
    return app
