"""Sealing before the night against a second way to compute it: a crew that seals minute by minute.

Nothing here knows a formula: people fetch, then every one of them seals a bit of edge each minute
until none is open. That all applied roofing is sealed whenever work stops or rain is near is UFGS
07550, 3.4 (read; the text was returned without an address). Paces are made up: no source gives any.
"""

from datetime import datetime, timedelta

import pytest

from trainer.roofing.nightseal import NIGHT_SEAL

EVENING = datetime(2026, 10, 20, 16, 30)

CREWS = [
    # open millimetres, millimetres one person seals in a minute, people, minutes of fetching
    (12_000, 200, 1, 10),
    (12_000, 200, 2, 10),
    (12_000, 200, 3, 0),
    (7_300, 250, 2, 5),
    (1_000, 100, 4, 15),
    (26_000, 125, 2, 20),
    (0, 200, 2, 10),
]


def tight_at(begun, open_mm, mm_per_minute, people, fetching):
    """The minute at whose end nothing is open any more."""
    now = begun
    while fetching > 0 or open_mm > 0:
        now += timedelta(minutes=1)
        if fetching > 0:
            fetching -= 1
        else:
            open_mm -= sum(mm_per_minute for _ in range(people))
    return now


def asked(open_mm, mm_per_minute, people, fetching, **more):
    return NIGHT_SEAL(
        {
            "tight_by": EVENING.isoformat(timespec="minutes"),
            "open_m": open_mm / 1000,
            "seal_min_per_m": 1000 / mm_per_minute,
            "people": people,
            "fetch_min": fetching,
            **more,
        }
    )


@pytest.mark.parametrize("crew", CREWS)
def test_begun_by_then_the_roof_is_tight_in_time_and_a_minute_later_it_is_not(crew):
    start = datetime.fromisoformat(asked(*crew)["start_by"])
    assert tight_at(start, *crew) <= EVENING
    assert tight_at(start + timedelta(minutes=1), *crew) > EVENING


@pytest.mark.parametrize("crew", CREWS)
@pytest.mark.parametrize("per_sheet", [7, 20, 35])
@pytest.mark.parametrize("before", [0, 45, 130, 300])
def test_sheets_laid_one_by_one_leave_time_to_seal_and_one_more_would_not(crew, per_sheet, before):
    """The open edge stays as long as it is, whatever is laid: that is what the calculator takes."""
    now = EVENING - timedelta(minutes=before)
    given = asked(*crew, now=now.isoformat(timespec="minutes"), minutes_per_sheet=per_sheet)
    laid = 0
    while tight_at(now + timedelta(minutes=(laid + 1) * per_sheet), *crew) <= EVENING:
        laid += 1
    assert given["sheets_before"] == laid
