"""The state of an installation: what is true now, and what anybody knows of it.

A state is changed only by ``run.decide``, on a copy. Every part carries ``by``, the number of the
decision that made it so, which is how a finding finds its cause.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from copy import copy
from dataclasses import dataclass, field, fields
from operator import attrgetter
from typing import Any, TypeVar

from trainer.installation.job import Job
from trainer.installation.place import Spot

Decision = dict[str, Any]
"""``do``: the action; ``who``: who does it; and the action's own fields."""


@dataclass(slots=True)
class Person:
    """One of the crew. ``doing`` ends at ``until``; a watch has no end of its own."""

    id: str
    doing: Decision | None = None
    since: int = 0
    until: int | None = None
    queue: list[Decision] = field(default_factory=list)
    watching: bool = False
    ate: bool = False
    by: int = 0

    @property
    def free(self) -> bool:
        """Whether a new action can be given: idle, or on watch, which ends with it."""
        return self.doing is None


@dataclass(slots=True)
class Coat:
    """Primer from ``from_mm`` to ``to_mm``, begun at the left end.

    ``start_ms`` is the moment in thousandths of a minute, so that it stays whole at every point;
    ``per_m`` minutes a metre, ``dry_min`` minutes of drying. ``spoilt`` is what fell on it.
    """

    id: int
    wall: str
    from_mm: int
    to_mm: int
    start_ms: int
    per_m: int
    dry_min: int
    spread_k: float
    rh_pct: int
    damp_mm: int
    rain: bool
    by: int
    spoilt: str = ""
    spoilt_at: int = 0

    def primed_ms(self, at_mm: int) -> int:
        """When a point was primed, in thousandths of a minute."""
        return self.start_ms + self.per_m * (at_mm - self.from_mm)


@dataclass(slots=True)
class Strip:
    """A strip cut from a roll; it lies and relaxes."""

    roll: str
    cold: bool
    cut_at: int
    by: int
    melted: bool = False
    """Whether the weldable film was melted off where the next sheet will lie."""


@dataclass(slots=True)
class Laying:
    """How a sheet went down, as it was at that moment: what the rule book looks at."""

    bare_mm: int = 0
    """Not primed."""
    undried_min: int = 0
    """The drying that was missing where it was youngest, in minutes; 0 when dry."""
    age_min: float = 0.0
    """Age of its oldest primer when it was down."""
    spoilt: str = ""
    spread_k: float = 99.0
    surface_c: int = 0
    air_c: int = 0
    cold: bool = False
    relaxed_min: int = 0
    rain: bool = False
    since_rain_min: int | None = None


@dataclass(slots=True)
class Sheet:
    """A sheet on the wall; ``wall2`` is the second wall of a corner sheet."""

    id: str
    wall: str
    from_mm: int
    to_mm: int
    begun: int
    laid_at: int
    by: int
    laying: Laying
    melted: bool
    wrinkled: bool
    field_lap_mm: int
    line_by: int = 0
    """The decision that snapped the line it came down to; 0 where it was laid by eye."""
    second: tuple[str, int, int] | None = None
    rolled_at: int | None = None

    def on(self, wall: str) -> tuple[int, int] | None:
        """What it covers of a wall, if anything."""
        if wall == self.wall:
            return self.from_mm, self.to_mm
        if self.second and self.second[0] == wall:
            return self.second[1], self.second[2]
        return None


@dataclass(slots=True)
class Corner:
    """A corner: what has been done to it besides its sheets."""

    trimmed: int | None = None
    trimmed_before: bool = False
    """Trimmed before the second sheet came over it."""
    filled: int | None = None
    gusset: int | None = None
    reach_mm: int = 0
    by: int = 0


@dataclass(slots=True)
class Flame:
    """A lit torch or melter, where it is and who holds it."""

    tool: str
    spot: Spot
    who: str
    lit_at: int
    by: int


@dataclass(slots=True)
class Finding:
    """One thing that was wrong: which rule, where, since when, because of which decision."""

    subject: str
    place: str
    severity: str
    at: int
    cause: int
    facts: dict[str, Any]
    until: int | None = None


@dataclass(slots=True)
class State:
    """Everything. ``n`` decisions were taken; ``log`` is what happened, in order."""

    now: int
    n: int = 0
    people: dict[str, Person] = field(default_factory=dict)
    coats: list[Coat] = field(default_factory=list)
    coats_made: int = 0
    layouts: dict[str, dict[str, Any]] = field(default_factory=dict)
    lines: dict[str, dict[str, int]] = field(default_factory=dict)
    strips: list[Strip] = field(default_factory=list)
    strips_cut: int = 0
    cut_from: dict[str, int] = field(default_factory=dict)
    sheets: dict[str, Sheet] = field(default_factory=dict)
    corners: list[Corner] = field(default_factory=list)
    welds: dict[str, int] = field(default_factory=dict)
    flames: dict[str, Flame] = field(default_factory=dict)
    gas_left: int = 0
    gas_spare: int = 0
    gas: Spot | None = None
    extinguishers: dict[str, Spot] = field(default_factory=dict)
    moved: dict[str, int] = field(default_factory=dict)
    """The decisions that last moved the cylinder ("gas") and extinguishers, by id."""
    cans: int | None = None
    """The decision that opened the primer's cans; None while they are closed."""
    cans_at: Spot | None = None
    film: int | None = None
    """The decision that last left release film lying about; None when it is bagged."""
    permit: str = "none"
    permit_by: int = 0
    last_flame: int | None = None
    flame_by: int = 0
    looked_round: int | None = None
    covered: list[str] = field(default_factory=list)
    cleared: list[str] = field(default_factory=list)
    dried: dict[str, list[list[int]]] = field(default_factory=dict)
    rails: list[str] = field(default_factory=list)
    sealed: dict[str, int] = field(default_factory=dict)
    rained_at: int | None = None
    rain_over: int | None = None
    warm_rolls: bool = False
    smoke_at: int | None = None
    smoke_wall: str = ""
    smoke_answered: bool = True
    smoulder_at: int | None = None
    smoulder_wall: str = ""
    redone_mm: int = 0
    primed_mm: int = 0
    known: dict[str, Any] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)
    standing: dict[str, int] = field(default_factory=dict)
    log: list[dict[str, Any]] = field(default_factory=list)
    due: int = 0
    """How many of the job's own happenings are over."""
    ended: int | None = None
    end: str = ""


def begin(job: Job) -> State:
    """The state before the first decision."""
    return State(
        now=job.start,
        people={hand.id: Person(hand.id) for hand in job.crew},
        corners=[Corner() for _ in job.corners],
        gas_left=job.gas.minutes,
        gas_spare=job.gas.spare,
        gas=job.gas.spot,
        extinguishers=dict(job.extinguishers),
    )


_T = TypeVar("_T")


def _copier(kind: type[_T]) -> Callable[[_T], _T]:
    """A quick copy of one kind of part: states are copied at every decision."""
    every = attrgetter(*(part.name for part in fields(kind)))  # type: ignore[arg-type]
    return lambda part: kind(*every(part))


_coat, _strip, _sheet, _corner = _copier(Coat), _copier(Strip), _copier(Sheet), _copier(Corner)
_flame, _finding, _person = _copier(Flame), _copier(Finding), _copier(Person)
_DICTS = ("layouts", "lines", "cut_from", "welds", "extinguishers", "moved", "known", "standing",
          "sealed")  # fmt: skip
_LISTS = ("covered", "cleared", "rails", "log")


def copied(state: State) -> State:
    """A state that can be changed without touching the first."""
    new = copy(state)
    for name in _DICTS:
        setattr(new, name, dict(getattr(state, name)))
    for name in _LISTS:
        setattr(new, name, list(getattr(state, name)))
    new.people = {k: _person(p) for k, p in state.people.items()}
    for person in new.people.values():
        person.queue = person.queue[:]
    new.coats = [_coat(c) for c in state.coats]
    new.strips = [_strip(s) for s in state.strips]
    new.sheets = {k: _sheet(s) for k, s in state.sheets.items()}
    new.corners = [_corner(c) for c in state.corners]
    new.flames = {k: _flame(f) for k, f in state.flames.items()}
    new.findings = [_finding(f) for f in state.findings]
    new.dried = {k: [b[:] for b in v] for k, v in state.dried.items()}
    return new


def plain(value: Any) -> Any:
    """A state as plain values, in one order: what is stored, compared and shown by ``--json``."""
    if hasattr(value, "__dataclass_fields__"):
        return {name: plain(getattr(value, name)) for name in value.__dataclass_fields__}
    if isinstance(value, dict):
        return {str(key): plain(part) for key, part in value.items()}
    if isinstance(value, list | tuple):
        return [plain(part) for part in value]
    return value


def as_text(state: State) -> str:
    """The state as canonical JSON: equal states, equal bytes."""
    return json.dumps(plain(state), sort_keys=True, separators=(",", ":"), ensure_ascii=False)
