"""Signing in and out, one's password, and how one likes to read."""

from flask import Blueprint

blueprint = Blueprint("account", __name__)

from trainer.web.account import own, signing  # noqa: E402, F401
