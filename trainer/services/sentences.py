"""Short sentences about what somebody has done, for pages and lists."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, tzinfo
from typing import Any
from zoneinfo import ZoneInfo

from trainer.records.database import Session
from trainer.records.queries import people
from trainer.services.speech import plural_speaker, speaker


def days_ago(then: datetime, now: datetime, say: Callable[[str], str], zone: tzinfo = UTC) -> str:
    """ "today", "yesterday", "12 days ago", by the calendar of ``zone``: the site's own."""
    days = (now.astimezone(zone).date() - then.astimezone(zone).date()).days
    if days <= 0:
        return say("today")
    if days == 1:
        return say("yesterday")
    return say("%(days)d days ago") % {"days": days}


def practice_sentence(done: Any, language: str) -> str:
    """How practice in a unit went: ``done`` has scenarios, answers and right, or is None."""
    say, plural = speaker(language), plural_speaker(language)
    if done is None:
        return say("not practised yet")
    practised = plural("%(n)d scenario practised", "%(n)d scenarios practised", done.scenarios)
    counts = {"right": done.right, "answers": done.answers}
    right = say("%(right)d of %(answers)d decisions right") % counts
    return f"{practised % {'n': done.scenarios}}, {right}"


def site_zone(session: Session) -> ZoneInfo:
    """The site's own time zone; UTC before there is a site."""
    site = people.site(session)
    return ZoneInfo(site.time_zone if site else "UTC")
