"""One answer: taken from a plain form or from the outbox, the same way."""

from __future__ import annotations

from flask import jsonify, redirect, request, url_for
from flask_babel import gettext as _
from werkzeug.wrappers import Response

from trainer.errors import InputError, MissingField
from trainer.services import attempts, scenario_pages
from trainer.services.attempts import Taken
from trainer.services.refusals import Conflict
from trainer.web.at_hand import at_hand
from trainer.web.learn import blueprint
from trainer.web.learn.reading import read_key, read_phone_clock, read_response
from trainer.web.learn.scenarios import scenario_as_it_stands
from trainer.web.session import wants_json


@blueprint.post("/scenario/<attempt>/<decision>")
def answer(attempt: str, decision: str) -> Response | tuple[Response | str, int]:
    """Take the answer once, however often it is sent; then on to what it came to."""
    form = request.form
    try:
        taken = attempts.answer(
            *at_hand(),
            attempt,
            decision,
            read_response(form),
            read_key(form),
            read_phone_clock(form),
        )
    except InputError as error:
        return _not_taken(attempt, error)
    except Conflict:  # answered before, in another tab or on another phone: the first answer stands
        return _go(url_for("learn.answered", attempt=attempt, decision=decision, again=1))
    return _go(_onwards(taken))


def _go(location: str) -> Response:
    return jsonify(location=location) if wants_json() else redirect(location, 303)


def _onwards(taken: Taken) -> str:
    """To the verdict in practice; in a fixed form straight to what comes next."""
    if not taken.set:
        return url_for("learn.answered", attempt=taken.attempt, decision=taken.decision)
    if taken.done:
        return url_for("learn.prove_go_on", set_id=taken.set)
    return url_for("learn.scenario", attempt=taken.attempt)


def _not_taken(attempt: str, error: InputError) -> tuple[Response | str, int]:
    """Said in place: what was typed stays, the decision still waits."""
    problem = in_plain_words(error)
    if wants_json():
        return jsonify(message=problem, field=error.field), 422
    page = scenario_pages.scenario_page(*at_hand(), attempt)
    return scenario_as_it_stands(page, request.form, problem), 422


def in_plain_words(error: InputError) -> str:
    """The error for somebody who has never seen a field name."""
    if isinstance(error, MissingField) or error.value in (None, "", []):
        return _("Nothing is filled in yet. Wanted: %(allowed)s.", allowed=error.allowed)
    return _(
        "“%(value)s” cannot be taken. Wanted: %(allowed)s.",
        value=str(error.value)[:60],
        allowed=error.allowed,
    )
