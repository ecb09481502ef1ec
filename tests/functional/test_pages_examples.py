"""Examples worked by hand, through the real pages: help in practice, none while proving."""

from __future__ import annotations

from dataclasses import replace
from weakref import WeakKeyDictionary

import html5lib
import pytest

from tests.functional.page_client import Reader, sample_app, text
from tests.functional.sample_site import PASSWORD
from tests.functional.test_pages_of_the_pack import opened, rena
from trainer.engine.spec import Family
from trainer.pack.pack import Pack, load_pack
from trainer.services import prove, sessions
from trainer.services.refusals import NothingToDraw
from trainer.services.scenarios import Library

__all__ = ["rena", "sample_app"]

WITH_EXAMPLE = sorted(f.id for f in load_pack().families.values() if f.worked)


def test_an_example_stands_folded_under_the_decision_that_waits(sample_app, rena: Reader) -> None:
    attempt, shelf, _ = opened(sample_app, "chalk-line")
    folded = rena.read(f"/scenario/{attempt}").select_one("details#example")
    assert not folded.has_attr("open")
    assert text(folded.summary) == "An example worked by hand"
    lines = shelf.pack.family("chalk-line").words_in("en").worked
    assert [text(p) for p in folded.find_all("p", recursive=False)][: len(lines)] == list(lines)
    # The page itself draws nothing for it: one figure, that of the scenario.
    assert len(rena.page.select("main svg.drawing")) == 1


@pytest.mark.parametrize("family", WITH_EXAMPLE)
def test_the_example_is_drawn_and_answered_on_a_page_of_its_own(
    sample_app, rena: Reader, family: str
) -> None:
    attempt, shelf, _ = opened(sample_app, family)
    link = rena.read(f"/scenario/{attempt}").select_one("details#example a")["href"]
    page = rena.read(link)
    assert (rena.status, rena.path) == (200, f"/learn/family/{family}/example")
    html5lib.HTMLParser(strict=True).parse(str(page))
    words = shelf.pack.family(family).words_in("en")
    assert text(page.h1) == words.title and page.select("article svg title")
    assert all(line in text(page.main) for line in words.worked)
    assert len(page.select("article strong")) == len(shelf.pack.family(family).worked.answers)
    assert page.select_one(".onward a")["href"] == f"/scenario/{attempt}"
    ids = [tag["id"] for tag in page.select("[id]")]
    assert len(ids) == len(set(ids))


def test_the_chalk_line_example_says_what_was_worked_out_by_hand(rena: Reader) -> None:
    """By hand: 75 of cant + 120 of field = 195 mm, and 961 mm of sheet."""
    said = text(rena.read("/learn/family/chalk-line/example").main)
    assert "195 mm from the wall face." in said and "961 mm" in said


@pytest.mark.parametrize("family", ["no-such-family", "chalk-line-9"])
def test_a_family_that_is_not_there_has_no_example(rena: Reader, family: str) -> None:
    page = rena.read(f"/learn/family/{family}/example")
    assert rena.status == 404 and "There is no such example here." in text(page.main)


def test_a_form_and_a_finished_scenario_offer_no_example(sample_app, rena: Reader) -> None:
    start = rena.read("/prove/primer").select_one("main form")
    page = rena.read(rena.send(start).location)
    assert page.select_one("form.decide") and not page.select("details#example")


def test_an_example_that_does_not_hold_under_the_rules_of_the_site_is_left_out(
    sample_app, rena: Reader
) -> None:
    """By hand 90 mm on the field is too little; a site that asks for 80 mm would say otherwise."""
    _, shelf, _ = opened(sample_app, "chalk-line")
    rules = shelf.rules
    subject = "lap-onto-field"
    (old,) = rules.by_subject[subject][:1]
    looser = replace(old, statements=(replace(old.statements[0], value=80, unit="mm"),))
    site = replace(rules, by_subject={**rules.by_subject, subject: (looser,)})
    family = shelf.pack.family("chalk-line")
    assert Library(shelf.pack, rules, ("as the book has it",)).example(family)
    assert Library(shelf.pack, site, ("a looser site",)).example(family) is None


def _with_practice_only(pack: Pack, unit: str, only: str = "") -> Pack:
    def marked(family: Family) -> Family:
        chosen = family.unit == unit and (not only or family.id == only)
        return replace(family, practice_only=True) if chosen else family

    return replace(pack, every_family={key: marked(f) for key, f in pack.every_family.items()})


def test_a_family_for_practice_only_says_so_and_is_never_used_to_prove(
    sample_app, rena: Reader, monkeypatch
) -> None:
    pack = _with_practice_only(load_pack(), "set-out")
    monkeypatch.setattr("trainer.services.scenarios.load_pack", lambda **_: pack)
    parts = sample_app.extensions["trainer"]
    person = sessions.signed_in(parts, sessions.sign_in(parts, "rena", PASSWORD))
    monkeypatch.setattr("trainer.services.scenarios._of_database", WeakKeyDictionary())
    attempt, _, _ = opened(sample_app, "chalk-line")
    said = text(rena.read(f"/scenario/{attempt}").select_one(".brief .hint"))
    assert said.startswith("This rests on the practice of the trade; no published rule on it")
    with pytest.raises(NothingToDraw):
        prove.prove_open(parts, person, "set-out")


def test_of_a_unit_only_what_rests_on_rules_is_drawn_to_prove() -> None:
    pack = load_pack()
    unit = "placing"
    marked = _with_practice_only(pack, unit, "sheet-order")
    shelf = Library(marked, pack.book.in_force(), ("here",))
    assert "sheet-order" in [f.id for f in shelf.families(unit)]
    assert {family for family, _ in prove._cells(shelf, unit)} <= {
        f.id for f in shelf.families(unit) if f.id != "sheet-order"
    }
