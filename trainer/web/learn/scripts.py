"""The scripts, under an address that changes with any of them, so that phones may keep them all.

A module finds the others beside it (``./store.js``); a version in the path reaches those too, where
one behind a question mark would not.
"""

from __future__ import annotations

import hashlib
from pathlib import Path

from flask import current_app, send_from_directory, url_for
from werkzeug.wrappers import Response

from trainer.web.learn import blueprint
from trainer.web.session import open_to_all

_A_YEAR_S = 365 * 24 * 3600


@blueprint.get("/scripts/<version>/<name>.js")
@open_to_all
def script(version: str, name: str) -> Response:
    """One script; to be kept for good when ``version`` is the one there is now."""
    response = send_from_directory(_folder(), f"{name}.js", mimetype="text/javascript")
    if version == _version():
        response.cache_control.no_cache = None
        response.cache_control.public = True
        response.cache_control.max_age = _A_YEAR_S
        response.cache_control.immutable = True
    return response


@blueprint.app_template_global()
def main_script() -> str:
    """The address of the script that every page loads."""
    return url_for("learn.script", version=_version(), name="main")


def _folder() -> Path:
    return Path(current_app.static_folder or "") / "js"


def _version() -> str:
    """A short digest of every script's name and content."""
    digest = hashlib.sha256()
    for path in sorted(_folder().glob("*.js")):
        digest.update(path.name.encode() + b"\0" + path.read_bytes() + b"\0")
    return digest.hexdigest()[:12]
