"""Jobs made from real walls: the short form, what it refuses and why, and who is offered them."""

from __future__ import annotations

import re

import pytest
from installed import JOB, decide_by_the_book, key
from sqlalchemy import select

from trainer.errors import InputError
from trainer.installation.draw_job import draw_job
from trainer.installation.limits import limits_of
from trainer.installation.place import squared
from trainer.installation.site_job import site_job
from trainer.pack.jobs import clear_mm_of
from trainer.records.tables import SiteJob
from trainer.services.installations import jobs, store
from trainer.services.installations.jobs import hand_out, make_site_job, offered, withdraw
from trainer.services.refusals import NotAllowed, NotFound
from trainer.services.scenarios import library

RULES = library().rules
LIMITS = limits_of(RULES)
YARD = {
    "name": "Yard wall",
    "walls": [
        {
            "length_mm": 5000,
            "height_mm": 400,
            "cant_mm": 50,
            "corner": "inside",
            "field_laps_mm": [700, 1700, 2700],
            "behind": [],
            "told": "concrete, cast in one piece",
        },
        {"length_mm": 4000, "height_mm": 400, "cant_mm": 50, "field_laps_mm": [1500, 2500]},
    ],
}
SHAPES = {
    "straight": [{"length_mm": 6000, "height_mm": 300}],
    "outside": [
        {"length_mm": 5000, "height_mm": 400, "corner": "outside"},
        {"length_mm": 4000, "height_mm": 400},
    ],
    "u": [
        {"length_mm": 4000, "height_mm": 400, "corner": "inside"},
        {"length_mm": 5000, "height_mm": 400, "corner": "inside"},
        {"length_mm": 4000, "height_mm": 400},
    ],
}


def changed(**more) -> dict:
    return {**YARD, **more}


def with_wall(**more) -> dict:
    first, second = YARD["walls"]
    return changed(walls=[{**first, **more}, second])


@pytest.fixture
def greta(sign_in):
    return sign_in("greta", roles=("supervisor",), crew="East")


@pytest.fixture
def ana(sign_in):
    return sign_in("ana", crew="East")


@pytest.fixture
def ben(sign_in):
    return sign_in("ben", crew="West")


# ---- the form


def test_the_walls_are_those_of_the_form() -> None:
    job = draw_job(site_job(YARD, LIMITS), 0, clear_mm_of(RULES))
    assert [(w.id, w.length_mm, w.height_mm, w.cant_mm) for w in job.walls] == [
        ("A", 5000, 400, 50),
        ("B", 4000, 400, 50),
    ]
    assert job.corners == ("inside",) and job.title == "Yard wall"
    assert job.walls[0].field_laps == ((700, 800), (1700, 1800), (2700, 2800))
    assert job.walls[0].told == "concrete, cast in one piece"


def test_what_is_behind_is_true_and_not_told() -> None:
    part = {"what": "timber nailer", "from_mm": 500, "to_mm": 1500}
    job = draw_job(site_job(with_wall(behind=[part]), LIMITS), 0, clear_mm_of(RULES))
    (behind,) = job.walls[0].behind
    assert (behind.what, behind.from_mm, behind.to_mm) == ("timber nailer", 500, 1500)
    assert "nailer" not in job.brief + job.walls[0].told


@pytest.mark.parametrize("shape", SHAPES)
def test_cylinder_melter_and_extinguishers_keep_their_distances(shape) -> None:
    """Distances as the rule book has them in force, measured on the plan at every metre."""
    job = draw_job(site_job(changed(walls=SHAPES[shape]), LIMITS), 0, clear_mm_of(RULES))
    at_walls = [
        laid.point(at)
        for wall, laid in zip(job.walls, job.plan, strict=True)
        for at in range(0, wall.length_mm + 1, 1000)
    ]
    gas, melter = job.placed(job.gas.spot), job.placed(job.melter)
    stand = [job.placed(spot) for _, spot in job.extinguishers]
    burner = RULES.rule("cylinder-to-burner").value
    reach = RULES.rule("extinguisher-distance").value
    assert all(squared(gas, point) >= burner**2 for point in [*at_walls, melter])
    for point in [*at_walls, melter]:
        assert min(squared(point, each) for each in stand) <= reach**2


@pytest.mark.parametrize("shape", SHAPES)
def test_usual_walls_can_be_made(parts, greta, shape) -> None:
    assert make_site_job(parts, greta, changed(walls=SHAPES[shape]))


@pytest.mark.parametrize(
    ("form", "field"),
    [
        (changed(name=" "), "name"),
        (changed(name="x" * 121), "name"),
        (changed(walls=[]), "walls"),
        (changed(walls=[YARD["walls"][1]] * 7), "walls"),
        (changed(colour="red"), "colour"),
        (changed(leave_by="25:00"), "leave_by"),
        (changed(leave_by="06:00"), "leave_by"),
        (with_wall(length_mm=50), "walls[0].length_mm"),
        (with_wall(length_mm="long"), "walls[0].length_mm"),
        (with_wall(corner=None), "walls[0].corner"),
        (changed(walls=[{**YARD["walls"][1], "corner": "inside"}]), "walls[0].corner"),
        (with_wall(field_laps_mm=[6000]), "walls[0].field_laps_mm[0]"),
        (
            with_wall(behind=[{"what": "straw", "from_mm": 0, "to_mm": 9}]),
            "walls[0].behind[0].what",
        ),
        (
            with_wall(behind=[{"what": "foam", "from_mm": 900, "to_mm": 900}]),
            "walls[0].behind[0].to_mm",
        ),
        (
            with_wall(behind=[{"what": "foam", "from_mm": 0, "to_mm": 5001}]),
            "walls[0].behind[0].to_mm",
        ),
    ],
)
def test_bad_input_names_its_field_and_keeps_nothing(parts, greta, form, field) -> None:
    with pytest.raises(InputError) as refused:
        make_site_job(parts, greta, form)
    assert refused.value.field == field
    assert jobs.made_jobs(parts, greta) == ()


def test_laps_that_cannot_keep_clear_say_which_stretch_and_rule(parts, greta) -> None:
    crowded = with_wall(field_laps_mm=list(range(0, 5000, 150)))
    with pytest.raises(InputError) as refused:
        make_site_job(parts, greta, crowded)
    assert refused.value.field == "walls[0].field_laps"
    assert f"nearer than {clear_mm_of(RULES)} mm to a field lap" in refused.value.allowed


def test_a_day_shorter_than_the_bound_says_when_one_can_be_done(parts, greta) -> None:
    with pytest.raises(InputError) as refused:
        make_site_job(parts, greta, changed(leave_by="08:30"))
    assert (refused.value.field, refused.value.value) == ("leave_by", "08:30")
    assert re.match(r"\d\d:\d\d or later: nobody can be done before", refused.value.allowed)


def test_a_day_in_which_no_plan_finishes_says_what_would_wait(parts, greta) -> None:
    with pytest.raises(InputError) as refused:
        make_site_job(parts, greta, changed(leave_by="11:30"))
    assert (refused.value.field, refused.value.value) == ("leave_by", "11:30")
    assert "the best plan found has not done" in refused.value.allowed


# ---- who is offered it


def ids(parts, person) -> list[str]:
    return [job.id for job in offered(parts, person) if job.source == "site"]


def test_it_is_offered_to_the_crew_once_it_is_handed_out(parts, greta, ana, ben) -> None:
    job = make_site_job(parts, greta, YARD)
    assert ids(parts, ana) == []
    hand_out(parts, greta, job)
    assert (ids(parts, ana), ids(parts, greta), ids(parts, ben)) == ([job], [job], [])
    withdraw(parts, greta, job)
    assert ids(parts, ana) == []
    hand_out(parts, greta, job)
    assert ids(parts, ana) == [job]


def test_who_made_it_can_try_it_before_anybody_else(parts, greta, ana) -> None:
    job = make_site_job(parts, greta, YARD)
    assert store.open_installation(parts, greta, job)
    with pytest.raises(NotFound):
        store.open_installation(parts, ana, job)


def test_an_installation_goes_on_after_its_job_was_withdrawn(parts, greta, ana) -> None:
    job = make_site_job(parts, greta, YARD)
    hand_out(parts, greta, job)
    opened = store.open_installation(parts, ana, job)
    withdraw(parts, greta, job)
    assert decide_by_the_book(parts, ana, opened, 3).number == 3
    with parts.database.writing() as session:
        session.scalars(select(SiteJob)).one().spec = {"id": "spoilt"}
    assert decide_by_the_book(parts, ana, opened, 3).number == 6


def test_a_coordinator_hands_to_everybody_or_to_any_crew(parts, sign_in, ana, ben) -> None:
    cormac = sign_in("cormac", roles=("coordinator",))
    job = make_site_job(parts, cormac, YARD)
    hand_out(parts, cormac, job)
    assert ids(parts, ana) == ids(parts, ben) == [job]
    west = next(public_id for public_id, name in jobs.crews_to_ask(parts, cormac) if name == "West")
    hand_out(parts, cormac, job, west)
    assert (ids(parts, ana), ids(parts, ben)) == ([], [job])


def test_a_supervisor_hands_to_their_own_crew_alone(parts, greta, ben, sign_in) -> None:
    cormac = sign_in("cormac", roles=("coordinator",))
    job = make_site_job(parts, greta, YARD)
    west = next(public_id for public_id, name in jobs.crews_to_ask(parts, cormac) if name == "West")
    assert [name for _, name in jobs.crews_to_ask(parts, greta)] == ["East"]
    with pytest.raises(InputError, match="crew"):
        hand_out(parts, greta, job, west)
    assert ids(parts, ben) == []


def test_who_may_not(parts, greta, ana, sign_in) -> None:
    job = make_site_job(parts, greta, YARD)
    other = sign_in("other", roles=("supervisor",), crew="West")
    for ask in (
        lambda: make_site_job(parts, ana, YARD),
        lambda: hand_out(parts, ana, job),
        lambda: hand_out(parts, other, job),
        lambda: withdraw(parts, other, job),
        lambda: jobs.made_jobs(parts, ana),
    ):
        with pytest.raises(NotAllowed):
            ask()
    with pytest.raises(NotFound):
        withdraw(parts, greta, "nothing-here")


def test_the_list_of_those_one_made(parts, greta, clock) -> None:
    job = make_site_job(parts, greta, YARD)
    hand_out(parts, greta, job)
    (made,) = jobs.made_jobs(parts, greta)
    assert (made.id, made.name, made.crew, made.made_at) == (job, "Yard wall", "East", clock.now())
    assert made.offered
    withdraw(parts, greta, job)
    assert not jobs.made_jobs(parts, greta)[0].offered


# ---- the shelf


def test_the_shelf_shows_every_job_of_the_pack_the_easier_first(parts, ana) -> None:
    shelf = offered(parts, ana)
    assert [job.id for job in shelf] == list(library().pack.jobs)
    assert [job.level for job in shelf] == sorted(job.level for job in shelf)
    assert all(job.title and job.brief and not job.open for job in shelf)


def test_the_shelf_shows_what_goes_on_and_what_came_out_last(parts, ana, ben) -> None:
    first = store.open_installation(parts, ana, JOB, seed=1)
    store.take(parts, ana, first, 0, {"do": "leave"}, key(1))
    second = store.open_installation(parts, ana, JOB, seed=2)
    job = next(job for job in offered(parts, ana) if job.id == JOB)
    assert (job.open, job.last) == (second, first)
    assert job.last_outcome["how"] == "left"
    assert not any(job.open or job.last for job in offered(parts, ben))
