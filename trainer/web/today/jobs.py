"""Jobs made from real walls: those one made, the short form, one job, and who practises it."""

from __future__ import annotations

from typing import Any

from flask import flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext as _

from trainer.errors import InputError
from trainer.services.installations import jobs, site_form, site_pages
from trainer.web.at_hand import at_hand
from trainer.web.session import current_person
from trainer.web.today import blueprint
from trainer.web.today.forms import JobForm, put_beside


@blueprint.get("/jobs")
def made() -> str:
    return render_template("today/jobs.html", jobs=site_pages.made_page(*at_hand()))


@blueprint.route("/jobs/new", methods=["GET", "POST"])
def new_job() -> ResponseReturnValue:
    """The short form; one wall more or less is a button of it, and loses nothing."""
    form = JobForm(data=_begun())
    change = request.form.get("change", "")
    if not form.is_submitted() or change:
        form.change(change)
        return _form_page(form)
    try:
        job = site_form.make(*at_hand(), form.data)
    except site_form.NotMade as refusal:
        return _form_page(form, refusal), 422
    flash(_("The job is made. Try it yourself before you hand it out."))
    return redirect(url_for("today.job", job=job), 303)


@blueprint.get("/jobs/<job>")
def job(job: str) -> str:
    return _job_page(job)


@blueprint.post("/jobs/<job>/hand-out")
def hand_out(job: str) -> ResponseReturnValue:
    try:
        jobs.hand_out(*at_hand(), job, request.form.get("crew", ""))
    except InputError:
        return _job_page(job, _("Choose one of these crews.")), 422
    return redirect(url_for("today.job", job=job), 303)


@blueprint.post("/jobs/<job>/take-back")
def take_back(job: str) -> ResponseReturnValue:
    jobs.withdraw(*at_hand(), job)
    return redirect(url_for("today.job", job=job), 303)


def _begun() -> dict[str, Any]:
    """What stands in the form at first: little, or another job to go on from."""
    like = request.args.get("like", "")
    return site_form.like(*at_hand(), like) if like else site_form.blank(current_person())


def _form_page(form: JobForm, refusal: site_form.NotMade | None = None) -> str:
    problems = put_beside(form, refusal.problems) if refusal else []
    unit = current_person().length_unit
    return render_template("today/new_job.html", form=form, problems=problems, unit=unit)


def _job_page(job: str, problem: str = "") -> str:
    page = site_pages.job_page(*at_hand(), job)
    return render_template("today/job.html", page=page, problem=problem)
