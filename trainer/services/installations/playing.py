"""Installations without a person: jobs listed, shown and played, stored ones replayed.

For the terminal and for authors. Without a database the rule book's own default is in force.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from trainer.installation.day import Hour
from trainer.installation.job import Job, Wall
from trainer.installation.laps import missing
from trainer.installation.limits import limits_of
from trainer.installation.planner import best
from trainer.installation.play import BY, play
from trainer.installation.state import Finding, State
from trainer.pack.jobs import clear_mm_of
from trainer.records.queries import installations as queries
from trainer.roofing.clock import hhmm
from trainer.services.installations.rechecking import differences
from trainer.services.installations.replaying import drawn_from, states
from trainer.services.parts import Parts
from trainer.services.refusals import NotFound
from trainer.services.scenarios import Library, library

__all__ = ["BY", "in_text", "listed", "played", "played_in_text", "replayed", "shown"]


def listed() -> list[dict[str, Any]]:
    """Every job of the pack: id, version, level, title, brief."""
    return [
        {
            "id": spec.id,
            "version": spec.version,
            "level": spec.level,
            "title": spec.title_in("en"),
            "brief": spec.brief_in("en"),
        }
        for spec in library().pack.jobs.values()
    ]


def shown(job_id: str, seed: int) -> dict[str, Any]:
    """A drawn job, all of it, as it is stored: also what nobody knows yet. Raises InputError."""
    return {"seed": seed, "job": dict(_drawn(library(), job_id, seed).plain)}


def in_text(job_id: str, seed: int) -> str:
    """What the crew is told of a drawn job in the morning. Raises InputError."""
    job = _drawn(library(), job_id, seed)
    head = f"{job.title}  ({job.id} v{job.version}, level {job.level}, seed {seed})"
    return "\n".join([head, "", job.brief, "", *_told(job)])


def played(job_id: str, seed: int, by: str) -> dict[str, Any]:
    """A job played through by one of BY, beside the best end that was possible.

    ``best_end``: of the best plan found without findings, with hindsight; None where none was.
    ``bound``: no plan whatever ends before it; ``exact``: the best plan ends at it. Raises
    InputError.
    """
    shelf = library()
    job, limits = _drawn(shelf, job_id, seed), limits_of(shelf.rules)
    done = play(job, limits, by, seed)
    plan = best(job, limits, hindsight=True)
    return {
        "job": job.id,
        "version": job.version,
        "seed": seed,
        "by": by,
        "decisions": list(done.decisions),
        **_came_out(job, done.last),
        "best_end": _clock(plan.end) if plan.clean else None,
        "bound": _clock(plan.bound),
        "exact": plan.exact,
    }


def replayed(parts: Parts, public_id: str) -> dict[str, Any]:
    """A stored installation worked out again, and what comes out differently.

    Raises NotFound, InputError for one whose job cannot be read, and what ``decide`` raises.
    """
    with parts.database.reading() as session:
        row = queries.installation(session, public_id)
        if row is None:
            raise NotFound("installation")
        steps = queries.decisions(session.connection(), row.id)
    drawn = drawn_from(row.job_text, row.limits)
    decisions = [step.decision for step in steps if step.taken_back_at is None]
    return {
        "installation": public_id,
        "job": row.job,
        "version": row.job_version,
        "seed": row.seed,
        "purpose": row.purpose,
        "decisions": decisions,
        "taken_back": sum(step.taken_back_at is not None for step in steps),
        **_came_out(drawn.job, states(drawn, decisions)[-1]),
        "differences": differences(row, steps),
    }


def played_in_text(data: dict[str, Any]) -> str:
    """What came out, for reading at the terminal."""
    head = f"{data['job']} v{data['version']}, seed {data['seed']}"
    lines = [f"{head}: {len(data['decisions'])} decisions, {_end(data)}"]
    if "best_end" in data:
        found = data["best_end"] or "not found"
        lines.append(f"best end {found}, no plan ends before {data['bound']}")
    lines += [f"not done: {', '.join(data['missing'])}"] if data["missing"] else []
    lines += [_finding_in_text(finding) for finding in data["findings"]] or ["no findings"]
    return "\n".join([*lines, *data.get("differences", ())])


def _end(data: dict[str, Any]) -> str:
    if not data["end"]:
        return "goes on"
    return f"{'finished' if data['finished'] else 'not finished'} at {data['end']}"


def _finding_in_text(finding: dict[str, Any]) -> str:
    until = f" until {finding['until']}" if finding["until"] else ""
    because = f"because of decision {finding['cause']}"
    rule = f"{finding['severity']}: {finding['rule']}, {finding['place']}"
    return f"{finding['at']}{until}  {rule}, {because}"


def _drawn(shelf: Library, job_id: str, seed: int) -> Job:
    return shelf.pack.job(job_id).drawn(seed, clear_mm_of(shelf.rules), "en")


def _came_out(job: Job, last: State) -> dict[str, Any]:
    left = missing(job, last)
    return {
        "findings": [_finding(finding) for finding in last.findings],
        "end": _clock(last.ended),
        "finished": last.ended is not None and not left,
        "missing": left,
    }


def _finding(finding: Finding) -> dict[str, Any]:
    """``rule``: the subject of the rule, as in the rule book; ``until`` None while it stands."""
    return {
        "rule": finding.subject,
        "severity": finding.severity,
        "at": _clock(finding.at),
        "cause": finding.cause,
        "place": finding.place,
        "until": _clock(finding.until),
    }


def _told(job: Job) -> Iterator[str]:
    yield f"from {_clock(job.start)} to {_clock(job.leave_by)}"
    for i, wall in enumerate(job.walls):
        yield _wall(wall)
        if i < len(job.corners):
            yield f"  {job.corners[i]} corner to wall {job.walls[i + 1].id}"
    yield "crew: " + ", ".join(_hand(hand.name, hand.torch, hand.watch) for hand in job.crew)
    yield f"{len(job.rolls)} rolls, {job.gas.minutes} min of gas and {job.gas.spare} spare"
    yield from _forecast(job)


def _wall(wall: Wall) -> str:
    laps = ", ".join(f"{low}–{high}" for low, high in wall.field_laps) or "none"
    cant = f", cant {wall.cant_mm} mm" if wall.cant_mm else ""
    size = f"{wall.length_mm} mm long, {wall.height_mm} mm high{cant}"
    return f"wall {wall.id}: {size}; laps of the field at {laps} mm"


def _hand(name: str, torch: bool, watch: bool) -> str:
    may = [word for word, trained in (("torch", torch), ("watch", watch)) if trained]
    return f"{name} ({', '.join(may)})" if may else name


def _forecast(job: Job) -> Iterator[str]:
    said = job.weather.forecast
    yield "forecast: " + "; ".join(_air(said.air))
    if said.rain_from is not None:
        until = f" to {_clock(said.rain_to)}" if said.rain_to is not None else ""
        yield f"  a shower from {_clock(said.rain_from)}{until}, {said.rain_pct} %"
    for low, high in said.gusts:
        yield f"  gusts from {_clock(low)} to {_clock(high)}"


def _air(hours: Sequence[Hour]) -> Iterable[str]:
    return (f"{_clock(h.at)} {h.air_c} °C {h.rh_pct} % {h.wind_kmh} km/h" for h in hours)


def _clock(minute: int | None) -> str | None:
    return None if minute is None else hhmm(minute)
