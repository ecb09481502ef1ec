"""One's own settings and password."""

from __future__ import annotations

from flask import flash, redirect, render_template, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext as _
from wtforms.fields.choices import SelectChoice as Choice

from trainer.services import accounts
from trainer.services.passwords import LONGEST, SHORTEST, PasswordProblem
from trainer.services.refusals import SignInRefused, TooManyAtOnce
from trainer.web.account import blueprint
from trainer.web.account.forms import PasswordForm, SettingsForm
from trainer.web.account.signing import said
from trainer.web.language import current_language, languages
from trainer.web.session import current_person, parts


@blueprint.route("/settings", methods=["GET", "POST"])
def settings() -> ResponseReturnValue:
    person = current_person()
    form = SettingsForm(obj=person)
    form.language.choices = [Choice(code, name) for code, name in languages()]
    form.language.data = form.language.data or current_language()
    if not form.is_submitted():
        return render_template("account/settings.html", form=form)
    if not form.validate():
        return render_template("account/settings.html", form=form), 422
    chosen = accounts.Preferences(
        language=form.language.data,
        length_unit=form.length_unit.data,
        temperature_unit=form.temperature_unit.data,
        ground=form.ground.data,
    )
    accounts.set_preferences(parts(), person, chosen)
    flash(_("Your settings are kept."))
    return redirect(url_for("account.settings"), 303)


@blueprint.route("/password", methods=["GET", "POST"])
def password() -> ResponseReturnValue:
    form, person = PasswordForm(), current_person()
    if not form.is_submitted():
        return _password_page(form)
    if form.validate():
        try:
            accounts.change_password(
                parts(), person, form.password.data or "", form.new_password.data or ""
            )
        except accounts.PasswordRefused as refusal:
            form.new_password.errors = [_why_not(refusal.problem)]
        except (SignInRefused, TooManyAtOnce) as refusal:
            form.password.errors = [said(refusal)]
        else:
            flash(_("Your new password holds. Other devices have been signed out."))
            return redirect(url_for("account.settings"), 303)
    return _password_page(form), 422


def _password_page(form: PasswordForm) -> str:
    first = current_person().must_change_password
    return render_template("account/password.html", form=form, shortest=SHORTEST, first=first)


def _why_not(problem: PasswordProblem) -> str:
    return {
        PasswordProblem.SHORT: _("This needs at least %(n)d characters.", n=SHORTEST),
        PasswordProblem.LONG: _("This may have at most %(n)d characters.", n=LONGEST),
        PasswordProblem.COMMON: _("This is among the first that anybody would try."),
        PasswordProblem.OWN_WORDS: _("This is little more than your name or the site's words."),
    }[problem]
