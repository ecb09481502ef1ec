"""Whole installations: the list of jobs, the wall as it is known now, one decision at a time."""

from __future__ import annotations

from typing import Any

from flask import jsonify, redirect, render_template, request, url_for
from flask_babel import gettext as _
from werkzeug.datastructures import MultiDict
from werkzeug.wrappers import Response

from trainer.errors import InputError
from trainer.services.installations import debriefing, deciding, ending, listing, page, store
from trainer.services.installations.deciding import Ended, Refused, Sent
from trainer.services.refusals import Conflict
from trainer.web.at_hand import at_hand
from trainer.web.learn import blueprint
from trainer.web.learn.answers import in_plain_words
from trainer.web.learn.reading import new_key, read_key, read_phone_clock
from trainer.web.session import current_person, parts, wants_json

_Answer = Response | tuple[Response | str, int]
_ABOUT_THE_PAGE = ("csrf_token", "key", "phone_at", "after", "place", "view", "seen", "option")


@blueprint.get("/installations")
def installations() -> str:
    return render_template("learn/installations.html", page=listing.list_page(*at_hand()))


@blueprint.get("/installations/<job>/prove")
def installation_prove(job: str) -> str:
    """Before a job is proved: what counts."""
    return render_template("learn/installation_prove.html", job=listing.job_line(*at_hand(), job))


@blueprint.post("/installations")
def installation_open() -> Response:
    purpose = request.form.get("purpose", "practise")
    job = request.form.get("job", "")
    public_id = store.open_installation(*at_hand(), job, purpose=purpose)
    return redirect(url_for("learn.installation", public_id=public_id), 303)


@blueprint.get("/installation/<public_id>")
def installation(public_id: str) -> str:
    """The wall as it is known now; once everybody is off the roof, what came out."""
    return _as_it_stands(public_id, request.args)


@blueprint.get("/installation/<public_id>/leave")
def installation_leave(public_id: str) -> str | Response:
    """Asks once more before everybody leaves the roof."""
    standing = store.own(*at_hand(), public_id)
    if standing.ended:
        return _go(public_id)
    shown = page.leaving_page(current_person(), standing)
    return render_template("learn/installation_leave.html", page=shown, key=new_key())


@blueprint.post("/installation/<public_id>/decision")
def installation_decide(public_id: str) -> _Answer:
    """Take one decision, once, however often it is sent; then back to the page."""
    form = request.form
    decision = {name: form.getlist(name) for name in form if name not in _ABOUT_THE_PAGE}
    try:
        deciding.decide(*at_hand(), public_id, decision, _sent(form))
    except InputError as error:
        return _not_taken(public_id, in_plain_words(error), 422, error.field)
    except Refused as error:
        return _not_taken(public_id, error.message, 409)
    except (Conflict, Ended):  # decided in another tab or on another phone: that stands
        return _go(public_id, stale=1)
    return _go(public_id, since=form.get("seen"))


@blueprint.post("/installation/<public_id>/back")
def installation_back(public_id: str) -> _Answer:
    """Take the last decision back, while practising."""
    try:
        deciding.step_back(*at_hand(), public_id, _sent(request.form))
    except (Conflict, Ended):
        return _go(public_id, stale=1)
    return _go(public_id, back=1)


def _sent(form: MultiDict[str, str]) -> Sent:
    number = form.get("after", "")
    if not (number.isascii() and number.isdecimal() and len(number) < 6):
        raise InputError("after", number, "how many decisions the page showed")
    return Sent(int(number), read_key(form), read_phone_clock(form))


def _go(public_id: str, **more: Any) -> Response:
    """Back to the place where the decision was made."""
    kept = {name: request.form[name] for name in ("place", "view") if request.form.get(name)}
    location = url_for("learn.installation", public_id=public_id, **kept, **more)
    return jsonify(location=location) if wants_json() else redirect(location, 303)


def _not_taken(public_id: str, problem: str, status: int, field: str = "") -> _Answer:
    """Said in place: what was typed stays, nothing has happened yet."""
    if wants_json():
        return jsonify(message=problem, field=field), status
    return _as_it_stands(public_id, request.form, problem, field), status


def _as_it_stands(
    public_id: str, asked: MultiDict[str, str], problem: str = "", field: str = ""
) -> str:
    person, standing = current_person(), store.own(*at_hand(), public_id)
    if standing.ended:
        debriefing.begin(parts(), standing)
        end = ending.end_page(person, standing)
        return render_template("learn/installation_end.html", page=end)
    wanted = {name: asked.get(name, "") for name in ("place", "view", "since")}
    return render_template(
        "learn/installation.html",
        page=page.installation_page(person, standing, **wanted),
        key=new_key(),
        typed=asked if problem else MultiDict(),
        problem=problem,
        field=field,
        notice=_notice(asked),
    )


def _notice(asked: MultiDict[str, str]) -> str:
    if "stale" in asked:
        return _("That page was old: something was decided since. This is how it stands now.")
    return _("Taken back. This is how it was before.") if "back" in asked else ""
