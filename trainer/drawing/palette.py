"""The colours of a drawing, by name.

Every stroke and fill is written ``var(--ink,#14171a)``: on a page the custom property decides
(static/css/drawing.css: light, dark, print), alone in a file the light value stands. No style
element is needed, so a strict content policy has nothing to refuse.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

LIGHT: Mapping[str, str] = {
    "paper": "#fdfdfb",
    "ink": "#14171a",
    "soft": "#43484d",
    "hatch": "#6a7075",
    "faint": "#c9cccb",
    "accent": "#1b3a9c",
    "wash": "#e4e9f7",
    "good": "#12622c",
    "bad": "#a81f16",
}
DARK: Mapping[str, str] = {
    "paper": "#13171a",
    "ink": "#f3f2ec",
    "soft": "#bfc4c6",
    "hatch": "#8f979b",
    "faint": "#4b5256",
    "accent": "#a9c1ff",
    "wash": "#222c44",
    "good": "#7fd89a",
    "bad": "#ff9d8f",
}


def colour(name: str) -> str:
    """The custom property ``name`` with its light value to fall back on."""
    return f"var(--{name},{LIGHT[name]})"


PAPER = colour("paper")
INK = colour("ink")
SOFT = colour("soft")
HATCH = colour("hatch")
FAINT = colour("faint")
ACCENT = colour("accent")
WASH = colour("wash")
GOOD = colour("good")
BAD = colour("bad")

_PROPERTY = re.compile(r"var\(--(\w+),#\w+\)")


def fixed_colours(svg: str, ground: str = "light") -> str:
    """``svg`` with plain colours, for readers of SVG that know no custom properties.

    ``ground`` is "light" or "dark".
    """
    values = DARK if ground == "dark" else LIGHT
    return _PROPERTY.sub(lambda match: values[match[1]], svg)
