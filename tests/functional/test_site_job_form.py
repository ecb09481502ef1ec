"""The short form: more walls and fewer, what is wrong beside its field, and why walls cannot be."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

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
from trainer.errors import InputError
from trainer.installation import finishable
from trainer.installation.limits import limits_of
from trainer.installation.planner import best
from trainer.installation.site_job import site_job
from trainer.installation.state import Finding
from trainer.services.installations import site_form
from trainer.services.installations.jobs import SiteSpec
from trainer.services.scenarios import library

__all__ = ["cormac", "greta", "make", "press"]


def test_the_way_there_is_for_those_who_may_make_jobs(greta, worker) -> None:
    assert "Jobs" in greta.visit("/").page.header.get_text()
    assert "Jobs" not in worker.visit("/").page.header.get_text()
    for path in ("/jobs", "/jobs/new", "/jobs/nothing-here"):
        assert worker.visit(path).status == 403
    assert worker.post("/jobs/new", typed_token(worker)).status == 403


def test_one_wall_stands_there_first_and_nothing_is_lost_with_more_or_less(greta, press) -> None:
    greta.visit("/jobs/new")
    assert [t.get_text() for t in greta.page.select(".wall > legend")] == ["Wall A"]
    press(greta, "Add the next wall", **ONE)
    assert [t.get_text() for t in greta.page.select(".wall > legend")] == ["Wall A", "Wall B"]
    kept = typed(greta.page.select_one("main form"))
    assert {name: kept[name] for name in ONE} == ONE
    assert kept["walls-1-height"] == "400" and kept["walls-1-length"] == ""
    press(greta, "Something else burns in wall B", **{"walls-1-behind-0-what": "foam"})
    kept = typed(greta.page.select_one("main form"))
    assert kept["walls-1-behind-0-what"] == "foam" and kept["walls-1-behind-1-what"] == ""
    press(greta, "Take the last wall away")
    kept = typed(greta.page.select_one("main form"))
    assert {name: kept[name] for name in ONE} == ONE and "walls-1-length" not in kept
    assert "Take the last wall away" not in greta.words


def test_there_are_never_more_than_six_walls(greta, press) -> None:
    greta.visit("/jobs/new")
    for _ in range(5):
        press(greta, "Add the next wall")
    assert "Add the next wall" not in greta.words
    kept = typed(greta.page.select_one("main form"))
    greta.post("/jobs/new", {**kept, "change": "next wall", "walls-6-length": "1"})
    assert len(greta.page.select(".wall")) == 6


@pytest.mark.parametrize(
    "change", ["stretch 9", "stretch -1", "stretch ²", "roof", "stretch 0" * 9]
)
def test_a_button_that_is_not_there_changes_nothing(greta, change) -> None:
    fields = {**typed_token(greta), "change": change}
    assert greta.post("/jobs/new", fields).status == 200
    assert len(greta.page.select(".stretch")) == 1


@pytest.mark.parametrize(
    ("field", "text", "said"),
    [
        ("name", "", "Nothing is filled in yet. Wanted: 1 to 120 letters or digits."),
        ("walls-0-length", "", "Nothing is filled in yet."),
        ("walls-0-length", "long", "“long” cannot be taken. Wanted: one number in mm"),
        ("walls-0-length", "590", "“590” cannot be taken. Wanted: 600 mm to 40 m."),
        ("walls-0-length", "41 m", "“41 m” cannot be taken. Wanted: 600 mm to 40 m."),
        ("walls-0-height", "1501", "Wanted: 100 mm to 1.5 m."),
        ("walls-0-cant", "201", "Wanted: 0 to 200 mm."),
        ("walls-0-lap_width", "10", "Wanted: 20 mm to 400 mm."),
        ("walls-0-field_laps", "700 1700", "“700 1700” cannot be taken. Wanted: lengths with com"),
        ("walls-0-field_laps", "700, 3000", "“3000” cannot be taken. Wanted: a place on the wall"),
        ("walls-0-field_laps", "1," * 61, "Wanted: at most 60 positions."),
        ("walls-0-behind-0-start", "500", ""),
        ("walls-0-told", " ", "Nothing is filled in yet."),
        ("start", "7 o'clock", "Wanted: a time of day such as 16:05"),
        ("leave_by", "06:59", "“06:59” cannot be taken. Wanted: later than 07:00."),
    ],
)
def test_what_cannot_be_taken_is_said_beside_its_field(
    greta, make, field: str, text: str, said: str
) -> None:
    make(greta, **{**ONE, field: text})
    at = field if said else "walls-0-behind-0-what"
    assert said in problem_at(greta, at) and problem_at(greta, at)
    assert greta.status == 422
    assert greta.page.select_one(f"[role=alert] a[href='#{at}']")
    kept = typed(greta.page.select_one("main form.short-form"))
    assert {name: kept[name] for name in {**ONE, field: ""}} == {**ONE, field: text}
    assert "You have made none yet." in greta.visit("/jobs").words


@pytest.mark.parametrize(
    ("start", "end", "said"),
    [
        ("900", "900", "Wanted: past 900 mm, and 3 m at most."),
        ("0", "3001", "Wanted: past 0, and 3 m at most."),
        ("x", "", ""),
    ],
)
def test_a_stretch_that_burns_lies_on_its_wall(greta, make, start, end, said) -> None:
    more = {"what": "foam", "start": start, "end": end}
    make(greta, **ONE, **{f"walls-0-behind-0-{name}": text for name, text in more.items()})
    assert said in problem_at(greta, f"walls-0-behind-0-{'end' if said else 'start'}")
    assert greta.status == 422


def test_everything_wrong_is_said_at_once_and_listed_at_the_top(greta, make) -> None:
    make(greta, **{**TWO, "name": "", "walls-0-corner": "", "walls-1-length": "9"})
    assert "3 things to mend. Nothing is lost." in greta.words
    links = [tag.get_text() for tag in greta.page.select("[role=alert] a")]
    assert links == ["What the crew calls it", "Corner A–B", "Wall B: Length"]
    assert problem_at(greta, "walls-0-corner") == "Say how wall B meets wall A."


# ---- walls that nobody could do


def crowded(wall: int) -> dict[str, str]:
    laps = ", ".join(str(at) for at in range(600, 3000, 150))
    return {f"walls-{wall}-length": "3000", f"walls-{wall}-field_laps": laps}


@pytest.mark.parametrize(("wall", "stretch"), [(0, "200 mm to 900 mm"), (1, "600 mm to 1.3 m")])
def test_laps_that_cannot_keep_clear_name_stretch_and_rule(greta, make, wall, stretch) -> None:
    """A lap starts 200 to 900 mm into the sheets: strips of 300 to 1000 mm less a lap of 100 mm.

    On wall B they begin 400 mm from the corner: 100 mm onto its sheets, which reach 500 mm.
    """
    first = ", ".join(str(at) for at in range(0, 3000, 150))
    more = {"walls-0-field_laps": first} if wall == 0 else crowded(1)
    make(greta, **{**TWO, "walls-0-field_laps": "", **more})
    told = problem_at(greta, f"walls-{wall}-field_laps")
    assert told.startswith(f"Wall {'AB'[wall]}, {stretch}:")
    assert "a lap of the field" in told
    assert "The rule: Distance of a flashing lap from any lap already laid: at least 100 mm" in told
    assert greta.status == 422


def test_a_lap_too_near_the_corner_names_the_place(greta, make) -> None:
    """The corner sheets reach 500 mm along each wall, and the lap on them is 100 mm wide."""
    make(greta, **{**TWO, "walls-0-field_laps": "2450"})
    assert problem_at(greta, "walls-0-field_laps").startswith("Wall A, 2.5 m to 2.6 m: there lies")


def test_a_day_too_short_says_when_one_can_be_done(greta, make) -> None:
    make(greta, **{**ONE, "leave_by": "08:00"})
    told = problem_at(greta, "leave_by")
    assert told.startswith("Nobody can be done with these walls before ")
    assert "or take less of the wall" in told


@pytest.fixture
def refuse(parts, sign_in, monkeypatch) -> Callable[[InputError], site_form.NotMade]:
    """What the maker reads when the core refuses the two walls with this error."""

    def refused(error: InputError) -> site_form.NotMade:
        def no(*_: Any) -> str:
            raise error

        monkeypatch.setattr(site_form, "make_site_job", no)
        person = sign_in("sol", roles=("supervisor",))
        with pytest.raises(site_form.NotMade) as told:
            site_form.make(parts, person, _typed_walls())
        return told.value

    return refused


def _typed_walls() -> dict[str, Any]:
    nothing = {"what": "", "start": "", "end": ""}
    wall = {"length": "3000", "height": "400", "cant": "0", "lap_width": "100", "told": "brick"}
    wall |= {"field_laps": "", "corner": "inside", "behind": [nothing]}
    day = {"start": "07:00", "leave_by": "16:30"}
    return {"name": "Yard", "walls": [wall, {**wall, "corner": None}], **day}


@pytest.mark.parametrize(
    ("place", "at", "said"),
    [
        ("wall B", 1, "Wall B, 09:10:"),
        ("lap B:1", 1, "Lap 1 of wall B, 09:10:"),
        ("A:2", 0, "Sheet 3 of wall A, 09:10:"),
        ("corner-0:1", 1, "Corner A–B, 09:10:"),
        ("primer 3", 0, "These walls, 09:10:"),
    ],
)
def test_a_rule_that_every_plan_breaks_is_named_as_the_book_names_it(
    refuse, parts, place, at, said
) -> None:
    """The error is the core's own, of a plan into which such a finding was put."""
    limits = limits_of(library().rules)
    walls = [{"length_mm": 3000, "height_mm": 400}]
    job = SiteSpec("x", site_job({"name": "x", "walls": walls}, limits)).drawn(0, 0, "en")
    plan = best(job, limits, hindsight=True)
    plan.last.findings.append(Finding("side-lap", place, "quality", 550, 1, {}))
    (problem,) = refuse(finishable._why(job, plan)).problems
    assert problem.path == ("walls", at)
    assert problem.text.startswith(said)
    assert "The rule: Side lap: at least 75 mm; UFGS 07550" in problem.text


def test_such_a_rule_is_said_at_its_wall(greta, make, monkeypatch) -> None:
    def no(*_: Any) -> str:
        allowed = "walls for which a plan is found that keeps side-lap"
        raise InputError("walls", "lap B:1, 09:10", allowed)

    monkeypatch.setattr(site_form, "make_site_job", no)
    make(greta, **TWO)
    assert greta.status == 422
    assert greta.page.select_one("[role=alert] a[href='#walls-1']").get_text() == "Wall B"
    said = greta.page.select_one("#walls-1 > .problem").get_text()
    assert said.startswith("Lap 1 of wall B, 09:10: every plan that was found breaks a rule there.")


def test_what_no_plan_gets_done_is_said_as_work_on_a_wall(refuse) -> None:
    undone = "wall A, sheet A:0, lap B:3, lap B:4, corner-0, flame, permit, …"
    error = InputError(
        "leave_by", "11:30", f"later: by then the best plan found has not done {undone}"
    )
    (problem,) = refuse(error).problems
    assert problem.path == ("leave_by",)
    assert problem.text.startswith(
        "At 11:30 the best plan found still lacks: the layout of wall A, sheets on wall A, welded"
        " laps on wall B, the gusset of corner A–B, flames put out, the end of the fire watch and a"
        " closed permit and more."
    )
