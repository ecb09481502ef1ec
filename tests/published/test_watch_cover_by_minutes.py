"""Gaps in the watch against a count of every single minute, and the published ends of watch.

The other way to reckon: a set of minutes. Minute m stands for the time from m to m + 1; somebody
watches it who is present in it and not away in it.
"""

from __future__ import annotations

import random

import pytest

from trainer.roofing.watchcover import WATCH_COVER

LISTS = 500
DAY = 24 * 60 - 1


def clock(minute):
    return f"{minute // 60:02}:{minute % 60:02}"


def span(rng, **more):
    start, end = sorted(rng.choices(range(0, DAY + 1, rng.choice([1, 15])), k=2))
    return {"from": clock(start), "to": clock(end)} | more


def minutes(entry):
    hour_from, hour_to = (entry[edge].split(":") for edge in ("from", "to"))
    return set(
        range(60 * int(hour_from[0]) + int(hour_from[1]), 60 * int(hour_to[0]) + int(hour_to[1]))
    )


def unwatched(case):
    """The minutes that nobody watches."""
    left = minutes(case)
    for watcher in case["watchers"]:
        gone = [minutes(a) for a in case.get("away", ()) if a["name"] == watcher["name"]]
        left -= minutes(watcher).difference(*gone)
    return left


def runs(of):
    """A set of minutes as the stretches it is made of."""
    starts = sorted(minute for minute in of if minute - 1 not in of)
    ends = sorted(minute + 1 for minute in of if minute + 1 not in of)
    return [
        {"from": clock(start), "to": clock(end), "minutes": end - start}
        for start, end in zip(starts, ends, strict=True)
    ]


def random_case(rng):
    names = "ABC"[: rng.randrange(1, 4)]
    case = span(rng) | {
        "watchers": [span(rng, name=rng.choice(names)) for _ in range(rng.randrange(6))]
    }
    present = sorted({watcher["name"] for watcher in case["watchers"]})
    if present and rng.random() < 0.7:
        case["away"] = [span(rng, name=rng.choice(present)) for _ in range(rng.randrange(4))]
    return case


def test_gaps_are_the_minutes_that_nobody_watches():
    rng = random.Random(5)
    gap_counts = set()
    for _ in range(LISTS):
        case = random_case(rng)
        left = unwatched(case)
        assert WATCH_COVER(case) == {
            "covered": not left,
            "gaps": runs(left),
            "uncovered_min": len(left),
        }, case
        gap_counts.add(len(runs(left)))
    assert {0, 1, 2, 3} <= gap_counts


# A last flame at 15:10 and the minutes of watching each rule set asks for after it.
ENDS = [
    # 29 CFR 1910.252(a)(2)(iii)(B), read in its mirror WAC 296-307-49503(3) (read)
    (30, "15:40"),
    # a local ordinance, https://ecode360.com/29708856 (read)
    (60, "16:10"),
    # NFPA 241 (2022) by 527 CMR 1.00, torch-applied roofing;
    # https://coderedconsultants.com/insights/updated-fire-watch-requirements/ (secondary)
    (120, "17:10"),
]


@pytest.mark.parametrize(("minutes_asked", "end"), ENDS)
def test_whoever_leaves_after_half_an_hour_leaves_the_rest_unwatched(minutes_asked, end):
    watch = [{"name": "A", "from": "15:10", "to": "15:40"}]
    answer = WATCH_COVER({"from": "15:10", "to": end, "watchers": watch})
    assert answer["uncovered_min"] == minutes_asked - 30
    assert answer["covered"] is (minutes_asked == 30)
