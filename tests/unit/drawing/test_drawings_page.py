"""docs/drawings.md says what the code does: every field, every word, the error it shows."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.unit.drawing.random_figures import KINDS as DRAWN
from tests.unit.drawing.random_figures import some_figure
from tests.unit.drawing.schema_tables import tables
from trainer.drawing import KINDS, draw
from trainer.drawing.hatches import NAMES as HATCHES
from trainer.drawing.symbols import symbol
from trainer.drawing.timeline_data import BANDS, EVENTS
from trainer.drawing.vocabulary import WORDS
from trainer.errors import InputError

PAGE = (Path(__file__).parents[3] / "docs" / "drawings.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", sorted({"every figure", "overlays", *DRAWN}))
def test_every_table_stands_in_the_page_as_the_code_has_it(name: str) -> None:
    assert tables()[name] in PAGE


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_has_its_heading(kind: str) -> None:
    assert re.search(rf"^## .*`{kind}`$", PAGE, re.MULTILINE)


def test_every_word_a_drawing_says_is_in_the_vocabulary_and_in_the_page() -> None:
    said: set[str] = set()

    def say(word: str) -> str:
        said.add(word)
        return word

    for kind in DRAWN:
        for seed in range(40):
            draw(some_figure(kind, seed), say)
            draw(some_figure(kind, seed) | {"parts_live": True}, say)
    assert said <= set(WORDS)
    assert " · ".join(WORDS) in PAGE


def test_every_part_of_a_figure_is_named_in_the_page() -> None:
    for kind in DRAWN:
        chapter = PAGE.partition(f"`{kind}`\n")[2].partition("\n## ")[0]
        for seed in range(20):
            for ident in re.findall(
                r'data-shape="([a-z-]+?)(?:-\d+)?"', draw(some_figure(kind, seed))
            ):
                assert f"`{ident}" in chapter or ident in chapter, (kind, ident)


def test_the_example_of_the_page_draws() -> None:
    code = PAGE.partition("```python\n")[2].partition("```")[0]
    made: dict[str, str] = {}
    exec(code, made)
    assert made["svg"].startswith("<svg ")


def test_the_refusal_shown_is_the_one_given() -> None:
    figure = some_figure("parapet-section", 0)
    figure |= {"height_mm": 300, "cant": {"leg_mm": 400, "material": "mineral"}}
    with pytest.raises(InputError) as caught:
        draw(figure)
    assert f"`{caught.value}`" in PAGE


def test_every_event_has_a_symbol_and_every_band_a_hatch() -> None:
    assert all(symbol(kind, (0, 0)) for kind in EVENTS)
    assert set(BANDS.values()) <= set(HATCHES)
