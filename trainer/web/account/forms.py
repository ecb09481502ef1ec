"""What is typed on the account pages: shape only."""

from __future__ import annotations

from flask_babel import lazy_gettext as _l
from flask_wtf import FlaskForm
from wtforms import HiddenField, PasswordField, RadioField, StringField
from wtforms.fields.choices import SelectChoice as Choice
from wtforms.validators import EqualTo, InputRequired, Length

from trainer.services.passwords import LONGEST, SHORTEST

_NEEDED = InputRequired(_l("Fill this in."))
_TOO_LONG = _l("This is too long.")


class SignInForm(FlaskForm):
    name = StringField(
        _l("Sign-in name"),
        [_NEEDED, Length(max=64, message=_TOO_LONG)],
        render_kw={"autocomplete": "username", "autocapitalize": "none", "spellcheck": "false"},
    )
    password = PasswordField(
        _l("Password"),
        [_NEEDED, Length(max=4 * LONGEST, message=_TOO_LONG)],
        render_kw={"autocomplete": "current-password"},
    )
    next = HiddenField()
    carried = HiddenField()


class PasswordForm(FlaskForm):
    password = PasswordField(
        _l("Password until now"), [_NEEDED], render_kw={"autocomplete": "current-password"}
    )
    new_password = PasswordField(
        _l("New password"),
        [_NEEDED],
        render_kw={"autocomplete": "new-password", "minlength": SHORTEST},
    )
    again = PasswordField(
        _l("New password once more"),
        [EqualTo("new_password", _l("This is not the same as above."))],
        render_kw={"autocomplete": "new-password"},
    )


class SettingsForm(FlaskForm):
    """Languages are given by the view, which knows which there are."""

    language = RadioField(_l("Language"))
    length_unit = RadioField(
        _l("Lengths"),
        choices=[Choice("mm", _l("Millimetres")), Choice("in", _l("Feet and inches"))],
    )
    temperature_unit = RadioField(
        _l("Temperatures"),
        choices=[Choice("c", _l("Degrees Celsius")), Choice("f", _l("Degrees Fahrenheit"))],
    )
    ground = RadioField(
        _l("Ground of the page"),
        choices=[
            Choice("auto", _l("As the phone is set")),
            Choice("light", _l("Light: for the sun")),
            Choice("dark", _l("Dark: for the evening")),
        ],
    )
