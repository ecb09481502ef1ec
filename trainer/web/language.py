"""In which language and by whose clock a page speaks."""

from __future__ import annotations

from dataclasses import dataclass, field
from gettext import NullTranslations
from pathlib import Path
from typing import Any

from babel import Locale
from flask import Flask, current_app, g, request
from flask_babel import Babel, get_translations
from flask_babel import lazy_gettext as _l
from markupsafe import Markup

from trainer.services import site
from trainer.web.session import parts

ROLE_NAMES = {
    "worker": _l("worker"),
    "supervisor": _l("supervisor"),
    "coordinator": _l("coordinator"),
    "auditor": _l("auditor"),
    "administrator": _l("administrator"),
}
_TRANSLATIONS = Path(__file__).parent / "translations"
_WRITTEN_IN = "en"


def init_app(app: Flask) -> None:
    app.config["LANGUAGES"] = tuple(_offered())
    Babel(
        app,
        default_locale=_WRITTEN_IN,
        default_translation_directories=str(_TRANSLATIONS),
        locale_selector=current_language,
        timezone_selector=_time_zone,
    )
    app.jinja_env.globals.update({"_": _say, "gettext": _say, "ngettext": _say_number})
    app.context_processor(_for_pages)


def languages() -> list[tuple[str, str]]:
    """The languages there are: code, and the name its speakers give it."""
    return [
        (code, (Locale.parse(code).get_display_name(code) or code).capitalize())
        for code in current_app.config["LANGUAGES"]
    ]


def current_language() -> str:
    """The code of the language this request speaks, as kept with an answer."""
    if "language" not in g:
        g.language = _language()
    return g.language


def _say(text: str, /, **values: Any) -> Markup:
    """``_`` of the templates: what Jinja's own does, at a tenth of the cost.

    The catalogue is looked for once in a request, and no context is passed from call to call.
    """
    spoken = g.get("spoken") or _begin_to_speak()
    if values:
        return Markup(spoken.catalogue.gettext(text)) % values
    return spoken.plain.get(text) or spoken.keep(text)


def _say_number(one: str, many: str, num: int, /, **values: Any) -> Markup:
    spoken = g.get("spoken") or _begin_to_speak()
    return Markup(spoken.catalogue.ngettext(one, many, num)) % {"num": num, **values}


@dataclass(frozen=True)
class _Spoken:
    """A language: its catalogue, and the texts without values that were said in it before."""

    catalogue: NullTranslations
    plain: dict[str, Markup] = field(default_factory=dict)

    def keep(self, text: str) -> Markup:
        self.plain[text] = said = Markup(self.catalogue.gettext(text)) % {}
        return said


def _begin_to_speak() -> _Spoken:
    """The language of this request, at hand from now on."""
    kept = current_app.extensions.setdefault("spoken languages", {})
    language = current_language()
    if language not in kept:
        kept[language] = _Spoken(get_translations())
    g.spoken = kept[language]
    return g.spoken


def _offered() -> list[str]:
    compiled = {path.parent.parent.name for path in _TRANSLATIONS.glob("*/LC_MESSAGES/*.mo")}
    return sorted(compiled | {_WRITTEN_IN})


def _language() -> str:
    offered = current_app.config["LANGUAGES"]
    chosen = g.person.language if g.get("person") else None
    if chosen in offered:
        return chosen
    return request.accept_languages.best_match(offered, _WRITTEN_IN)


def _time_zone() -> str:
    return site.site(parts()).time_zone


def _for_pages() -> dict[str, Any]:
    person = g.get("person")
    return {
        "lang": current_language().replace("_", "-"),
        "ground": person.ground if person else "auto",
        "role_names": ROLE_NAMES,
    }
