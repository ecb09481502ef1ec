"""One corner at a time: what doubles, what stays bare, what is cut, what is refused."""

import json
import math

import numpy as np
import pytest

from trainer.errors import InputError
from trainer.roofing.corners import (
    CORNER,
    Corner,
    base_legs,
    base_patch,
    fold,
    mitres,
    slits,
    top_legs,
    top_patch,
)

SQUARE = {
    "kind": "inside",
    "angle_deg": 90,
    "field_lap_mm": 100,
    "height_mm": 400,
    "top_mm": 150,
    "cover_mm": 75,
    "trimmed": True,
}


def given(**changes):
    return {**SQUARE, **changes}


def test_square_inside_corner_by_hand():
    # 100 × 100 doubled on the field, 150 × 150 bare on top; a seam of 100·√2 is left by the mitre.
    # Plain geometry of a square; common practice, no source.
    assert CORNER(SQUARE) == {
        "base": {"state": "double", "area_mm2": 10_000.0, "reach_mm": 216.42, "up_mm": 75.0},
        "top": {"state": "bare", "area_mm2": 22_500.0, "reach_mm": 287.13, "up_mm": 75.0},
        "fold": [[0.0, 100.0], [0.0, 500.0]],
        "slits": [[[0.0, 0.0], [0.0, 100.0]], [[0.0, 500.0], [0.0, 650.0]]],
    }


def test_square_outside_corner_is_bare_below_and_double_above():
    result = CORNER(given(kind="outside", angle_deg=270, trimmed=False))
    assert result["base"] == {
        "state": "bare",
        "area_mm2": 10_000.0,
        "reach_mm": 216.42,
        "up_mm": 75.0,
    }
    assert result["top"] == {
        "state": "double",
        "area_mm2": 22_500.0,
        "reach_mm": 75.0,
        "up_mm": 75.0,
    }


def test_obtuse_corner_by_hand():
    # ψ = 120°: k = cot 60° = 1/√3, sin 60° = √3/2.
    result = CORNER(given(angle_deg=120))
    assert result["base"]["area_mm2"] == round(100**2 / math.sqrt(3), 2)
    assert result["base"]["reach_mm"] == round(75 + 100 * 2 / math.sqrt(3), 2)


def test_untrimmed_double_leaves_no_seam_to_reach():
    result = CORNER(given(trimmed=False))
    assert result["base"]["reach_mm"] == 75
    assert result["base"]["area_mm2"] == 10_000
    assert result["top"]["reach_mm"] == 287.13


def test_overcut_lengthens_both_slits_and_the_gusset_and_shortens_the_fold():
    result = CORNER(given(overcut_mm=10))
    assert result["fold"] == [[0, 110], [0, 490]]
    assert result["slits"] == [[[0, 0], [0, 110]], [[0, 490], [0, 650]]]
    assert result["base"]["up_mm"] == result["top"]["up_mm"] == 85
    assert result["base"]["reach_mm"] == CORNER(SQUARE)["base"]["reach_mm"]


def test_slits_that_meet_in_the_middle_are_still_legal():
    result = CORNER(given(overcut_mm=200))
    assert result["fold"] == [[0, 300], [0, 300]]


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"angle_deg": 89.99}, "angle_deg"),
        ({"angle_deg": 180}, "angle_deg"),
        ({"angle_deg": 270}, "angle_deg"),
        ({"kind": "outside"}, "angle_deg"),
        ({"kind": "outside", "angle_deg": 180}, "angle_deg"),
        ({"kind": "outside", "angle_deg": 270.01}, "angle_deg"),
        ({"kind": "corner"}, "kind"),
        ({"field_lap_mm": -1}, "field_lap_mm"),
        ({"overcut_mm": 200.01}, "overcut_mm"),
        ({"overcut_mm": None}, "overcut_mm"),
        ({"trimmed": 1}, "trimmed"),
        ({"trimmed": "yes"}, "trimmed"),
        ({"height_mm": "400"}, "height_mm"),
        ({"top_mm": True}, "top_mm"),
        ({"top_mm": math.nan}, "top_mm"),
        ({"colour": 1}, "colour"),
    ],
)
def test_refused_naming_the_field(changes, field):
    with pytest.raises(InputError) as refused:
        CORNER(given(**changes))
    assert refused.value.field == field
    assert len(str(refused.value).splitlines()) == 1


def test_angle_refusal_says_what_this_kind_of_corner_allows():
    with pytest.raises(InputError, match=r"angle_deg: got 200; allowed: 90 ≤ angle_deg < 180"):
        CORNER(given(angle_deg=200))


@pytest.mark.parametrize("missing", sorted(SQUARE))
def test_every_field_but_the_overcut_is_required(missing):
    short = {name: value for name, value in SQUARE.items() if name != missing}
    with pytest.raises(InputError) as refused:
        CORNER(short)
    assert refused.value.field == missing


def test_lengths_whose_area_is_beyond_numbers_are_refused():
    with pytest.raises(InputError) as refused:
        CORNER(given(field_lap_mm=1e200))
    assert refused.value.field == "field_lap_mm"


def test_result_is_plain_json():
    assert json.loads(json.dumps(CORNER(SQUARE))) == CORNER(SQUARE)


def test_no_leg_no_patch():
    corner = Corner("inside", 90, 0, 400, 0, 75, True)
    assert base_patch(corner) == top_patch(corner) == ()
    assert CORNER(given(field_lap_mm=0))["base"]["area_mm2"] == 0


def close(shape, expected):
    return np.allclose(np.array(shape), np.array(expected), atol=1e-9)


def test_pieces_of_a_square_inside_corner_lie_where_a_crew_would_draw_them():
    corner = Corner(**SQUARE)
    assert close(base_patch(corner), ((0, 0), (0, 100), (100, 100), (100, 0)))
    assert close(top_patch(corner), ((0, 0), (0, -150), (-150, -150), (-150, 0)))
    first, second = base_legs(corner, 1000)
    assert close(first, ((0, 0), (1000, 0), (1000, 100), (100, 100)))
    assert close(second, ((0, 0), (0, 1000), (100, 1000), (100, 100)))
    first, _ = top_legs(corner, 1000)
    assert close(first, ((0, 0), (1000, 0), (1000, -150), (0, -150)))


def test_legs_refuse_a_sheet_that_ends_inside_the_corner():
    with pytest.raises(InputError, match="run_mm"):
        base_legs(Corner(**SQUARE), 99)


def test_mitres_cut_the_doubled_leg_and_only_that():
    left, right = mitres(Corner(**SQUARE))
    assert close(left, ((0, 100), (-100, 0)))
    assert close(right, ((0, 100), (100, 0)))
    outside = Corner("outside", 270, 100, 400, 150, 75, True)
    assert close(mitres(outside)[1], ((0, 500), (150, 650)))
    assert mitres(Corner(**given(trimmed=False))) == ()


def test_fold_and_slits_make_up_the_whole_line_of_the_fold():
    corner = Corner(**given(overcut_mm=12.5))
    low, high = slits(corner)
    assert low[1] == fold(corner)[0] and fold(corner)[1] == high[0]
    assert low[0] == (0, 0) and high[1] == (0, 650)
