"""Pages for what went wrong: what happened, what to do next, never how the program is built.

A script that asks for JSON gets the same words as ``message``, with ``field`` for a value that
cannot be taken and ``sign_in``, an address, when signing in is what helps.
"""

from __future__ import annotations

import secrets
from typing import Any

from flask import Flask, current_app, jsonify, render_template, request
from flask.typing import ResponseReturnValue
from flask_babel import gettext as _
from flask_wtf.csrf import CSRFError
from markupsafe import escape
from werkzeug.exceptions import HTTPException, InternalServerError

from trainer.errors import InputError, TrainerError
from trainer.services import refusals
from trainer.web import carried
from trainer.web.session import wants_json

_STATUS_OF = (
    (InputError, 422),
    (refusals.NotAllowed, 403),
    (refusals.NotFound, 404),
    (refusals.Conflict, 409),
    (refusals.TooManyAtOnce, 429),
    (refusals.DatabaseBusy, 503),
)
_RETRY_AFTER_S = {429: "5", 503: "5"}


def init_app(app: Flask) -> None:
    app.register_error_handler(CSRFError, _old_page)
    app.register_error_handler(TrainerError, _refused)
    app.register_error_handler(InternalServerError, _failed)
    app.register_error_handler(HTTPException, _http)


def problem(status: int, message: str, advice: str = "", **more: Any) -> ResponseReturnValue:
    """A plain page, or JSON for a script, with this status."""
    if wants_json():
        body = jsonify(message=f"{message} {advice}".strip(), **more)
    else:
        body = _page(status, message, advice)
    headers = {"Retry-After": _RETRY_AFTER_S[status]} if status in _RETRY_AFTER_S else {}
    return body, status, headers


def _page(status: int, message: str, advice: str) -> str:
    try:
        return render_template("error.html", status=status, message=message, advice=advice)
    except Exception:
        # the page around an error must not fail for the same reason as the page it replaces
        current_app.logger.exception("the error page could not be drawn")
        return f"<!doctype html><title>{status}</title><p>{escape(message)}<p>{escape(advice)}"


def _http(error: HTTPException) -> ResponseReturnValue:
    if error.response is not None or error.code is None or error.code < 400:
        return error.get_response()
    answer = problem(error.code, *_words(error.code))
    allowed = getattr(error, "valid_methods", None)
    return (*answer[:2], {**answer[2], "Allow": ", ".join(allowed)}) if allowed else answer


def _refused(error: TrainerError) -> ResponseReturnValue:
    status = next((status for kind, status in _STATUS_OF if isinstance(error, kind)), 500)
    if status >= 500:
        current_app.logger.error("%s %s: %s", request.method, request.path, error)
    more = {"field": error.field} if isinstance(error, InputError) else {}
    return problem(status, error.message, error.advice, **more)


def _failed(error: InternalServerError) -> ResponseReturnValue:
    reference = secrets.token_hex(4)
    current_app.logger.error("the failure above has reference %s", reference)
    message, advice = _words(500)
    return problem(500, message, f"{advice} {_('Reference: %(id)s', id=reference)}")


def _old_page(error: CSRFError) -> ResponseReturnValue:
    """The form's token is not this session's: an old page, or a form that is none of ours."""
    form = carried.posted_form()
    if form is not None and not wants_json():
        return render_template("send_again.html", form=form, signed_in=False), 400
    return problem(400, _("This page is too old."), _("Open it again, and send again."))


def _words(status: int) -> tuple[str, str]:
    """What happened and what to do, for a status."""
    back = _("Go back and try again.")
    words = {
        401: (_("You are not signed in."), _("Sign in, then go on where you were.")),
        403: (_("You may not see or do this."), _("Ask your coordinator if you should.")),
        404: (_("There is no such page."), _("Check the address, or start from the parapet.")),
        405: (_("This address cannot be used that way."), back),
        409: (_("Somebody was there first."), _("Open the page again to see how it stands.")),
        413: (_("What you sent is too large."), _("Send something smaller.")),
        429: (_("Too many tries at once."), _("Wait a moment and try again.")),
        500: (
            _("Something went wrong on our side."),
            _("What you answered before is kept. Try again; if it stays, tell the coordinator."),
        ),
        503: (_("The records are busy."), _("Nothing was lost: wait a moment and try again.")),
    }
    return words.get(status, (_("This request cannot be understood."), back))
