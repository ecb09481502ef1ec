"""One flame at a time: how far, what is in the way, what is refused."""

import json
import math

import pytest

from trainer.errors import InputError
from trainer.roofing.clearance import CLEARANCE, Plan, distance_mm, judge, nearest_point

CLOSED = {"flame": [0, 0], "unclosed": [], "limit_mm": 1000, "combustible": False}


def given(**changes):
    return {**CLOSED, **changes}


def test_everything_closed_and_nothing_to_burn():
    assert CLEARANCE(CLOSED) == {
        "nearest_mm": None,
        "nearest": None,
        "ok": True,
        "grounds": [],
        "cylinders": [],
    }


def test_open_corner_nearer_than_a_metre():
    # 1 m from anything not closed: common practice, no source. 600-800-1000 by Pythagoras.
    result = CLEARANCE(given(unclosed=[[3000, 0], [600, 799]]))
    assert result["nearest"] == 1
    assert result["nearest_mm"] == 999.2
    assert result["grounds"] == ["unclosed"] and result["ok"] is False


@pytest.mark.parametrize(
    ("flame", "place", "limit"),
    [
        ([0, 0], [600, 800], 1000),
        ([0, 0], [[500, 0], [0, 375]], 300),  # the foot of a 3-4-5 triangle
        ([0.1, 0], [1000.3, 0], 1000.2),  # binary fractions would fall short here
        ([0.7, 0.1], [[0.4, -5], [0.4, 5]], 0.3),
        ([0, 0], [[0, 0], [0, 0]], 0),
    ],
)
def test_a_limit_met_exactly_is_met(flame, place, limit):
    assert CLEARANCE(given(flame=flame, unclosed=[place], limit_mm=limit))["ok"]
    a_hair_more = CLEARANCE(given(flame=flame, unclosed=[place], limit_mm=limit + 1e-9))
    assert a_hair_more["grounds"] == ["unclosed"]


def test_verdict_is_reached_before_rounding():
    result = CLEARANCE(given(unclosed=[[999.999, 0]]))
    assert result["nearest_mm"] == 1000.0 and not result["ok"]


def test_a_segment_is_measured_square_to_it_or_to_its_end():
    lap = ((100.0, -50.0), (100.0, 50.0))
    assert distance_mm((0, 0), lap) == 100
    assert nearest_point((0, 0), lap) == (100, 0)
    assert distance_mm((100, 90), lap) == 40
    assert nearest_point((100, 90), lap) == (100, 50)
    assert distance_mm((100, 10), lap) == 0


def test_ties_go_to_the_lowest_index():
    around = [[0, 1000.5], [1000.5, 0], [[-1000.5, -1], [-1000.5, 1]]]
    assert CLEARANCE(given(unclosed=around))["nearest"] == 0
    assert CLEARANCE(given(unclosed=[[2000, 0], *around]))["nearest"] == 1


def test_grounds_come_in_their_order_and_all_of_them():
    result = CLEARANCE(
        given(
            combustible=True,
            unclosed=[[1, 1]],
            wet_primer=[[[0, 500], [500, 500]]],
            wet_primer_mm=501,
            cylinders=[[0, 100], [0, 5000]],
            cylinder_limit_mm=4500,
        )
    )
    assert result["grounds"] == ["combustible", "unclosed", "wet primer", "cylinder"]
    assert result["cylinders"] == [
        {"distance_mm": 100.0, "ok": False},
        {"distance_mm": 5000.0, "ok": True},
    ]


def test_combustible_forbids_the_flame_however_far_everything_is():
    # 1 m is no fire clearance: no flame where the parapet can burn. RCABC SBS standard, Part 10,
    # 1.2.2 (torching to a combustible surface strictly prohibited).
    assert CLEARANCE(given(combustible=True))["grounds"] == ["combustible"]


def test_cylinder_at_the_trade_manuals_distance():
    # CRCA Roofing Reference Manual 1.3.10: cylinders at least 4.5 m (15 ft) from burners.
    for y, ok in ((4500, True), (4499, False)):
        result = CLEARANCE(given(cylinders=[[0, y]], cylinder_limit_mm=4500))
        assert result["ok"] is ok and result["cylinders"][0]["ok"] is ok


def test_empty_lists_with_their_limits_are_fine():
    result = CLEARANCE(
        given(wet_primer=[], wet_primer_mm=3000, cylinders=[], cylinder_limit_mm=4500)
    )
    assert result["ok"] and result["cylinders"] == []


SEGMENT = [[0, 0], [1, 1]]


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"wet_primer": [SEGMENT]}, "wet_primer_mm"),
        ({"wet_primer": []}, "wet_primer_mm"),
        ({"wet_primer_mm": 3000}, "wet_primer"),
        ({"cylinders": [[1, 1]]}, "cylinder_limit_mm"),
        ({"cylinder_limit_mm": 0}, "cylinders"),
        ({"wet_primer": None, "wet_primer_mm": 1}, "wet_primer"),
        ({"wet_primer": [[0, 0]], "wet_primer_mm": 1}, "wet_primer[0][0]"),
        ({"cylinders": [SEGMENT], "cylinder_limit_mm": 1}, "cylinders[0][0]"),
        ({"flame": [0]}, "flame"),
        ({"flame": [0, True]}, "flame[1]"),
        ({"flame": [0, "0"]}, "flame[1]"),
        ({"flame": [0, math.inf]}, "flame[1]"),
        ({"flame": SEGMENT}, "flame[0]"),
        ({"unclosed": [0, 0]}, "unclosed[0]"),
        ({"unclosed": [[0, 0], [[0, 0]]]}, "unclosed[1]"),
        ({"unclosed": None}, "unclosed"),
        ({"limit_mm": -1}, "limit_mm"),
        ({"combustible": 0}, "combustible"),
        ({"combustible": None}, "combustible"),
        ({"wind": 3}, "wind"),
    ],
)
def test_refused_naming_the_field(changes, field):
    with pytest.raises(InputError) as refused:
        CLEARANCE(given(**changes))
    assert refused.value.field == field
    assert len(str(refused.value).splitlines()) == 1


@pytest.mark.parametrize("missing", sorted(CLOSED))
def test_required_fields(missing):
    with pytest.raises(InputError) as refused:
        CLEARANCE({name: value for name, value in CLOSED.items() if name != missing})
    assert refused.value.field == missing


def test_coordinates_beyond_numbers_are_refused_and_large_ones_are_not():
    far = CLEARANCE(given(unclosed=[[1e100, 1e-100], [[-1e12, 3], [1e12, 3]]]))
    assert far["nearest"] == 1 and far["nearest_mm"] == 3 and not far["ok"]
    with pytest.raises(InputError):
        CLEARANCE(given(unclosed=[[1e308, 1e308]]))


def test_typed_functions_take_plain_plans():
    verdict = judge(Plan(flame=(0, 0), unclosed=[(5, 0)], limit_mm=5, combustible=False))
    assert verdict.ok and verdict.nearest == 0 and verdict.nearest_mm == 5


def test_result_is_plain_json():
    result = CLEARANCE(given(unclosed=[[3, 4]]))
    assert json.loads(json.dumps(result)) == result
