"""The end of an installation: how the day stood when everybody was off the roof."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from trainer.installation.air import bare_mm
from trainer.installation.job import Job
from trainer.installation.laps import missing
from trainer.installation.state import Finding, State
from trainer.services.installations import words_log
from trainer.services.installations.figures import plan_figure, wall_figure
from trainer.services.installations.store import Standing
from trainer.services.installations.words import Voice, voice_of
from trainer.services.installations.words_decisions import decided
from trainer.services.installations.words_findings import FindingLine, Telling, line
from trainer.services.pages import Row
from trainer.services.person import SignedIn

_GRAVEST = 3


@dataclass(frozen=True)
class EndPage:
    """What came out, in short: looking back has every finding.

    ``counts`` says how many there are; ``gravest`` are a few of them, each against another rule.
    """

    id: str
    job: str
    title: str
    purpose: str
    ended: str
    clean: bool
    headline: str
    counts: str
    critical: bool
    gravest: tuple[FindingLine, ...]
    unfinished: tuple[str, ...]
    lines: tuple[str, ...]
    figures: tuple[str, ...]
    decisions: tuple[Row, ...]


def end_page(person: SignedIn, standing: Standing) -> EndPage:
    """How an installation ended, for whose it is."""
    voice, job, state = voice_of(person), standing.job, standing.state
    telling = Telling(voice, job, state, standing.shelf.rules)
    told = [line(telling, finding, standing.decisions) for finding in state.findings]
    left = words_log.unfinished(voice, job, state, missing(job, state))
    critical = any(finding.critical for finding in told)
    return EndPage(
        id=standing.row.public_id,
        job=standing.row.job,
        title=job.title,
        purpose=standing.purpose,
        ended=voice.clock(state.ended or state.now),
        clean=not told and not left,
        headline=_headline(voice, critical, len(told), len(left)),
        counts=_counts(voice, told),
        critical=critical,
        gravest=tuple(line(telling, one, standing.decisions) for one in _gravest(state)),
        unfinished=tuple(left),
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


def _gravest(state: State) -> list[Finding]:
    """A few findings, one a rule: what can hurt somebody first, then what was left behind.

    Of what was left behind the latest come first, of what was put right those that lasted longest.
    """
    found: dict[str, Finding] = {}
    for finding in sorted(state.findings, key=_weight):
        found.setdefault(finding.subject, finding)
    return list(found.values())[:_GRAVEST]


def _weight(finding: Finding) -> tuple[bool, bool, int]:
    quality = finding.severity != "critical"
    if finding.until is None:
        return quality, False, -finding.at
    return quality, True, finding.at - finding.until


def _counts(voice: Voice, told: Sequence[FindingLine]) -> str:
    """ "2 findings could have hurt somebody and 1 finding is about the work.", or ""."""
    critical = sum(finding.critical for finding in told)
    quality = len(told) - critical
    said = []
    if critical:
        one = "%(n)d finding could have hurt somebody"
        said.append(voice.count(one, "%(n)d findings could have hurt somebody", critical))
    if quality:
        one = "%(n)d finding is about the quality of the work"
        said.append(voice.count(one, "%(n)d findings are about the quality of the work", quality))
    return f"{voice.listed(said)}." if said else ""


def _lines(voice: Voice, job: Job, state: State) -> list[str]:
    """When it was over, and what was wasted, where anything was."""
    ended = {"end": voice.clock(state.ended or state.now), "by": voice.clock(job.leave_by)}
    lines = [voice.say("Off the roof at %(end)s; time to leave was %(by)s.") % ended]
    if state.redone_mm:
        redone = {"far": voice.along(state.redone_mm)}
        lines.append(voice.say("Sheets taken off and done again: %(far)s of wall.") % redone)
    if lost := wasted_mm(job, state):
        wasted = {"far": voice.along(lost), "all": voice.along(state.primed_mm)}
        lines.append(voice.say("Primer that no sheet went on: %(far)s of %(all)s.") % wasted)
    if left := len(state.strips):
        strips = {"cut": state.strips_cut, "left": left}
        lines.append(voice.say("Strips left over: %(left)d of %(cut)d.") % strips)
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
    told = {"say": voice.say, "length": voice.along, "live": False}
    walls = [wall_figure(job, state, w.id, name=f"wall-{w.id}", **told) for w in job.walls]
    return [*walls, plan_figure(job, state, **told)] if len(walls) > 1 else walls
