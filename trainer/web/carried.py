"""A form that could not be taken, carried along so that nothing typed is lost.

When a session has ended or a page is too old, its fields travel through signing in, signed by us
and in the person's own browser, and are offered for sending again. Only for forms that came from
our own pages: another site's form must not get a button here.
"""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import urlsplit

from flask import current_app, request
from itsdangerous import BadData, URLSafeTimedSerializer

_LARGEST = 32 * 1024
_KEPT_S = 24 * 3600
_NOT_CARRIED = ("csrf_token", "carried")
_SECRET = ("password", "new_password")


@dataclass(frozen=True)
class Carried:
    """Where the form was going, and its fields in order."""

    path: str
    fields: tuple[tuple[str, str], ...]


def posted_form() -> Carried | None:
    """The form of this request, or None when there is nothing to carry.

    Nothing of a form with a password, with files, or not from our pages.
    """
    if request.method != "POST" or not _from_our_pages() or request.files:
        return None
    if any(name in request.form for name in _SECRET):
        return None
    fields = tuple(
        (name, value) for name, value in request.form.items(multi=True) if name not in _NOT_CARRIED
    )
    if not fields or sum(len(name) + len(value) for name, value in fields) > _LARGEST:
        return None
    return Carried(request.full_path.removesuffix("?"), fields)


def packed(carried: Carried | None) -> str:
    """As one signed line for a hidden field; empty for None."""
    return _signer().dumps([carried.path, carried.fields]) if carried else ""


def unpacked(text: str | None) -> Carried | None:
    """What ``packed`` wrote; None when it is empty, too old or not ours."""
    try:
        path, fields = _signer().loads(text or "", max_age=_KEPT_S)
    except BadData:
        return None
    return Carried(path, tuple((name, value) for name, value in fields))


def _from_our_pages() -> bool:
    """By Origin, which browsers send with every POST, or else by Referer."""
    sent_from = request.headers.get("Origin") or request.headers.get("Referer") or ""
    return urlsplit(sent_from).netloc == request.host


def _signer() -> URLSafeTimedSerializer:
    return URLSafeTimedSerializer(current_app.secret_key, salt="carried")
