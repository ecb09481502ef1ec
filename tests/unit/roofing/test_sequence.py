"""The order of work, step by step. Orders written by hand: common practice, no source."""

import json

import pytest

from trainer.errors import InputError
from trainer.roofing.sequence import (
    JOBS,
    SEQUENCE,
    check,
    first_violation,
    graph,
    is_valid_order,
    possible_next,
    steps,
    violations,
)

OPENING = ["substrate gate", "prime", "touch-test", "chalk line", "cut", "preheat film"]
CLOSING = ["weld laps", "flame out", "fire watch", "close permit"]
WALL = [
    *OPENING,
    *["bond top", "bond bottom", "roll", "press laps"],
    "light the torch",
    *CLOSING,
]
CORNER = [
    *OPENING,
    *["first sheet", "trim", "bond top", "bond bottom", "second sheet"],
    *["roll", "press laps", "fill corner"],
    *["light the torch", "set gusset"],
    *CLOSING,
]
GAS = [
    *["close cylinder valve", "burn off hose", "close burner valve"],
    *["take off regulator", "cap cylinder", "put cylinder away"],
]
AT_THE_PARAPET = ("wall", "inside corner", "outside corner")
BY_HAND = {"wall": WALL, "inside corner": CORNER, "outside corner": CORNER, "gas shut-down": GAS}


@pytest.mark.parametrize("job", JOBS)
def test_an_order_written_by_hand_is_valid_and_complete(job):
    assert is_valid_order(job, BY_HAND[job])
    assert {step["name"] for step in steps(job)} == set(BY_HAND[job])


@pytest.mark.parametrize("job", AT_THE_PARAPET)
def test_other_good_orders_are_right_too(job):
    # Strips may be cut first thing in the morning; film may be preheated before the line is
    # snapped. Common practice, no source.
    rest = [name for name in BY_HAND[job] if name not in OPENING]
    opening = ["cut", "substrate gate", "prime", "touch-test", "preheat film", "chalk line"]
    assert is_valid_order(job, [*opening, *rest])


def test_an_inside_corner_may_be_bonded_above_before_the_field_leg_is_trimmed():
    # What doubles up at an inside corner lies on the field, at an outside corner on the top.
    order = list(CORNER)
    order.remove("trim")
    order.insert(order.index("bond bottom"), "trim")
    assert is_valid_order("inside corner", order)
    violation = first_violation("outside corner", order)
    assert (violation.step, violation.need) == ("bond top", "trim")


BAD_PAIRS = [
    # job, done too early, what it needed, critical. Common practice, no source.
    ("wall", "prime", "substrate gate", True),
    ("wall", "bond bottom", "bond top", False),
    ("wall", "bond top", "chalk line", False),
    ("wall", "bond top", "preheat film", True),
    ("wall", "preheat film", "touch-test", True),
    ("wall", "light the torch", "press laps", True),
    ("wall", "light the torch", "substrate gate", True),
    ("wall", "weld laps", "light the torch", True),
    ("wall", "close permit", "fire watch", True),
    ("inside corner", "light the torch", "fill corner", True),
    ("outside corner", "light the torch", "fill corner", True),
    ("inside corner", "light the torch", "roll", True),
    ("inside corner", "set gusset", "fill corner", True),
    ("inside corner", "set gusset", "light the torch", True),
    ("inside corner", "weld laps", "set gusset", False),
    ("inside corner", "second sheet", "trim", False),
    ("outside corner", "second sheet", "first sheet", False),
    ("outside corner", "fill corner", "second sheet", True),
    ("gas shut-down", "close burner valve", "burn off hose", True),
    ("gas shut-down", "close burner valve", "close cylinder valve", True),
    ("gas shut-down", "take off regulator", "close cylinder valve", True),
    ("gas shut-down", "put cylinder away", "cap cylinder", True),
]


@pytest.mark.parametrize(("job", "step", "need", "critical"), BAD_PAIRS)
def test_a_step_before_what_it_needs_is_refused(job, step, need, critical):
    order = BY_HAND[job]
    done = [name for name in order[: order.index(step)] if name != need]
    found = check(job, done, step)
    assert not found.allowed
    assert need in found.missing
    assert found.critical is critical


@pytest.mark.parametrize("job", AT_THE_PARAPET)
def test_lighting_the_torch_needs_the_gate_and_everything_that_closes_the_wall(job):
    closing = {"substrate gate", "bond top", "bond bottom", "roll", "press laps"}
    if job != "wall":
        closing |= {"first sheet", "second sheet", "trim", "fill corner"}
    found = check(job, [], "light the torch")
    assert closing <= set(found.missing)
    assert "set gusset" not in found.missing and "weld laps" not in found.missing
    assert found.critical


@pytest.mark.parametrize("job", AT_THE_PARAPET)
def test_preheating_comes_before_any_sheet_goes_to_the_wall(job):
    first = "bond top" if job == "wall" else "first sheet"
    assert "preheat film" in check(job, [], first).missing


def test_calculator_answers_in_list_order():
    assert SEQUENCE({"job": "wall", "done": ["bond top", "cut"], "next": "bond bottom"}) == {
        "allowed": False,
        "missing": ["substrate gate", "prime", "touch-test", "chalk line", "preheat film"],
        "critical": True,
    }
    done = ["chalk line", "cut", "substrate gate", "preheat film", "touch-test", "prime"]
    assert SEQUENCE({"job": "wall", "done": done, "next": "bond top"}) == {
        "allowed": True,
        "missing": [],
        "critical": False,
    }


def test_a_quality_step_left_out_is_not_critical():
    done = ["substrate gate", "prime", "touch-test", "cut", "preheat film"]
    result = SEQUENCE({"job": "wall", "done": done, "next": "bond top"})
    assert result == {"allowed": False, "missing": ["chalk line"], "critical": False}


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"job": "roof"}, "job"),
        ({"job": None}, "job"),
        ({"done": ["prime"], "next": "prime"}, "next"),
        ({"next": "fill corner"}, "next"),
        ({"next": "Prime"}, "next"),
        ({"next": ""}, "next"),
        ({"next": 3}, "next"),
        ({"done": ["prime", "set gusset"]}, "done[1]"),
        ({"done": [None]}, "done[0]"),
        ({"done": "prime"}, "done"),
        ({"after": "prime"}, "after"),
    ],
)
def test_refused_naming_the_field(changes, field):
    with pytest.raises(InputError) as refused:
        SEQUENCE({"job": "wall", "done": [], "next": "prime", **changes})
    assert refused.value.field == field
    assert len(str(refused.value).splitlines()) == 1


def test_an_unknown_job_is_refused_by_every_door():
    for door in (steps, graph):
        with pytest.raises(InputError, match=r'job: got "roof"; allowed: "wall" or'):
            door("roof")


@pytest.mark.parametrize("job", JOBS)
def test_steps_are_plain_json_with_three_fields(job):
    listed = steps(job)
    assert json.loads(json.dumps(listed)) == listed
    for step in listed:
        assert list(step) == ["name", "needs", "guards"]
        assert step["guards"] in ("fire", "quality")


@pytest.mark.parametrize("job", JOBS)
def test_steps_given_away_can_be_changed_without_harm(job):
    steps(job)[1]["needs"].clear()
    assert steps(job)[1]["needs"] == [steps(job)[0]["name"]]


def test_no_step_of_the_gas_is_a_step_at_the_parapet():
    assert not set(GAS) & {*WALL, *CORNER}


def test_what_may_come_next():
    assert possible_next("wall", []) == ("substrate gate", "cut")
    assert possible_next("inside corner", CORNER[:7]) == ("trim", "bond top")
    assert possible_next("outside corner", CORNER[:7]) == ("trim",)
    assert possible_next("wall", WALL) == ()
    assert possible_next("gas shut-down", GAS[:1]) == ("burn off hose",)


def test_first_violated_pair_and_all_of_them():
    order = list(WALL)
    order.remove("touch-test")
    order.append("touch-test")
    found = [(v.step, v.need, v.critical) for v in violations("wall", order)]
    assert found == [
        ("chalk line", "touch-test", True),
        ("preheat film", "touch-test", True),
    ]
    assert first_violation("wall", order).step == "chalk line"
    assert first_violation("wall", WALL) is None


def test_a_few_steps_may_be_asked_for_alone():
    asked = {"roll", "light the torch", "substrate gate"}
    assert is_valid_order("wall", ["substrate gate", "roll", "light the torch"], asked)
    violation = first_violation("wall", ["substrate gate", "light the torch", "roll"], asked)
    assert (violation.step, violation.need, violation.critical) == ("light the torch", "roll", True)


@pytest.mark.parametrize(
    ("order", "among", "field"),
    [
        (WALL[:-1], None, "order"),
        ([*WALL, "roll"], None, f"order[{len(WALL)}]"),
        (["set gusset"], None, "order[0]"),
        (["roll", "cut"], ["roll"], "order[1]"),
        (["roll"], ["roll", "sweep"], "order"),
    ],
)
def test_an_order_that_is_no_order_of_these_steps_is_refused(order, among, field):
    with pytest.raises(InputError) as refused:
        is_valid_order("wall", order, among)
    assert refused.value.field == field
