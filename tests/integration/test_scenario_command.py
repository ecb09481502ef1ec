"""``trainer scenario``: what it prints for people and for programs."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from trainer.cli import main
from trainer.services import catalogue
from trainer.services.content import checks
from trainer.services.content.finding import Finding

SUFFIXES = ("_mm", "_m", "_min", "_c", "_k", "_l", "_pct", "_at", "_deg", "_ratio")


def run(*words: str):
    result = CliRunner().invoke(main, ["scenario", *words])
    return result.exit_code, result.stdout, result.stderr


def test_the_list_as_data() -> None:
    status, out, _ = run("list", "--json")
    families = json.loads(out)
    assert status == 0 and len(families) >= 8
    assert len({family["unit"] for family in families}) == 8
    for family in families:
        assert set(family) == {"id", "version", "unit", "severity", "modes", "title"}
        assert family["severity"] in ("critical", "quality") and len(family["modes"]) >= 3


@pytest.mark.parametrize(("family", "mode"), catalogue.cells())
def test_one_shown_as_data(family: str, mode: str) -> None:
    status, out, _ = run("show", family, "--seed", "7", "--mode", mode, "--json")
    shown = json.loads(out)
    assert status == 0
    assert (shown["family"], shown["mode"], shown["seed"]) == (family, mode, 7)
    assert {"version", "unit", "margin", "facts", "rules", "decisions", "figure"} <= set(shown)
    assert shown["figure"].startswith("<svg")
    for decision in shown["decisions"]:
        wanted = {"id", "kind", "critical", "prompt", "options", "answer", "tolerance", "reasons"}
        assert wanted <= set(decision) and decision["reasons"]["right"]
        assert all(decision["reasons"].values())
    for rule in shown["rules"]:
        assert {"id", "value", "unit", "source"} <= set(rule)


def test_numbers_among_the_facts_say_their_unit() -> None:
    """A drawn length, time or temperature ends in its unit; small whole numbers count or name."""
    unnamed = [
        (family, name, value)
        for family, mode in catalogue.cells()
        for name, value in catalogue.shown(family, 1, mode)["facts"].items()
        if isinstance(value, int | float) and not isinstance(value, bool)
        if not name.endswith(SUFFIXES) and value not in range(-2, 41)
    ]
    assert unnamed == []


def test_the_same_seed_prints_the_same_bytes() -> None:
    assert run("show", "chalk-line", "--seed", "11", "--json") == run(
        "show", "chalk-line", "--seed", "11", "--json"
    )


@pytest.mark.parametrize(
    ("words", "named"),
    [
        (("show", "no-such-family", "--seed", "1"), "no-such-family"),
        (("show", "chalk-line", "--seed", "1", "--mode", "odd"), "odd"),
        (("show", "chalk-line", "--seed", "-1"), "-1"),
        (("check", "--family", "no-such-family"), "no-such-family"),
    ],
)
def test_bad_input_is_one_line_and_status_2(words: tuple[str, ...], named: str) -> None:
    status, out, err = run(*words)
    assert status == 2 and out == ""
    assert len(err.strip().splitlines()) == 1 and named in err


def test_check_draws_every_cell_and_finds_it_sound() -> None:
    status, out, _ = run("check", "--seeds", "3", "--only", "draws")
    assert status == 0 and "0 unsound" in out


def test_check_measures_the_content_and_groups_what_it_finds(monkeypatch) -> None:
    hard = Finding("reading", "the situation reads at 12", "chalk-line")
    long = Finding("length", "the title has 90 characters", "chalk-line")
    monkeypatch.setattr(checks, "of_a_family", lambda sample: [long, hard])
    words = ("check", "--seeds", "2", "--family", "chalk-line", "--only", "content")
    status, out, err = run(*words)
    assert status == 1 and "2 to mend" in err
    assert "hard to read (reading): 1\n  chalk-line: the situation reads at 12" in out
    assert out.index("reads at 12") < out.index("90 characters")
    assert [line for line in out.splitlines() if line.startswith("all ")]


def test_check_as_data() -> None:
    words = ("check", "--seeds", "2", "--family", "chalk-line", "--json")
    status, out, _ = run(*words)
    found = json.loads(out)
    assert found["drawn"] == 2 * len(catalogue.cells("chalk-line"))
    assert found["unsound"] == [] and status == (1 if found["findings"] else 0)
    assert set(found["counts"]) == {"families", "cells", "kinds", "by_hand"}
    assert found["reading"]["chalk-line"]["situation"] > 50


def test_check_reports_what_is_unsound(monkeypatch) -> None:
    monkeypatch.setattr(catalogue, "_problems", lambda *_: iter(["two right answers"]))
    status, out, _ = run("check", "--seeds", "2", "--family", "chalk-line")
    assert status == 1 and "chalk-line, clean, seed 0: two right answers" in out


def test_shown_for_reading() -> None:
    status, out, _ = run("show", "watch-end", "--seed", "2")
    assert status == 0 and "answer:" in out and "rule fire-watch" in out
    assert "features: steps " in out and "worked by hand (" in out and "): agrees" in out


def test_the_features_and_the_worked_example_are_data_too() -> None:
    shown = json.loads(run("show", "chalk-line", "--seed", "3", "--json")[1])
    assert {"steps", "looks", "hidden", "faults", "given.guess"} <= set(shown["features"])
    assert set(shown["worked"]) == {"mode", "values", "answers", "lines", "disagreements"}
    assert shown["worked"]["disagreements"] == [] and shown["worked"]["lines"]
