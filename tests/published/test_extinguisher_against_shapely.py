"""Ways on foot on random plans against shapely (GEOS) and networkx, and the published distance.

The other way to reckon: obstacles grown by a hair, so that what touches closes; every two corners
of the grown outline joined whose line keeps clear of obstacles grown by half a hair; the shortest
path in that graph by networkx.
"""

from __future__ import annotations

import math
import random
from itertools import combinations

import networkx as nx
import numpy as np
import pytest
import shapely

from trainer.errors import InputError
from trainer.roofing.extinguisher import EXTINGUISHER

PLANS = 300
HAIR = 0.001  # mm
NEAR = 0.05  # mm: rounding, and a hair at every bend
FOOT = 304.8  # mm exactly, international agreement of 1959

# International Fire Code 2018, 3504.2.6: at least 2-A:20-B:C within 30 ft (9144 mm) of the work.
# https://online.flipbuilder.com/mewf/eofz/files/basic-html/page365.html (read)
IFC = {"limit_mm": 9144, "class_a": 2, "class_b": 20}


def rectangle(corners):
    (ax, ay), (bx, by) = corners
    return shapely.box(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by))


def grown(obstacles, by):
    return shapely.union_all(
        [shapely.buffer(rectangle(each), by, join_style="mitre") for each in obstacles]
    )


def corners_of(outline):
    return [tuple(at) for at in shapely.get_coordinates(outline)]


def by_networkx(work, goals, obstacles):
    """The length of the shortest way to each goal, infinite where there is none."""
    nodes = list(dict.fromkeys([work, *goals, *corners_of(grown(obstacles, HAIR))]))
    pairs = list(combinations(nodes, 2))
    lines = shapely.linestrings(np.array(pairs))
    free = ~shapely.intersects(lines, grown(obstacles, HAIR / 2))
    graph = nx.Graph()
    graph.add_nodes_from(nodes)
    graph.add_weighted_edges_from(
        (one, other, math.dist(one, other))
        for (one, other), is_free in zip(pairs, free, strict=True)
        if is_free
    )
    lengths = nx.single_source_dijkstra_path_length(graph, work)
    return [lengths.get(goal, math.inf) for goal in goals]


def stacks(rng):
    """Stacks anywhere, turned any way round."""
    return [
        [[rng.uniform(0, 9000), rng.uniform(0, 9000)], [rng.uniform(0, 9000), rng.uniform(0, 9000)]]
        for _ in range(rng.randrange(7))
    ]


def blocks(rng):
    """Blocks on a grid of a metre, which often touch at edges and corners, and overlap."""
    made = []
    for _ in range(rng.randrange(3, 14)):
        x, y = rng.randrange(8), rng.randrange(8)
        wide, high = rng.choice([(1, 1), (1, 2), (3, 1), (1, 4)])
        made.append([[1000 * x, 1000 * y], [1000 * (x + wide), 1000 * (y + high)]])
    return made


def ring(rng):
    """Four blocks round a yard: the corners of neighbours just meet, or leave 1 mm."""
    gap = rng.choice([0, 1])
    return [
        [[2000, 1000], [6000, 2000]],
        [[6000 + gap, 2000], [7000, 6000]],
        [[2000, 6000], [6000, 7000]],
        [[1000, 2000], [2000, 6000]],
    ]


def spot(rng):
    """Never on the grid of the blocks, so never on an edge."""
    return rng.randrange(-1, 9) * 1000 + 250.0, rng.randrange(-1, 9) * 1000 + 750.0


def spots(rng, obstacles):
    """The work and three extinguishers; one time in ten perhaps inside an obstacle."""
    while True:
        found = [spot(rng) for _ in range(4)]
        if not inside(obstacles, found).any() or rng.random() < 0.1:
            return found[0], found[1:]


def inside(obstacles, points):
    return shapely.contains_properly(grown(obstacles, HAIR), shapely.points(np.array(points)))


def test_ways_on_random_plans_agree_with_shapely_and_networkx():
    rng = random.Random(11)
    bends, walled_in, refused = set(), 0, 0
    for number in range(PLANS):
        obstacles = (stacks, blocks, blocks, ring)[number % 4](rng)
        work, goals = spots(rng, obstacles)
        plan = {
            "work": work,
            "extinguishers": [{"at": at, "class_a": 2, "class_b": 20} for at in goals],
            "obstacles": obstacles,
        } | IFC
        if inside(obstacles, [work, *goals]).any():
            refused += 1
            with pytest.raises(InputError):
                EXTINGUISHER(plan)
            continue
        answer = EXTINGUISHER(plan)
        lengths = by_networkx(work, goals, obstacles)
        for found, length in zip(answer["each"], lengths, strict=True):
            agree(found, length, work)
            bends.add(len(found["path"] or []))
            walled_in += math.isinf(length)
        agree_on_nearest(answer["nearest"], lengths)
    assert refused > 10
    assert walled_in > 20
    assert {2, 3, 4, 5} <= bends


def agree(found, length, work):
    if math.isinf(length):
        assert (found["walking_mm"], found["path"], found["ok"]) == (None, None, False)
        return
    assert found["walking_mm"] == pytest.approx(length, abs=NEAR)
    assert found["path"][0] == list(work)
    walked = sum(math.dist(*leg) for leg in zip(found["path"], found["path"][1:], strict=False))
    assert walked == pytest.approx(found["walking_mm"], abs=NEAR)
    if abs(length - IFC["limit_mm"]) > NEAR:
        assert found["in_reach"] is (length <= IFC["limit_mm"])


def agree_on_nearest(nearest, lengths):
    if all(map(math.isinf, lengths)):
        assert nearest is None
    else:
        assert lengths[nearest] == pytest.approx(min(lengths), abs=NEAR)


@pytest.mark.parametrize(
    ("feet", "class_a", "class_b", "in_reach", "rating_ok"),
    [
        (28, 2, 20, True, True),
        (30, 2, 20, True, True),  # exactly the limit
        (34, 2, 20, False, True),
        (28, 1, 10, True, False),
        (1, 1, 10, True, False),  # however near
        (1, 2, 10, True, False),
        (28, 3, 40, True, True),
    ],
)
def test_the_fire_code_case_by_case(feet, class_a, class_b, in_reach, rating_ok):
    one = {"at": [feet * FOOT, 0], "class_a": class_a, "class_b": class_b}
    answer = EXTINGUISHER({"work": [0, 0], "extinguishers": [one], "obstacles": []} | IFC)
    (found,) = answer["each"]
    assert (found["in_reach"], found["rating_ok"]) == (in_reach, rating_ok)
    assert answer["ok"] is (in_reach and rating_ok)


def test_a_near_one_too_small_and_a_large_one_too_far_do_not_add_up():
    far = {"at": [34 * FOOT, 0], "class_a": 2, "class_b": 20}
    small = {"at": [28 * FOOT, 0], "class_a": 1, "class_b": 10}
    answer = EXTINGUISHER({"work": [0, 0], "extinguishers": [far, small], "obstacles": []} | IFC)
    assert (answer["ok"], answer["nearest"]) == (False, 1)
