"""In and out. Whoever was in the middle of something goes on where they were."""

from __future__ import annotations

from urllib.parse import urlsplit

from flask import g, jsonify, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_babel import format_time
from flask_babel import gettext as _

from trainer.services import accounts, sessions
from trainer.services.refusals import SignInRefused, TooManyAtOnce
from trainer.web import carried
from trainer.web.account import blueprint
from trainer.web.account.forms import SignInForm
from trainer.web.session import begin, end, open_to_all, parts, wants_json


@blueprint.route("/sign-in", methods=["GET", "POST"])
@open_to_all
def sign_in() -> ResponseReturnValue:
    form = SignInForm()
    form.next.data = _own_path(request.values.get("next"))
    if request.method == "GET":
        return redirect(form.next.data, 303) if g.person else _page(form)
    if not form.validate():
        return _page(form), 422
    try:
        begin(sessions.sign_in(parts(), form.name.data or "", form.password.data or ""))
    except (SignInRefused, TooManyAtOnce) as refusal:
        form.password.errors = [said(refusal)]
        return _page(form), 429 if isinstance(refusal, TooManyAtOnce) else 401
    return _onwards(form)


@blueprint.post("/sign-out")
@open_to_all
def sign_out() -> ResponseReturnValue:
    token = end()
    if token:
        sessions.sign_out(parts(), token)
    return redirect(url_for("account.sign_in"), 303)


@blueprint.app_errorhandler(401)
def ask_to_sign_in(_error: Exception) -> ResponseReturnValue:
    """A stranger, or somebody whose session has ended: ask, and lose nothing they sent."""
    if wants_json():
        message = _("Your session has ended. Sign in again; what you answered is kept.")
        return jsonify(message=message, sign_in=url_for("account.sign_in")), 401
    if request.method == "GET":
        here = request.full_path.removesuffix("?")
        return redirect(url_for("account.sign_in", next=here if here != "/" else None), 303)
    form = SignInForm(formdata=None)
    kept = carried.posted_form()
    form.carried.data = carried.packed(kept)
    return _page(form, ended=True, kept=kept is not None), 401


def _page(form: SignInForm, ended: bool = False, kept: bool = False) -> str:
    return render_template(
        "account/sign_in.html",
        form=form,
        ended=ended,
        kept=kept,
        demo_accounts=accounts.demo_accounts(parts()),
    )


def _onwards(form: SignInForm) -> ResponseReturnValue:
    """To the page that was wanted; or, where a form was kept, to the button that sends it."""
    kept = carried.unpacked(form.carried.data)
    if kept is None:
        return redirect(form.next.data or "/", 303)
    return render_template("send_again.html", form=kept, signed_in=True)


def _own_path(wanted: str | None) -> str:
    """A path of this site; the way in when ``wanted`` leads anywhere else."""
    wanted = wanted or "/"
    parsed = urlsplit(wanted)
    leads_out = parsed.scheme or parsed.netloc or not wanted.startswith("/")
    return "/" if leads_out or wanted[1:2] in ("/", "\\") or not wanted.isprintable() else wanted


def said(refusal: SignInRefused | TooManyAtOnce) -> str:
    """Why a password was not taken, in the person's language and by the site's clock."""
    if isinstance(refusal, TooManyAtOnce):
        return _("Many people are signing in at this moment. Wait a few seconds and try again.")
    if refusal.blocked:
        return _("Too many wrong tries. Ask your coordinator or administrator for a new password.")
    if refusal.until:
        until = format_time(refusal.until, "medium")
        return _("Name and password do not belong together. The next try counts from %(time)s on.",
                 time=until)  # fmt: skip
    return _("Name and password do not belong together.")
