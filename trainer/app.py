"""The program, put together: the only module that knows every part."""

from __future__ import annotations

from datetime import timedelta
from importlib import import_module

from flask import Flask
from werkzeug.middleware.proxy_fix import ProxyFix

from trainer.config import Settings
from trainer.pack.pack import remember_in
from trainer.records.database import Database
from trainer.services.clock import Clock, SystemClock
from trainer.services.parts import Parts, SessionLimits
from trainer.services.passwords import Passwords
from trainer.services.site import require_current
from trainer.web import assets, errors, headers, language, session, templating

BLUEPRINTS = (
    "trainer.web.account",
    "trainer.web.learn",
    "trainer.web.record",
    "trainer.web.status",
    "trainer.web.today",
)
"""Modules that each hold a ``blueprint``, one for each person's job."""

_LARGEST_REQUEST = 1024 * 1024


def create_app(settings: Settings | None = None, clock: Clock | None = None) -> Flask:
    """The web application on a database that is up to date.

    Raises TrainerError, saying what to run, when the database is not there or not up to date.
    """
    settings = settings or Settings.load()
    app = Flask(
        "trainer.web",
        instance_path=str(settings.instance),
        static_folder=str(settings.static),
        static_url_path="/static",
    )
    app.config.from_mapping(_flask_config(settings))
    app.extensions["trainer"] = _opened(make_parts(settings, clock))
    for part in (templating, session, language, assets, headers, errors):
        part.init_app(app)
    for module in BLUEPRINTS:
        app.register_blueprint(import_module(module).blueprint)
    _trust_proxies(app, settings.trusted_proxies)
    return app


def make_parts(settings: Settings, clock: Clock | None = None) -> Parts:
    """What the services work with, for the web and for commands alike; opens nothing yet."""
    cost = settings.argon2
    remember_in(settings.instance)
    return Parts(
        database=Database(settings.database),
        clock=clock or SystemClock(),
        passwords=Passwords(cost.memory_kib, cost.passes, cost.lanes),
        session_limits=SessionLimits(
            idle=timedelta(seconds=settings.session_idle_s),
            longest=timedelta(seconds=settings.session_longest_s),
        ),
        demo=settings.demo,
    )


def _flask_config(settings: Settings) -> dict[str, object]:
    return {
        "SECRET_KEY": settings.secret,
        "SESSION_COOKIE_NAME": "trainer",
        "SESSION_COOKIE_SAMESITE": "Lax",
        "SESSION_REFRESH_EACH_REQUEST": False,
        "PERMANENT_SESSION_LIFETIME": timedelta(seconds=settings.session_longest_s),
        # a form's token lives as long as its session: a scenario may lie open over lunch
        "WTF_CSRF_TIME_LIMIT": None,
        "MAX_CONTENT_LENGTH": _LARGEST_REQUEST,
        "DEMO_PASSWORD": settings.demo_password,
    }


def _opened(parts: Parts) -> Parts:
    """Check the database, then let go of it: a server may fork after this."""
    require_current(parts.database)
    parts.database.prepare()
    parts.database.close()
    return parts


def _trust_proxies(app: Flask, how_many: int) -> None:
    if how_many:
        app.wsgi_app = ProxyFix(  # type: ignore[method-assign]
            app.wsgi_app, x_for=how_many, x_proto=how_many, x_host=how_many
        )
