"""The way in and the lessons."""

from __future__ import annotations

from flask import g, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from trainer.services import examples, learning, permissions, practice
from trainer.web.at_hand import at_hand
from trainer.web.fixed import fixed
from trainer.web.learn import blueprint

blueprint.add_app_template_global(fixed)


@blueprint.app_template_global()
def may_i(action: str) -> bool:
    """Whether the person may do this at all: for menus; the services check for themselves."""
    person = g.get("person")
    return person is not None and permissions.may(person, action)


@blueprint.get("/")
def home() -> str | Response:
    """The parapet section, the next step and the units; for those who do not play, the people."""
    if not may_i("scenario.play"):
        reads = may_i("scenario.view_others_history")
        return redirect(url_for("record.people" if reads else "account.settings"), 303)
    return render_template("learn/home.html", page=practice.home(*at_hand()))


@blueprint.get("/learn/<unit>")
def lesson(unit: str) -> str:
    return render_template("learn/lesson.html", page=learning.lesson(*at_hand(), unit))


@blueprint.get("/learn/family/<family>/example")
def example(family: str) -> str:
    """The family's example worked by hand; from a scenario it leads back to that."""
    return render_template(
        "learn/example.html",
        page=examples.example(*at_hand(), family),
        scenario=request.args.get("scenario", ""),
    )


@blueprint.post("/learn/<unit>/read")
def lesson_read(unit: str) -> Response:
    """The lesson is read: on to practice, or back to the way in."""
    learning.mark_read(*at_hand(), unit)
    if request.form.get("then") == "practise":
        attempt = practice.start(*at_hand(), unit)
        return redirect(url_for("learn.scenario", attempt=attempt), 303)
    return redirect(url_for("learn.home", _anchor=f"unit-{unit}"), 303)
