"""Pieces of a page that stay the same from request to request: drawn once, then kept.

What a piece depends on beside the language is given as its key. It must not hold a token or a name.
"""

from __future__ import annotations

from collections.abc import Hashable

from flask import current_app, render_template
from markupsafe import Markup

from trainer.web.language import current_language

_KEPT = 512


def fixed(template: str, *key: Hashable) -> Markup:
    """The piece ``template`` for this language and ``key``."""
    kept = current_app.extensions.setdefault("fixed pieces", {})
    name = (template, current_language(), *key)
    if name not in kept or current_app.debug:
        if len(kept) >= _KEPT:
            kept.clear()
        kept[name] = Markup(render_template(template))
    return kept[name]
