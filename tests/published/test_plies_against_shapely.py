"""Plies counted by shapely (GEOS), on the faces that the edges of the sheets make."""

from __future__ import annotations

import random

import pytest
import shapely

from trainer.roofing.plies import PLIES

ROOFS = 120


def corners(rng, side):
    """Opposite corners, turned any way round, on a coarse grid so that many edges meet."""
    while True:
        (ax, ay), (bx, by) = ((rng.randrange(side), rng.randrange(side)) for _ in range(2))
        if ax != bx and ay != by:
            return [[ax / 2, ay / 2], [bx / 2, by / 2]]


def roof(seed):
    rng = random.Random(seed)
    side = rng.choice([6, 12, 40])
    sheets = [corners(rng, side) for _ in range(rng.randrange(1, 12))]
    points = [[rng.randrange(side) / 2, rng.randrange(side) / 2] for _ in range(12)]
    return sheets, points


def box(sheet):
    return shapely.MultiPoint(sheet).envelope


def deepest(boxes):
    """The greatest depth of any face of the arrangement, and all faces that are so deep."""
    edges = shapely.union_all([each.boundary for each in boxes])
    faces = list(shapely.polygonize([edges]).geoms)
    depths = [sum(each.covers(face.representative_point()) for each in boxes) for face in faces]
    deep = [face for face, depth in zip(faces, depths, strict=True) if depth == max(depths)]
    return max(depths), shapely.union_all(deep)


def last_before(value, edges):
    return max(edge for edge in edges if edge < value)


@pytest.mark.parametrize("seed", range(ROOFS))
def test_random_sheets_agree_with_shapely(seed):
    sheets, points = roof(seed)
    found = PLIES({"sheets": sheets, "points": points, "at_most": 2})
    boxes = [box(sheet) for sheet in sheets]
    plies = [sum(each.covers(shapely.Point(at)) for each in boxes) for at in points]
    assert found["plies"] == plies
    assert found["over"] == [i for i, count in enumerate(plies) if count > 2]

    most, places = deepest(boxes)
    assert found["most"] == most
    x, y = found["most_at"]
    assert sum(each.contains_properly(shapely.Point(x, y)) for each in boxes) == most
    # Lowest, then leftmost: its row begins where the deep places do, its column where they do
    # along that row.
    assert places.bounds[1] == last_before(y, {at[1] for sheet in sheets for at in sheet})
    along = places.intersection(shapely.LineString([(-1, y), (99, y)]))
    assert along.bounds[0] == last_before(x, {at[0] for sheet in sheets for at in sheet})


def test_a_full_roof_of_200_sheets_in_courses_by_hand():
    """Ten courses of twenty sheets, 1000 mm wide, laps of 100 and 150 mm: four where they meet."""
    sheets = [
        [[900 * i, 850 * k], [900 * i + 1000, 850 * k + 1000]] for k in range(10) for i in range(20)
    ]
    found = PLIES({"sheets": sheets, "points": [[950, 925]]})
    assert found == {"plies": [4], "most": 4, "most_at": [950, 925], "over": None}
