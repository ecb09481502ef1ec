"""Who is at the other end: the signed-in person, the cookie, and the check of every form.

Nothing is open to strangers unless its view says so with ``open_to_all``. The signed cookie holds
a random token and the form token; what the session is worth stands in the records.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

from flask import Flask, abort, current_app, g, redirect, request, session, url_for
from flask.sessions import SecureCookieSessionInterface
from flask_wtf.csrf import CSRFProtect, generate_csrf

from trainer.services import sessions
from trainer.services.parts import Parts
from trainer.services.person import SignedIn

__all__ = ["begin", "current_person", "end", "open_to_all", "parts", "wants_json"]

_TOKEN = "token"
_OPEN = "open_to_all"
_TOKENS_KEPT = 1024
_View = TypeVar("_View", bound=Callable[..., Any])

csrf = CSRFProtect()


class _Cookie(SecureCookieSessionInterface):
    """Marked Secure whenever the request came by https; a site network may have none."""

    def get_cookie_secure(self, app: Flask) -> bool:
        return request.is_secure


def init_app(app: Flask) -> None:
    """Know the person before every request, refuse strangers, then check the form token."""
    app.session_interface = _Cookie()
    app.before_request(_know_person)
    csrf.init_app(app)
    app.jinja_env.globals["csrf_token"] = form_token
    app.context_processor(lambda: {"csrf_token": form_token})  # after Flask-WTF's own


def parts() -> Parts:
    """What the services of this app work with."""
    return current_app.extensions["trainer"]


def current_person() -> SignedIn:
    """The person who is signed in; on a page open to all, ask ``g.person``, which may be None."""
    if g.person is None:
        abort(401)
    return g.person


def open_to_all(view: _View) -> _View:
    """Mark a view that needs nobody signed in."""
    setattr(view, _OPEN, True)
    return view


def begin(token: str) -> None:
    """Make this device's session the one of ``token``; nothing of an earlier one is kept."""
    end()
    session[_TOKEN] = token
    session.permanent = True


def end() -> str | None:
    """Forget this device's session; returns the token it had."""
    token = session.get(_TOKEN)
    session.clear()
    g.pop("csrf_token", None)
    g.person = None
    return token


def wants_json() -> bool:
    """Whether a script asked, rather than a person following links."""
    offered = ["text/html", "application/json"]
    return request.accept_mimetypes.best_match(offered) == "application/json"


def form_token() -> str:
    """The form token of this session, signed once and not for every page.

    It is good as long as its session is, so an earlier signature is as good as a new one.
    """
    if "csrf_token" not in g:
        kept = current_app.extensions.setdefault("form tokens", {})
        g.csrf_token = kept.get(session.get("csrf_token")) or _newly_signed(kept)
    return g.csrf_token


def _newly_signed(kept: dict[str, str]) -> str:
    signed = generate_csrf()
    if len(kept) >= _TOKENS_KEPT:
        kept.clear()
    kept[session["csrf_token"]] = signed
    return signed


def _know_person() -> Any:
    g.person = None
    if request.endpoint == "static":
        return None
    token = session.get(_TOKEN)
    g.person = sessions.signed_in(parts(), token) if isinstance(token, str) else None
    return None if request.endpoint is None else _refuse_strangers(request.endpoint)


def _refuse_strangers(endpoint: str) -> Any:
    if _is_open(endpoint):
        return None
    if g.person is None:
        abort(401)
    if g.person.must_change_password and endpoint != "account.password":
        return abort(403) if wants_json() else redirect(url_for("account.password"), 303)
    return None


def _is_open(endpoint: str) -> bool:
    return hasattr(current_app.view_functions[endpoint], _OPEN)
