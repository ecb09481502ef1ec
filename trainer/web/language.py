"""In which language and by whose clock a page speaks."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from babel import Locale
from flask import Flask, current_app, g, request
from flask_babel import Babel, get_locale
from flask_babel import lazy_gettext as _l

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
        locale_selector=_language,
        timezone_selector=_time_zone,
    )
    app.context_processor(_for_pages)


def languages() -> list[tuple[str, str]]:
    """The languages there are: code, and the name its speakers give it."""
    return [
        (code, (Locale.parse(code).get_display_name(code) or code).capitalize())
        for code in current_app.config["LANGUAGES"]
    ]


def current_language() -> str:
    """The code of the language this request speaks, as kept with an answer."""
    return str(get_locale() or _WRITTEN_IN)


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
