"""Fire watch under several rules at once, forwards from the flame and backwards from leaving."""

import pytest

from trainer.errors import InputError
from trainer.roofing.firewatch import FIRE_WATCH

SHORT = {"name": "half hour", "watch_min": 30}
HOUR = {"name": "one hour", "watch_min": 60}
WITH_MONITORING = {"name": "hour and rounds", "watch_min": 60, "monitor_min": 180}
LONG = {"name": "two hours", "watch_min": 120}
OPEN = {"name": "no longer possible", "watch_min": None}


def watch(rules, **question):
    return FIRE_WATCH({"rules": rules} | question)


def test_longest_watch_governs():
    assert watch([SHORT, LONG, HOUR], last_flame="15:10") == {
        "watch_end": "17:10",
        "monitor_end": None,
        "governing_watch": "two hours",
        "governing_monitor": None,
        "open_ended": False,
    }


def test_watch_and_monitoring_may_be_governed_by_different_rules():
    answer = watch([LONG, WITH_MONITORING], last_flame="15:10")
    assert (answer["watch_end"], answer["governing_watch"]) == ("17:10", "two hours")
    assert (answer["monitor_end"], answer["governing_monitor"]) == ("19:10", "hour and rounds")


def test_first_listed_governs_on_a_tie():
    assert watch([HOUR, WITH_MONITORING], last_flame="15:10")["governing_watch"] == "one hour"
    assert (
        watch([WITH_MONITORING, HOUR], last_flame="15:10")["governing_watch"] == "hour and rounds"
    )
    sooner = {"name": "longer watch, same end", "watch_min": 90, "monitor_min": 150}
    assert (
        watch([WITH_MONITORING, sooner], last_flame="15:10")["governing_monitor"]
        == "hour and rounds"
    )


def test_latest_of_several_flames_starts_the_clock():
    flames = ["14:20", "15:10", "15:09"]
    assert watch([HOUR], last_flame=flames)["watch_end"] == "16:10"
    assert watch([HOUR], last_flame=["2026-05-04T23:30", "2026-05-05T00:10"])["watch_end"] == (
        "2026-05-05T01:10"
    )


def test_rule_without_a_clock_time_leaves_the_watch_open_ended():
    assert watch([OPEN], last_flame="15:10") == {
        "watch_end": None,
        "monitor_end": None,
        "governing_watch": None,
        "governing_monitor": None,
        "open_ended": True,
    }
    answer = watch([OPEN, SHORT], last_flame="15:10")
    assert (answer["watch_end"], answer["governing_watch"]) == ("15:40", "half hour")
    assert answer["open_ended"] is True


def test_monitoring_after_a_watch_without_a_clock_time_has_none_either():
    answer = watch([OPEN | {"monitor_min": 180}], last_flame="15:10")
    assert (answer["monitor_end"], answer["governing_monitor"]) == (None, None)


def test_monitoring_of_no_minutes_is_still_asked_for():
    answer = watch([HOUR | {"monitor_min": 0}], last_flame="15:10")
    assert (answer["monitor_end"], answer["governing_monitor"]) == ("16:10", "one hour")


def test_leaving_time_gives_the_last_flame_and_leaves_monitoring_to_others():
    assert watch([SHORT, WITH_MONITORING], leave_by="16:30") == {
        "last_flame_by": "15:30",
        "governing_watch": "hour and rounds",
        "open_ended": False,
    }
    assert watch([OPEN], leave_by="16:30") == {
        "last_flame_by": None,
        "governing_watch": None,
        "open_ended": True,
    }
    assert watch([LONG, OPEN], leave_by="2026-05-05T01:00")["last_flame_by"] == "2026-05-04T23:00"


def test_watch_ends_round_up_and_the_last_flame_rounds_down():
    rule = {"name": "odd", "watch_min": 30.5, "monitor_min": 10.1}
    answer = watch([rule], last_flame="15:10")
    assert (answer["watch_end"], answer["monitor_end"]) == ("15:41", "15:51")
    assert watch([rule], leave_by="16:00")["last_flame_by"] == "15:29"
    even = {"name": "even", "watch_min": 59.7, "monitor_min": 0.3}
    assert watch([even], last_flame="15:10")["monitor_end"] == "16:10"


def test_midnight_is_a_result_and_nothing_beyond_it():
    assert watch([HOUR], last_flame="23:00")["watch_end"] == "24:00"
    assert watch([HOUR], leave_by="01:00")["last_flame_by"] == "00:00"
    with pytest.raises(
        InputError, match=r'^last_flame: got "23:01"; .*watch_end.*YYYY-MM-DDTHH:MM'
    ):
        watch([HOUR], last_flame="23:01")
    with pytest.raises(InputError, match=r'^last_flame: got "21:00"; .*monitor_end.*YYYY-MM-DD'):
        watch([WITH_MONITORING], last_flame="21:00")
    with pytest.raises(InputError, match=r'^leave_by: got "00:59"; .*last_flame_by.*YYYY-MM-DD'):
        watch([HOUR], leave_by="00:59")


@pytest.mark.parametrize(
    ("inputs", "field"),
    [
        ({"rules": [HOUR]}, "last_flame"),
        ({"rules": [HOUR], "last_flame": "15:10", "leave_by": "17:00"}, "leave_by"),
        ({"rules": [HOUR], "last_flame": None}, "last_flame"),
        ({"rules": [HOUR], "last_flame": []}, "last_flame"),
        ({"rules": [HOUR], "last_flame": ["15:10", "24:00"]}, "last_flame[1]"),
        ({"rules": [HOUR], "last_flame": ["15:10", "2026-05-04T15:10"]}, "last_flame[1]"),
        ({"rules": [HOUR], "leave_by": ["15:10"]}, "leave_by"),
        ({"rules": [], "last_flame": "15:10"}, "rules"),
        ({"rules": HOUR, "last_flame": "15:10"}, "rules"),
        ({"last_flame": "15:10"}, "rules"),
        ({"rules": [HOUR, {"name": "x"}], "last_flame": "15:10"}, "rules[1].watch_min"),
        ({"rules": [{"watch_min": 30}], "last_flame": "15:10"}, "rules[0].name"),
        ({"rules": [{"name": " ", "watch_min": 30}], "last_flame": "15:10"}, "rules[0].name"),
        ({"rules": [HOUR | {"watch_min": -1}], "last_flame": "15:10"}, "rules[0].watch_min"),
        ({"rules": [HOUR | {"watch_min": True}], "last_flame": "15:10"}, "rules[0].watch_min"),
        ({"rules": [HOUR | {"monitor_min": None}], "last_flame": "15:10"}, "rules[0].monitor_min"),
        ({"rules": [HOUR | {"watch_h": 1}], "last_flame": "15:10"}, "rules[0].watch_h"),
        ({"rules": [HOUR | {"watch_min": 1e300}], "last_flame": "2026-05-04T15:10"}, "last_flame"),
    ],
)
def test_what_cannot_be_taken_names_its_field(inputs, field):
    with pytest.raises(InputError) as refused:
        FIRE_WATCH(inputs)
    assert refused.value.field == field
