"""Headers that keep a page to itself: no script but ours, no frame around it, no copy kept."""

from __future__ import annotations

from flask import Flask, Response

_POLICY = "; ".join(
    (
        "default-src 'self'",
        "img-src 'self' data:",
        "object-src 'none'",
        "base-uri 'none'",
        "form-action 'self'",
        "frame-ancestors 'none'",
    )
)


def init_app(app: Flask) -> None:
    app.after_request(_protected)


def _protected(response: Response) -> Response:
    response.headers.setdefault("Content-Security-Policy", _POLICY)
    response.headers.setdefault("X-Content-Type-Options", "nosniff")
    # the form check compares the Referer when the site runs on https, so it is kept within it
    response.headers.setdefault("Referrer-Policy", "same-origin")
    response.headers.setdefault("Cross-Origin-Opener-Policy", "same-origin")
    # a phone on a roof goes from hand to hand: "back" must not show the last one's record
    response.headers.setdefault("Cache-Control", "no-store")
    return response
