"""Extinguishers: near on foot, well enough rated, and both in one."""

from __future__ import annotations

import pytest

from trainer.errors import InputError
from trainer.roofing.extinguisher import EXTINGUISHER


def extinguisher(x, y, class_a=2, class_b=20):
    return {"at": [x, y], "class_a": class_a, "class_b": class_b}


def asked(*extinguishers, work=(0, 0), obstacles=(), limit_mm=5000, class_a=2, class_b=20):
    return EXTINGUISHER(
        {
            "work": list(work),
            "extinguishers": list(extinguishers),
            "obstacles": list(obstacles),
            "limit_mm": limit_mm,
            "class_a": class_a,
            "class_b": class_b,
        }
    )


WALL = [[1000, -1000], [2000, 9000]]


def test_the_way_on_foot_counts_not_the_straight_line():
    (found,) = asked(extinguisher(3000, 0), obstacles=[WALL])["each"]
    # by hand: 2 × √(1000² + 1000²) + 1000 = 3828.43
    assert (found["straight_mm"], found["walking_mm"]) == (3000, 3828.43)
    assert found["path"] == [[0, 0], [1000, -1000], [2000, -1000], [3000, 0]]
    assert asked(extinguisher(3000, 0), obstacles=[WALL], limit_mm=3828)["ok"] is False
    assert asked(extinguisher(3000, 0), obstacles=[WALL], limit_mm=3829)["ok"] is True


def test_a_way_of_exactly_the_limit_is_in_reach():
    assert asked(extinguisher(3000, 4000))["ok"] is True
    assert asked(extinguisher(3000, 4000.1))["ok"] is False


@pytest.mark.parametrize(
    ("class_a", "class_b", "ok"), [(2, 20, True), (4, 80, True), (1, 80, False), (4, 10, False)]
)
def test_both_ratings_have_to_be_enough(class_a, class_b, ok):
    answer = asked(extinguisher(100, 0, class_a, class_b))
    assert (answer["ok"], answer["each"][0]["rating_ok"]) == (ok, ok)


def test_one_and_the_same_extinguisher_has_to_be_near_and_large_enough():
    small, far = extinguisher(100, 0, 1, 10), extinguisher(9000, 0)
    answer = asked(small, far)
    assert [each["ok"] for each in answer["each"]] == [False, False]
    assert (answer["ok"], answer["nearest"]) == (False, 0)
    assert asked(small, far, extinguisher(0, 4000))["ok"] is True


def test_the_nearest_is_nearest_on_foot_and_the_first_on_a_tie():
    assert asked(extinguisher(3000, 0), extinguisher(-3500, 0), obstacles=[WALL])["nearest"] == 1
    assert asked(extinguisher(0, 500), extinguisher(500, 0))["nearest"] == 0


def test_a_tie_of_sums_in_another_order_is_a_tie():
    # the same three legs, taken in the other order, come to a hair less as binary fractions
    right, left = [[300, -300], [900, 9000]], [[-1200, -300], [-600, 9000]]
    answer = asked(extinguisher(1500, 0), extinguisher(-1500, 0), obstacles=[right, left])
    assert [each["walking_mm"] for each in answer["each"]] == [1695.08, 1695.08]
    assert answer["nearest"] == 0


def test_where_nobody_can_walk_there_is_neither_way_nor_nearest():
    ring = [
        [[-300, -300], [300, -200]], [[-300, 200], [300, 300]],
        [[-300, -200], [-200, 200]], [[200, -200], [300, 200]],
    ]  # fmt: skip
    answer = asked(extinguisher(3000, 0), obstacles=ring)
    assert answer == {
        "each": [
            {
                "straight_mm": 3000,
                "walking_mm": None,
                "in_reach": False,
                "rating_ok": True,
                "ok": False,
                "path": None,
            }
        ],
        "nearest": None,
        "ok": False,
    }


def test_no_extinguisher_at_all_is_not_enough():
    assert asked() == {"each": [], "nearest": None, "ok": False}


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"work": (1500, 0)}, "work"),
        ({"work": (2000, 0)}, "work"),  # between two that touch
        ({"extra": extinguisher(1500, 10)}, "extinguishers[1].at"),
        ({"flat": [[0, 5], [9, 5]]}, "obstacles[2]"),
        ({"flat": [[5, 0], [5, 9]]}, "obstacles[2]"),
    ],
)
def test_places_nobody_can_stand_and_obstacles_without_width_are_refused(change, field):
    obstacles = [WALL, [[2000, -1000], [3000, 9000]]]
    obstacles += [change["flat"]] if "flat" in change else []
    more = [change["extra"]] if "extra" in change else []
    with pytest.raises(InputError) as refused:
        asked(extinguisher(0, 100), *more, work=change.get("work", (0, 0)), obstacles=obstacles)
    assert refused.value.field == field


def test_twenty_of_each_is_the_most():
    apart = [[[1000 * i, 0], [1000 * i + 500, 500]] for i in range(21)]
    assert asked(extinguisher(0, -100), work=(-100, 0), obstacles=apart[:20])["ok"] is True
    with pytest.raises(InputError, match=r"^obstacles: "):
        asked(extinguisher(0, -100), work=(-100, 0), obstacles=apart)
    with pytest.raises(InputError, match=r"^extinguishers: "):
        asked(*[extinguisher(0, 0)] * 21)
