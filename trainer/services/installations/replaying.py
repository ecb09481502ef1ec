"""Works an installation out again from its job, its limits and its decisions.

States are kept by the digest under which they are stored, so that a page after a decision needs no
replay; a state that is not kept is worked out from the last one before it that is.
"""

from __future__ import annotations

import hashlib
from collections import OrderedDict
from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass
from threading import Lock
from typing import Any, Generic, TypeVar

from trainer.errors import TrainerError
from trainer.installation.job import Job
from trainer.installation.laps import missing
from trainer.installation.limits import Limit, Limits
from trainer.installation.read_job import read_job
from trainer.installation.run import decide
from trainer.installation.state import Decision, State, as_text, begin
from trainer.services.refusals import Conflict

_KEPT = 256
_Thing = TypeVar("_Thing")


class _Kept(Generic[_Thing]):
    """The things asked for last, by name; the one not asked for longest goes first."""

    def __init__(self) -> None:
        self._things: OrderedDict[Hashable, _Thing] = OrderedDict()
        self._lock = Lock()

    def get(self, name: Hashable) -> _Thing | None:
        with self._lock:
            if name in self._things:
                self._things.move_to_end(name)
            return self._things.get(name)

    def keep(self, name: Hashable, thing: _Thing) -> None:
        with self._lock:
            self._things[name] = thing
            self._things.move_to_end(name)
            if len(self._things) > _KEPT:
                self._things.popitem(last=False)

    def clear(self) -> None:
        with self._lock:
            self._things.clear()


@dataclass(frozen=True)
class Drawn:
    """The job of an installation as it was drawn, and the limits as they were in force."""

    job: Job
    limits: Limits


_states: _Kept[State] = _Kept()
_drawn: _Kept[Drawn] = _Kept()


def digest(state: State) -> str:
    """SHA-256 of the state's canonical text."""
    return hashlib.sha256(as_text(state).encode()).hexdigest()


def limits_as_plain(limits: Limits) -> dict[str, Any]:
    """Limits as they are stored: by subject, value and severity."""
    return {subject: [limit.value, limit.severity] for subject, limit in limits.items()}


def limits_from_plain(plain: Mapping[str, Any]) -> dict[str, Limit]:
    return {subject: Limit(subject, *both) for subject, both in plain.items()}


def drawn_from(job_text: Mapping[str, Any], limits: Mapping[str, Any]) -> Drawn:
    """What was stored when the installation was opened. Raises InputError if it is spoilt."""
    return Drawn(read_job(job_text), limits_from_plain(limits))


def kept_drawn(installation: str) -> Drawn | None:
    return _drawn.get(installation)


def keep_drawn(installation: str, drawn: Drawn) -> None:
    _drawn.keep(installation, drawn)


def keep_state(installation: str, state_digest: str, state: State) -> None:
    """Remember a state that is stored; nobody changes it any more."""
    _states.keep((installation, state_digest), state)


def forget_all() -> None:
    """Forget every kept job and state, as a new process would."""
    _states.clear()
    _drawn.clear()


def state_after(installation: str, drawn: Drawn, steps: Sequence[Any]) -> State:
    """The state after ``steps``: rows of decisions that stand, with ``decision``, ``state_digest``.

    Raises Conflict when the program of today cannot take a decision that was taken before.
    """
    after, state = _newest_kept(installation, drawn.job, steps)
    for step in steps[after:]:
        try:
            state = decide(drawn.job, drawn.limits, state, step.decision)
        except TrainerError as problem:
            raise _not_again(step.number, problem) from problem
    if steps[after:]:
        keep_state(installation, steps[-1].state_digest, state)
    return state


def _newest_kept(installation: str, job: Job, steps: Sequence[Any]) -> tuple[int, State]:
    for after in range(len(steps), 0, -1):
        kept = _states.get((installation, steps[after - 1].state_digest))
        if kept is not None:
            return after, kept
    return 0, begin(job)


def _not_again(number: int, problem: TrainerError) -> Conflict:
    return Conflict(
        f"This was begun with another version of the program: decision {number} cannot be worked"
        f" out again ({problem.message}).",
        "Begin the job anew.",
    )


def states(drawn: Drawn, decisions: Sequence[Decision]) -> list[State]:
    """The state before the first decision and after each. Raises what ``decide`` raises."""
    found = [begin(drawn.job)]
    for decision in decisions:
        found.append(decide(drawn.job, drawn.limits, found[-1], decision))
    return found


def outcome_of(job: Job, state: State) -> dict[str, Any]:
    """What came out, as it is stored: when and how it ended, findings by severity, what is missing.

    ``ended`` is a minute of the day, None while it goes on.
    """
    severities = [finding.severity for finding in state.findings]
    return {
        "ended": state.ended,
        "how": state.end,
        "findings": {kind: severities.count(kind) for kind in ("critical", "quality")},
        "missing": missing(job, state),
    }
