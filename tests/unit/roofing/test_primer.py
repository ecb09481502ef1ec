"""States of a coat of primer at and beside every limit, in both forms of time."""

import pytest

from trainer.errors import InputError
from trainer.roofing.primer import PRIMER, REMEDIES

COAT = {
    "applied_at": "07:10",
    "dry_min": 45,
    "plan_min": 120,
    "latest_min": 180,
    "touch": "dry",
    "touch_required": "dry",
}


RAIN = {"at": "08:00", "kind": "rain"}


def ask(now, *events, **changes):
    given = {"at": [{"at": at, "kind": kind} for at, kind in events]}
    return PRIMER(COAT | {"now": now, "events": given["at"]} | changes)


@pytest.mark.parametrize(
    ("now", "state", "left"),
    [
        ("07:10", "drying", 180),
        ("07:54", "drying", 136),
        ("07:55", "ready", 135),
        ("09:10", "ready", 60),
        ("09:11", "late", 59),
        ("10:10", "late", 0),
        ("10:11", "expired", -1),
        ("23:59", "expired", -829),
    ],
)
def test_age_decides_and_a_limit_met_exactly_is_met(now, state, left):
    answer = ask(now)
    assert (answer["state"], answer["minutes_left"]) == (state, left)
    assert (answer["ready_at"], answer["plan_at"], answer["close_at"]) == (
        "07:55",
        "09:10",
        "10:10",
    )
    assert answer["remedy"] == ("prime again" if state == "expired" else None)


@pytest.mark.parametrize(
    ("touch", "required", "state"),
    [
        ("wet", "dry", "drying"), ("tacky", "dry", "drying"), ("dry", "dry", "ready"),
        ("wet", "tacky", "drying"), ("tacky", "tacky", "ready"), ("dry", "tacky", "ready"),
    ],
)  # fmt: skip
def test_touch_counts_beside_the_clock(touch, required, state):
    assert ask("08:30", touch=touch, touch_required=required)["state"] == state


def test_primer_that_never_dried_is_drying_rather_than_late_and_expired_at_last():
    assert ask("09:30", touch="wet")["state"] == "drying"
    assert ask("10:11", touch="wet")["state"] == "expired"


@pytest.mark.parametrize("kind", REMEDIES)
def test_every_event_spoils_with_its_own_remedy(kind):
    answer = ask("08:30", ("08:00", kind))
    assert (answer["state"], answer["remedy"]) == ("spoiled", REMEDIES[kind])
    assert answer["minutes_left"] == 100


@pytest.mark.parametrize(
    ("kinds", "remedy"),
    [
        (("footprints", "dust", "dew", "rain", "frost"), "thaw and dry, then prime again"),
        (("footprints", "dust", "dew"), "dry, then prime again"),
        (("footprints", "dust"), "brush clean, then prime again"),
    ],
)
def test_worst_event_rules_whatever_the_order(kinds, remedy):
    for order in (kinds, kinds[::-1]):
        assert ask("08:30", *(("08:00", kind) for kind in order))["remedy"] == remedy


def test_event_counts_from_application_to_now_both_included():
    assert ask("08:30", ("07:10", "rain"))["state"] == "spoiled"
    assert ask("08:30", ("08:30", "rain"))["state"] == "spoiled"
    assert ask("08:30", ("08:31", "rain"))["state"] == "ready"
    later = ask("08:30", ("08:31", "frost"), ("08:00", "dust"))
    assert later["remedy"] == "brush clean, then prime again"


def test_spoiled_comes_before_expired():
    answer = ask("12:00", ("11:00", "rain"))
    assert (answer["state"], answer["remedy"]) == ("spoiled", "dry, then prime again")
    assert answer["minutes_left"] == -110


def test_events_may_be_left_out():
    assert PRIMER(COAT | {"now": "08:30"})["state"] == "ready"


def test_fractions_round_to_the_safe_side_but_decide_unrounded():
    answer = ask("07:55", dry_min=45.25, plan_min=120.75, latest_min=180.5)
    assert (answer["ready_at"], answer["plan_at"], answer["close_at"]) == (
        "07:56",
        "09:10",
        "10:10",
    )
    assert (answer["state"], answer["minutes_left"]) == ("drying", 135.5)
    assert ask("10:10", latest_min=179.9)["state"] == "expired"


def test_dates_carry_over_midnight():
    answer = ask("2026-05-05T00:30", applied_at="2026-05-04T22:00")
    assert (answer["state"], answer["minutes_left"]) == ("late", 30)
    assert answer["close_at"] == "2026-05-05T01:00"


def test_all_limits_may_be_zero():
    answer = ask("07:10", dry_min=0, plan_min=0, latest_min=0)
    assert (answer["state"], answer["close_at"]) == ("ready", "07:10")


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"now": "07:09"}, "now"),
        ({"now": "2026-05-04T08:00"}, "now"),
        ({"now": "24:00"}, "now"),
        ({"now": "2026-05-04T07:09", "applied_at": "2026-05-04T07:10"}, "now"),
        ({"events": [{"at": "07:09", "kind": "rain"}]}, "events[0].at"),
        ({"events": [RAIN, {"at": "2026-05-04T08:00", "kind": "dew"}]}, "events[1].at"),
        ({"events": [{"at": "08:00", "kind": "hail"}]}, "events[0].kind"),
        ({"events": [{"at": "08:00"}]}, "events[0].kind"),
        ({"events": [{"at": "08:00", "kind": "rain", "mm": 3}]}, "events[0].mm"),
        ({"events": ["rain"]}, "events[0]"),
        ({"events": {"at": "08:00", "kind": "rain"}}, "events"),
        ({"events": None}, "events"),
        ({"dry_min": 121}, "plan_min"),
        ({"plan_min": 181}, "latest_min"),
        ({"dry_min": -1}, "dry_min"),
        ({"touch": "sticky"}, "touch"),
        ({"touch_required": "wet"}, "touch_required"),
        ({"applied_at": "21:30", "now": "22:00"}, "latest_min"),
        ({"latest_min": 10**300}, "latest_min"),
        ({"colour": "black"}, "colour"),
    ],
)  # fmt: skip
def test_what_cannot_be_taken_names_its_field(changes, field):
    with pytest.raises(InputError) as refused:
        PRIMER(COAT | {"now": "08:30"} | changes)
    assert refused.value.field == field


def test_result_past_midnight_advises_dates_and_midnight_itself_is_a_result():
    assert PRIMER(COAT | {"applied_at": "21:00", "now": "22:00"})["close_at"] == "24:00"
    with pytest.raises(InputError, match=r"^latest_min: got 180; .*close_at.*YYYY-MM-DDTHH:MM"):
        PRIMER(COAT | {"applied_at": "21:01", "now": "22:00"})
