"""Packs that read well and come to nothing: said when they are loaded, by file and line."""

from __future__ import annotations

from contextlib import nullcontext
from datetime import UTC, datetime

import pytest

from tests.integration.small_pack import FILES, SmallPack
from trainer.engine.flaws import Flaw
from trainer.pack.drawable import deep_problems
from trainer.pack.pack import load_pack
from trainer.pack.positions import PackError
from trainer.pack.reading import read_files
from trainer.records.tables import SiteRule
from trainer.services import practice
from trainer.services.figures import figure_flaws
from trainer.services.refusals import NothingToDraw
from trainer.services.scenarios import Library, checked_pack, library
from trainer.services.unfit import unfit

FAMILY = "families/every-kind.yaml"
BEGINS, ENDS = "figure:\n", "decisions:\n"
FIGURE = """\
figure:
  kind: wall-elevation
  wall_mm: = sheet_mm * 3
  height_mm: 400
  laps:
    - {from_mm: = sheet_mm - lap_mm, to_mm: = sheet_mm, label: "@lap"}
after:
  put:
    overlays:
      - {type: note, at: [100, 100], text: "@lap", ok: true}
"""
EXTRA = """\
features: {steps: 2, looks: 1, hidden: 0, faults: '0 if margin > 0 else 1'}
worked:
  mode: wide
  values: {sheet_mm: 1000, lap_mm: 80, primed_at: "07:30", surface_c: 12, bad: [left, right]}
  answers: {take: keep-it, go: go, worst: left, every: [left, right], put: in-place, much: 920,
            until: "10:30", row: [bond bottom, roll, press laps]}
"""


@pytest.fixture
def pack(tmp_path) -> SmallPack:
    """A pack whose family has a drawing that can be drawn, and everything else there is."""
    made = SmallPack(tmp_path)
    text = FILES[FAMILY]
    before, after = text.split(BEGINS)[0], ENDS + text.split(ENDS, 1)[1]
    lines = '    worked: ["1000 − 80 = 920 mm"]\n    title: Every kind\n'
    whole = before + FIGURE + EXTRA + after.replace("    title: Every kind\n", lines)
    (tmp_path / FAMILY).write_text(whole, "utf-8")
    return made


def said(pack: SmallPack) -> list[str]:
    """What deep loading complains of, without the folder; every complaint on one line."""
    with pytest.raises(PackError) as refused:
        load_pack(pack.root, figure_flaws)
    lines = str(refused.value).splitlines()
    assert len(lines) == len(refused.value.problems)
    return [line.replace(f"{pack.root.as_posix()}/", "") for line in lines]


def test_a_pack_that_comes_to_something_is_loaded(pack):
    assert list(load_pack(pack.root, figure_flaws).families) == ["every-kind"]
    assert load_pack(pack.root, figure_flaws) is load_pack(pack.root)


SPOILT = [
    # parameters that cannot give a fault mode
    ("surface_c: {from: 6, to: 20", "surface_c: {from: 26, to: 20",
     "modes.wide: no scenario can be drawn (seed 0): value surface_c: from 26 to 20 there is"),
    ("short: {margin: [-9, -1.5]", "short: {margin: [-90, -1.5]",
     "modes.short: no scenario can be drawn (seed 0): judge laps: measured_mm"),
    ("answer: primed_at + oldest.value", "answer: primed_at + oldest.value * 9",
     "modes.wide: no scenario can be drawn (seed 0): decision until: its answer is"),
    # a mode on the wrong side of its limit
    ("of: lap_mm, rule: keep", "of: sheet_mm, rule: keep",
     "modes.short: a margin on the wrong side is drawn, and 418.9 tolerances on the safe side"),
    # impossible drawings
    ("height_mm: 400\n", "height_mm: = 40 - lap_mm\n", "figure: mode wide (seed 0): it cannot be"),
    ("to_mm: = sheet_mm, label", "to_mm: = sheet_mm - lap_mm, label", "figure: mode wide (seed 0)"),
    ("kind: wall-elevation", "kind: wall-elephant", 'kind: got "wall-elephant"; allowed: '),
    ("{type: note, at: [100, 100]", "{type: not, at: [100, 100]", "after.put: mode wide (seed 0)"),
    ("after:\n", "live:\n  put: {movable: {lap: 7, range: {min: 0, max: 10}}}\nafter:\n",
     "live.put: mode wide (seed 0)"),
    # what the family says of itself
    ("features: {steps: 2", "features: {steps: lap_mm - 1000",
     "modes.wide: no scenario can be drawn (seed 0): feature steps: "),
    ("much: 920,", "much: 930,", "worked: decision much: 930 by hand, 920 worked out"),
    ("surface_c: 12, bad", "surface_c: 3, bad", "worked: no scenario can be made of it: value su"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "expected"), SPOILT, ids=lambda part: part[:40])
def test_each_fault_is_said_with_its_file_and_line(pack, old, new, expected):
    pack.spoil(FAMILY, old, new)
    assert load_pack(pack.root)  # its files fit together; only drawing tells
    complaints = said(pack)
    found = [complaint for complaint in complaints if expected in complaint]
    assert found, complaints
    file, line, field = found[0].split(":", 3)[:3]
    assert file == FAMILY
    last = field.strip().split(".")[-1]
    assert last in (pack.root / FAMILY).read_text("utf-8").splitlines()[int(line) - 1]


def test_one_complaint_for_each_mode_and_all_modes_at_once(pack):
    pack.spoil(FAMILY, "surface_c: {from: 6, to: 20", "surface_c: {from: 26, to: 20")
    assert [c.split(": ")[1] for c in said(pack)] == [
        "modes.wide", "modes.short", "worked",
    ]  # fmt: skip


def test_a_rule_of_the_book_that_makes_nonsense_of_a_family_names_the_family(pack):
    pack.spoil(
        "rulebook.yaml", "{value: 75, unit: mm}, {value: 3, unit: in}", "{value: 3, unit: mm}"
    )
    complaints = said(pack)
    assert all(c.startswith(FAMILY) for c in complaints)
    assert any(
        "modes.short: no scenario can be drawn (seed 0): judge laps" in c for c in complaints
    )


def test_nothing_is_half_loaded_and_a_mended_file_is_read_again(pack):
    whole = (pack.root / FAMILY).read_text("utf-8")
    pack.spoil(FAMILY, "kind: wall-elevation", "kind: wall-elephant")
    for _ in range(2):
        assert said(pack)
    (pack.root / FAMILY).write_text(whole, "utf-8")
    assert list(load_pack(pack.root, figure_flaws).families) == ["every-kind"]


def test_an_older_version_is_no_longer_tried(pack):
    """It is there for its old answers alone."""
    older = (pack.root / FAMILY).read_text("utf-8").replace("version: 3", "version: 2")
    older = older.replace("kind: wall-elevation", "kind: wall-elephant")
    (pack.root / "families" / "older.yaml").write_text(older, "utf-8")
    assert load_pack(pack.root, figure_flaws).family("every-kind", 2)


def test_what_cannot_draw_still_tries_the_values(pack):
    pack.spoil(FAMILY, "kind: wall-elevation", "kind: wall-elephant")
    assert deep_problems(read_files(pack.root)) == []
    seen = []
    deep_problems(read_files(pack.root), lambda family, scenario: seen.append(scenario) or ())
    # two seeds and, of a mode with a margin, both ends of it and both sides of the limit
    assert len(seen) == 2 * (2 + 4)
    assert {(s.mode, s.margin > 0) for s in seen} == {
        (mode, side) for mode in ("wide", "short") for side in (True, False)
    }


def test_a_check_that_finds_fault_is_heard(pack):
    (found, *_) = deep_problems(read_files(pack.root), lambda *_: [Flaw(("figure",), "ugly")])
    assert (found.where, found.message) == ("figure", "mode wide (seed 0): ugly")


def test_the_pack_that_is_served_comes_to_something():
    assert checked_pack() is load_pack()


def test_a_site_refuses_a_pack_that_comes_to_nothing(parts, pack, monkeypatch):
    monkeypatch.setattr("trainer.pack.pack.SCENARIOS", pack.root)
    pack.spoil(FAMILY, "kind: wall-elevation", "kind: wall-elephant")
    assert library().families()  # at the terminal it can still be looked at and mended
    with parts.database.reading() as session, pytest.raises(PackError, match="wall-elephant"):
        library(session)


# ---- a rule of the site that spoils a family ---------------------------------------------------


def set_rule(parts, person, subject: str, value: float, unit: str) -> None:
    day = datetime(2026, 5, 4, tzinfo=UTC)
    with parts.database.writing() as session:
        session.add(
            SiteRule(subject=subject, value=value, unit=unit, reason="a trial", person_id=person.id,
                     set_at=day)
        )  # fmt: skip


def only(drawn: set[str], shelf: Library, family: str) -> bool:
    """Whether nothing of the family's unit was drawn besides it."""
    unit = shelf.pack.family(family).unit
    return not {f.id for f in shelf.pack.families_of(unit)} & drawn - {*shelf.left_out}


def shelf_of(parts):
    with parts.database.reading() as session:
        return library(session)


@pytest.mark.parametrize(
    ("subject", "value", "unit", "family", "because"),
    [
        # a mode that draws a short lap of 20 to 70 mm would draw a good one
        ("lap-onto-field", 15, "mm", "chalk-line", "lap_given_mm, given: the other way round"),
        # no watch of ten hours ends on the day of the work
        ("fire-watch", 600, "min", "watch-end", "is no minute of a day"),
    ],
)
def test_a_rule_that_turns_a_family_upside_down_leaves_it_out_and_says_so(
    parts, sign_in, caplog, subject, value, unit, family, because
):
    ana = sign_in("ana")
    before = {f.id for f in shelf_of(parts).families()}
    set_rule(parts, ana, subject, value, unit)
    shelf = shelf_of(parts)
    assert family in before and {f.id for f in shelf.families()} == before - {*shelf.left_out}
    sentence = shelf.left_out[family]
    assert sentence.startswith(f"The family {family} is not drawn under the rules in force here")
    assert f"{subject} {value} {unit}" in sentence and because in sentence
    assert sentence in caplog.text
    with pytest.raises(NothingToDraw) if only(before, shelf, family) else nullcontext():
        practice.start(parts, ana, shelf.pack.family(family).unit)


def test_a_stricter_rule_under_which_a_family_holds_leaves_nothing_out(parts, sign_in):
    ana = sign_in("ana")
    set_rule(parts, ana, "fire-watch", 150, "min")
    assert shelf_of(parts).left_out == {}


def test_the_books_own_default_leaves_nothing_out_and_every_profile_can_be_tried():
    pack = load_pack()
    assert unfit(pack, pack.book.in_force()) == {}
    for profile in pack.book.profiles:
        assert set(unfit(pack, pack.book.in_force(profile))) <= set(pack.families)
