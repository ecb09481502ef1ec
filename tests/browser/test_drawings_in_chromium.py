"""Drawings in a real browser: labels clear, inside and large enough; parts for a thumb."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.unit.drawing.random_figures import KINDS, in_inches, long_winded, some_figure
from trainer.drawing import draw
from trainer.drawing.legend_plates import plates

pytestmark = pytest.mark.browser

STYLE = Path(__file__).parents[2] / "static" / "css" / "drawing.css"
SEEDS = range(24)
PHONE = 358
"""CSS pixels a drawing gets on a phone 390 wide."""

LOOK = """
() => [...document.querySelectorAll("svg.drawing")].map((svg) => {
  const box = (element) => {
    const r = element.getBoundingClientRect();
    return [r.left, r.top, r.right, r.bottom];
  };
  const scale = svg.getScreenCTM().a;
  return {
    id: svg.querySelector("title").textContent,
    frame: box(svg),
    texts: [...svg.querySelectorAll("text")].map((text) => ({
      words: text.textContent,
      box: box(text),
      size: parseFloat(getComputedStyle(text).fontSize) * scale,
    })),
    hits: [...svg.querySelectorAll(".hit")]
      .filter((hit) => hit.closest(".part, .movable"))
      .map((hit) => ({ part: hit.closest("[data-part]").dataset.part, box: box(hit) })),
  };
})
"""


@pytest.fixture(scope="module")
def page(chromium):
    page = chromium.new_page(viewport={"width": 390, "height": 844})
    yield page
    page.close()


def seen(page, drawings: list[str], ground: str = "light") -> list[dict]:
    """What the browser makes of the drawings on a phone."""
    figures = "".join(f'<div style="width:{PHONE}px">{svg}</div>' for svg in drawings)
    style = STYLE.read_text(encoding="utf-8")
    page.set_content(
        f'<!doctype html><html lang="en" data-ground="{ground}"><meta charset="utf-8">'
        f"<title>drawings</title><style>{style}</style>{figures}"
    )
    return page.evaluate(LOOK)


def overlap(a: list[float], b: list[float]) -> float:
    """How deep two boxes reach into each other, 0 when they do not."""
    return max(0.0, min(min(a[2], b[2]) - max(a[0], b[0]), min(a[3], b[3]) - max(a[1], b[1])))


def colliding(drawing: dict) -> list[str]:
    texts = drawing["texts"]
    return [
        f"{drawing['id']}: {a['words']!r} on {b['words']!r}"
        for i, a in enumerate(texts)
        for b in texts[i + 1 :]
        if overlap(a["box"], b["box"]) > 0.5
    ]


def outside(drawing: dict) -> list[str]:
    left, top, right, bottom = drawing["frame"]
    return [
        f"{drawing['id']}: {text['words']!r}"
        for text in drawing["texts"]
        for x0, y0, x1, y1 in [text["box"]]
        if x0 < left - 0.5 or y0 < top - 0.5 or x1 > right + 0.5 or y1 > bottom + 0.5
    ]


def too_small(drawing: dict) -> list[str]:
    return [
        f"{drawing['id']}: {text['words']!r} is {text['size']:.1f} px"
        for text in drawing["texts"]
        if text["size"] < 11.99
    ]


def hard_to_press(drawing: dict) -> list[str]:
    """Targets under 44 px though no other target stands beside them."""
    hits = drawing["hits"]
    return [
        f"{drawing['id']}: {hit['part']} is {wide:.0f} × {high:.0f} px"
        for hit in hits
        for wide, high in [size(hit["box"])]
        if min(wide, high) < 43.5 and not any(touches(hit, other) for other in hits)
    ]


def size(box: list[float]) -> tuple[float, float]:
    return box[2] - box[0], box[3] - box[1]


def touches(a: dict, b: dict) -> bool:
    x = max(a["box"][0], b["box"][0]) - min(a["box"][2], b["box"][2])
    y = max(a["box"][1], b["box"][1]) - min(a["box"][3], b["box"][3])
    return a is not b and x < 2 and y < 2


@pytest.mark.parametrize("kind", KINDS)
def test_labels_stand_clear_inside_and_large_enough(page, kind: str) -> None:
    drawings = seen(page, [draw(some_figure(kind, seed)) for seed in SEEDS])
    assert all(len(drawing["texts"]) > 2 for drawing in drawings)
    problems = [
        problem
        for drawing in drawings
        for problem in (*colliding(drawing), *outside(drawing), *too_small(drawing))
    ]
    assert not problems, "\n".join(problems)


def test_the_plates_of_the_legend_stand_clear(page) -> None:
    problems = [
        problem
        for drawing in seen(page, list(plates().values()))
        for problem in (*colliding(drawing), *outside(drawing))
    ]
    assert not problems, "\n".join(problems)


@pytest.mark.parametrize("kind", KINDS)
def test_long_words_and_inches_stand_clear_too(page, kind: str) -> None:
    drawings = [draw(some_figure(kind, seed), long_winded, in_inches) for seed in SEEDS]
    problems = [
        problem
        for drawing in seen(page, drawings, "dark")
        for problem in (*colliding(drawing), *outside(drawing))
    ]
    assert not problems, "\n".join(problems)


@pytest.mark.parametrize("kind", KINDS)
def test_what_can_be_pressed_is_large_enough_for_a_thumb(page, kind: str) -> None:
    figures = [some_figure(kind, seed) | {"parts_live": True} for seed in SEEDS if seed % 3 != 2]
    drawings = seen(page, [draw(figure) for figure in figures])
    assert all(drawing["hits"] for drawing in drawings)
    problems = [problem for drawing in drawings for problem in hard_to_press(drawing)]
    assert not problems, "\n".join(problems)


def test_a_drawing_takes_the_width_it_is_given(page) -> None:
    svg = draw(some_figure("roof-plan", 1))
    page.set_content(
        f"<!doctype html><style>{STYLE.read_text(encoding='utf-8')}</style>"
        f'<div style="width:700px">{svg}</div>'
    )
    wide = page.evaluate("document.querySelector('svg').getBoundingClientRect().width")
    assert wide == 700


@pytest.mark.parametrize(
    ("ground", "ink"), [("light", "rgb(20, 23, 26)"), ("dark", "rgb(243, 242, 236)")]
)
def test_ink_follows_the_ground(page, ground: str, ink: str) -> None:
    seen(page, [draw(some_figure("timeline", 0))], ground)
    assert page.evaluate("getComputedStyle(document.querySelector('svg')).stroke") == ink


def test_a_drawing_alone_in_a_file_is_ink_on_paper(page) -> None:
    page.set_content(f"<!doctype html>{draw(some_figure('timeline', 0))}")
    style = "getComputedStyle(document.querySelector({}))[{}]".format
    assert page.evaluate(style("'svg'", "'stroke'")) == "rgb(20, 23, 26)"
    assert page.evaluate(style("'.ground'", "'fill'")) == "rgb(253, 253, 251)"


def test_a_thumb_reaches_the_part_through_whatever_is_drawn_over_it(page) -> None:
    """Leaders, letters and patches lie over a part; the touch still lands on a part."""
    figure = some_figure("parapet-section", 3) | {"parts_live": True}
    seen(page, [draw(figure)])
    missed = page.evaluate(
        """() => [...document.querySelectorAll(".part > .hit")].filter((hit) => {
          const r = hit.getBoundingClientRect();
          const got = document.elementFromPoint((r.left + r.right) / 2, (r.top + r.bottom) / 2);
          return !got || !got.closest(".part, .movable");
        }).map((hit) => hit.parentElement.dataset.part)"""
    )
    assert missed == []


def test_the_roof_inside_a_corner_of_walls_is_not_the_wall(page) -> None:
    faces = [[0, 0], [4000, 0], [4000, 4000]]
    wall = {"faces": faces, "thickness_mm": 300, "roof_side": "left"}
    told = {"kind": "roof-plan", "title": "t", "desc": "d", "parts_live": True}
    seen(page, [draw(told | {"walls": [wall]})])
    pressed = """([u, v]) => {
      const r = document.querySelector("svg").getBoundingClientRect();
      const got = document.elementFromPoint(r.left + r.width * u, r.top + r.height * v);
      return got?.closest(".part")?.dataset.part ?? null;
    }"""
    assert page.evaluate(pressed, [0.5, 0.4]) is None
    assert page.evaluate(pressed, [0.93, 0.4]) == "wall-0"
