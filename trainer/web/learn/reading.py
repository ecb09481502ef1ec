"""What a decision's form holds: shape only. What it is worth, the services decide."""

from __future__ import annotations

import re
import secrets
from collections.abc import Mapping
from typing import Any

from werkzeug.datastructures import MultiDict

from trainer.errors import InputError

_KEY = re.compile(r"[A-Za-z0-9_-]{16,64}")
_SINGLE = ("row", "x_mm", "y_mm", "value", "time", "order")
_LONGEST_CLOCK = 40


def new_key() -> str:
    """A random key for one answer, for phones that make none themselves."""
    return secrets.token_hex(16)


def read_key(form: Mapping[str, str]) -> str:
    """The answer's key. Raises InputError unless it is 16 to 64 letters, digits, "-" or "_"."""
    key = form.get("key", "")
    if not _KEY.fullmatch(key):
        raise InputError("key", key, "16 to 64 letters, digits, - or _, made anew for each answer")
    return key


def read_phone_clock(form: Mapping[str, str]) -> str | None:
    """The phone's own clock as it wrote it, if it wrote one."""
    return form.get("phone_at", "")[:_LONGEST_CLOCK] or None


def read_response(form: MultiDict[str, str]) -> dict[str, Any]:
    """The response as the services take it: every field that was filled in, by name."""
    if form.get("kind") == "find":
        rows = form.getlist("rows")
        return {"rows": rows} if rows else {}
    names = [name for name in form if name in _SINGLE or name.startswith("place-")]
    return {name: form[name] for name in names if form[name] != ""}
