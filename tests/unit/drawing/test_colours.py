"""The colours of the drawings: the style sheet and the code agree, and everything can be read."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

import pytest

from trainer.drawing.palette import DARK, LIGHT, colour, fixed_colours

STYLE = Path(__file__).parents[3] / "static" / "css" / "drawing.css"
_RULE = re.compile(r"--(\w+):\s*(#[0-9a-f]{6});")


def stated(selector: str) -> dict[str, str]:
    """The custom properties the style sheet sets under ``selector``."""
    block = STYLE.read_text(encoding="utf-8").partition(selector)[2].partition("}")[0]
    return dict(_RULE.findall(block))


@pytest.mark.parametrize(
    ("selector", "values"),
    [
        (':where([data-ground="light"], [data-ground="paper"]) {', LIGHT),
        (':where(:root:not([data-ground="light"], [data-ground="paper"])) {', DARK),
        (':where([data-ground="dark"]) {', DARK),
    ],
)
def test_style_sheet_and_palette_agree(selector: str, values: Mapping[str, str]) -> None:
    assert stated(selector) == dict(values)


def luminance(value: str) -> float:
    """Relative luminance, WCAG 2.2, "relative luminance"."""
    parts = [int(value[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(a: str, b: str) -> float:
    """Contrast ratio, WCAG 2.2, "contrast ratio"."""
    low, high = sorted((luminance(a), luminance(b)))
    return (high + 0.05) / (low + 0.05)


def test_contrast_is_reckoned_as_the_guideline_does() -> None:
    """WCAG 2.2 success criterion 1.4.3, understanding: #777777 on white is 4.48 to 1."""
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)
    assert contrast("#000000", "#ffffff") == pytest.approx(21)


@pytest.mark.parametrize("values", [LIGHT, DARK], ids=["light", "dark"])
def test_letters_reach_seven_to_one_and_lines_three_to_one(values: Mapping[str, str]) -> None:
    """WCAG 2.2: 1.4.6 for text (read in the sun), 1.4.11 for what is drawn."""
    for name in ("ink", "soft", "accent", "good", "bad"):
        assert contrast(values[name], values["paper"]) >= 6.9, name
    assert contrast(values["hatch"], values["paper"]) >= 3
    assert contrast(values["accent"], values["wash"]) >= 3


def test_a_colour_falls_back_on_its_light_value() -> None:
    assert colour("ink") == "var(--ink,#14171a)"
    assert fixed_colours('<path fill="var(--paper,#fdfdfb)"/>', "dark") == '<path fill="#13171a"/>'
