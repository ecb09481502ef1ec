"""Clearance on 10 000 random plans against distances measured by shapely (GEOS)."""

import random

import numpy as np
import shapely

from trainer.roofing.clearance import CLEARANCE

PLANS = 10_000
UNSURE = 1e-6  # mm: within this of a limit or a tie, binary fractions cannot decide


def number(rng):
    return rng.choice([rng.uniform(-4000, 4000), round(rng.uniform(-4000, 4000), 1)])


def point(rng):
    return [number(rng), number(rng)]


def segment(rng):
    return [point(rng), point(rng)]


def random_plan(rng):
    plan = {
        "flame": point(rng),
        "unclosed": [rng.choice([point, segment])(rng) for _ in range(rng.randrange(4))],
        "limit_mm": rng.choice([1000, rng.uniform(0, 3000)]),
        "combustible": rng.random() < 0.1,
    }
    if rng.random() < 0.4:
        plan |= {"wet_primer": [segment(rng)] * rng.randrange(2), "wet_primer_mm": 1500}
    if rng.random() < 0.4:
        plan |= {
            "cylinders": [point(rng) for _ in range(rng.randrange(3))],
            "cylinder_limit_mm": 3000,
        }
    return plan


def geometry(place):
    return shapely.Point(place) if np.ndim(place) == 1 else shapely.LineString(place)


def measured(plan, name):
    """Distances from the flame to every entry of a list, by shapely."""
    shapes = [geometry(place) for place in plan.get(name, [])]
    return shapely.distance(shapely.Point(plan["flame"]), np.array(shapes, dtype=object))


def test_ten_thousand_plans_agree_with_shapely():
    rng = random.Random(7)
    grounds_seen, decided = set(), 0
    for _ in range(PLANS):
        plan = random_plan(rng)
        result = CLEARANCE(plan)
        far = {name: measured(plan, name) for name in ("unclosed", "wet_primer", "cylinders")}
        agree_on_nearest(result, far["unclosed"])
        assert np.allclose(
            [cylinder["distance_mm"] for cylinder in result["cylinders"]],
            far["cylinders"],
            atol=0.0051,
        )
        if not on_a_limit(plan, far):
            decided += 1
            grounds = grounds_by_shapely(plan, far)
            assert result["grounds"] == grounds, plan
            assert result["ok"] is not bool(grounds)
            grounds_seen.add(tuple(grounds))
    assert decided > 0.99 * PLANS
    assert len(grounds_seen) == 16  # every combination of grounds was met


def agree_on_nearest(result, distances):
    if not len(distances):
        assert result["nearest"] is None and result["nearest_mm"] is None
        return
    assert abs(result["nearest_mm"] - distances.min()) <= 0.0051
    assert distances[result["nearest"]] <= distances.min() + UNSURE


def on_a_limit(plan, far):
    pairs = (
        ("unclosed", "limit_mm"),
        ("wet_primer", "wet_primer_mm"),
        ("cylinders", "cylinder_limit_mm"),
    )
    return any((abs(far[name] - plan.get(limit, 0)) < UNSURE).any() for name, limit in pairs)


def grounds_by_shapely(plan, far):
    holds = {
        "combustible": plan["combustible"],
        "unclosed": (far["unclosed"] < plan["limit_mm"]).any(),
        "wet primer": (far["wet_primer"] < plan.get("wet_primer_mm", 0)).any(),
        "cylinder": (far["cylinders"] < plan.get("cylinder_limit_mm", 0)).any(),
    }
    return [ground for ground, against in holds.items() if against]
