"""Days are counted by the site's calendar, not by UTC's."""

from __future__ import annotations

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from trainer.services.sentences import days_ago


@pytest.mark.parametrize(
    ("then", "now", "zone", "said"),
    [
        # 23:00 on Sunday and 08:00 on Monday in Toronto (UTC−4): both Monday in UTC
        ("2026-05-04T03:00", "2026-05-04T12:00", "America/Toronto", "yesterday"),
        # 15:00 and 21:00 on Monday in Toronto: Monday and Tuesday in UTC
        ("2026-05-04T19:00", "2026-05-05T01:00", "America/Toronto", "today"),
        ("2026-05-04T19:00", "2026-05-05T01:00", "UTC", "yesterday"),
        # across the change to summer time in Toronto, 8 March 2026
        ("2026-03-07T12:00", "2026-03-09T12:00", "America/Toronto", "2 days ago"),
        ("2026-05-04T12:00", "2026-05-04T11:00", "UTC", "today"),
    ],
)
def test_a_day_begins_at_the_sites_midnight(then, now, zone, said):
    moments = [datetime.fromisoformat(each).replace(tzinfo=UTC) for each in (then, now)]
    assert days_ago(*moments, lambda text: text, ZoneInfo(zone)) == said
