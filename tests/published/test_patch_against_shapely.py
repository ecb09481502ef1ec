"""The least patch against shapely (GEOS), which grows a defect by the cover on every side.

A lap of at least 100 mm round a patch: NBS J41/630 (secondary).
"""

from __future__ import annotations

import random

import pytest
import shapely

from trainer.roofing.patch import PATCH

NBS_LAP = 100


def size(shape):
    x0, y0, x1, y1 = shape.bounds
    return {"patch_width_mm": pytest.approx(x1 - x0), "patch_height_mm": pytest.approx(y1 - y0)}


@pytest.mark.parametrize("seed", range(50))
def test_a_defect_grown_by_the_cover(seed):
    rng = random.Random(seed)
    width, height, cover = (rng.randrange(1, 8000) / 10 for _ in range(3))
    grown = shapely.box(0, 0, width, height).buffer(cover, join_style="mitre")
    assert PATCH({"width_mm": width, "height_mm": height, "cover_mm": cover}) == size(grown)


@pytest.mark.parametrize("length", [1, 150, 432.5])
def test_a_cut_grown_by_the_cover(length):
    grown = shapely.LineString([(0, 0), (length, 0)]).buffer(NBS_LAP, cap_style="square")
    assert PATCH({"width_mm": length, "height_mm": 0, "cover_mm": NBS_LAP}) == size(grown)


def test_a_blister_by_hand():
    """120 × 80 mm, 100 mm all round: 100 + 120 + 100 = 320 and 100 + 80 + 100 = 280."""
    inputs = {"width_mm": 120, "height_mm": 80, "cover_mm": NBS_LAP}
    assert PATCH(inputs) == {"patch_width_mm": 320, "patch_height_mm": 280}
