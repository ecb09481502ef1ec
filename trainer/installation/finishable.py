"""Whether anybody can finish a job within its day and within the rules, and if not, why not."""

from __future__ import annotations

from trainer.errors import InputError, TrainerError
from trainer.installation.draw_job import why_stuck
from trainer.installation.foreman import Way
from trainer.installation.job import Job
from trainer.installation.laps import missing
from trainer.installation.limits import Limits
from trainer.installation.play import Played, by_the_book, play_by

_WAYS = (Way(hindsight=True), Way(), Way(together=False), Way(from_right=True), Way(batch=1))


def why_unfinishable(job: Job, limits: Limits, clear_mm: int) -> InputError | None:
    """Why no plan was found that finishes without a finding; None when one was.

    The error names the stretch whose laps cannot be laid out, or, of the plan that came nearest,
    the rule it broke and where, or what was not done by the leaving time. ``clear_mm``: whole
    millimetres that laps keep from laps of the field.
    """
    stuck = why_stuck(job, clear_mm)
    if stuck is not None:
        return stuck
    tried = [_played(job, limits, way) for way in _WAYS]
    plans = [played for played in tried if played is not None]
    if any(_wrong(job, played) == (0, 0) for played in plans):
        return None
    if not plans:
        return InputError("walls", len(job.walls), "walls for which a plan is found")
    return _why(job, min(plans, key=lambda played: _wrong(job, played)))


def _played(job: Job, limits: Limits, way: Way) -> Played | None:
    """A foreman's day; None where this way of working finds no next decision."""
    try:
        return play_by(job, limits, by_the_book(job, limits, way))
    except TrainerError:
        return None


def _wrong(job: Job, played: Played) -> tuple[int, int]:
    """What is not done, and what broke a rule."""
    return len(missing(job, played.last)), len(played.last.findings)


def _why(job: Job, played: Played) -> InputError:
    left, findings = missing(job, played.last), played.last.findings
    if left:
        allowed = f"later: of the quickest plan found, {left[0]} and {len(left) - 1} more wait then"
        return InputError("leave_by", _clock(job.leave_by), allowed)
    first = findings[0]
    allowed = f"walls for which a plan is found that keeps {first.subject}"
    return InputError("walls", f"{first.place}, {_clock(first.at)}", allowed)


def _clock(minute: int) -> str:
    return f"{minute // 60:02}:{minute % 60:02}"
