"""Drawings of an installation show what is seen or known, and nothing that is only true."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from typing import Any

import pytest

from trainer.installation.job import Behind, Damp, Job, Opening
from trainer.installation.place import Spot
from trainer.installation.read_job import read_job
from trainer.installation.run import decide
from trainer.installation.state import State, begin
from trainer.services.installations.figures import (
    Block,
    Found,
    blocks_of,
    day_figure,
    day_of,
    plan_figure,
    stretches,
    wall_figure,
)
from trainer.services.installations.figures_wall import wall_data

AIR = [{"at": "06:00", "air_c": 15, "rh_pct": 60}]
SPEC: dict[str, Any] = {
    "id": "two-walls",
    "version": 1,
    "level": 1,
    "title": "Two walls",
    "brief": "An invented roof.",
    "start": "07:00",
    "leave_by": "16:00",
    "walls": [
        {
            "id": "A",
            "length_mm": 3600,
            "height_mm": 300,
            "field_laps": [[1400, 1500]],
            "sun": [["07:00", "09:00"]],
            "behind": [{"id": "nailer", "from_mm": 600, "to_mm": 1600, "what": "timber nailer"}],
            "damp": [{"from_mm": 2000, "to_mm": 2400, "dry_at": "15:00"}],
            "rail": False,
        },
        {"id": "B", "length_mm": 3000, "height_mm": 300},
    ],
    "corners": ["inside"],
    "openings": [{"id": "vent", "wall": "A", "at_mm": 900, "what": "a vent"}],
    "loose": [{"id": "sacks", "wall": "A", "at_mm": 2000, "off_mm": 2000, "what": "paper sacks"}],
    "sheet": {"width_mm": 1000, "side_lap_mm": 100, "least_mm": 300, "roll_mm": 8000},
    "rolls": [{"id": "r1"}, {"id": "r2"}],
    "paper": {"dry_min": 30, "slower": [[15, 100], [-50, 180]]},
    "crew": [
        {"id": "dana", "name": "Dana", "torch": True, "watch": True},
        {"id": "ivo", "name": "Ivo", "watch": True},
    ],
    "gas": {"minutes": 120, "wall": "A", "at_mm": 1500, "off_mm": 5000},
    "melter": {"wall": "A", "at_mm": 500, "off_mm": 4000},
    "extinguishers": [{"id": "e1", "wall": "A", "at_mm": 1000, "off_mm": 3000}],
    "weather": {"path": AIR, "forecast": {"air": AIR}},
}
JOB = read_job(SPEC)
TOLD: dict[str, Any] = {"say": str, "length": lambda mm: f"{mm:.0f} mm"}
SET_OUT = {"do": "set out", "who": "ivo", "wall": "A", "laps": [800, 1600, 2400], "lap_mm": 100}
PRIME = {"do": "prime", "who": "dana", "wall": "A", "from": 0, "to": 3000}
TOUCH = {"do": "touch", "who": "dana", "wall": "A", "at": 2900}


def after(*decisions: dict[str, Any], job: Job = JOB) -> State:
    """The state after the decisions, each done before the next."""
    state = begin(job)
    for decision in decisions:
        state = decide(job, {}, state, decision)
        while decision["do"] != "wait" and any(not p.free for p in state.people.values()):
            state = decide(job, {}, state, {"do": "wait"})
    return state


def look(wall: str = "A") -> dict[str, Any]:
    return {"do": "look", "who": "dana", "wall": wall}


def wait(minutes: int) -> dict[str, Any]:
    return {"do": "wait", "minutes": minutes}


def parts(svg: str) -> list[str]:
    return re.findall(r'data-part="([^"]+)"', svg)


def wall(state: State, job: Job = JOB, wall_id: str = "A", **more: Any) -> str:
    return wall_figure(job, state, wall_id, **TOLD, **more)


def innocent(job: Job) -> Job:
    """The same job with nothing hidden in it."""
    walls = tuple(replace(each, behind=(), damp=()) for each in job.walls)
    return replace(job, walls=walls, openings=())


def harmful(job: Job) -> Job:
    """The same job with more hidden in it."""
    first = replace(
        job.walls[0],
        behind=(Behind("x", 0, 3000, "foam"),),
        damp=(Damp(0, 3600, 960),),
    )
    opening = Opening("y", Spot("A", 100, 0), "a gap")
    return replace(job, walls=(first, *job.walls[1:]), openings=(opening,))


@pytest.mark.parametrize("made", [(), (SET_OUT,), (SET_OUT, PRIME), (PRIME, wait(20))])
@pytest.mark.parametrize("hidden", [innocent, harmful])
def test_what_is_hidden_changes_no_drawing(made: tuple[Any, ...], hidden: Any) -> None:
    other = hidden(JOB)
    state, same = after(*made), after(*made, job=other)
    assert wall(state) == wall(same, other)
    assert plan_figure(JOB, state, **TOLD) == plan_figure(other, same, **TOLD)


def test_how_dry_primer_is_changes_no_drawing() -> None:
    state = after(PRIME, wait(10))
    for coat in state.coats:
        coat.dry_min, coat.spoilt, coat.damp_mm = 9999, "dust", 500
    assert wall(state) == wall(after(PRIME, wait(10)))


def test_film_left_on_a_sheet_is_not_seen() -> None:
    lay = {"do": "lay", "who": "dana", "wall": "A", "sheet": 0, "through": 1, "rolling": True}
    cut = {"do": "cut", "who": "ivo", "strips": 2, "roll": "r1"}
    state = after(SET_OUT, cut, lay)
    seen = wall(state)
    for sheet in state.sheets.values():
        sheet.melted, sheet.wrinkled = True, True
    assert wall(state) == seen
    probed = after(SET_OUT, cut, lay, {"do": "probe", "who": "dana", "wall": "A"})
    assert "film in the lap" in wall(probed) and "film in the lap" not in seen


def test_what_a_look_and_a_probe_find_is_shown_from_then_on() -> None:
    assert not {"behind-nailer", "opening-vent"} & set(parts(wall(after())))
    found = wall(after(look()))
    assert {"behind-nailer", "opening-vent"} <= set(parts(found))
    assert "damp" not in found
    assert "damp 07:04" in wall(after({"do": "probe", "who": "dana", "wall": "A"}))
    covered = after(look(), {"do": "cover", "who": "dana", "thing": "nailer"})
    assert "timber nailer, covered" in wall(covered)


def test_primer_bears_the_times_at_which_it_was_applied_and_only_so_far() -> None:
    """Sum: 3 m at 2 min a metre, begun 07:00, done 07:06; after 4 min 2 m are primed."""
    state = decide(JOB, {}, begin(JOB), PRIME)
    state = decide(JOB, {}, state, {"do": "wait", "minutes": 4})
    (band,) = wall_data(JOB, state, "A", **TOLD)["primer"]
    assert (band["from_mm"], band["to_mm"]) == (0, 2000)
    (band,) = wall_data(JOB, after(PRIME), "A", **TOLD)["primer"]
    assert (band["to_mm"], band["label"]) == (3000, "primed 07:00–07:06")


def test_a_finger_tells_how_it_was_at_that_minute() -> None:
    """Touched at 07:37: 31 min after the last point at 07:06, dry_min 30 at 23 °C in the sun."""
    state = after(PRIME, wait(30), TOUCH)
    (touch,) = wall_data(JOB, state, "A", **TOLD)["things"]
    assert touch == {"at_mm": 2900, "kind": "touch", "label": "dry 07:37"}
    again = after(PRIME, wait(30), TOUCH, PRIME | {"from": 2000})
    assert wall_data(JOB, again, "A", **TOLD)["things"] == []


def test_before_it_is_set_out_a_wall_is_pressed_in_stretches_then_by_its_sheets() -> None:
    bare = parts(wall(after()))
    assert [p for p in bare if p.startswith("stretch")] == [f"stretch-A-{i}" for i in range(4)]
    assert stretches(JOB, "A") == [(0, 900), (900, 1800), (1800, 2700), (2700, 3600)]
    marked = parts(wall(after(SET_OUT)))
    assert [p for p in marked if p.startswith("sheet")] == [f"sheet-A-{i}" for i in range(4)]
    assert {"wall-A", "corner-0"} <= set(marked) and "stretch-A-0" not in marked


def test_only_a_lap_that_is_short_bears_its_measure() -> None:
    short = SET_OUT | {"lap_mm": 60}
    cut = {"do": "cut", "who": "ivo", "strips": 2, "roll": "r1"}
    lay = {"do": "lay", "who": "dana", "wall": "A", "sheet": 0, "through": 1, "rolling": True}
    measure = {"do": "measure", "who": "dana", "wall": "A"}
    data = wall_data(JOB, after(short, cut, lay), "A", **TOLD)
    assert [lap["label"] for lap in data["laps"]] == [""]
    data = wall_data(JOB, after(short, cut, lay, measure), "A", **TOLD)
    assert [(lap["id"], lap["label"]) for lap in data["laps"]] == [("lap-A-1", "60 mm")]
    data = wall_data(JOB, after(SET_OUT, cut, lay, measure), "A", **TOLD)
    assert [(lap["state"], lap["label"]) for lap in data["laps"]] == [("closed", "")]


def test_the_chosen_part_has_the_ring_and_names_are_said() -> None:
    svg = wall(after(), chosen="stretch-A-1", names={"wall-A": "The wall <A>", "gone": "x"})
    assert re.search(r'class="part is-chosen" data-part="stretch-A-1"', svg)
    assert 'aria-label="The wall &lt;A&gt;"' in svg
    assert "is-chosen" not in wall(after(), chosen="sheet-A-9")


def test_the_plan_shows_what_stands_on_the_roof_by_its_place() -> None:
    svg = plan_figure(JOB, after(), **TOLD, chosen="gas")
    wanted = {"wall-A", "wall-B", "corner-0", "gas", "melter", "ext-e1", "thing-sacks"}
    assert wanted | {"person-dana", "person-ivo"} == set(parts(svg))
    assert 'class="part is-chosen" data-part="gas"' in svg
    found = set(parts(plan_figure(JOB, after(look()), **TOLD)))
    assert {"opening-vent", "behind-nailer"} <= found
    gone = after({"do": "clear", "who": "ivo", "thing": "sacks"})
    assert "thing-sacks" not in parts(plan_figure(JOB, gone, **TOLD))


def test_a_place_is_ringed_on_what_it_is_drawn_as() -> None:
    ring = r'class="part is-chosen" data-part="([^"]+)"'
    state = after(look())
    assert re.findall(ring, wall(state, chosen="thing-vent")) == ["opening-vent"]
    plan = {"torch": "gas", "thing-e1": "ext-e1", "thing-sacks": "thing-sacks"}
    for chosen, part in plan.items():
        assert re.findall(ring, plan_figure(JOB, state, **TOLD, chosen=chosen)) == [part]


def test_nobody_is_drawn_behind_a_wall_or_on_top_of_somebody() -> None:
    state = after()
    svg = plan_figure(JOB, state, **TOLD)
    at = re.findall(r'data-symbol="person" transform="translate\(([\d.-]+) ([\d.-]+)\)', svg)
    (x, y), (u, v) = [(float(a), float(b)) for a, b in at]
    assert max(abs(x - u), abs(y - v)) >= 30
    face = re.search(r'class="face" d="M[\d.]+ ([\d.-]+)L', svg)
    assert face and min(y, v) > float(face[1])


WATCH = {"do": "watch", "who": "ivo"}


def test_blocks_tell_who_did_what_and_a_watch_lasts_until_the_next_task() -> None:
    """Look 4 min from 07:00; Ivo watches from 07:04 until he asks at 07:24 (3 min)."""
    ask = {"do": "ask", "who": "ivo", "wall": "A"}
    state = after(look(), WATCH, wait(20), ask)
    assert blocks_of(JOB, state.log, ["dana", "ivo"], state.now) == [
        Block("dana", 420, 424, "look"),
        Block("ivo", 424, 444, "watch"),
        Block("ivo", 444, 447, "look"),
    ]


def test_the_day_is_drawn_with_its_findings_and_end() -> None:
    state = after(look(), PRIME, {"do": "leave"})
    assert state.ended is not None
    day = day_of(JOB, state.log, name="Your day", ended=state.ended, say=str)
    svg = day_figure(
        [day, day],
        say=str,
        start=JOB.start,
        end=JOB.leave_by,
        findings=[Found(430, "1", grave=True), Found(900, "2")],
        live=True,
    )
    assert parts(svg) == ["finding-0", "finding-1"]
    assert svg.count(">Your day<") == 2 and "look" in svg and "prime" in svg
    assert [track.name for track in day.tracks] == ["Dana", "Ivo"]
    assert day.marks[-1].at_min == state.ended


def test_the_same_state_gives_the_same_bytes() -> None:
    state = after(look(), SET_OUT, PRIME)
    assert wall(state) == wall(after(look(), SET_OUT, PRIME))
    assert json.dumps(wall_data(JOB, state, "A", **TOLD), sort_keys=True)
