"""The pages' house rules, read from the files: small templates, every word through gettext, no
colour outside ground.css, and contrast that holds in the sun."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from jinja2 import Environment, nodes

ROOT = Path(__file__).parents[2]
TEMPLATES = ROOT / "trainer" / "web" / "templates"
EVERY = sorted(p.relative_to(TEMPLATES).as_posix() for p in TEMPLATES.rglob("*.html"))
WORDED = [name for name in EVERY if not name.startswith("examples/")]
COMPONENTS = sorted(p.stem for p in (TEMPLATES / "components").glob("*.html"))
CSS = sorted((ROOT / "static" / "css").glob("*.css"))
JS = sorted((ROOT / "static" / "js").glob("*.js"))
LONGEST_TEMPLATE = 120
LONGEST_FILE = 300

_TAG = re.compile(r"<[^>]*>", re.S)
_SPOKEN = re.compile(r'\b(?:aria-label|title|placeholder|alt)="([^"]*)"')
_LETTERS = re.compile(r"[A-Za-z]{2,}")
_INCLUDED = {"cover", "foot", "head", "waiting", "way_about", "ways"}
"""Pieces that are included where they stand; every page test draws them."""


def source(name: str) -> str:
    return (TEMPLATES / name).read_text(encoding="utf-8")


def fixed_text(name: str) -> str:
    """What a template writes whoever reads it: everything outside its expressions."""
    tree = Environment(extensions=["jinja2.ext.i18n"]).parse(source(name))
    return "".join(
        data.data if isinstance(data, nodes.TemplateData) else "\0" for data in _outputs(tree)
    )


def _outputs(tree: nodes.Node) -> list[nodes.Node]:
    return [part for output in tree.find_all(nodes.Output) for part in output.nodes]


@pytest.mark.parametrize("name", EVERY)
def test_a_template_stays_small(name: str) -> None:
    assert len(source(name).splitlines()) < LONGEST_TEMPLATE


@pytest.mark.parametrize("name", WORDED)
def test_every_word_a_person_reads_goes_through_gettext(name: str) -> None:
    written = fixed_text(name)
    between_tags = _TAG.sub(" ", written)
    spoken = " ".join(_SPOKEN.findall(written))
    assert not _LETTERS.findall(between_tags + spoken.replace("\0", " "))


def test_the_check_for_bare_words_would_find_one() -> None:
    assert _LETTERS.findall(_TAG.sub(" ", '<p class="x">Bare</p>')) == ["Bare"]


@pytest.mark.parametrize("name", EVERY)
def test_nothing_is_marked_safe_but_drawings_and_marks(name: str) -> None:
    allowed = {"components/drawing.html", "components/mark.html"}
    assert name in allowed or not re.search(r"\|\s*safe\b|autoescape", source(name))


@pytest.mark.parametrize("name", EVERY)
def test_no_inline_script_style_or_handler(name: str) -> None:
    assert not re.search(
        r"<style|\sstyle=|\son[a-z]+=|javascript:|<script(?![^>]*\bsrc=)", source(name)
    )


def test_every_component_has_an_example_and_every_example_a_component() -> None:
    examples = {p.stem for p in (TEMPLATES / "examples").glob("*.html")}
    assert examples == set(COMPONENTS) - _INCLUDED


@pytest.mark.parametrize("path", [*CSS, *JS], ids=lambda path: path.name)
def test_a_stylesheet_or_script_stays_small_and_fetches_nothing(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert len(text.splitlines()) < LONGEST_FILE
    assert not re.search(r"@import|https?://(?!www\.w3\.org)|url\(\s*[\"']?//", text)


@pytest.mark.parametrize("path", JS, ids=lambda path: path.name)
def test_a_script_writes_text_and_never_markup(path: Path) -> None:
    assert not re.search(
        r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\(|new Function",
        path.read_text(encoding="utf-8"),
    )


@pytest.mark.parametrize(
    "path",
    [p for p in CSS if p.name not in ("ground.css", "drawing.css")],
    ids=lambda path: path.name,
)
def test_no_colour_outside_the_ground(path: Path) -> None:
    assert not re.search(
        r"#[0-9a-fA-F]{3,8}\b|\brgba?\(|\bhsla?\(", path.read_text(encoding="utf-8")
    )


def grounds() -> dict[str, dict[str, str]]:
    """The colours of each ground, from ground.css; dark values stand there twice and must agree."""
    text = (ROOT / "static" / "css" / "ground.css").read_text(encoding="utf-8")
    blocks = re.findall(r"(:root[^{]*)\{([^{}]*)\}", text)
    found = [dict(re.findall(r"--([a-z-]+):\s*(#[0-9a-f]{3,6})", body)) for _, body in blocks]
    light, dark, dark_by_phone = found[:3]
    assert dark == dark_by_phone
    return {"light": light, "dark": dark}


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it (sRGB)."""
    digits = colour.lstrip("#")
    full = "".join(d * 2 for d in digits) if len(digits) == 3 else digits
    parts = [int(full[i : i + 2], 16) / 255 for i in (0, 2, 4)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio as WCAG 2.2 defines it: (L1 + 0.05) / (L2 + 0.05)."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_contrast_is_worked_out_as_published() -> None:
    # WCAG 2.2, definition of contrast ratio: black on white is 21:1.
    assert contrast("#000", "#ffffff") == pytest.approx(21)
    # The grey that just reaches 4.5:1 on white in common use, #767676: 4.54 (from memory).
    assert contrast("#767676", "#fff") == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("ground", ["light", "dark"])
@pytest.mark.parametrize(
    ("letters", "behind"),
    [("ink", "ground"), ("soft", "ground"), ("accent", "ground"), ("ink", "wash"), ("soft", "wash"),
     ("accent", "wash"), ("on-accent", "accent"), ("line", "ground"), ("ground", "ink")],
)  # fmt: skip
def test_letters_keep_seven_to_one(ground: str, letters: str, behind: str) -> None:
    # 7:1 is WCAG 2.2, success criterion 1.4.6 (enhanced).
    colours = grounds()[ground]
    assert contrast(colours[letters], colours[behind]) >= 7
