"""The corner's formulas against a sheet that is really folded, measured by shapely.

Outside source: shapely (GEOS) for overlap, difference and mitred offset; the folding itself is two
rotations in space, written here on its own and sharing no formula with the calculator.
"""

import math
import random

import numpy as np
import pytest
from shapely import LineString, Point, Polygon

from trainer.roofing.corners import (
    Corner,
    base,
    base_legs,
    base_patch,
    mitres,
    top,
    top_legs,
    top_patch,
)

RUN = 1000.0


def turn(degrees):
    """Rotation about the vertical, anticlockwise seen from above."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return np.array([[c, -s, 0], [s, c, 0], [0, 0, 1]])


def tip(point, edge_height, sign):
    """A point of the wall plane beyond a horizontal edge, folded down flat over that edge."""
    x, _, z = point
    return np.array([x, sign * abs(z - edge_height), edge_height])


def folded(corner, side, run, y):
    """A point of the flat sheet in space, ``run`` from the fold on one half (-1 left, +1 right).

    The first wall lies along +x with the roof on its +y side, the corner at the origin, the foot of
    the wall at height 0. The left half of the sheet goes on the first wall.
    """
    point = np.array([run, 0.0, y - corner.field_lap_mm])
    toward_roof = -side  # the second wall, turned into place at the end, has the roof on its right
    if point[2] < 0:
        point = tip(point, 0.0, toward_roof)
    elif point[2] > corner.height_mm:
        point = tip(point, corner.height_mm, -toward_roof)
    return point if side < 0 else turn(corner.angle_deg) @ point


def leg(corner, side, y_from, y_to):
    """One half of a leg, slit along the fold, as it lies on its plane after folding."""
    flat = [(0.0, y_from), (RUN, y_from), (RUN, y_to), (0.0, y_to)]
    return Polygon([tuple(folded(corner, side, run, y)[:2]) for run, y in flat])


def legs(corner, end):
    foot = corner.field_lap_mm
    head = foot + corner.height_mm
    y = (0.0, foot) if end == "base" else (head, head + corner.top_mm)
    return leg(corner, -1, *y), leg(corner, +1, *y)


def band(corner, end):
    """The band a leg should cover if no corner were in the way: a mitred offset of the walls."""
    far = turn(corner.angle_deg) @ np.array([RUN, 0.0, 0.0])
    walls = LineString([(RUN, 0.0), (0.0, 0.0), tuple(far[:2])])
    # Walking in along the first wall the roof is on the right: a negative offset for shapely.
    offset = -corner.field_lap_mm if end == "base" else corner.top_mm
    return walls.buffer(offset, single_sided=True, join_style="mitre", mitre_limit=10)


def random_corners(count):
    rng = random.Random(20240501)
    for _ in range(count):
        kind = rng.choice(["inside", "outside"])
        angle = rng.uniform(90, 175) if kind == "inside" else rng.uniform(185, 270)
        yield Corner(
            kind,
            rng.choice([angle, 90.0 if kind == "inside" else 270.0, round(angle)]),
            rng.uniform(20, 300),
            rng.uniform(100, 900),
            rng.uniform(20, 300),
            rng.uniform(0, 150),
            rng.choice([True, False]),
            rng.uniform(0, 50),
        )


CORNERS = list(random_corners(300))


@pytest.mark.parametrize("end", ["base", "top"])
def test_doubled_and_bare_areas_are_those_of_the_folded_sheet(end):
    for corner in CORNERS:
        first, second = legs(corner, end)
        doubled = first.intersection(second).area
        bare = band(corner, end).difference(first.union(second)).area
        said = base(corner) if end == "base" else top(corner)
        expected = {"double": (said.area_mm2, 0.0), "bare": (0.0, said.area_mm2)}[said.state]
        assert (doubled, bare) == pytest.approx(expected, rel=1e-6, abs=1e-3), corner


@pytest.mark.parametrize("end", ["base", "top"])
def test_patches_are_the_very_shapes(end):
    for corner in CORNERS:
        first, second = legs(corner, end)
        said = base(corner) if end == "base" else top(corner)
        shape = Polygon(base_patch(corner) if end == "base" else top_patch(corner))
        real = (
            first.intersection(second)
            if said.state == "double"
            else band(corner, end).difference(first.union(second))
        )
        assert shape.is_valid
        assert shape.symmetric_difference(real).area < 1e-3, corner


@pytest.mark.parametrize("end", ["base", "top"])
def test_gusset_reaches_past_the_furthest_point_of_what_it_covers(end):
    for corner in CORNERS:
        said = base(corner) if end == "base" else top(corner)
        shape = Polygon(base_patch(corner) if end == "base" else top_patch(corner))
        furthest = max(Point(0, 0).distance(Point(p)) for p in shape.exterior.coords)
        seam = said.state == "bare" or corner.trimmed
        assert said.reach_mm == pytest.approx(corner.cover_mm + (furthest if seam else 0))
        assert said.up_mm == corner.cover_mm + corner.overcut_mm


@pytest.mark.parametrize("end", ["base", "top"])
def test_legs_on_the_plan_are_the_folded_ones_less_the_mitre(end):
    for corner in CORNERS:
        drawn = (base_legs if end == "base" else top_legs)(corner, RUN)
        said = base(corner) if end == "base" else top(corner)
        first, second = (Polygon(part) for part in drawn)
        mitred = said.state == "double" and corner.trimmed
        doubled = said.area_mm2 if said.state == "double" else 0.0
        assert first.intersection(second).area == pytest.approx(0 if mitred else doubled, abs=1e-3)
        together = legs(corner, end)[0].union(legs(corner, end)[1])
        assert first.union(second).symmetric_difference(together).area < 1e-3, corner


def test_mitres_on_the_flat_sheet_meet_in_one_seam_on_the_roof():
    for corner in CORNERS:
        if not corner.trimmed:
            continue
        left, right = (
            [folded(corner, side, abs(x), y) for x, y in cut]
            for side, cut in zip((-1, 1), mitres(corner), strict=True)
        )
        assert np.allclose(left, right, atol=1e-6)
        assert np.allclose(left[0][:2], 0, atol=1e-6)


def test_folding_here_keeps_every_length_on_the_sheet():
    """The fold of this test file is a true one: each leg keeps its lengths and lies flat."""
    for corner in CORNERS[:20]:
        foot, head = corner.field_lap_mm, corner.field_lap_mm + corner.height_mm
        for low, high in ((0, foot), (foot, head), (head, head + corner.top_mm)):
            flat = [(300.0, low + 1e-9), (700.0, high - 1e-9)]
            in_space = [folded(corner, 1, *point) for point in flat]
            assert math.dist(*in_space) == pytest.approx(math.dist(*flat))
