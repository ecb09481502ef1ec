"""docs/legend.md and its pictures show the whole language of the drawings, as the code has it."""

from __future__ import annotations

import re

import pytest

from tests.unit.drawing.legend_files import DOCS, files, page
from tests.unit.drawing.reading import parsed, words
from trainer.drawing import KINDS
from trainer.drawing.elevation_signs import STATE_SIGNS
from trainer.drawing.elevation_site_data import BLEMISHES
from trainer.drawing.hatches import NAMES as HATCHES
from trainer.drawing.interaction import RINGS
from trainer.drawing.legend_plates import meanings, plates
from trainer.drawing.legend_words import hatch_words, symbol_words
from trainer.drawing.overlay_data import OVERLAY_TYPES
from trainer.drawing.symbols import NAMES as SYMBOLS
from trainer.drawing.timeline_data import BANDS, EVENTS

PLATES = plates()


def test_the_page_and_its_pictures_are_current_byte_for_byte() -> None:
    """After a change: uv run python -m tests.unit.drawing.legend_files."""
    for path, text in files().items():
        assert path.read_text(encoding="utf-8") == text, path.name


@pytest.mark.parametrize("name", HATCHES)
def test_every_hatch_is_shown(name: str) -> None:
    svg = PLATES["hatches"]
    assert svg.count(f"url(#legend-hatches-{name})") == 1
    assert hatch_words()[name] in [" ".join(text.split()) for text in words(parsed(svg))]


@pytest.mark.parametrize("name", SYMBOLS)
def test_every_symbol_is_shown(name: str) -> None:
    svg = PLATES["symbols"]
    assert svg.count(f'data-symbol="{name}"') == 1
    assert symbol_words()[name] in words(parsed(svg))


def test_every_sign_and_every_state_is_shown() -> None:
    told = meanings()["signs"]
    wanted = {f"lap, {state}" for state in STATE_SIGNS} | set(BLEMISHES) | set(RINGS)
    assert wanted <= set(told)
    assert set(words(parsed(PLATES["signs"]))) == set(told)
    assert all(drawn in PLATES["signs"] for drawn in _plain(STATE_SIGNS.values()))


def _plain(shapes: object) -> list[str]:
    """The path or circle of each sign, without colours, which the file has fixed."""
    return [re.search(r'(?:d|r)="[^"]+"', str(shape))[0] for shape in shapes]  # type: ignore


def test_every_overlay_is_shown_and_named() -> None:
    root = parsed(PLATES["overlays"])
    assert set(OVERLAY_TYPES) <= set(words(root))
    svg = PLATES["overlays"]
    for mark in ("limit", "way way-drop", "way way-flame", "way way-walk", "ghost"):
        assert svg.count(f'class="{mark}"') == 1


def test_every_kind_band_and_event_stands_in_the_page() -> None:
    text = page()
    assert all(f"- `{kind}`\n" in text for kind in KINDS)
    assert all(f"| {band} | " in text for band in BANDS)
    assert all(event in text for event in EVENTS)
    assert "legend.md" in (DOCS / "drawings.md").read_text(encoding="utf-8")


def test_no_two_hatches_and_no_two_symbols_bear_the_same_name() -> None:
    for named in (hatch_words(), symbol_words()):
        assert len(set(named.values())) == len(named)


@pytest.mark.parametrize("name", PLATES)
def test_a_plate_stands_alone_on_any_ground(name: str) -> None:
    svg = PLATES[name]
    assert "var(" not in svg and 'class="ground" fill="#fdfdfb"' in svg
    assert len(svg) < 60_000
