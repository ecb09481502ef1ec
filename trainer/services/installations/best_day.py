"""The best day of an installation: worked out once, when somebody first asks, and then kept."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from trainer.installation import SIMULATOR_VERSION
from trainer.installation.planner import Plan, best
from trainer.installation.state import Decision
from trainer.records.queries import installations as queries
from trainer.services.installations.store import Standing
from trainer.services.parts import Parts

SIGHTS = ("forecast", "hindsight")


@dataclass(frozen=True)
class BestDay:
    """A plan as it is kept. ``end`` and ``bound`` are minutes of the day.

    ``clean``: nothing goes wrong in it and nothing is left undone. ``exact``: it ends at the
    bound, which no plan can beat.
    """

    end: int
    bound: int
    strips: int
    clean: bool
    exact: bool
    decisions: tuple[Decision, ...]


@dataclass(frozen=True)
class BestDays:
    """The best day with the forecast alone, and with hindsight."""

    forecast: BestDay
    hindsight: BestDay


def best_days(parts: Parts, standing: Standing) -> BestDays:
    """The best days of the standing's job under its own limits.

    The first time takes seconds. What another version of the simulator found is found anew.
    """
    kept = standing.row.best
    if kept is None or kept["simulator_version"] != SIMULATOR_VERSION:
        kept = {"simulator_version": SIMULATOR_VERSION, **{s: _found(standing, s) for s in SIGHTS}}
        with parts.database.writing() as session:
            queries.keep_best(session, standing.row.id, kept)
    return BestDays(*(_read(kept[sight]) for sight in SIGHTS))


def _found(standing: Standing, sight: str) -> dict[str, Any]:
    return _plain(best(standing.job, standing.limits, hindsight=sight == "hindsight"))


def _plain(plan: Plan) -> dict[str, Any]:
    return {
        "end": plan.end,
        "bound": plan.bound,
        "strips": plan.strips,
        "clean": plan.clean,
        "exact": plan.exact,
        "decisions": list(plan.decisions),
    }


def _read(kept: Mapping[str, Any]) -> BestDay:
    return BestDay(**{**kept, "decisions": tuple(kept["decisions"])})
