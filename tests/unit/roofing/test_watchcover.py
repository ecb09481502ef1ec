"""Presence against the time to be watched: gaps in order, handovers, absences, refusals."""

from __future__ import annotations

import pytest

from trainer.errors import InputError
from trainer.roofing.watchcover import WATCH_COVER


def spans(*given):
    return [{"name": name, "from": start, "to": end} for name, start, end in given]


def gaps(watchers, away=(), start="13:00", end="16:00"):
    case = {"from": start, "to": end, "watchers": spans(*watchers), "away": spans(*away)}
    answer = WATCH_COVER(case)
    found = [(gap["from"], gap["to"], gap["minutes"]) for gap in answer["gaps"]]
    assert answer["covered"] is not bool(found)
    assert answer["uncovered_min"] == sum(minutes for *_, minutes in found)
    return found


@pytest.mark.parametrize(
    ("watchers", "expected"),
    [
        ([], [("13:00", "16:00", 180)]),
        ([("A", "12:00", "17:00")], []),
        ([("A", "13:00", "16:00")], []),
        ([("A", "13:00", "14:30"), ("B", "14:30", "16:00")], []),
        ([("B", "14:30", "16:00"), ("A", "13:00", "14:31")], []),
        ([("A", "13:00", "14:30"), ("B", "14:31", "16:00")], [("14:30", "14:31", 1)]),
        ([("A", "13:10", "15:50")], [("13:00", "13:10", 10), ("15:50", "16:00", 10)]),
        ([("A", "13:00", "16:00"), ("B", "13:20", "13:30")], []),
        ([("A", "10:00", "11:00"), ("B", "17:00", "18:00")], [("13:00", "16:00", 180)]),
        ([("A", "14:00", "14:00")], [("13:00", "16:00", 180)]),
    ],
)
def test_gaps_are_what_nobody_watches(watchers, expected):
    assert gaps(watchers) == expected


@pytest.mark.parametrize(
    ("away", "expected"),
    [
        ([("A", "14:00", "14:10")], [("14:00", "14:10", 10)]),
        ([("A", "14:00", "14:00")], []),
        ([("A", "12:00", "13:05")], [("13:00", "13:05", 5)]),
        ([("A", "15:55", "18:00")], []),  # B is there by then
        (
            [("A", "14:20", "14:30"), ("A", "14:00", "14:25")],
            [("14:00", "14:30", 30)],
        ),
    ],
)
def test_time_away_is_a_gap_unless_somebody_else_is_there(away, expected):
    assert gaps([("A", "13:00", "16:00"), ("B", "15:30", "16:00")], away) == expected


def test_time_away_is_that_of_the_person_named_in_every_stretch():
    watchers = [("A", "13:00", "14:00"), ("A", "13:30", "15:00"), ("B", "15:00", "16:00")]
    assert gaps(watchers, [("A", "13:40", "13:50")]) == [("13:40", "13:50", 10)]
    assert gaps(watchers, [("B", "13:40", "13:50")]) == []


def test_a_watch_over_midnight_has_dates():
    watchers = [("A", "2026-05-04T23:00", "2026-05-04T23:50"), ("B", "2026-05-05T00:05", "2026-05-05T01:00")]  # noqa: E501  # fmt: skip
    found = gaps(watchers, start="2026-05-04T23:10", end="2026-05-05T00:30")
    assert found == [("2026-05-04T23:50", "2026-05-05T00:05", 15)]


def test_no_time_to_watch_is_watched_by_nobody():
    assert gaps([], start="13:00", end="13:00") == []


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"to": "12:00"}, "to"),
        ({"to": "2026-05-04T15:00"}, "to"),
        ({"watchers": spans(("A", "15:00", "14:00"))}, "watchers[0].to"),
        ({"watchers": spans(("A", "2026-05-04T15:00", "2026-05-04T15:00"))}, "watchers[0].from"),
        ({"away": spans(("A", "14:00", "14:10"), ("B", "14:00", "14:10"))}, "away[1].name"),
        ({"away": spans(("A", "14:00", "13:10"))}, "away[0].to"),
        ({"away": spans(("A", "2026-05-04T14:00", "14:10"))}, "away[0].from"),
    ],
)
def test_times_and_names_that_do_not_fit_together_are_refused(change, field):
    case = {"from": "13:00", "to": "16:00", "watchers": spans(("A", "13:00", "16:00"))}
    with pytest.raises(InputError) as refused:
        WATCH_COVER(case | change)
    assert refused.value.field == field
