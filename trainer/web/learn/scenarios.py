"""Practice: open a scenario, look at it, see what a decision came to."""

from __future__ import annotations

from flask import abort, redirect, render_template, request, url_for
from werkzeug.datastructures import MultiDict
from werkzeug.wrappers import Response

from trainer.services import learning, permissions, practice, scenario_pages
from trainer.services.pages import ScenarioPage, UnitPage
from trainer.web.at_hand import at_hand
from trainer.web.learn import blueprint
from trainer.web.learn.reading import new_key
from trainer.web.session import current_person


@blueprint.get("/practise")
@blueprint.get("/practise/<unit>")
def practise_page(unit: str | None = None) -> str:
    """Before a scenario is opened; also where a link leads that cannot post."""
    permissions.require(current_person(), "scenario.play")
    return render_template("learn/practise.html", unit=_unit(unit) if unit else None)


@blueprint.post("/practise")
@blueprint.post("/practise/<unit>")
def practise(unit: str | None = None) -> Response:
    attempt = practice.start(*at_hand(), unit)
    return redirect(url_for("learn.scenario", attempt=attempt), 303)


@blueprint.get("/scenario/<attempt>")
def scenario(attempt: str) -> str:
    return scenario_as_it_stands(scenario_pages.scenario_page(*at_hand(), attempt))


@blueprint.get("/scenario/<attempt>/<decision>")
def answered(attempt: str, decision: str) -> str | Response:
    """What one decision came to; back to the scenario while it still waits."""
    page = scenario_pages.scenario_page(*at_hand(), attempt, answered=decision)
    place = place_of(page, decision)
    made = page.decisions[place - 1]
    if made.verdict is None:
        return redirect(url_for("learn.scenario", attempt=attempt), 303)
    return render_template(
        "learn/answered.html",
        page=page,
        answered=made,
        place=place,
        again="again" in request.args,
    )


def scenario_as_it_stands(
    page: ScenarioPage, typed: MultiDict[str, str] | None = None, problem: str = ""
) -> str:
    """The scenario with the decision that waits; what was typed before stays in its field."""
    return render_template(
        "learn/scenario.html",
        page=page,
        place=place_of(page, page.current.id) if page.current else 0,
        key=new_key(),
        typed=MultiDict() if typed is None else typed,
        problem=problem,
    )


def place_of(page: ScenarioPage, decision: str) -> int:
    """Which decision of the scenario it is, counted from 1; not found ends the request."""
    ids = [d.id for d in page.decisions]
    if decision not in ids:
        abort(404)
    return ids.index(decision) + 1


def _unit(unit: str) -> UnitPage:
    found = [u for u in learning.units(*at_hand()) if u.id == unit]
    return found[0] if found else abort(404)
