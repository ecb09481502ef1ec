"""Laws of the folded corner."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.roofing.corners import Corner, base, top

LENGTH = st.floats(0, 2000, allow_subnormal=False)


@st.composite
def corners(draw):
    kind = draw(st.sampled_from(["inside", "outside"]))
    opening = draw(st.floats(90, 179.9) | st.just(90.0))
    height = draw(LENGTH)
    return Corner(
        kind,
        opening if kind == "inside" else 360 - opening,
        draw(LENGTH),
        height,
        draw(LENGTH),
        draw(LENGTH),
        draw(st.booleans()),
        draw(st.floats(0, height / 2)),
    )


def same(one, other):
    return (one.state, one.up_mm) == (other.state, other.up_mm) and (
        one.area_mm2 == pytest.approx(other.area_mm2, rel=1e-6, abs=1e-9)
        and one.reach_mm == pytest.approx(other.reach_mm, rel=1e-6, abs=1e-9)
    )


@given(corners())
def test_inside_and_outside_are_each_other_upside_down(corner):
    """Turn the sheet upside down: an inside corner of 90° is an outside corner of 270°."""
    turned = replace(
        corner,
        kind="outside" if corner.kind == "inside" else "inside",
        angle_deg=360 - corner.angle_deg,
        field_lap_mm=corner.top_mm,
        top_mm=corner.field_lap_mm,
    )
    assert same(base(corner), top(turned))
    assert same(top(corner), base(turned))


@given(corners(), st.floats(1.0, 3.0))
def test_a_longer_leg_never_doubles_or_bares_less(corner, factor):
    longer = replace(corner, field_lap_mm=corner.field_lap_mm * factor)
    assert base(longer).area_mm2 >= base(corner).area_mm2
    assert base(longer).reach_mm >= base(corner).reach_mm
    assert top(longer) == top(corner)


@given(corners(), st.floats(0, 500))
def test_more_cover_makes_the_gusset_larger_by_just_that(corner, more):
    wider = replace(corner, cover_mm=corner.cover_mm + more)
    for end in (base, top):
        assert end(wider).reach_mm == pytest.approx(end(corner).reach_mm + more)
        assert end(wider).up_mm == pytest.approx(end(corner).up_mm + more)


@given(corners())
def test_trimming_never_shrinks_the_gusset_nor_moves_the_bare_end(corner):
    trimmed, untrimmed = replace(corner, trimmed=True), replace(corner, trimmed=False)
    for end in (base, top):
        assert end(trimmed).reach_mm >= end(untrimmed).reach_mm
        assert end(trimmed).area_mm2 == end(untrimmed).area_mm2
        if end(corner).state == "bare":
            assert end(trimmed) == end(untrimmed)


@given(corners())
def test_each_corner_doubles_one_end_and_bares_the_other(corner):
    assert {base(corner).state, top(corner).state} == {"double", "bare"}
