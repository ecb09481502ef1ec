"""``trainer scenario gallery``: every cell on static pages, nothing loaded, no id named twice."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner

from trainer.cli import main
from trainer.services import catalogue
from trainer.services.scenarios import library

SEEDS = 2


@pytest.fixture(scope="module")
def written(tmp_path_factory) -> tuple[Path, str]:
    out = tmp_path_factory.mktemp("site") / "drawings"
    words = ["scenario", "gallery", "--out", str(out), "--seeds", str(SEEDS)]
    result = CliRunner().invoke(main, words)
    assert result.exit_code == 0, result.output
    return out, result.stdout


@pytest.fixture(scope="module")
def pages(written) -> dict[str, BeautifulSoup]:
    out, _ = written
    return {p.stem: BeautifulSoup(p.read_text("utf-8"), "html.parser") for p in out.iterdir()}


def test_it_says_how_many_drawings_how_long_and_which_was_slowest(written):
    out, said = written
    assert f"{len(catalogue.cells())} cells" in said and "ms each (median)" in said
    assert any(f"slowest {family}, {mode}" in said for family, mode in catalogue.cells())
    assert str(out / "index.html") in said


def test_every_cell_is_there_with_its_seeds_on_both_grounds(pages):
    for family, mode in catalogue.cells():
        page = pages[library().pack.family(family).unit]
        cell = page.find(id=f"cell-{family}-{mode}")
        drawn = cell.select("article.drawn")
        assert len(drawn) == SEEDS
        for sheet in drawn:
            grounds = Counter(g["data-ground"] for g in sheet.select("div.ground") if g.svg)
            assert grounds["light"] == grounds["dark"] >= 1


def test_a_cell_is_drawn_as_asked_as_it_waits_and_as_it_answers(pages):
    cell = pages["set-out"].find(id="cell-chalk-line-near_miss")
    said = [text.get_text() for text in cell.select("article")[0].select("figcaption")]
    wanted = [
        "as asked",
        "waits for line",
        *(f"answered: {d}" for d in ("given", "line", "length")),
    ]
    assert said == wanted
    drawings = [ground.svg.decode_contents() for ground in cell.article.select("div.ground")]
    assert len(set(drawings)) == len(drawings)


def test_the_facts_stand_beside_the_drawing(pages):
    shown = catalogue.shown("chalk-line", 1, "near_miss")
    facts = pages["set-out"].find(id="cell-chalk-line-near_miss").select(".facts")[1].get_text(" ")
    assert shown["title"] in facts and f"{shown['margin']:+g}" in facts
    assert all(text in facts for text in shown["situation"])
    assert all(decision["prompt"] in facts for decision in shown["decisions"])
    assert f"{round(shown['decisions'][2]['answer'])} mm" in facts


def test_no_page_runs_a_script_or_loads_anything(pages):
    for page in pages.values():
        assert not page.select("script, iframe, img, object, link[rel=stylesheet]")
        assert not [tag for tag in page.find_all(True) for name in tag.attrs if name[:2] == "on"]
        for tag in page.select("[href], [src]"):
            address = tag.get("href") or tag.get("src")
            assert address.startswith(("#", "data:,")) or address.removesuffix(".html") in pages


def test_no_id_stands_twice_and_every_reference_is_met(pages):
    for name, page in pages.items():
        ids = Counter(tag["id"] for tag in page.select("[id]"))
        assert [one for one, count in ids.items() if count > 1] == [], name
        text = str(page)
        for known in page.select("[aria-labelledby]"):
            assert set(known["aria-labelledby"].split()) <= set(ids)
        assert "GROUND" not in text


def test_one_family_alone(tmp_path):
    words = ["scenario", "gallery", "--out", str(tmp_path), "--family", "watch-end", "--seeds", "1"]
    assert CliRunner().invoke(main, words).exit_code == 0
    assert sorted(p.name for p in tmp_path.iterdir()) == ["fire-watch.html", "index.html"]


def test_an_unknown_family_is_one_line(tmp_path):
    words = ["scenario", "gallery", "--out", str(tmp_path), "--family", "no-such-family"]
    result = CliRunner().invoke(main, words)
    assert result.exit_code == 2 and len(result.stderr.strip().splitlines()) == 1
