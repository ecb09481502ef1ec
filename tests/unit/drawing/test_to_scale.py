"""Drawings are to scale: distances read back from the SVG against the data they were drawn from."""

from __future__ import annotations

import re
from itertools import combinations
from math import hypot
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.unit.drawing.reading import SVG, box, classed, parsed, part, place, points, words
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


def test_elevation_blemish_and_patch_have_their_size_where_they_are() -> None:
    blemish = {"at": [1000, 200], "width_mm": 300, "height_mm": 120, "kind": "blister"}
    patch = {"from": [2000, 100], "to": [2400, 350]}
    figure = {**TOLD, "kind": "wall-elevation", "wall_mm": 3000, "height_mm": 500}
    root = parsed(draw(figure | {"blemishes": [blemish], "patches": [patch]}))
    per_mm = 342 / 3000
    shape = part(root, "blemish-0")
    x, y = place(shape)
    assert x == pytest.approx(8 + 1000 * per_mm, abs=PX)
    assert y == pytest.approx(-200 * per_mm, abs=PX)
    ring = next(shape.iter(f"{SVG}path")).get("d") or ""
    a, b = (float(number) for number in ring.partition("A")[2].split()[:2])
    assert (2 * a, 2 * b) == pytest.approx((300 * per_mm, 120 * per_mm), abs=2 * PX)
    laid = next(part(root, "patch-0").iter(f"{SVG}path")).get("d") or ""
    level = [float(number) for number in re.findall(r"H(-?[\d.]+)", laid)]
    assert max(level) + 4 == pytest.approx(8 + 2400 * per_mm, abs=2 * PX)
    assert min(level) - 4 == pytest.approx(8 + 2000 * per_mm, abs=2 * PX)


def test_elevation_foot_line_carries_sheets_laps_and_heights() -> None:
    foot = [[0, 0], [1000, 120], [3000, -40]]
    lap = {"from_mm": 1000, "to_mm": 1100}
    figure = {**TOLD, "kind": "wall-elevation", "wall_mm": 3000, "height_mm": 500, "laps": [lap]}
    asked = {"foot": foot, "heights_at": [0, 1000, 2000], "heights_measured": "before"}
    root = parsed(draw(figure | asked))
    per_mm = 342 / 3000
    corners = points(next(part(root, "lap-0").iter(f"{SVG}path")).get("d") or "")
    assert corners[1][1] == pytest.approx((100 - 120) * per_mm, abs=2 * PX)  # 100 mm field lap
    assert corners[2][1] == pytest.approx((100 - 112) * per_mm, abs=2 * PX)  # 120 - 160 · 100/2000
    sheet = points(next(part(root, "sheet-0").iter(f"{SVG}path")).get("d") or "")
    assert (sheet[-1][1], sheet[2][1]) == pytest.approx((100 * per_mm, -12 * per_mm), abs=2 * PX)
    told = [text.replace("\u00a0", " ") for text in words(root)]
    assert {"500 mm", "380 mm", "460 mm"} <= set(told)  # 500 less 0, 120 and 40


@given(st.integers(60, 110), st.integers(1, 20))
@settings(max_examples=40, deadline=None)
def test_lap_section_shows_lap_and_bead_at_one_scale(lap: int, bead: int) -> None:
    figure = {**TOLD, "kind": "lap-section", "lap_mm": lap, "bead": {"width_mm": bead}}
    root = parsed(draw(figure | {"top_mm": 5, "bottom_mm": 4}))
    lower = points(list(part(root, "bottom-sheet").iter(f"{SVG}path"))[1].get("d") or "")
    per_mm = (lower[0][1] - lower[1][1]) / 4
    assert per_mm >= 3 - PX
    squeezed = (part(root, "bead").find(f"{SVG}path")).get("d") or ""  # type: ignore[union-attr]
    out = float(squeezed[1:].split()[0])
    edge = float(squeezed.partition("L")[2].split()[0])
    assert edge - out == pytest.approx(bead * per_mm, abs=0.5 + bead * PX / 4)
    if not classed(root, "break"):
        assert lower[2][0] - edge == pytest.approx(lap * per_mm, abs=lap * PX / 4 + PX)


def test_lap_section_is_broken_where_nothing_is_to_be_seen() -> None:
    figure = {**TOLD, "kind": "lap-section", "lap_mm": 120, "bead": {"width_mm": 9}}
    assert len(classed(parsed(draw(figure)), "break")) == 2
    assert not classed(parsed(draw(figure | {"width": 700})), "break")
    span = {"min": 0, "max": 120, "step": 1}
    moved = figure | {"marker": {"at_mm": 40, "movable": span}}
    assert not classed(parsed(draw(moved)), "break")


def test_timeline_shows_what_nobody_covers_once_answered() -> None:
    turns = [[(600, 630), (660, 720)], [(640, 655)]]
    tracks = [
        {
            "name": name,
            "bands": [{"from_min": a, "to_min": b, "kind": "watch"} for a, b in each],
        }
        for name, each in zip(("Ana", "Bram"), turns, strict=True)
    ]
    cover = {"kind": "watch", "from_min": 600, "to_min": 730}
    figure = {**TOLD, "kind": "timeline", "from_min": 600, "to_min": 740, "tracks": tracks}
    assert not classed(parsed(draw(figure | {"cover": cover})), "gap")
    root = parsed(draw(figure | {"cover": cover, "after": []}))
    axis = points(classed(root, "axis")[0].get("d") or "")
    per_min = (axis[1][1] - axis[0][1]) / 140
    gaps = [points(gap.get("d") or "") for gap in classed(root, "gap")]
    spans = [(gap[0][1] / per_min, gap[2][1] / per_min) for gap in gaps]
    wanted = [(30, 40), (55, 60), (120, 130)]
    for found, span in zip(spans, wanted, strict=True):
        assert found == pytest.approx(span, abs=2 * PX / per_min)
    assert {"10:30\u201310:40", "10:55\u201311:00", "12:00\u201312:10"} <= set(words(root))


def test_timeline_writes_the_day_past_midnight() -> None:
    figure = {**TOLD, "kind": "timeline", "from_min": 1380, "to_min": 1560}
    told = words(parsed(draw(figure | {"events": [{"at_min": 1470, "kind": "rain"}]})))
    assert "00:30\u00a0+1 rain" in told and "23:00" in told


def test_flat_corner_cut_takes_its_leg_off_both_edges() -> None:
    outline = [[0, 0], [900, 0], [900, 600], [0, 600]]
    cut = {"at": [900, 600], "corner": "top right", "leg_mm": 120}
    root = parsed(draw({**TOLD, "kind": "flat-pattern", "outline": outline, "corner_cuts": [cut]}))
    left, top, right, _ = box(classed(root, "sheet")[0])
    per_mm = (right - left) / 900
    corner, along_x, along_y = points(
        next(part(root, "corner-cut-0").iter(f"{SVG}path")).get("d") or ""
    )
    assert corner == pytest.approx((right, top), abs=PX)
    assert right - along_x[0] == pytest.approx(120 * per_mm, abs=2 * PX)
    assert along_y[1] - top == pytest.approx(120 * per_mm, abs=2 * PX)
