"""Every kind of figure: well-formed, told, the same bytes again, ids of its own."""

from __future__ import annotations

import ast
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

import trainer.drawing
from tests.unit.drawing.random_figures import KINDS, in_inches, long_winded, some_figure
from tests.unit.drawing.reading import SVG, classed, parsed, words
from trainer.drawing import draw, fixed_colours, kind_of
from trainer.errors import InputError

SEEDS = range(9)
EVERY = [(kind, seed) for kind in KINDS for seed in SEEDS]


@pytest.mark.parametrize(("kind", "seed"), EVERY)
def test_a_figure_is_well_formed_and_told(kind: str, seed: int) -> None:
    figure = some_figure(kind, seed) | {"title": "5 < 6 & 7", "desc": 'He says "stop".'}
    root = parsed(draw(figure, long_winded, in_inches))
    assert root.tag == f"{SVG}svg"
    title, desc = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert title is not None and title.text == "5 < 6 & 7"
    assert desc is not None and desc.text == 'He says "stop".'
    assert root.get("aria-labelledby") == f"{title.get('id')} {desc.get('id')}"


@pytest.mark.parametrize(("kind", "seed"), EVERY)
def test_every_id_begins_with_the_figures_own_and_stands_once(kind: str, seed: int) -> None:
    root = parsed(draw(some_figure(kind, seed) | {"id": "one"}))
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    assert all(str(ident).startswith("one-") for ident in ids)


@pytest.mark.parametrize(("kind", "seed"), EVERY)
def test_every_reference_leads_to_an_id(kind: str, seed: int) -> None:
    svg = draw(some_figure(kind, seed))
    ids = {element.get("id") for element in parsed(svg).iter()}
    used = {piece.split(")")[0] for piece in svg.split("url(#")[1:]}
    assert used <= ids


@pytest.mark.parametrize(("kind", "seed"), EVERY)
def test_the_same_figure_gives_the_same_bytes(kind: str, seed: int) -> None:
    assert draw(some_figure(kind, seed)) == draw(some_figure(kind, seed))


def test_the_same_bytes_whatever_the_hash_seed() -> None:
    code = (
        "from tests.unit.drawing.random_figures import KINDS, some_figure\n"
        "from trainer.drawing import draw\n"
        "import hashlib\n"
        "all_of_it = ''.join(draw(some_figure(kind, s)) for kind in KINDS for s in range(6))\n"
        "print(hashlib.sha256(all_of_it.encode()).hexdigest())"
    )
    digests = {
        subprocess.run(
            [sys.executable, "-c", code],
            capture_output=True,
            text=True,
            check=True,
            cwd=Path(__file__).parents[3],
            env={**os.environ, "PYTHONHASHSEED": seed},
        ).stdout
        for seed in ("0", "4711")
    }
    assert len(digests) == 1


def test_no_function_is_used_whose_last_digit_depends_on_the_machine() -> None:
    """Square roots are rounded alike everywhere (IEEE 754, 5.4.1); sines are not."""
    folder = Path(trainer.drawing.__file__).parent
    for file in folder.glob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom) and node.module == "math":
                assert [name.name for name in node.names] == ["sqrt"], file.name
            if isinstance(node, ast.Import):
                assert not {name.name for name in node.names} & {"math", "cmath", "random", "time"}


@pytest.mark.parametrize("kind", KINDS)
def test_coordinates_are_rounded_to_a_tenth(kind: str) -> None:
    for path in parsed(draw(some_figure(kind, 1))).iter(f"{SVG}path"):
        assert not re.search(r"\.\d\d", path.get("d") or "")


@pytest.mark.parametrize("kind", KINDS)
def test_words_are_asked_for_and_lengths_are_written_by_the_caller(kind: str) -> None:
    figure = some_figure(kind, 1) | ({"chain": "before"} if kind == "wall-elevation" else {})
    told = words(parsed(draw(figure, lambda word: f"«{word}»", lambda mm: f"{mm / 10:.1f} cm")))
    assert any("«" in text for text in told) or kind == "timeline"
    assert not any(text.endswith("\u00a0mm") for text in told)


def test_a_scale_bar_is_round_in_the_workers_unit() -> None:
    figure = some_figure("roof-plan", 1)
    metric, inches = (parsed(draw(figure, length=length)) for length in (_whole_mm, in_inches))
    assert any(text in {"500\u00a0mm", "1000\u00a0mm", "2000\u00a0mm"} for text in words(metric))
    assert any(text in {"24\u00a0in", "48\u00a0in"} for text in words(inches))


def _whole_mm(mm: float) -> str:
    return f"{mm:.0f} mm"


def test_what_is_not_to_scale_is_said() -> None:
    assert "sheet thickness not to scale" in words(parsed(draw(some_figure("parapet-section", 0))))


def test_fixed_colours_leave_no_custom_property() -> None:
    svg = draw(some_figure("roof-plan", 2))
    light, dark = fixed_colours(svg), fixed_colours(svg, "dark")
    assert "var(" in svg and "var(" not in light + dark
    assert "#fdfdfb" in light and "#13171a" in dark


def test_a_wider_drawing_keeps_its_letters() -> None:
    narrow = draw(some_figure("wall-elevation", 3))
    wide = parsed(draw(some_figure("wall-elevation", 3) | {"width": 700}))
    assert (wide.get("viewBox") or "").split()[2] == "700.0"
    assert wide.get("font-size") == parsed(narrow).get("font-size")


def test_overlays_are_drawn_only_when_answered() -> None:
    figure = some_figure("roof-plan", 2)
    root = parsed(draw(figure))
    assert len(classed(root, "limit")) == 1 and len(classed(root, "way")) == 1
    assert len(classed(root, "ghost")) == 1
    del figure["after"]
    root = parsed(draw(figure))
    assert not classed(root, "limit") and not classed(root, "way") and not classed(root, "ghost")


def test_right_and_wrong_bear_a_mark_beside_the_colour() -> None:
    root = parsed(draw(some_figure("timeline", 2)))
    right, wrong = classed(root, "is-right"), classed(root, "is-wrong")
    assert len(right) == len(wrong) == 1
    assert len(classed(root, "sign")) == 3  # both parts and the dimension


def test_the_kind_is_named_by_the_figure() -> None:
    assert kind_of({"kind": "timeline"}) == "timeline"
    with pytest.raises(InputError, match=r"kind: missing; allowed: .*parapet-section"):
        draw({})
    with pytest.raises(InputError, match=r'kind: got "isometric"; allowed: .*roof-plan'):
        draw({"kind": "isometric"})
    with pytest.raises(InputError, match="kind: got 3"):
        kind_of({"kind": 3})
