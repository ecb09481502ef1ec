"""Drawings are to scale: distances read back from the SVG against the data they were drawn from."""

from __future__ import annotations

from itertools import combinations
from math import hypot
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.unit.drawing.reading import SVG, box, classed, parsed, part, place, points
from trainer.drawing import draw

PX = 0.1
"""Coordinates are rounded to a tenth: a distance may be off by as much, its scale too."""

TOLD = {"title": "t", "desc": "d"}


def section(**more: Any) -> dict[str, Any]:
    return {
        **TOLD,
        "kind": "parapet-section",
        "height_mm": 300,
        "width_mm": 250,
        "deck": {"material": "concrete", "thickness_mm": 160},
        "core": "concrete",
        **more,
    }


@given(st.integers(100, 900), st.integers(120, 500), st.integers(30, 250), st.integers(40, 250))
@settings(max_examples=60, deadline=None)
def test_section_heights_widths_and_thicknesses_share_one_scale(
    height: int, width: int, insulation: int, deck: int
) -> None:
    root = parsed(
        draw(
            section(
                height_mm=height,
                width_mm=width,
                insulation={"material": "foam", "thickness_mm": insulation},
                deck={"material": "concrete", "thickness_mm": deck},
            )
        )
    )
    core, foam, slab = (box(part(root, name)) for name in ("core", "insulation", "deck"))
    per_mm = (core[3] - core[1]) / (height + insulation)  # the core stands on the slab
    assert core[2] - core[0] == pytest.approx(width * per_mm, abs=3 * PX)
    assert foam[3] - foam[1] == pytest.approx(insulation * per_mm, abs=3 * PX)
    assert slab[3] - slab[1] == pytest.approx(deck * per_mm, abs=3 * PX)
    assert foam[3] == pytest.approx(slab[1], abs=PX) and foam[2] == pytest.approx(core[0], abs=PX)


def test_section_flashing_follows_cant_wall_top_and_drop() -> None:
    root = parsed(
        draw(
            section(
                cant={"leg_mm": 80, "material": "mineral"},
                flashing={"field_lap_mm": 120, "outer_drop_mm": 60},
            )
        )
    )
    core = box(part(root, "core"))
    per_mm = (core[2] - core[0]) / 250
    line = points(classed(part(root, "flashing"), "sheet")[0].get("d") or "")
    assert line[0][0] == pytest.approx(core[0] - 200 * per_mm, abs=2 * PX)
    assert line[-1][1] == pytest.approx(core[1] + 60 * per_mm, abs=2 * PX)
    toe, shoulder = line[1], line[2]
    assert shoulder[0] - toe[0] == pytest.approx(toe[1] - shoulder[1], abs=6)  # 45°, sheet's offset
    assert core[0] - toe[0] == pytest.approx(80 * per_mm, abs=5)


def test_section_chalk_line_stands_where_it_is_said() -> None:
    root = parsed(draw(section(chalk={"at_mm": 180})))
    core = box(part(root, "core"))
    per_mm = (core[2] - core[0]) / 250
    assert core[0] - place(part(root, "chalk-line"))[0] == pytest.approx(180 * per_mm, abs=2 * PX)


@given(st.lists(st.integers(0, 5800), min_size=1, max_size=6, unique=True), st.integers(20, 200))
@settings(max_examples=60, deadline=None)
def test_elevation_laps_stand_at_their_millimetres(starts: list[int], wide: int) -> None:
    laps = [{"from_mm": start, "to_mm": start + wide} for start in starts]
    figure = {**TOLD, "kind": "wall-elevation", "wall_mm": 6000, "height_mm": 400}
    root = parsed(draw(figure | {"laps": laps, "field_laps": laps}))
    wall = 358 - 16
    for i, start in enumerate(starts):
        for name in (f"lap-{i}", f"field-lap-{i}"):
            left, _, right, _ = box(part(root, name))
            assert left == pytest.approx(8 + start * wall / 6000, abs=PX)
            assert right - left == pytest.approx(wide * wall / 6000, abs=2 * PX)


def test_elevation_height_and_field_lap_are_at_the_scale_of_its_length() -> None:
    laps = [{"from_mm": 1000, "to_mm": 1100}]
    figure = {**TOLD, "kind": "wall-elevation", "wall_mm": 3000, "height_mm": 500, "laps": laps}
    _, top, _, bottom = box(part(parsed(draw(figure | {"field_lap_mm": 150})), "lap-0"))
    assert bottom - top == pytest.approx(650 * 342 / 3000, abs=2 * PX)


def test_elevation_lap_that_tapers_is_narrower_at_its_foot() -> None:
    lap = {"from_mm": 1000, "to_mm": 1200, "bottom_from_mm": 1050, "bottom_to_mm": 1150}
    figure = {**TOLD, "kind": "wall-elevation", "wall_mm": 3000, "height_mm": 500, "laps": [lap]}
    corners = points(next(part(parsed(draw(figure)), "lap-0").iter(f"{SVG}path")).get("d") or "")
    top_left, foot_left, foot_right, top_right = corners
    assert top_right[0] - top_left[0] == pytest.approx(200 * 342 / 3000, abs=2 * PX)
    assert foot_right[0] - foot_left[0] == pytest.approx(100 * 342 / 3000, abs=2 * PX)


@given(
    st.lists(
        st.tuples(st.integers(0, 6000), st.integers(0, 5000)), min_size=3, max_size=6, unique=True
    )
)
@settings(max_examples=60, deadline=None)
def test_plan_distances_between_all_places_share_one_scale(places: list[tuple[int, int]]) -> None:
    items = [{"at": list(at)} for at in places]
    frame = [[0, 0], [6000, 0]]
    root = parsed(draw({**TOLD, "kind": "roof-plan", "items": items, "edges": [frame]}))
    drawn = [place(part(root, f"item-{i}")) for i in range(len(places))]
    edge = next(path for path in root.iter(f"{SVG}path") if path.get("stroke-dasharray"))
    ends = points(edge.get("d") or "")
    per_mm = (ends[1][0] - ends[0][0]) / 6000
    for (a, u), (b, v) in combinations(zip(places, drawn, strict=True), 2):
        assert hypot(u[0] - v[0], u[1] - v[1]) == pytest.approx(
            hypot(a[0] - b[0], a[1] - b[1]) * per_mm, abs=3 * PX
        )


@pytest.mark.parametrize(
    ("faces", "side", "outer"),
    [
        ([[0, 0], [4000, 0]], "left", [[4000, -300], [0, -300]]),
        ([[0, 0], [4000, 0]], "right", [[4000, 300], [0, 300]]),
        ([[0, 0], [4000, 0], [4000, 3000]], "left", [[4300, 3000], [4300, -300], [0, -300]]),
        ([[0, 0], [4000, 0], [4000, 3000]], "right", [[3700, 3000], [3700, 300], [0, 300]]),
    ],
)
def test_plan_walls_have_their_thickness_away_from_the_roof(
    faces: list[list[float]], side: str, outer: list[list[float]]
) -> None:
    wall = {"faces": faces, "thickness_mm": 300, "roof_side": side}
    root = parsed(draw({**TOLD, "kind": "roof-plan", "walls": [wall]}))
    ring = points(next(part(root, "wall-0").iter(f"{SVG}path")).get("d") or "")
    per_mm = (ring[1][0] - ring[0][0]) / 4000
    wanted = [*faces, *outer]
    for (x, y), (u, v) in zip(ring, wanted, strict=True):
        assert x - ring[0][0] == pytest.approx(u * per_mm, abs=2 * PX)
        assert ring[0][1] - y == pytest.approx(v * per_mm, abs=2 * PX)


def test_plan_limit_circle_has_its_radius() -> None:
    circle = {"type": "circle", "at": [1000, 1000], "radius_mm": 900}
    edge = [[0, 0], [4000, 0]]
    root = parsed(draw({**TOLD, "kind": "roof-plan", "edges": [edge], "after": [circle]}))
    drawn = next(path for path in root.iter(f"{SVG}path") if path.get("stroke-dasharray"))
    ends = points(drawn.get("d") or "")
    limit = classed(root, "limit")[0]
    per_mm = (ends[1][0] - ends[0][0]) / 4000
    assert float(limit.get("r") or 0) == pytest.approx(900 * per_mm, abs=2 * PX)
    assert float(limit.get("cx") or 0) == pytest.approx(ends[0][0] + 1000 * per_mm, abs=2 * PX)
    assert float(limit.get("cy") or 0) == pytest.approx(ends[0][1] - 1000 * per_mm, abs=2 * PX)


@given(st.integers(300, 1500), st.integers(200, 1500))
@settings(max_examples=60, deadline=None)
def test_flat_sheet_keeps_its_proportions(wide: int, high: int) -> None:
    outline = [[0, 0], [wide, 0], [wide, high], [0, high]]
    root = parsed(draw({**TOLD, "kind": "flat-pattern", "outline": outline}))
    left, top, right, bottom = box(classed(root, "sheet")[0])
    per_mm = (right - left) / wide
    assert bottom - top == pytest.approx(high * per_mm, abs=3 * PX + high / wide * PX)


def test_timeline_minutes_lie_evenly_along_the_axis() -> None:
    events = [{"at_min": minute, "kind": "point"} for minute in (480, 510, 600)]
    bands = [{"from_min": 480, "to_min": 600, "kind": "drying"}]
    figure = {**TOLD, "kind": "timeline", "from_min": 470, "to_min": 720}
    root = parsed(draw(figure | {"events": events, "bands": bands}))
    axis = points(classed(root, "axis")[0].get("d") or "")
    per_min = (axis[1][1] - axis[0][1]) / 250
    _, top, _, bottom = box(part(root, "band-0"))
    assert top == pytest.approx(axis[0][1] + 10 * per_min, abs=PX)
    assert bottom - top == pytest.approx(120 * per_min, abs=2 * PX)


def test_scale_bar_is_as_long_as_it_says() -> None:
    figure = {**TOLD, "kind": "wall-elevation", "wall_mm": 5000, "height_mm": 300}
    bar = classed(parsed(draw(figure)), "scale-bar")[0].get("d") or ""
    assert float(bar.rpartition("h")[2]) == pytest.approx(1000 * 342 / 5000, abs=PX)
