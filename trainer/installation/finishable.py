"""Whether anybody can finish a job within its day and within the rules, and if not, why not."""

from __future__ import annotations

from trainer.errors import InputError
from trainer.installation.draw_job import why_stuck
from trainer.installation.foreman import Way
from trainer.installation.job import Job
from trainer.installation.laps import missing
from trainer.installation.limits import Limits
from trainer.installation.planner import Plan, best
from trainer.roofing.clock import hhmm

_QUICK = (Way(hindsight=True), Way(), Way(together=False), Way(from_right=True))
"""Ways of working that do for most walls; only where they all fail is every way tried."""
_NAMED = 3


def why_unfinishable(job: Job, limits: Limits, clear_mm: int) -> InputError | None:
    """Why no plan was found that finishes without a finding; None when one was.

    The error names the stretch whose laps cannot be laid out, the minute before which nobody can
    be done, or, of the best plan found, what it leaves undone, or the rule it breaks and where.
    ``clear_mm``: whole millimetres that laps keep from laps of the field.
    """
    stuck = why_stuck(job, clear_mm)
    if stuck is not None:
        return stuck
    plan = best(job, limits, hindsight=True, tries=_QUICK)
    if plan.clean:
        return None
    if plan.bound > job.leave_by:
        allowed = f"{hhmm(plan.bound)} or later: nobody can be done before"
        return InputError("leave_by", hhmm(job.leave_by), allowed)
    plan = best(job, limits, hindsight=True)
    return None if plan.clean else _why(job, plan)


def _why(job: Job, plan: Plan) -> InputError:
    left = missing(job, plan.last)
    if left:
        first = ", ".join(left[:_NAMED]) + (", …" if left[_NAMED:] else "")
        allowed = f"later: by then the best plan found has not done {first}"
        return InputError("leave_by", hhmm(job.leave_by), allowed)
    finding = plan.last.findings[0]
    allowed = f"walls for which a plan is found that keeps {finding.subject}"
    return InputError("walls", f"{finding.place}, {hhmm(finding.at)}", allowed)
