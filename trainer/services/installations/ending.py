"""The end of an installation: how the day stood when everybody was off the roof."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.installation.air import bare_mm
from trainer.installation.job import Job
from trainer.installation.laps import missing
from trainer.installation.state import State
from trainer.services.installations import words_log
from trainer.services.installations.figures import plan_figure, wall_figure
from trainer.services.installations.store import Standing
from trainer.services.installations.words import Voice, voice_of
from trainer.services.installations.words_decisions import decided
from trainer.services.installations.words_findings import Found, Telling, by_rule, line
from trainer.services.pages import Row
from trainer.services.person import SignedIn


@dataclass(frozen=True)
class EndPage:
    """What came out, worst first. ``lines`` are short sentences with numbers."""

    id: str
    job: str
    title: str
    purpose: str
    ended: str
    clean: bool
    headline: str
    unfinished: tuple[str, ...]
    critical: tuple[Found, ...]
    quality: tuple[Found, ...]
    lines: tuple[str, ...]
    figures: tuple[str, ...]
    decisions: tuple[Row, ...]


def end_page(person: SignedIn, standing: Standing) -> EndPage:
    """How an installation ended, for whose it is."""
    voice, job, state = voice_of(person), standing.job, standing.state
    telling = Telling(voice, job, state, standing.shelf.rules)
    told = [line(telling, finding, standing.decisions) for finding in state.findings]
    left = words_log.unfinished(voice, job, state, missing(job, state))
    found = by_rule(told)
    critical = tuple(group for group in found if group.critical)
    return EndPage(
        id=standing.row.public_id,
        job=standing.row.job,
        title=job.title,
        purpose=standing.purpose,
        ended=voice.clock(state.ended or state.now),
        clean=not told and not left,
        headline=_headline(voice, bool(critical), len(told), len(left)),
        unfinished=tuple(left),
        critical=critical,
        quality=tuple(group for group in found if not group.critical),
        lines=tuple(_lines(voice, job, state)),
        figures=tuple(_figures(voice, job, state)),
        decisions=tuple(
            Row(str(n), decided(voice, job, state, decision))
            for n, decision in enumerate(standing.decisions, start=1)
        ),
    )


def _headline(voice: Voice, critical: bool, found: int, left: int) -> str:
    if critical:
        return voice.say("Not yet: something was done that can burn people or make them fall.")
    if found:
        return voice.say("Not yet: the work is not as the rules ask.")
    if left:
        return voice.say("Not yet: nothing was found wrong, but the job is not finished.")
    return voice.say("Right: the job is finished and nothing was found wrong.")


def _lines(voice: Voice, job: Job, state: State) -> list[str]:
    ended = {"end": voice.clock(state.ended or state.now), "by": voice.clock(job.leave_by)}
    lines = [voice.say("Off the roof at %(end)s; to be left by %(by)s.") % ended]
    redone = {"far": voice.along(state.redone_mm)}
    lines.append(voice.say("Sheets taken off and done again: %(far)s.") % redone)
    wasted = {"far": voice.along(wasted_mm(job, state)), "all": voice.along(state.primed_mm)}
    lines.append(voice.say("Primer that no sheet went on: %(far)s of %(all)s.") % wasted)
    strips = {"cut": state.strips_cut, "left": len(state.strips)}
    lines.append(voice.say("Strips cut: %(cut)d, left over: %(left)d.") % strips)
    return lines


def wasted_mm(job: Job, state: State) -> int:
    """Primed length, every coat counted, less what lies under sheets at the end, in mm."""
    used = 0
    for wall in job.walls:
        for start, end in _covered(state, wall.id):
            used += end - start - bare_mm(state, wall.id, start, end)
    return max(0, state.primed_mm - used)


def _covered(state: State, wall: str) -> list[tuple[int, int]]:
    """The stretches of a wall under sheets, each place once."""
    merged: list[tuple[int, int]] = []
    for start, end in sorted(e for s in state.sheets.values() if (e := s.on(wall))):
        if merged and start <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(end, merged[-1][1]))
        else:
            merged.append((start, end))
    return merged


def _figures(voice: Voice, job: Job, state: State) -> list[str]:
    told = {"say": voice.say, "length": voice.length, "live": False}
    walls = [wall_figure(job, state, w.id, name=f"wall-{w.id}", **told) for w in job.walls]
    return [*walls, plan_figure(job, state, **told)] if len(walls) > 1 else walls
