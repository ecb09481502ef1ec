"""Looking back by plain pages: the verdict first, time beside it, and who may read it."""

from __future__ import annotations

import re

import html5lib
import pytest
from bs4 import BeautifulSoup

from trainer.engine.measures import Units
from trainer.installation.play import play
from trainer.services import recordbook
from trainer.services.installations import debrief_page, looking_back, store
from trainer.services.installations.looking_back import work_out
from trainer.services.installations.words import Voice

JOB = "short-crew"
_found: dict[str, dict] = {}


def worked_out(task) -> dict:
    """Worked out in this process, once for all tests that ask for the same."""
    name = repr(task)
    if name not in _found:
        _found[name] = work_out(task)
    return _found[name]


class AtOnce:
    def ask(self, name, task, then) -> bool:
        then(worked_out(task))
        return True


class Never:
    def ask(self, name, task, then) -> bool:
        return False


@pytest.fixture
def at_once(monkeypatch, quiet) -> None:
    monkeypatch.setattr(looking_back, "elsewhere", AtOnce())


@pytest.fixture
def crew(add_person) -> None:
    add_person("Ana Ruiz", "ana", crew="North")
    add_person("Bo Lind", "bo", crew="North")
    add_person("Lee Hart", "lead", roles=("supervisor",), crew="North")
    add_person("Sam Wu", "far", roles=("supervisor",), crew="South")
    add_person("Kim Oates", "desk", roles=("coordinator",))


@pytest.fixture
def played(parts, crew, sign_in):
    """played("careless", "prove") → the id of Ana's finished installation."""
    numbers = iter(range(10**6))

    def one(by: str, purpose: str = "practise", *, most: int = 10**6) -> str:
        ana = sign_in("ana")
        opened = store.open_installation(parts, ana, JOB, purpose=purpose, seed=3)
        standing = store.own(parts, ana, opened)
        decisions = play(standing.job, standing.limits, by).decisions
        if most < len(decisions):
            decisions = (*decisions[:most], {"do": "leave"})
        for number, decision in enumerate(decisions):
            store.take(parts, ana, opened, number, decision, f"{next(numbers):032x}")
        return opened

    return one


@pytest.fixture
def reads(visitor_of, app):
    """reads("ana", path) → the page at path as that person sees it."""
    browsers: dict[str, object] = {}

    def page(name: str, path: str):
        if name not in browsers:
            browsers[name] = visitor_of(app).sign_in(name)
        return browsers[name].visit(path)

    return page


def debrief(public_id: str) -> str:
    return f"/installation/{public_id}/debrief"


def words(tag) -> str:
    return " ".join(tag.get_text(" ").split())


def headings(page: BeautifulSoup) -> list[str]:
    return [words(tag) for tag in page.select("main h1, main h2")]


def test_the_end_of_the_day_leads_to_looking_back(played, reads) -> None:
    opened = played("book")
    end = reads("ana", f"/installation/{opened}")
    assert end.page.select_one(f'a[href="{debrief(opened)}"]')
    back = reads("ana", debrief(opened))
    assert back.page.select_one(f'a[href="/installation/{opened}"]')


def test_everything_but_the_best_day_is_there_at_once(played, reads) -> None:
    seen = reads("ana", debrief(played("careless")))
    assert seen.status == 200 and seen.response.headers["Refresh"] == "3"
    assert "The best day is being worked out. This takes some seconds." in seen.words
    assert seen.page.select_one("main a[href$='/debrief']").get_text() == "Look again"
    assert seen.page.select(".numbered li") and seen.page.select_one("#verdict")
    assert words(seen.page.select_one(".days svg title")) == "Your day"


def test_once_it_is_worked_out_the_page_rests(played, reads, at_once) -> None:
    opened = played("book")
    reads("ana", debrief(opened))
    seen = reads("ana", debrief(opened))
    assert "Refresh" not in seen.response.headers and "Look again" not in seen.words
    title = words(seen.page.select_one(".days svg title"))
    assert title == "Your day / The best day found, by this morning’s forecast"
    html5lib.HTMLParser(strict=True).parse(seen.response.data)


def test_what_could_not_be_worked_out_takes_nothing_from_the_rest(
    played, reads, monkeypatch
) -> None:
    monkeypatch.setattr(looking_back, "elsewhere", Never())
    seen = reads("ana", debrief(played("careless")))
    assert "could not be worked out. Everything else on this page stands." in seen.words
    assert "Refresh" not in seen.response.headers and seen.page.select(".numbered li")


def test_the_verdict_comes_first_and_time_is_not_in_it(played, reads, at_once) -> None:
    opened = played("careless")
    reads("ana", debrief(opened))
    seen = reads("ana", debrief(opened))
    first = seen.page.select_one("article").find("div").find("div")
    assert first["id"] == "verdict" and "critical" in first["class"]
    assert not re.search(r"\d\d:\d\d| min\b", words(first))
    assert headings(seen.page)[1:] == [
        "What could have hurt somebody",
        "What the work lacks",
        "Hour by hour",
        "Beside the best day",
    ]
    assert "Time stands beside the verdict, never in it." in seen.words
    assert "because rules were broken and work was left undone: that counts" in seen.words


def test_every_finding_stands_once_under_its_number_with_rule_and_cause(
    parts, played, reads, sign_in
) -> None:
    opened = played("careless")
    state = store.own(parts, sign_in("ana"), opened).state
    seen = reads("ana", debrief(opened))
    numbers = [int(tag.find(string=True, recursive=False)) for tag in seen.page.select(".balloon")]
    assert sorted(numbers) == list(range(1, len(state.findings) + 1))
    critical = [f for f in state.findings if f.severity == "critical"]
    assert len(seen.page.select("li.finding.critical .numbered li")) == len(critical)
    for rule in seen.page.select("li.finding"):
        assert words(rule.select_one(".rule"))
    causes = [words(tag) for tag in seen.page.select(".numbered .hint")]
    caused = [f for f in state.findings if f.cause]
    assert sum("Decision " in cause for cause in causes) == len(caused)
    by_time = sorted(state.findings, key=lambda f: f.at)
    for tag in seen.page.select(".numbered li"):
        finding = by_time[int(tag.select_one(".balloon").find(string=True, recursive=False)) - 1]
        assert f"{finding.at // 60:02d}:{finding.at % 60:02d}" in words(tag.select_one(".hint"))


def test_a_clean_day_is_said_to_be_right_and_what_was_left_is_listed(played, reads) -> None:
    clean = reads("ana", debrief(played("book")))
    assert words(clean.page.select_one("#verdict")).startswith("Right: the job is finished")
    assert not clean.page.select("li.finding")
    left = reads("ana", debrief(played("book", most=4)))
    verdict = left.page.select_one("#verdict")
    assert re.search(r"\d+ things? (is|are) not finished", words(verdict))
    assert verdict.select(".rules li")


def test_the_ends_are_those_that_were_worked_out(parts, played, reads, sign_in, at_once) -> None:
    opened = played("book")
    reads("ana", debrief(opened))
    row = store.own(parts, sign_in("ana"), opened).row
    said = [words(tag) for tag in reads("ana", debrief(opened)).page.select(".facts li")]
    clock = lambda minute: f"{minute // 60:02d}:{minute % 60:02d}"  # noqa: E731
    assert said[0] == f"Off the roof at {clock(row.outcome['ended'])}."
    for sight in ("forecast", "hindsight"):
        assert any(f"ends at {clock(row.best[sight]['end'])}" in line for line in said)
    exact = row.best["hindsight"]["exact"]
    bound = (
        f"No plan that keeps the rules could end before {clock(row.best['hindsight']['bound'])}."
    )
    assert ("Nothing can be faster." if exact else bound) in said


def test_a_day_that_was_left_undone_is_worth_nothing_for_being_early(
    played, reads, at_once
) -> None:
    opened = played("book", most=4)
    reads("ana", debrief(opened))
    said = reads("ana", debrief(opened)).words
    assert "It was sooner over because work was left undone: that counts for nothing." in said
    assert "Everybody leaves the roof. With it the day ended, and the job was not finished." in said


def test_it_is_said_alike_after_proving_and_not_before_its_end(
    parts, played, reads, sign_in
) -> None:
    ana_opened = played("careless", "prove")
    assert "Proved" in reads("ana", debrief(ana_opened)).words
    going_on = store.open_installation(parts, sign_in("ana"), JOB, purpose="prove")
    seen = reads("ana", debrief(going_on))
    assert seen.status == 409 and "not over yet" in seen.words


@pytest.mark.parametrize(
    "name, status", [("ana", 200), ("lead", 200), ("desk", 200), ("bo", 404), ("far", 404)]
)
def test_who_may_read_a_record_may_read_its_debriefs(played, reads, name, status) -> None:
    opened = played("book")
    seen = reads(name, debrief(opened))
    assert seen.status == status
    if status == 200 and name != "ana":
        assert "Ana Ruiz" in seen.words and seen.page.select_one('a[href^="/people/"]')
        assert words(seen.page.select_one(".days svg title")) == "The day of Ana Ruiz"


def test_nobody_learns_from_the_answer_that_there_is_one(played, reads) -> None:
    there = reads("bo", debrief(played("book"))).words
    assert there == reads("bo", debrief("x" * 12)).words


def test_a_record_lists_installations_and_what_they_show_of_each_unit(played, reads) -> None:
    careless, clean = played("careless", "prove"), played("book")
    mine = reads("ana", "/record")
    links = [tag["href"] for tag in mine.page.select('.record-lines a[href*="/installation/"]')]
    assert links == [debrief(clean), debrief(careless)]
    lines = [words(tag) for tag in mine.page.select(".record-lines li")]
    assert "Practised" in lines[0] and "nothing found wrong" in lines[0]
    assert "Proved" in lines[1] and "critical findings" in lines[1]
    units = {words(li.h3): words(li) for li in mine.page.select(".record-units li")}
    assert re.search(
        r"Whole installations proved: \d+ decisions? showed it; \d+ went against it\. \w",
        units["Flame and welding"],
    )
    assert re.search(r"practised: \d+ decisions? showed it\.", units["Flame and welding"])
    assert "%" not in words(mine.page.select_one(".record-units"))


def test_a_supervisor_reads_the_same_in_the_record_of_the_crew(
    parts, played, reads, sign_in
) -> None:
    opened = played("careless")
    whose = sign_in("ana").public_id
    theirs = reads("lead", f"/people/{whose}")
    link = theirs.page.select_one('.record-lines a[href*="/installation/"]')
    assert link["href"] == debrief(opened)
    assert reads("lead", link["href"]).status == 200


def test_an_installation_of_another_program_says_nothing_and_breaks_no_record(
    parts, played, sign_in, monkeypatch
) -> None:
    """One that cannot be worked out again is listed; its outcome was stored."""
    from trainer.services.installations import on_record
    from trainer.services.refusals import Conflict

    def refused(*_):
        raise Conflict("begun with another version")

    played("careless")
    monkeypatch.setattr(on_record, "standing_of", refused)
    page = recordbook.my_record(parts, sign_in("ana"))
    assert len(page.installed) == 1 and not any(unit.installed for unit in page.units)


def test_volumes_are_litres_or_us_gallons() -> None:
    """1 US gallon = 3.785411784 litres (NIST Handbook 44, Appendix C)."""
    metric, inches = Voice(), Voice(units=Units("in", "F"))
    assert debrief_page.volume(metric, 0.4) == "0.4 litres"
    assert debrief_page.volume(inches, 3.785411784) == "1 US gal"
    assert debrief_page.volume(inches, 0.1) == "less than 0.1 US gal"
