"""The best day of a finished installation: worked out once, elsewhere, and kept with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from trainer.installation import SIMULATOR_VERSION
from trainer.installation.debrief import Dearest
from trainer.installation.state import Decision
from trainer.records.queries import installations as queries
from trainer.services.installations import looking_back
from trainer.services.installations.replaying import limits_as_plain
from trainer.services.installations.standing import Standing
from trainer.services.parts import Parts


@dataclass(frozen=True)
class BestDay:
    """A plan as it is kept. ``end`` and ``bound`` are minutes of the day.

    ``clean``: nothing goes wrong in it and nothing is left undone. ``exact``: it ends at the
    bound, which no plan can beat. ``log``: what happens in it, as in a state.
    """

    end: int
    bound: int
    strips: int
    clean: bool
    exact: bool
    decisions: tuple[Decision, ...]
    log: tuple[Mapping[str, Any], ...]


@dataclass(frozen=True)
class LookedBack:
    """The best day with the forecast alone and with hindsight; the decision that cost most.

    ``dearest_at``: the minute at which that decision was taken, 0 where there is none.
    """

    forecast: BestDay
    hindsight: BestDay
    dearest: Dearest | None
    dearest_at: int


@dataclass(frozen=True)
class Progress:
    """What is there by now: ``found``, or None while it is worked out or where it ``failed``."""

    found: LookedBack | None
    failed: bool = False


def look_back(parts: Parts, standing: Standing) -> Progress:
    """What was worked out of an installation that has ended; begins it where nothing was yet.

    Takes no time. What another version of the simulator found is found anew.
    """
    kept = standing.row.best
    if kept is not None and kept["simulator_version"] == SIMULATOR_VERSION:
        return Progress(_read(kept))
    if not standing.ended:
        return Progress(None)
    task = looking_back.Task(
        standing.job.plain, limits_as_plain(standing.limits), standing.decisions
    )
    row_id = standing.row.id
    begun = looking_back.elsewhere.ask(
        standing.row.public_id, task, lambda found: _keep(parts, row_id, found)
    )
    return Progress(None, failed=not begun)


def _keep(parts: Parts, row_id: int, found: dict[str, Any]) -> None:
    with parts.database.writing() as session:
        queries.keep_best(session, row_id, found)


def _read(kept: Mapping[str, Any]) -> LookedBack:
    cost = kept["dearest"]
    return LookedBack(
        forecast=_day(kept["forecast"]),
        hindsight=_day(kept["hindsight"]),
        dearest=Dearest(cost["number"], cost["minutes"]) if cost else None,
        dearest_at=cost["at"] if cost else 0,
    )


def _day(kept: Mapping[str, Any]) -> BestDay:
    lists = {name: tuple(kept[name]) for name in ("decisions", "log")}
    return BestDay(**{**kept, **lists})
