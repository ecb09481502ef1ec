"""The program's own words in a person's language, through gettext.

Texts of the pack are worded in the pack; this is for what the program itself says in its services.
"""

from __future__ import annotations

import gettext
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path

from trainer.engine.explain import NOTHING

CATALOGUES = Path(__file__).resolve().parents[1] / "web" / "translations"


@lru_cache(maxsize=32)
def _catalogue(language: str) -> gettext.NullTranslations:
    return gettext.translation("messages", CATALOGUES, [language], fallback=True)


def speaker(language: str) -> Callable[[str], str]:
    """The function that says a text in ``language``; texts without a translation stay English."""
    return _catalogue(language).gettext


def choice_in_words(said: str, say: Callable[[str], str]) -> str:
    """What was chosen or is right, as the engine says it; an empty choice in words."""
    return say("None of them") if said == NOTHING else said


def plural_speaker(language: str) -> Callable[[str, str, int], str]:
    """The same for texts that depend on a number."""
    return _catalogue(language).ngettext
