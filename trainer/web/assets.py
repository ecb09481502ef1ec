"""Static files under addresses that change with their content, so that phones may keep them."""

from __future__ import annotations

import hashlib
from functools import lru_cache
from pathlib import Path
from typing import Any

from flask import Flask, Response, request

_A_YEAR_S = 365 * 24 * 3600


def init_app(app: Flask) -> None:
    folder = Path(app.static_folder or "")

    @app.url_defaults
    def _name_version(endpoint: str, values: dict[str, Any]) -> None:
        if endpoint == "static" and "v" not in values:
            values["v"] = version(folder / values.get("filename", ""))

    app.after_request(_may_be_kept)


def version(path: Path) -> str | None:
    """A short digest of the file's content; None when there is no such file."""
    try:
        return _digest(path, path.stat().st_mtime_ns)
    except OSError:
        return None


@lru_cache(maxsize=512)
def _digest(path: Path, _changed: int) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()[:12]


def _may_be_kept(response: Response) -> Response:
    if request.endpoint == "static" and request.args.get("v") and response.status_code < 400:
        response.cache_control.no_cache = None
        response.cache_control.public = True
        response.cache_control.max_age = _A_YEAR_S
        response.cache_control.immutable = True
    return response
