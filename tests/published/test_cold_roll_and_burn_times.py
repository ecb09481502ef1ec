"""Hours in the warm and minutes under water, against the calendar of the standard library.

The limits are those of the documents named beside them. How each was read: "read" in a copy of the
page, "secondary" in a page that restates it.
"""

from datetime import datetime, timedelta

import pytest

from trainer.pack.rulebook import load_rulebook
from trainer.roofing.burns import BURN_COOLING
from trainer.roofing.coldroll import COLD_ROLL

BOOK = load_rulebook()

# ARMA, cold-weather recommendations for modified bitumen: at least 24 h in a dry heated space where
# sheets are laid below 10 °C (50 °F); https://www.asphaltroofing.org/ (read)
ARMA = {"storage_h": 24, "cold_from_c": 10}

WALLS = [
    # NF DTU 43.4 P1-1 (October 2008), 9.3.1: +2 °C, wood-based decks (secondary)
    ("substrate-temperature", 2, 1.5, ["wall cold"]),
    ("substrate-temperature", 2, 2.5, []),
    # Règles professionnelles, January 2025, 6.2.3.2.1.2: above 5 °C, adhesive side laps (read)
    ("adhesive-lap-temperature", 5, 4.5, ["wall cold"]),
    ("adhesive-lap-temperature", 5, 5.5, []),
]

BROUGHT_IN = [
    "2026-11-16T16:00",
    "2026-11-30T07:30",  # into the next month
    "2026-12-31T23:59",  # into the next year
    "2028-02-28T12:00",  # into a leap day
    "2027-02-28T12:00",  # into no leap day
]


def asked(since, now, **more):
    return COLD_ROLL(
        {"inside_since": since, "now": now, "stored_c": 3, "surface_c": 8, "surface_least_c": 5}
        | ARMA
        | more
    )


@pytest.mark.parametrize("since", BROUGHT_IN)
def test_a_roll_from_the_cold_is_ready_a_day_after_it_came_in(since):
    """Twenty-four times an hour on the calendar, to the minute."""
    moment = datetime.fromisoformat(since)
    for _ in range(24):
        moment += timedelta(hours=1)
    ready, early = moment, moment - timedelta(minutes=1)
    assert asked(since, early.isoformat(timespec="minutes")) == {
        "ready": False, "ready_at": ready.isoformat(timespec="minutes"), "grounds": ["roll cold"]
    }  # fmt: skip
    assert asked(since, ready.isoformat(timespec="minutes"))["ready"]


def test_arma_asks_for_it_below_ten_degrees_which_are_fifty_fahrenheit():
    assert ARMA["cold_from_c"] == (50 - 32) * 5 / 9
    assert BOOK.in_force().value("cold-storage") == ARMA["storage_h"] * 60
    assert BOOK.in_force().value("cold-storage-from") == ARMA["cold_from_c"]
    just_in = ("2026-11-16T16:00", "2026-11-16T16:00")
    grounds = [asked(*just_in, stored_c=stored)["grounds"] for stored in (9.9, 10, 10.1)]
    assert grounds == [["roll cold"], [], []]


@pytest.mark.parametrize(("subject", "least_c", "surface_c", "grounds"), WALLS)
def test_a_wall_too_cold_under_each_document(subject, least_c, surface_c, grounds):
    assert BOOK.in_force().value(subject) == least_c
    answer = asked(
        "2026-11-16T16:00", "2026-11-18T07:00", surface_c=surface_c, surface_least_c=least_c
    )
    assert answer["grounds"] == grounds


COOLING = [
    # http://www.vicburns.org.au/first-aid/bitumen/: 20 min of cool running water (read)
    ("burn-cooling-vicburns", 20, "11:02"),
    # Eurobitume burns card, updated: at least 20 min, tepid water first (read)
    ("burn-cooling-eurobitume", 20, "11:02"),
    # Cornell LRP citing the Asphalt Institute, https://www.clrp.cornell.edu/q-a/181-burns.html
    # (read)
    ("burn-cooling-us-roads", 20, "11:02"),
    # National Chemical Emergency Centre, in Chemistry World: about 15 min, out of date (read)
    ("burn-cooling-ncec", 15, "10:57"),
]


@pytest.mark.parametrize(("rule", "least", "until"), COOLING)
def test_a_burn_cooled_since_10_42_under_each_source(rule, least, until):
    assert BOOK.rule(rule).value == least
    answer = BURN_COOLING({"cooling_since": "10:42", "now": "10:50", "cool_min": least})
    assert (answer["cool_until"], answer["enough"]) == (until, False)
    assert BURN_COOLING({"cooling_since": "10:42", "now": until, "cool_min": least})["enough"]


@pytest.mark.parametrize("since", ["2026-05-04T10:42", "2026-12-31T23:50", "2028-02-28T23:45"])
def test_cooling_counted_minute_by_minute(since):
    now, cooled = datetime.fromisoformat(since), 0
    while True:
        said = BURN_COOLING(
            {"cooling_since": since, "now": now.isoformat(timespec="minutes"), "cool_min": 20}
        )
        assert said["minutes_left"] == 20 - cooled
        if said["enough"]:
            break
        now, cooled = now + timedelta(minutes=1), cooled + 1
    assert cooled == 20
    assert said["cool_until"] == now.isoformat(timespec="minutes")
