"""The best day of an installation is worked out once, under its own limits, and kept."""

from __future__ import annotations

import pytest
from installed import JOB, key

from trainer.installation.laps import missing
from trainer.services.installations import best_day, replaying, store
from trainer.services.installations.best_day import best_days


@pytest.fixture
def standing(parts, sign_in):
    """An installation that somebody left at once, and how it is looked up again."""
    ana = sign_in("ana")
    opened = store.open_installation(parts, ana, JOB, seed=3)
    store.take(parts, ana, opened, 0, {"do": "leave"}, key(1))
    return lambda: store.own(parts, ana, opened)


def test_its_decisions_lead_to_its_end_without_a_finding(parts, standing) -> None:
    now = standing()
    drawn = replaying.Drawn(now.job, now.limits)
    for day in vars(best_days(parts, now)).values():
        last = replaying.states(drawn, day.decisions)[-1]
        assert (last.ended, day.clean) == (day.end, True)
        assert last.findings == [] and missing(now.job, last) == []
        assert day.bound <= day.end and day.exact == (day.bound == day.end)


def test_it_is_worked_out_once(parts, standing, monkeypatch) -> None:
    first = best_days(parts, standing())
    monkeypatch.setattr(best_day, "best", None)
    assert best_days(parts, standing()) == first


def test_what_another_simulator_found_is_found_anew(parts, standing, monkeypatch) -> None:
    best_days(parts, standing())
    asked = []
    real = best_day.best
    monkeypatch.setattr(best_day, "SIMULATOR_VERSION", 99)
    monkeypatch.setattr(best_day, "best", lambda *a, **k: asked.append(k) or real(*a, **k))
    best_days(parts, standing())
    assert asked == [{"hindsight": False}, {"hindsight": True}]
    assert standing().row.best["simulator_version"] == 99
