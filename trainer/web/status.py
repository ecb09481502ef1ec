"""Whether the program is up and its records can be read: for whoever watches the machine."""

from __future__ import annotations

from flask import Blueprint, jsonify
from flask.typing import ResponseReturnValue

from trainer.services import site
from trainer.web.session import open_to_all, parts

blueprint = Blueprint("status", __name__)


@blueprint.get("/status")
@open_to_all
def public_check() -> ResponseReturnValue:
    """Say "ok" after reading the records, and nothing else about them."""
    site.site(parts())
    return jsonify(status="ok")
