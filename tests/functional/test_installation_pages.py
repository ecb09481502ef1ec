"""Whole installations by plain forms: what a page shows, what it takes, what it keeps to itself."""

from __future__ import annotations

import re
import secrets

import html5lib
import pytest
from bs4 import Tag

from tests.functional.page_client import Reader, reader, sample_app, services, text
from tests.functional.sample_site import PASSWORD
from trainer.installation.play import play
from trainer.services import accounts, sessions
from trainer.services.installations import store

__all__ = ["reader", "sample_app", "services"]

INCHES = accounts.Preferences("en", "in", "f", "auto")


def begin(reader: Reader, job: str = "straight-wall", purpose: str = "practise") -> str:
    """Open a job by its form on the list; the path of its page."""
    reader.read("/installations")
    form = next(f for f in forms(reader) if f.select_one(f'[name=job][value="{job}"]'))
    answered = reader.send(form, {"purpose": purpose})
    assert answered.status_code == 303
    return str(answered.location)


def forms(reader: Reader) -> list[Tag]:
    return reader.page.select("main form")


def offered(reader: Reader, path: str, place: str, option: str) -> Tag:
    """The form of an option at a place."""
    page = reader.read(f"{path}?place={place}")
    return page.select_one(f'input[name=option][value="{option}"]').find_parent("form")


def filled(form: Tag) -> dict[str, object]:
    """What a browser would send of a form: its texts, and what is chosen in it."""
    sent: dict[str, list[str]] = {}
    for tag in form.select("input[name]"):
        if tag.get("type") not in ("radio", "checkbox") or tag.has_attr("checked"):
            sent.setdefault(tag["name"], []).append(tag.get("value", ""))
    for tag in form.select("select"):
        sent[tag["name"]] = [tag.select_one("[selected]")["value"]]
    return sent


def do(reader: Reader, path: str, place: str, option: str, **fields: object) -> Tag:
    """Take an option as it is filled in, but for ``fields``; the page after it."""
    form = offered(reader, path, place, option)
    answered = reader.send(form, {**filled(form), **fields})
    assert answered.status_code == 303, text(reader.page)
    return reader.read(answered.location)


def wait(reader: Reader, path: str, minutes: int) -> Tag:
    page = reader.read(path)
    form = page.select_one(f'input[name=minutes][value="{minutes}"]').find_parent("form")
    return reader.read(reader.send(form).location)


def test_the_list_has_every_job_by_level_and_first_what_goes_on(reader: Reader) -> None:
    page = reader.read("/installations")
    levels = [text(h) for h in page.select(".jobs h2") if text(h).startswith("Level")]
    assert [level[:7] for level in levels] == ["Level 1", "Level 2", "Level 3", "Level 4"]
    assert len(page.select(".job-lines > li")) >= 10
    path = begin(reader)
    page = reader.read("/installations")
    assert text(page.select_one(".jobs h2")) == "Go on where you were"
    assert page.select_one(".next a")["href"] == path


def test_the_home_page_leads_to_the_list(reader: Reader) -> None:
    assert reader.read("/").select_one('a[href="/installations"]')


def test_the_page_says_the_time_the_sky_and_what_everybody_does(reader: Reader) -> None:
    path = begin(reader)
    page = reader.read(path)
    assert text(page.select_one(".time")) == "07:30 leave by 16:30"
    assert text(page.select_one(".sky")) == "No rain in the forecast."
    assert [text(li) for li in page.select(".crew li")] == [
        "Dana is free (torch and watch)", "Ivo is free (watch)", "Noor is free"
    ]  # fmt: skip
    assert page.select_one(".figure svg title")
    assert len(page.select(".places a")) > 8


def test_a_decision_is_taken_and_time_moves_when_one_waits(reader: Reader) -> None:
    path = begin(reader)
    page = do(reader, path, "wall-A", "look", who="noor")
    assert "Noor looks behind and below wall A, until 07:34" in text(page.select_one(".crew"))
    assert text(page.select_one(".time")).startswith("07:30")
    page = wait(reader, path, 0)
    assert text(page.select_one(".time")).startswith("07:34")
    assert "07:34 Noor has looked behind and below wall A: nothing behind it burns" in text(
        page.select_one(".news")
    )
    assert "What just happened" in text(page)


def test_a_row_of_actions_says_how_many_follow(reader: Reader) -> None:
    path = begin(reader)
    do(reader, path, "wall-A", "set-out")
    wait(reader, path, 0)
    do(reader, path, "rolls", "cut", strips="4")
    wait(reader, path, 0)
    page = do(reader, path, "wall-A", "lay-row", who="noor", through="2", **{"with": "ivo"})
    crew = text(page.select_one(".crew"))
    assert re.search(r"Noor lays sheet 1 of wall A, until 0\d:\d\d, then 5 more steps", crew)
    assert "Ivo helps Noor until" in crew


def test_a_corner_sheet_is_laid_and_rolled_by_the_form_of_the_page(reader: Reader) -> None:
    path = begin(reader, "inside-corner")
    do(reader, path, "rolls", "cut", strips="2")
    wait(reader, path, 0)
    page = do(reader, path, "corner-0", "lay-corner", who="noor")
    assert "Noor lays the first sheet of corner A–B" in text(page.select_one(".crew"))
    wait(reader, path, 0)
    page = do(reader, path, "corner-0", "roll-corner", who="noor")
    assert "Noor rolls the first sheet of corner A–B" in text(page.select_one(".crew"))


def test_the_same_work_goes_on_with_one_tap_by_who_did_it(reader: Reader) -> None:
    path = begin(reader)
    page = do(reader, path, "wall-A", "set-out", who="noor")
    assert not page.select(".nexts")
    do(reader, path, "rolls", "cut", strips="3", who="dana")
    wait(reader, path, 10)
    page = do(reader, path, "sheet-A-0", "lay", who="noor", rolling="", **{"with": "ivo"})
    assert not page.select(".nexts"), "whoever works goes on with nothing"
    page = wait(reader, path, 0)
    rows = {text(button): button.find_parent("form") for button in page.select(".nexts button")}
    roll, touch = list(rows)
    assert roll == "Noor rolls sheet 1 of wall A 2 min"
    assert touch.startswith("Noor touches wall A at ")
    page = reader.read(reader.send(rows[roll]).location)
    assert "Noor rolls sheet 1 of wall A, until" in text(page.select_one(".crew"))
    page = wait(reader, path, 0)
    [lay] = [b for b in page.select(".nexts button") if "lays sheet 2" in text(b)]
    page = reader.read(reader.send(lay.find_parent("form")).location)
    assert "Noor lays sheet 2 of wall A, until" in text(page.select_one(".crew"))
    wait(reader, path, 0)
    form = offered(reader, path, "sheet-A-1", "roll")
    assert form.select_one("[name=who][checked]")["value"] == "noor", "who rolled last"


CAUTIONS = {
    "torch": "Gas is heavier than air",
    "melter": "Hot bitumen sticks",
    "corner-0": "Hot bitumen sticks",
    "wall-A": "Solvent primer",
    "stretch-A-0": "Solvent primer",
}


def test_places_where_work_burns_bear_the_usual_caution(reader: Reader) -> None:
    path = begin(reader, "inside-corner")
    for place, said in CAUTIONS.items():
        page = reader.read(f"{path}?place={place}")
        assert said in text(page.select_one("#here .caution")), place
    assert not reader.read(f"{path}?place=rolls").select("#here .caution")


def test_a_finding_comes_with_its_sum_its_rule_and_its_cause(reader: Reader) -> None:
    path = begin(reader)
    do(reader, path, "torch", "light", off="300", at="1500", wall="A")
    page = wait(reader, path, 0)
    found = text(page.select_one(".found"))
    assert "The torch burns and no permit is open." in found
    assert "Decision 1: Dana lights the torch at wall A at 1.5 m, 300 mm out." in found
    assert "What a hot-work permit states" in found
    assert page.select_one(".found .stakes")


def test_stepping_back_undoes_the_last_decision_alone(reader: Reader) -> None:
    path = begin(reader)
    do(reader, path, "torch", "light")
    page = wait(reader, path, 5)
    back = page.select_one(f'form[action="{path}/back"]')
    assert "Takes back: Everybody waits 5 min." in text(back)
    page = reader.read(reader.send(back).location)
    assert "Taken back." in text(page.select_one(".brief [role=status]"))
    assert "Dana lights the torch" in text(page.select_one(".crew"))


def test_while_proving_nothing_is_said_and_nothing_taken_back(reader: Reader) -> None:
    before = text(reader.read("/installations/straight-wall/prove").main)
    assert "One critical finding" in before and "nothing can be taken back" in before
    path = begin(reader, purpose="prove")
    do(reader, path, "torch", "light")
    page = wait(reader, path, 5)
    assert not page.select(".found, .finding") and "permit is open" not in text(page)
    assert not page.select(f'form[action="{path}/back"]')
    token = page.select_one("[name=csrf_token]")["value"]
    sent = {"csrf_token": token, "key": secrets.token_hex(16), "after": "2"}
    answered = reader.client.post(f"{path}/back", data=sent)
    assert answered.status_code == 303
    assert text(reader.read(path).select_one(".time")).startswith("07:3")


def test_an_old_page_changes_nothing_and_says_so(reader: Reader) -> None:
    path = begin(reader)
    form = offered(reader, path, "wall-A", "look")
    sent = filled(form)
    do(reader, path, "permit", "open-permit")
    answered = reader.send(form, {**sent, "who": "noor"})
    page = reader.read(answered.location)
    assert "That page was old" in text(page.select_one(".brief [role=status]"))
    assert "Noor is free" in text(page.select_one(".crew"))


def test_the_same_form_sent_twice_is_one_decision(reader: Reader) -> None:
    path = begin(reader)
    form = offered(reader, path, "wall-A", "look")
    sent = filled(form)
    places = [reader.send(form, sent).location for _ in range(2)]
    assert places[0] == places[1]
    assert reader.read(path).select_one("[name=after]")["value"] == "1"


def test_what_nature_does_not_allow_is_shown_with_its_reason(reader: Reader) -> None:
    page = reader.read(f"{begin(reader)}?place=wall-A")
    refused = [text(o) for o in page.select(".option.cannot")]
    assert "Lay sheet 1 of wall A Wall A is not set out yet." in refused
    assert not page.select(".option.cannot form, .option.cannot button")


def test_the_impossible_is_refused_in_place(reader: Reader) -> None:
    path = begin(reader)
    form = offered(reader, path, "wall-A", "prime")
    sent = {**filled(form), "from": "300", "to": "250"}
    refused = reader.send(form, sent)
    assert refused.status_code == 409
    page = reader._keep(refused)
    assert "that is no stretch of it" in text(page.select_one("details[open] .problem"))
    assert page.select_one("details[open] input[name=to]")["value"] == "250"
    as_script = reader.send(form, sent, Accept="application/json")
    assert (as_script.status_code, "no stretch" in as_script.json["message"]) == (409, True)
    assert page.select_one("[name=after]")["value"] == "0"


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("", "Nothing is filled in yet"),
        ("12,5", "“12,5” cannot be taken"),
        ("-4", "cannot be"),
    ],
)
def test_a_field_that_cannot_be_read_keeps_what_was_typed(
    reader: Reader, typed: str, said: str
) -> None:
    path = begin(reader)
    form = offered(reader, path, "wall-A", "snap")
    refused = reader.send(form, {**filled(form), "distance": typed})
    assert refused.status_code == 422
    page = reader._keep(refused)
    assert said in text(page.select_one("details[open] .problem"))
    field = page.select_one("details[open] input[name=distance]")
    assert (field["value"], field["aria-invalid"]) == (typed, "true")


def test_unknown_places_jobs_and_installations_are_not_there(reader: Reader) -> None:
    path = begin(reader)
    page = reader.read(f"{path}?place=sheet-Z-9&view=Q&since=x")
    assert reader.status == 200 and "That place is not there" in text(page)
    assert reader.read("/installation/nothing").h1 and reader.status == 404
    assert reader.read("/installations/nothing/prove").h1 and reader.status == 404


def test_nobody_reads_the_installation_of_somebody_else(
    reader: Reader, sample_app, services
) -> None:
    path = begin(reader)
    other = Reader(sample_app, "kim")
    for where in (path, f"{path}/leave"):
        other.read(where)
        assert other.status == 404


HIDDEN = (("old-masonry", 4), ("old-masonry", 11), ("after-rain", 2), ("u-shape", 3))


@pytest.mark.parametrize(("job_id", "seed"), HIDDEN)
def test_no_hidden_truth_reaches_a_page_before_anybody_looked(
    reader: Reader, sample_app, job_id: str, seed: int
) -> None:
    parts = sample_app.extensions["trainer"]
    person = _rena(parts)
    public_id = store.open_installation(parts, person, job_id, seed=seed)
    job = store.own(parts, person, public_id).job
    hidden = {part.what for wall in job.walls for part in wall.behind}
    hidden |= {hole.what.removeprefix("a ") for hole in job.openings}
    ids = [part.id for wall in job.walls for part in wall.behind] + [o.id for o in job.openings]
    path = f"/installation/{public_id}"
    places = [a["href"] for a in reader.read(path).select(".places a, .views a")]
    assert hidden or any(wall.damp for wall in job.walls)
    for where in [path, *places]:
        reader.read(where)
        shown = str(reader.page).replace(job.brief, "")
        assert not [word for word in hidden if word in shown], where
        assert not [name for name in ids if f"-{name}" in shown], where
        assert "damp" not in shown.replace(job.brief, ""), where


def _rena(parts):
    token = sessions.sign_in(parts, "rena", PASSWORD)
    return sessions.signed_in(parts, token)


def test_what_was_found_out_is_on_the_page_from_then_on(reader: Reader, sample_app) -> None:
    parts = sample_app.extensions["trainer"]
    person = _rena(parts)
    public_id = store.open_installation(parts, person, "after-rain", seed=2)
    job = store.own(parts, person, public_id).job
    assert any(wall.damp for wall in job.walls)
    path = f"/installation/{public_id}"
    do(reader, path, "wall-A", "probe")
    page = wait(reader, path, 0)
    assert "probed wall A: damp at" in text(page.select_one(".news"))
    facts = text(reader.read(f"{path}?place=wall-A").select_one(".facts"))
    assert "probed: damp at" in facts


def test_lengths_are_read_and_said_in_inches(sample_app, services) -> None:
    parts = sample_app.extensions["trainer"]
    reader = Reader(sample_app, "kim")
    person = sessions.signed_in(parts, sessions.sign_in(parts, "kim", PASSWORD))
    accounts.set_preferences(parts, person, INCHES)
    path = begin(reader)
    page = do(reader, path, "wall-A", "snap", distance="4 3/4 in")
    assert "snaps the line 4 3/4 in from wall A" in text(page.select_one(".crew"))
    end = text(offered(reader, path, "wall-A", "prime").find_parent("details"))
    long = filled(offered(reader, path, "wall-A", "prime"))["to"][0]
    assert "mm" not in end and " ft " in long
    page = do(reader, path, "wall-A", "prime", who="ivo")
    assert f"Ivo primes wall A, 0 to {long}" in text(page.select_one(".crew"))


def test_the_end_says_what_came_out_and_how_to_go_on(reader: Reader) -> None:
    path = begin(reader)
    do(reader, path, "torch", "light")
    wait(reader, path, 5)
    asked = reader.read(f"{path}/leave")
    assert "Wall A is not set out" in text(asked.main)
    page = reader.read(reader.send(asked.select_one("form[data-outbox]")).location)
    assert "burn people or make them fall" in text(page.select_one(".verdict.critical"))
    assert "Everybody left the roof while a flame was lit." in text(page)
    assert "Off the roof at 07:35" in text(page)
    assert "Dana lights the torch" in text(page.select_one("details .news"))
    page = reader.read(f"{path}/leave")
    assert page.select_one(".verdict"), "leaving again leads to how it ended"


def test_the_end_is_short_and_leads_to_all_findings(reader: Reader, sample_app) -> None:
    parts = sample_app.extensions["trainer"]
    person = _rena(parts)
    public_id = store.open_installation(parts, person, "straight-wall", seed=3)
    standing = store.own(parts, person, public_id)
    for number, decision in enumerate(play(standing.job, standing.limits, "careless").decisions):
        store.take(parts, person, public_id, number, decision, f"{number:032x}")
    state = store.own(parts, person, public_id).state
    assert len({finding.subject for finding in state.findings}) > 3
    page = reader.read(f"/installation/{public_id}")
    critical = sum(finding.severity == "critical" for finding in state.findings)
    assert f"{critical} findings could have hurt somebody" in text(page.select_one("#verdict"))
    assert len(page.select(".gravest li")) == 3 and not page.select(".finding")
    assert page.select_one(".go")["href"].endswith("/debrief")


PATHS = ("", "?place=wall-A", "?place=corner-0", "?place=torch&view=plan", "?place=rolls", "/leave")


@pytest.mark.parametrize("where", PATHS)
def test_every_page_parses_strictly_and_names_nothing_twice(reader: Reader, where: str) -> None:
    path = begin(reader, "inside-corner")
    answered = reader.client.get(path + where)
    html5lib.HTMLParser(strict=True).parse(answered.get_data(as_text=True))
    page = reader.read(path + where)
    ids = [tag["id"] for tag in page.select("[id]")]
    assert len(ids) == len(set(ids))
    assert not page.select("style, [style]")
    actions = [form["action"] for form in page.select("form[data-outbox]")]
    assert len(actions) == len(set(actions)), "the outbox tells forms apart by their address"
    for form in page.select("form[method=post]"):
        assert form.select_one("[name=csrf_token]")["value"]
