"""Prove, as the fixed form that is practice only: begin, go on, what came out."""

from __future__ import annotations

from flask import redirect, render_template, url_for
from werkzeug.wrappers import Response

from trainer.services import prove as forms
from trainer.web.at_hand import at_hand
from trainer.web.learn import blueprint


@blueprint.get("/prove/<unit>")
def prove(unit: str) -> str:
    """What the form is, before it begins."""
    return render_template("learn/prove_start.html", page=forms.prove_start(*at_hand(), unit))


@blueprint.post("/prove/<unit>")
def prove_open(unit: str) -> Response:
    set_id = forms.prove_open(*at_hand(), unit)
    return redirect(url_for("learn.prove_go_on", set_id=set_id), 303)


@blueprint.get("/form/<set_id>")
def prove_go_on(set_id: str) -> Response:
    """The scenario of the form that waits, or what came out when none does."""
    attempt = forms.prove_next(*at_hand(), set_id)
    if attempt is None:
        return redirect(url_for("learn.prove_result", set_id=set_id), 303)
    return redirect(url_for("learn.scenario", attempt=attempt), 303)


@blueprint.get("/form/<set_id>/result")
def prove_result(set_id: str) -> str:
    return render_template("learn/prove_result.html", page=forms.prove_result(*at_hand(), set_id))
