"""A supervisor's pages: a job from tomorrow's walls, drawn, handed to the crew and taken back."""

from __future__ import annotations

import html5lib

from tests.functional.conftest import Visitor
from tests.functional.short_form import (
    ONE,
    TWO,
    cormac,
    greta,
    make,
    press,
    problem_at,
    typed,
    typed_token,
)
from trainer.services.installations.jobs import made_jobs

__all__ = ["cormac", "greta", "make", "press"]


def test_a_job_is_drawn_with_what_is_true_of_it(greta, make) -> None:
    make(greta, **TWO)
    assert (greta.status, greta.heading) == (200, "Yard wall")
    assert greta.path.startswith("/jobs/")
    assert len(greta.page.select("figure svg")) == 3  # two walls and the roof
    for words in (
        "2 walls, 3 m and 2.5 m long, 400 mm high; 1 inside corner.",
        "Laps of the field from 700 mm and 1.7 m.",
        "Foam all along it.",
        "The papers say: masonry.",
        "Then an inside corner to wall B.",
        "not a method statement",
        "Not handed out yet",
    ):
        assert words in greta.words
    assert "oam" not in " ".join(svg.get_text() for svg in greta.page.select("figure svg"))


def test_one_wall_needs_no_plan(greta, make) -> None:
    make(greta, **ONE)
    assert len(greta.page.select("figure svg")) == 1


def test_lengths_are_typed_and_said_in_inches_where_one_reads_inches(greta, make, parts) -> None:
    greta.visit("/settings").submit("Keep these settings", length_unit="in")
    inches = {
        "walls-0-length": "9 ft 10 1/8",
        "walls-0-height": "15 3/4 in",
        "walls-0-field_laps": "27 1/2, 5 ft 7 in",
    }
    make(greta, **{**ONE, **inches})
    assert greta.status == 200
    assert "1 wall, 9 ft 10 1/8 in long, 15 3/4 in high." in greta.words
    assert "Laps of the field from 27 1/2 in and 5 ft 7 in." in greta.words
    assert "mm" not in greta.words.replace("mm)", "")
    make(greta, **{**ONE, **inches, "walls-0-length": "20"})
    assert "Wanted: 23 5/8 in to 131 ft 2 3/4 in." in problem_at(greta, "walls-0-length")


def test_a_limit_said_in_inches_can_be_typed_as_it_is_said(greta, make) -> None:
    """100 mm are said as 3 7/8 in, which are 98.4 mm; 1500 mm as 4 ft 11 in, which are 1498.6."""
    greta.visit("/settings").submit("Keep these settings", length_unit="in")
    wall = {"name": "Low", "walls-0-length": "10 ft"}
    make(greta, **wall, **{"walls-0-height": "3"})
    assert "Wanted: 3 7/8 in to 4 ft 11 in." in problem_at(greta, "walls-0-height")
    make(greta, **wall, **{"walls-0-height": "3 7/8", "leave_by": "late"})
    assert problem_at(greta, "leave_by") and not problem_at(greta, "walls-0-height")


def test_a_form_sent_twice_makes_one_job(greta, make, parts, sign_in) -> None:
    first = make(greta, **ONE).path
    assert make(greta, **ONE).path == first
    assert make(greta, **{**ONE, "walls-0-height": "450"}).path != first
    assert len(made_jobs(parts, sign_in("greta"))) == 2


def test_another_is_made_from_one_there_is(greta, make, press) -> None:
    job = make(greta, **TWO).path.removeprefix("/jobs/")
    greta.visit(f"/jobs/new?like={job}")
    kept = typed(greta.page.select_one("main form.short-form"))
    expected = {**TWO, "walls-1-length": "2500", "walls-1-behind-0-end": "2500"}
    assert {name: kept[name] for name in expected} == expected
    press(greta, "Make the job", name="The same again")
    assert (greta.status, greta.heading) == (200, "The same again")


# ---- handing it out


def offered_to(visitor: Visitor) -> bool:
    return "Yard wall" in visitor.visit("/installations").words


def test_a_supervisor_hands_it_to_the_crew_and_takes_it_back(greta, make, press, signed_in) -> None:
    ana, ben = signed_in("ana", crew="East"), signed_in("ben", crew="West")
    job = make(greta, **ONE).path
    assert not offered_to(ana)
    press(greta, "Hand it to East")
    assert greta.path == job
    assert "Handed to East since 2026-05-04 08:00." in greta.words
    assert offered_to(ana) and not offered_to(ben)
    greta.visit("/jobs")
    assert "1 wall, 3 m long, 400 mm high. Handed to East since 2026-05-04 08:00." in greta.words
    press(greta, "Take it back")
    assert "Taken back 2026-05-04 08:00." in greta.words
    assert not offered_to(ana)
    press(greta, "Hand it to East")
    assert offered_to(ana)


def test_a_coordinator_chooses_a_crew_or_everybody(cormac, make, press, signed_in) -> None:
    ana, ben = signed_in("ana", crew="East"), signed_in("ben", crew="West")
    job = make(cormac, **ONE).path
    choices = {t.get_text(strip=True): t.input["value"] for t in cormac.page.select("label.row")}
    assert list(choices) == ["Everybody on this site", "East", "West"]
    press(cormac, "Hand it out", crew=choices["West"])
    assert (offered_to(ana), offered_to(ben)) == (False, True)
    press(cormac.visit(job), "Hand it out", crew="")
    assert "Handed to everybody since" in cormac.words
    assert (offered_to(ana), offered_to(ben)) == (True, True)
    press(cormac.visit(job), "Hand it out", crew="no-such-crew")
    assert cormac.status == 422
    assert cormac.problems == ["Choose one of these crews."]


def test_one_who_leads_no_crew_is_told_so(signed_in, make, press) -> None:
    lone = signed_in("lone", roles=("supervisor",))
    make(lone, **ONE)
    assert "You lead no crew to hand it to. Ask your coordinator." in lone.words
    token = typed(lone.page.select_one("main form"))
    assert lone.post(f"{lone.path}/hand-out", token).status == 422


def test_who_made_it_tries_it_and_goes_on(greta, make, press) -> None:
    job = make(greta, **ONE).path
    press(greta, "Try it myself")
    assert greta.path.startswith("/installation/")
    installation = greta.path
    greta.visit(job)
    assert greta.page.find("a", string="Go on trying it")["href"] == installation
    assert "Go on trying it" in greta.visit("/jobs").words


def test_a_job_is_seen_by_who_made_it_and_by_the_coordinator(
    greta, cormac, make, signed_in
) -> None:
    job = make(greta, **ONE).path
    other = signed_in("other", roles=("supervisor",), crew="West")
    assert cormac.visit(job).status == 200
    assert other.visit(job).status == 403
    assert other.visit(f"/jobs/new?like={job.removeprefix('/jobs/')}").status == 403
    token = typed_token(other)
    assert other.post(f"{job}/hand-out", token).status == 403
    assert other.post(f"{job}/take-back", token).status == 403
    assert greta.visit("/jobs/nothing-here").status == 404


# ---- the pages themselves


def test_every_page_is_sound_html_and_says_what_it_is_not(greta, make, press) -> None:
    pages = {"job": make(greta, **TWO).response.data}
    pages["list"] = greta.visit("/jobs").response.data
    pages["refused"] = make(greta, **{**TWO, "walls-1-length": "9"}).response.data
    for name, page in pages.items():
        html5lib.HTMLParser(strict=True).parse(page.decode())
        greta.page = type(greta.page)(page, "html5lib")
        ids = [tag["id"] for tag in greta.page.select("[id]")]
        assert len(ids) == len(set(ids)), name
        assert len(greta.page.select("h1")) == 1
        for form in greta.page.select("form[method=post]"):
            assert form.select_one("[name=csrf_token]")["value"]
        if name != "list":
            assert "not a method statement" in greta.words
