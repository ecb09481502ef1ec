"""Torches and their watches: what is held against each, in order, and what cannot be taken."""

from __future__ import annotations

import pytest

from trainer.errors import InputError
from trainer.roofing.pairing import PAIRING


def torch(name, watch, walk=5000, level=True, view=True):
    return {
        "name": name, "watch": watch, "walk_mm": walk, "same_level": level, "in_view": view,
    }  # fmt: skip


def watcher(name, trained=True, other_duty=False):
    return {"name": name, "trained": trained, "other_duty": other_duty}


def judged(torches, watchers):
    answer = PAIRING({"torches": torches, "watchers": watchers, "limit_mm": 15_240})
    return answer["ok"], [each["grounds"] for each in answer["torches"]]


def test_everything_wrong_is_said_in_a_fixed_order():
    torches = [torch("1", "A", 20_000, level=False, view=False), torch("2", "A")]
    ok, grounds = judged(torches, [watcher("A", trained=False, other_duty=True)])
    assert not ok
    assert grounds == [
        ["not trained", "other duty", "too far", "other level", "out of view"],
        ["not trained", "other duty"],
    ]


def test_distance_level_and_view_count_only_for_a_watch_with_several_torches():
    far = torch("1", "A", 20_000, level=False, view=False)
    assert judged([far, torch("2", "B")], [watcher("A"), watcher("B")]) == (True, [[], []])
    ok, grounds = judged([far, torch("2", "A")], [watcher("A"), watcher("B")])
    assert (ok, grounds) == (False, [["too far", "other level", "out of view"], []])


def test_a_way_of_exactly_the_limit_is_near_enough():
    torches = [torch("1", "A", 15_240), torch("2", "A", 15_240.01)]
    assert judged(torches, [watcher("A")]) == (False, [[], ["too far"]])


def test_torches_without_a_watch_share_none():
    torches = [torch("1", None, 20_000), torch("2", None, view=False)]
    assert judged(torches, []) == (False, [["no watch"], ["no watch"]])


def test_results_come_in_the_order_of_the_torches():
    answer = PAIRING(
        {
            "torches": [torch("b", "A"), torch("a", None)],
            "watchers": [watcher("A")],
            "limit_mm": 0,
        }
    )
    assert answer["torches"] == [
        {"name": "b", "ok": True, "grounds": []},
        {"name": "a", "ok": False, "grounds": ["no watch"]},
    ]


@pytest.mark.parametrize(
    ("torches", "watchers", "message"),
    [
        (
            [torch("1", "A"), torch("2", "C")],
            [watcher("A"), watcher("B")],
            'torches[1].watch: got "C"; allowed: one of the watchers (A, B), or null',
        ),
        (
            [torch("1", "A")],
            [],
            'torches[0].watch: got "A"; allowed: one of the watchers (there are none), or null',
        ),
        (
            [torch("1", "A")],
            [watcher("A"), watcher("A")],
            'watchers[1].name: got "A"; allowed: each name once',
        ),
        (
            [torch("1", "A"), torch("1", "A")],
            [watcher("A")],
            'torches[1].name: got "1"; allowed: each name once',
        ),
    ],
)
def test_names_that_do_not_fit_together_are_refused(torches, watchers, message):
    with pytest.raises(InputError) as refused:
        judged(torches, watchers)
    assert str(refused.value) == message
